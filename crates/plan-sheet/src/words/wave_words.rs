//! When waves go, and who runs in them.

use chrono::NaiveTime;
use lane_distance::LaneNumber;

use crate::sheet::spans::{joined, lane_ranges};
use crate::sheet::wave::{Go, Wave, WaveLine};
use crate::words::day::time_at;
use crate::words::numbers::{clock, listed, to_cm};

/// Two spans of time are the same up to this, in seconds: a shout and a watch are no closer.
const SAME_S: f64 = 1.0;

/// What the table of goes is called.
pub(crate) const WHO_GOES_WHEN: &str = "Who goes when";

/// The same with what the numbers of waves mean, by a block that has several.
pub(crate) fn who_goes_when_in_waves(block: usize) -> String {
    format!("Who goes when ({block}.2 is wave 2 of block {block})")
}

/// Waves of a block that follow one another after the same time, again and again: they are said as one.
pub(crate) struct Train<'a>(pub(crate) &'a [Wave]);

impl<'a> Train<'a> {
    /// The trains of a block, in the order of its waves.
    pub(crate) fn all(waves: &'a [Wave]) -> Vec<Self> {
        let mut trains = Vec::new();
        let mut rest = waves;
        while !rest.is_empty() {
            let length = (2..=rest.len()).take_while(|&length| is_train(&rest[..length])).last().unwrap_or(1);
            let (train, behind) = rest.split_at(length);
            trains.push(Self(train));
            rest = behind;
        }
        trains
    }

