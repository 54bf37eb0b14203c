//! A squad's block on a terminal: where each lane stands, who goes when, and what each athlete does.

use std::collections::BTreeMap;

use chrono::NaiveTime;
use session_plan::plan_words::clock;
use session_plan::{PlanBlock, Rep};

use crate::day::time_at;
use crate::table::{heading, item, table};

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
        let who: Vec<String> =
            reps.iter().map(|rep| format!("{}: {}", rep.lane, rep.athletes.join(", "))).collect();
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
    let words = reps.first().map_or("", |rep| rep.start.words.as_str());
    let alike = reps.iter().all(|rep| rep.start.words == words);
    if alike { words.trim_start_matches("on the ").to_owned() } else { "as above".to_owned() }
}

/// What one athlete does in a block.
#[derive(Default)]
struct Does<'a> {
    name: &'a str,
    target_s: Option<f64>,
    lanes: Vec<String>,
    least_rest_s: Option<f64>,
}

impl Does<'_> {
    fn line(mut self, wave: u32) -> String {
        let target = self.target_s.map_or_else(String::new, |target| format!(", {}", clock(target)));
        let rest =
            self.least_rest_s.map_or_else(String::new, |rest| format!(", rest {} at least", clock(rest)));
        let lanes = if self.lanes.iter().all(|lane| *lane == self.lanes[0]) {
            format!("lane {}", self.lanes[0])
        } else {
            let last = self.lanes.pop().unwrap_or_default();
            format!("lanes {} and {last}", self.lanes.join(", "))
        };
        format!("{}: wave {wave}{target}, {lanes}{rest}", self.name)
    }
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
            own.lanes.push(rep.lane.to_string());
            own.least_rest_s = match (own.least_rest_s, rep.rest_s) {
                (Some(least), Some(rest)) => Some(least.min(rest)),
                (least, rest) => least.or(rest),
            };
        }
    }
    does.into_iter().map(|((wave, _), does)| does.line(wave)).collect()
}
