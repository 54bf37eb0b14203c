//! When a wave goes, and who runs in it.

use chrono::NaiveTime;
use lane_distance::LaneNumber;

use crate::sheet::spans::{joined, lane_ranges};
use crate::sheet::wave::{Go, Wave, WaveLine};
use crate::words::day::time_at;
use crate::words::numbers::{clock, to_cm};

/// Two spans of time are the same up to this, in seconds: no more is seen on a watch.
const SAME_S: f64 = 0.5;

/// Who runs in a wave, and in which lanes: `3 Gita, 4 Hana`, `lanes 3–5 in turn: Gita, Hana`, `lane 2: Rosa, Sami`;
/// nothing where nobody is named.
pub(crate) fn who(wave: &Wave) -> String {
    let named: Vec<&WaveLine> = wave.lines.iter().filter(|line| line.athlete.is_some()).collect();
    let mut lanes: Vec<LaneNumber> =
        named.iter().flat_map(|line| line.lanes.iter().flatten().copied()).collect();
    lanes.sort_unstable();
    lanes.dedup();
    let names: Vec<String> = named.iter().map(|line| name(wave, line)).collect();
    let own: Option<Vec<LaneNumber>> = named.iter().map(|line| line.lane).collect();
    match own {
        _ if named.is_empty() => String::new(),
        // Each keeps a lane, with others or alone.
        Some(own) if lanes.len() > 1 => {
            let of_lane = |lane: &LaneNumber| {
                let names =
                    own.iter().zip(&names).filter(|(own, _)| *own == lane).map(|(_, name)| name.as_str());
                format!("{lane} {}", names.collect::<Vec<_>>().join(" + "))
            };
            lanes.iter().map(of_lane).collect::<Vec<_>>().join(", ")
        }
        Some(_) => format!("{}: {}", lane_ranges(&lanes), names.join(", ")),
        None => {
            let is_choice =
                named.iter().all(|line| line.lanes.iter().all(|lanes| *lanes == named[0].lanes[0]));
            let in_turn = if is_choice { "" } else { " in turn" };
            format!("{}{in_turn}: {}", lane_ranges(&lanes), names.join(", "))
        }
    }
}

/// The name of somebody who runs, with a target of their own, and the runs where it is not all of them.
fn name(wave: &Wave, line: &WaveLine) -> String {
    let name = line.athlete.as_deref().unwrap_or_default();
    let has_others = wave.lines.iter().any(|other| other.target != line.target);
    let target = line.target.as_ref().filter(|_| has_others && line.is_own_target);
    let target = target.map_or_else(String::new, |target| format!(" {target}"));
    let runs: Vec<u32> = (wave.goes.iter().zip(&line.lanes))
        .filter_map(|(go, lanes)| (!lanes.is_empty()).then_some(go.rep))
        .collect();
    let runs = match runs.as_slice() {
        runs if runs.len() == wave.goes.len() => String::new(),
        [run] => format!(" (run {run})"),
        runs => format!(" (runs {})", joined(runs)),
    };
    format!("{name}{target}{runs}")
}

/// How a wave is called beside waves of other blocks: `4`, or `4.2` where its block has several.
pub(crate) fn wave_number(block: usize, wave: Option<u32>) -> String {
    wave.map_or_else(|| block.to_string(), |wave| format!("{block}.{wave}"))
}

/// What the table of goes is called.
pub(crate) const WHO_GOES_WHEN: &str = "Who goes when";

/// The same with what the numbers of waves mean.
pub(crate) const WHO_GOES_WHEN_IN_WAVES: &str = "Who goes when (4.2 is wave 2 of block 4)";

/// Who runs in a wave, with the lane of each who keeps one beside others; the lanes of all stand with their places.
pub(crate) fn names(wave: &Wave) -> String {
    let own: Option<Vec<LaneNumber>> = wave.lines.iter().map(|line| line.lane).collect();
    match own {
        Some(own) if own.iter().any(|lane| *lane != own[0]) => who(wave),
        _ => wave.lines.iter().map(|line| name(wave, line)).collect::<Vec<_>>().join(", "),
    }
}

/// How long after the first wave of its block a wave goes each time: `10 s later`; nothing where that differs.
pub(crate) fn later(wave: &Wave, first: &Wave) -> Option<String> {
    let (own, of_first) = (times(wave)?, times(first)?);
    let later: Vec<f64> = own.iter().zip(&of_first).map(|(own, first)| own - first).collect();
    let is_so = wave.wave != first.wave && own.len() == of_first.len() && own.len() > 1 && are_alike(&later);
    is_so.then(|| format!("{} later", clock(later[0].round())))
}

/// When a wave goes behind its first go: `every 6:00 to 18:33:00`, `then 18:21:00, 18:28:30`. Nothing where it goes once,
/// or nobody knows when.
pub(crate) fn again(wave: &Wave, begins: Option<NaiveTime>) -> Option<String> {
    let own = times(wave)?;
    let (last, behind) = (wave.goes.last()?, wave.goes.get(1..)?);
    let steps: Vec<f64> = own.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let is_one_length = wave.goes.iter().all(|go| go.distance_m == last.distance_m);
    let word = |go: &Go| {
        let length = if is_one_length { String::new() } else { format!("{} m ", to_cm(go.distance_m)) };
        format!("{length}{}", go.go.clone().unwrap_or_else(|| time_at(begins, go.go_s.unwrap_or_default())))
    };
    match behind {
        [] => None,
        [_, _, ..] if is_one_length && are_alike(&steps) => {
            Some(format!("every {} to {}", clock(steps[0].round()), word(last)))
        }
        behind => Some(format!("then {}", behind.iter().map(word).collect::<Vec<_>>().join(", "))),
    }
}

/// When a wave goes, in seconds, where that is known of all its goes.
fn times(wave: &Wave) -> Option<Vec<f64>> {
    wave.goes.iter().map(|go| go.go_s).collect()
}

/// When a wave goes, in a line: `Go at 0 s, every 2:02 to 10:10.`; nothing where it goes once, or nobody knows when.
pub(crate) fn goes(wave: &Wave, begins: Option<NaiveTime>) -> Option<String> {
    let first = wave.goes.first()?.go.as_ref()?;
    Some(format!("Go at {first}, {}.", again(wave, begins)?))
}

fn are_alike(spans_s: &[f64]) -> bool {
    spans_s.iter().all(|span_s| (span_s - spans_s[0]).abs() < SAME_S)
}