    /// Its first wave: of every train there is one.
    pub(crate) fn first(&self) -> &'a Wave {
        &self.0[0]
    }

    /// How its waves are called beside those of other blocks: `4` where there is no other, `4.2`, `4.2–4.5`.
    pub(crate) fn number(&self, block: usize, has_others: bool) -> String {
        match self.0 {
            [wave] if has_others => format!("{block}.{}", wave.wave),
            [first, .., last] => format!("{block}.{}–{block}.{}", first.wave, last.wave),
            _ => block.to_string(),
        }
    }

    /// Who runs, and in which lanes: `lane 3 Gita; lane 4 Hana`, `lanes 3–5 in turn: Gita, Hana`, `lane 2: Rosa, Sami`; of several
    /// waves with a stroke between them. Nothing where nobody is named.
    pub(crate) fn who(&self) -> String {
        match self.lanes_and_names() {
            (lanes, names) if lanes.is_empty() => names,
            (lanes, names) => format!("{lanes}: {names}"),
        }
    }

    /// The same behind the number of its waves: `4.1–4.2, lanes 3–5 in turn: Gita, Hana`; the number alone where nobody is
    /// named.
    pub(crate) fn numbered(&self, number: &str) -> String {
        match self.lanes_and_names() {
            (_, names) if names.is_empty() => number.to_owned(),
            (lanes, names) if lanes.is_empty() => format!("{number}: {names}"),
            (lanes, names) => format!("{number}, {lanes}: {names}"),
        }
    }

    /// The lanes that all of its waves have, and the names, with the lanes where those differ.
    fn lanes_and_names(&self) -> (String, String) {
        let all: Vec<(String, String)> = self.0.iter().map(lanes_and_names).collect();
        let stroked = |names: Vec<String>| names.join(" / ");
        match all.as_slice() {
            [(lanes, _), others @ ..]
                if !lanes.is_empty() && others.iter().all(|(other, _)| other == lanes) =>
            {
                (lanes.clone(), stroked(all.iter().map(|(_, names)| names.clone()).collect()))
            }
            all => {
                let word = |(lanes, names): &(String, String)| match lanes.is_empty() {
                    true => names.clone(),
                    false => format!("{lanes}: {names}"),
                };
                (String::new(), stroked(all.iter().map(word).collect()))
            }
        }
    }

    /// When it goes behind its first go: `10 s apart, every 6:00 to 18:33:00`, `then 18:21:00, 18:28:30`; of a wave that
    /// always goes so long after the first of its block, that. Nothing where it goes once, or nobody knows when.
    pub(crate) fn again(&self, first_of_block: &Wave, begins: Option<NaiveTime>) -> String {
        let apart = match self.0 {
            [first, second, ..] => later_s(second, first).map(|apart_s| format!("{} apart", clock(apart_s))),
            _ => None,
        };
        let first = self.first();
        let later_s = later_s(first, first_of_block).filter(|_| first.goes.len() > 1);
        let again = match later_s {
            Some(later_s) if first.wave != first_of_block.wave => {
                Some(format!("each time {} after wave {}", clock(later_s), first_of_block.wave))
            }
            _ => again(first, begins),
        };
        [apart, again].into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// Whether waves follow one another after the same time, again and again.
fn is_train(waves: &[Wave]) -> bool {
    let [first, second, ..] = waves else { return false };
    let Some(apart_s) = later_s(second, first) else { return false };
    let follows = |(place, wave): (usize, &Wave)| {
        later_s(wave, first).is_some_and(|later_s| (later_s - place as f64 * apart_s).abs() <= SAME_S)
    };
    waves.iter().enumerate().all(follows)
}

/// How long after another wave a wave goes each time, to the second; nothing where that differs.
fn later_s(wave: &Wave, other: &Wave) -> Option<f64> {
    let (own, others) = (times(wave)?, times(other)?);
    let later_s = (own.first()? - others.first()?).round();
    let is_so = |(own, other): (&f64, &f64)| (own - other - later_s).abs() <= SAME_S;
    (own.len() == others.len() && own.iter().zip(&others).all(is_so)).then_some(later_s)
}

/// When a wave goes, in seconds, where that is known of all its goes.
fn times(wave: &Wave) -> Option<Vec<f64>> {
    wave.goes.iter().map(|go| go.go_s).collect()
}

/// The lanes of a wave where they are not said beside each name, and the names.
fn lanes_and_names(wave: &Wave) -> (String, String) {
    let named: Vec<&WaveLine> = wave.lines.iter().filter(|line| line.athlete.is_some()).collect();
    let mut lanes: Vec<LaneNumber> =
        named.iter().flat_map(|line| line.lanes.iter().flatten().copied()).collect();
    lanes.sort_unstable();
    lanes.dedup();
    let names: Vec<String> = named.iter().map(|line| name(wave, line)).collect();
    let own: Option<Vec<LaneNumber>> = named.iter().map(|line| line.lane).collect();
    match own {
        _ if named.is_empty() => (String::new(), String::new()),
        // Each keeps a lane, with others or alone.
        Some(own) if lanes.len() > 1 => {
            let of_lane = |lane: &LaneNumber| {
                let names = own.iter().zip(&names).filter(|(own, _)| *own == lane);
                let names: Vec<&str> = names.map(|(_, name)| name.as_str()).collect();
                format!("lane {lane} {}", listed(&names))
            };
            (String::new(), lanes.iter().map(of_lane).collect::<Vec<_>>().join("; "))
        }
        Some(_) => (lane_ranges(&lanes), names.join(", ")),
        None => {
            let is_choice =
                named.iter().all(|line| line.lanes.iter().all(|of_go| *of_go == named[0].lanes[0]));
            let in_turn = if is_choice { "" } else { " in turn" };
            (lane_ranges(&lanes) + in_turn, names.join(", "))
        }
    }
}

/// The name of somebody who runs, with a target of their own, and the runs where it is not all of them.
fn name(wave: &Wave, line: &WaveLine) -> String {
    let name = line.athlete.as_deref().unwrap_or_default();
    let own = line.target.as_ref().filter(|_| line.is_own_target).or(line.targets_by_length.as_ref());
    let target = own.filter(|_| wave.names_targets);
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

/// When a wave goes behind its first go; nothing where it goes once, or nobody knows when.
fn again(wave: &Wave, begins: Option<NaiveTime>) -> Option<String> {
    let own = times(wave)?;
    let (last, behind) = (wave.goes.last()?, wave.goes.get(1..)?);
    let is_one_length = wave.goes.iter().all(|go| go.distance_m == last.distance_m);
    let word = |go: &Go| {
        let length = if is_one_length { String::new() } else { format!("{} m ", to_cm(go.distance_m)) };
        format!("{length}{}", go.go.clone().unwrap_or_else(|| time_at(begins, go.go_s.unwrap_or_default())))
    };
    let every_s = every_s(&own).filter(|_| is_one_length && behind.len() > 1);
    match (behind, every_s) {
        ([], _) => None,
        (_, Some(every_s)) => Some(format!("every {} to {}", clock(every_s), word(last))),
        (behind, None) => Some(format!("then {}", behind.iter().map(word).collect::<Vec<_>>().join(", "))),
    }
}

/// More goes than this behind the first are not listed where they are as far apart to the tenth of a second.
const MOST_LISTED: usize = 4;

/// How far apart times are, where they are as far apart: in whole seconds, or tenths where they are many.
fn every_s(times_s: &[f64]) -> Option<f64> {
    let behind = times_s.len() - 1;
    let mean_s = (times_s.last()? - times_s.first()?) / behind as f64;
    let tenths = (behind > MOST_LISTED).then_some((mean_s * 10.0).round() / 10.0);
    let is_even = |every_s: &f64| {
        let mut due =
            times_s.iter().enumerate().map(|(place, go_s)| go_s - times_s[0] - place as f64 * every_s);
        due.all(|off_s| off_s.abs() <= SAME_S)
    };
    [Some(mean_s.round()), tenths].into_iter().flatten().find(is_even)
}

/// When a wave goes, in a line: `Go at 0 s, every 2:02 to 10:10.`; nothing where it goes once, or nobody knows when.
pub(crate) fn goes(wave: &Wave, begins: Option<NaiveTime>) -> Option<String> {
    let first = wave.goes.first()?.go.as_ref()?;
    Some(format!("Go at {first}, {}.", again(wave, begins)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A wave that goes at these times, over so many metres each.
    fn wave(wave: u32, goes: &[(f64, f64)]) -> Wave {
        let go = |(rep, &(go_s, distance_m)): (u32, &(f64, f64))| Go {
            rep,
            set: 1,
            go: Some(clock(go_s)),
            go_s: Some(go_s),
            distance_m,
        };
        Wave { wave, goes: (1..).zip(goes).map(go).collect(), lines: Vec::new(), names_targets: false }
    }

    #[test]
    fn goes_that_are_as_far_apart_are_said_once() {
        let even = wave(1, &[(0.0, 200.0), (120.4, 200.0), (240.6, 200.0)]);
        assert_eq!(goes(&even, None).as_deref(), Some("Go at 0 s, every 2:00 to 4:00.6."));
        let ladder = wave(1, &[(0.0, 300.0), (120.0, 200.0), (240.0, 100.0)]);
        assert_eq!(again(&ladder, None).as_deref(), Some("then 200 m 2:00, 100 m 4:00"));
        let uneven = wave(1, &[(0.0, 200.0), (120.0, 200.0), (300.0, 200.0)]);
        assert_eq!(again(&uneven, None).as_deref(), Some("then 2:00, 5:00"));
        assert_eq!(again(&wave(1, &[(0.0, 200.0)]), None), None);
        let tenths: Vec<(f64, f64)> = (0..6).map(|rep| (f64::from(rep) * 187.4, 200.0)).collect();
        assert_eq!(again(&wave(1, &tenths), None).as_deref(), Some("every 3:07.4 to 15:37"));
        assert_eq!(again(&wave(1, &tenths[..4]), None).as_deref(), Some("then 3:07.4, 6:14.8, 9:22.2"));
    }

    #[test]
    fn waves_that_follow_each_other_alike_are_one_train() {
        let waves = [
            wave(1, &[(0.0, 200.0), (120.0, 200.0), (240.0, 200.0)]),
            wave(2, &[(10.0, 200.0), (130.0, 200.0), (250.0, 200.0)]),
            wave(3, &[(20.0, 200.0), (140.0, 200.0), (260.0, 200.0)]),
            // Its last go waits for somebody else.
            wave(4, &[(30.0, 200.0), (150.0, 200.0), (290.0, 200.0)]),
            wave(5, &[(50.0, 200.0), (170.0, 200.0), (290.0, 200.0)]),
        ];
        let trains = Train::all(&waves);
        let numbers: Vec<String> = trains.iter().map(|train| train.number(4, true)).collect();
        assert_eq!(numbers, ["4.1–4.3", "4.4", "4.5"]);
        let said: Vec<String> = trains.iter().map(|train| train.again(&waves[0], None)).collect();
        assert_eq!(
            said,
            ["10 s apart, every 2:00 to 4:00", "then 2:30, 4:50", "each time 50 s after wave 1"]
        );
    }
}
