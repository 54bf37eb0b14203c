//! What a plan had to decide or could not do, in sentences.

use std::collections::BTreeMap;

use lane_distance::{LaneList, LaneNumber};
use session_plan::{BlockAt, ClashingRun, Plan, Warning};

use crate::sheet::spans::joined;
use crate::words::capital;
use crate::words::day::{minute, time_at};
use crate::words::house_rule::rule;
use crate::words::names::called;
use crate::words::numbers::{after, clock, minutes, to_cm};

/// Anything else for the sheet: the coach's own notes, then what the plan had to decide.
pub(crate) fn notes(plan: &Plan) -> Vec<String> {
    // That it ends late stands at the top.
    let is_at_top = |warning: &Warning| matches!(warning, Warning::PastBooking { .. });
    let mut notes = plan.notes.clone();
    for (warning, words) in warnings(plan).into_iter().filter(|(warning, _)| !is_at_top(warning)) {
        let words = match warning {
            Warning::InnermostLane { .. } | Warning::FreeLane { .. } => unnamed_lanes(plan).unwrap_or(words),
            _ => words,
        };
        if !notes.contains(&words) {
            notes.push(words);
        }
    }
    notes
}

/// Of the blocks that name no lane and run in the innermost open or free one, all in one sentence; nothing where it is one
/// block.
fn unnamed_lanes(plan: &Plan) -> Option<String> {
    let lane_of = |at: BlockAt| {
        plan.warnings.iter().find_map(|warning| match warning {
            Warning::InnermostLane { at: of, lane } | Warning::FreeLane { at: of, lane } if *of == at => {
                Some(*lane)
            }
            _ => None,
        })
    };
    let mut blocks_in: BTreeMap<LaneNumber, Vec<u32>> = BTreeMap::new();
    for (number, block) in (1..).zip(&plan.blocks) {
        lane_of(block.at).into_iter().for_each(|lane| blocks_in.entry(lane).or_default().push(number));
    }
    let in_lane = |(lane, numbers): (&LaneNumber, &Vec<u32>)| match numbers.as_slice() {
        [one] => format!("block {one} in lane {lane}"),
        several => format!("blocks {} in lane {lane}", joined(several)),
    };
    let lanes: Vec<(&LaneNumber, &Vec<u32>)> = blocks_in.iter().collect();
    match lanes.as_slice() {
        [] => None,
        [(lane, numbers)] if numbers.len() > 1 => {
            Some(format!("Blocks {}: no lane named, so lane {lane}, the innermost open.", joined(numbers)))
        }
        [_] => None,
        several => {
            let lanes: Vec<String> = several.iter().copied().map(in_lane).collect();
            Some(format!("No lane named: {}.", lanes.join("; ")))
        }
    }
}

/// The warnings of a plan and their sentences; of those that read alike, as of two blocks with the same
/// text, the first.
pub(crate) fn warnings(plan: &Plan) -> Vec<(&Warning, String)> {
    let mut worded: Vec<(&Warning, String)> = Vec::new();
    for warning in &plan.warnings {
        let words = self::warning(warning, plan);
        if worded.iter().all(|(_, known)| *known != words) {
            worded.push((warning, words));
        }
    }
    worded
}

/// A warning as a sentence; times are of the day where it is known when the session begins.
fn warning(warning: &Warning, plan: &Plan) -> String {
    let begins = plan.begins;
    let block = warning.at().and_then(|at| plan.text_of(at)).unwrap_or_default();
    match warning {
        Warning::NoGuide { athlete, guide } => format!(
            "{} has no guide, as {} is absent: find another guide before the first run, or plan without {}.",
            capital(&called(athlete)),
            called(guide),
            called(athlete)
        ),
        Warning::InnermostLane { lane, .. } => {
            format!("{block}: no lane named, so lane {lane}, the innermost open.")
        }
        Warning::FreeLane { lane, .. } => {
            format!("{block}: no lane named, so lane {lane}, the innermost free.")
        }
        Warning::RuledLane { lane, rule, .. } => {
            format!("{block}: lane {lane}, by the house rule: {}.", self::rule(rule))
        }
        Warning::RuledLanesClosed { lane, rule, .. } => format!(
            "{block}: lane {lane}, the innermost open, as the house rule's lanes are closed: {}.",
            self::rule(rule)
        ),
        Warning::RuleBroken { rule, lanes, .. } => {
            format!("{block} breaks a house rule: {}, not in {}.", self::rule(rule), LaneList(lanes))
        }
        Warning::WindAssumed { against, .. } => {
            let way = if *against { "the other way" } else { "in the direction of running" };
            format!("{block} is run {way}: assumes a wind from behind on the home straight.")
        }
        Warning::TooLongForWind { against, .. } => {
            let wind = if *against { "against" } else { "with" };
            format!("{block} is too long to be run {wind} the wind on a straight: run anticlockwise.")
        }
        Warning::Clockwise { .. } => {
            format!("{block} breaks a house rule: run anticlockwise, on the straights as well.")
        }
        Warning::BreakAssumed { break_s } => {
            format!("Allows {} between blocks, as no break is given.", minutes(*break_s))
        }
        Warning::PastBooking { ends, over_s, booked_from, booked_until } => format!(
            "Ends at {}, {} after the booking ({} to {}).",
            minute(*ends),
            after(*over_s),
            minute(*booked_from),
            minute(*booked_until)
        ),
        Warning::ClashInLane { lane, runs: [first, second], at_s, before_finish_m, closer_than_m } => {
            format!(
                "Clash in lane {lane} at {}, {before_finish_m:.0} m before the finish: {} and {} come within \
             {closer_than_m} m.",
                time_at(begins, *at_s),
                run(first),
                run(second)
            )
        }
        Warning::ClashAtFinish { runs: [first, second], at_s, apart_s, needs_s } => format!(
            "Clash at the finish at {}: {} and {} finish {apart_s:.1} s apart; one watch needs {}.",
            time_at(begins, *at_s),
            run(first),
            run(second),
            clock(*needs_s)
        ),
        Warning::MoreClashes => "There are more clashes than these.".to_owned(),
        Warning::ThroughHurdles { block, hurdles, lanes, at_s } => {
            format!(
                "Block {block} runs through the hurdles of block {hurdles} in {} from {}: give one of them other lanes.",
                LaneList(lanes),
                time_at(begins, *at_s)
            )
        }
        Warning::LateSound { distance_m, late_s } => format!(
            "Start by arm, not by whistle: sound takes {late_s:.1} s to the {} m start.",
            to_cm(*distance_m)
        ),
    }
}

/// A run that clashes: `block 2, rep 3 (Ada)`.
fn run(run: &ClashingRun) -> String {
    let who = run.who.as_ref().map_or_else(String::new, |who| format!(" ({})", called(who)));
    format!("block {}, rep {}{who}", run.block, run.rep)
}
