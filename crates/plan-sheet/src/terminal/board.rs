//! A squad's block on a terminal: where each lane stands, who goes when, and what each athlete does.

use std::collections::BTreeMap;

use crate::words::numbers::clock;
use chrono::NaiveTime;
use session_plan::{PlanBlock, Rep};

use crate::terminal::table::{heading, item, table};
use crate::words::day::time_at;
use crate::words::spot::from_paint;

/// Whether a block is run by a squad.
pub(crate) fn is_board(block: &PlanBlock) -> bool {
    block.reps.iter().any(|rep| !rep.athletes.is_empty())
        && block.reps.iter().any(|rep| rep.wave > 1 || rep.go_s.is_some())
}

/// The waves of a block in the order of their starts, with the clock, who runs where, and when they
/// should be in.
pub(crate) fn board(block: &PlanBlock, begins: Option<NaiveTime>) -> String {
    let mut waves: BTreeMap<(u32, u32), Vec<&Rep>> = BTreeMap::new();
    for rep in &block.reps {
        waves.entry((rep.rep, rep.wave)).or_default().push(rep);
    }
    let rows = waves.iter().map(|((rep, wave), reps)| {
        let go_s = reps.first().and_then(|rep| rep.go_s);
        let done = reps.iter().filter_map(|rep| Some(rep.go_s? + rep.target_from_s.or(rep.target_s)?));
        let (first, last) = (
            done.clone().fold(f64::INFINITY, f64::min),
            reps.iter().filter_map(|rep| rep.done_s).fold(f64::NEG_INFINITY, f64::max),
        );
        // Where the plan gives no lane to each, those who share several choose.
        let mut shared: Vec<(Vec<u8>, &[String])> = Vec::new();
        for run in reps {
            match shared.iter_mut().find(|(_, athletes)| *athletes == run.athletes) {
                Some((lanes, _)) => lanes.push(run.lane),
                None => shared.push((vec![run.lane], &run.athletes)),
            }
        }
        let who: Vec<String> = shared
            .iter()
            .map(|(lanes, athletes)| format!("{}: {}", or(lanes), athletes.join(", ")))
            .collect();
        let done = match (time_at(begins, first), time_at(begins, last)) {
            _ if !last.is_finite() => String::new(),
            (first, last) if first == last => last,
            (first, last) => format!("{first} to {last}"),
        };
        vec![
            go_s.map_or_else(String::new, |go_s| time_at(begins, go_s)),
            rep.to_string(),
            wave.to_string(),
            who.join("; "),
            from(reps),
            done,
        ]
    });
    let board = table(&["Go", "Rep", "Wave", "Lane: who", "From", "In at"], &[], rows);
    let mut text = format!("{}\n{board}", heading("Who goes when"));
    for line in athletes(block) {
        text += &format!("\n{}", item("-", &line));
    }
    text
}

/// Where a wave starts, where that is said alike in all its lanes.
fn from(reps: &[&Rep]) -> String {
    let mut places = reps.iter().map(|rep| from_paint(&rep.start));
    let first = places.next().unwrap_or_default();
    if places.all(|place| place == first) { first } else { "as above".to_owned() }
}

/// What one athlete does in a block.
#[derive(Default)]
struct Does<'a> {
    name: &'a str,
    target_s: Option<f64>,
    /// Each repetition with the lane, or the lanes to choose from.
    lanes: Vec<(u32, Vec<u8>)>,
    least_rest_s: Option<f64>,
}

impl Does<'_> {
    fn line(self, wave: u32) -> String {
        let target = self.target_s.map_or_else(String::new, |target| format!(", {}", clock(target)));
        let rest =
            self.least_rest_s.map_or_else(String::new, |rest| format!(", rest {} at least", clock(rest)));
        let mut lanes: Vec<String> = self.lanes.iter().map(|(_, lanes)| or(lanes)).collect();
        let lanes = if lanes.windows(2).all(|pair| pair[0] == pair[1]) {
            format!("lane {}", lanes.pop().unwrap_or_default())
        } else {
            let last = lanes.pop().unwrap_or_default();
            format!("lanes {} and {last}", lanes.join(", "))
        };
        format!("{}: wave {wave}{target}, {lanes}{rest}", self.name)
    }
}

/// Lanes to choose from: `2 or 3`.
fn or(lanes: &[u8]) -> String {
    lanes.iter().map(u8::to_string).collect::<Vec<_>>().join(" or ")
}

/// The least and the most that an athlete runs in a block, in metres.
pub(crate) fn each_athlete_m(block: &PlanBlock) -> (f64, f64) {
    // A lane for each repetition, however many there are to choose from.
    let mut runs: BTreeMap<(&str, u32), f64> = BTreeMap::new();
    for rep in &block.reps {
        for athlete in &rep.athletes {
            runs.entry((athlete, rep.rep)).or_insert(rep.distance_m);
        }
    }
    let mut sums: BTreeMap<&str, f64> = BTreeMap::new();
    for ((athlete, _), metres) in runs {
        *sums.entry(athlete).or_default() += metres;
    }
    let least = sums.values().copied().fold(f64::INFINITY, f64::min);
    (least, sums.values().copied().fold(0.0, f64::max))
}

/// What each athlete does, in one line; by wave, then as they were listed.
pub(crate) fn athletes(block: &PlanBlock) -> Vec<String> {
    let mut listed: Vec<&str> = Vec::new();
    let mut does: BTreeMap<(u32, usize), Does<'_>> = BTreeMap::new();
    for rep in &block.reps {
        for athlete in &rep.athletes {
            let place = listed.iter().position(|name| name == athlete).unwrap_or_else(|| {
                listed.push(athlete);
                listed.len() - 1
            });
            let own = does.entry((rep.wave, place)).or_default();
            own.name = athlete;
            // Of a group only the slowest time is known to be an athlete's own.
            own.target_s = rep.target_s.filter(|_| rep.athletes.len() == 1);
            match own.lanes.last_mut() {
                Some((known, lanes)) if *known == rep.rep => lanes.push(rep.lane),
                _ => own.lanes.push((rep.rep, vec![rep.lane])),
            }
            own.least_rest_s = match (own.least_rest_s, rep.rest_s) {
                (Some(least), Some(rest)) => Some(least.min(rest)),
                (least, rest) => least.or(rest),
            };
        }
    }
    does.into_iter().map(|((wave, _), does)| does.line(wave)).collect()
}
