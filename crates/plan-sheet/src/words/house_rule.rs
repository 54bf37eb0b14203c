//! The rules that a venue posts, as lines of a sheet.

use lane_distance::LaneList;
use session_plan::{Activity, Direction, HouseRules, InfieldCrossing, LaneRule, RuleCourse};

use crate::words::capital;

/// How people behave on a track with house rules; nothing where it posts none.
pub(crate) fn etiquette(rules: &HouseRules) -> Vec<String> {
    if *rules == HouseRules::default() {
        return Vec::new();
    }
    let direction = match rules.direction {
        Direction::StraightsEitherWay => "Run anticlockwise; on the straights either way.",
        Direction::Anticlockwise => "Run anticlockwise, on the straights as well.",
    };
    let crossing =
        (rules.infield_crossing == InfieldCrossing::Forbidden).then_some("Do not cross the infield.");
    let general = [
        "Look both ways, then step on where you start.",
        "Run through the finish; step off to the right.",
        "No walking or standing in running lanes.",
        direction,
    ];
    let general = general.into_iter().chain(crossing).map(str::to_owned);
    let lanes = rules.lanes.iter().map(|lane_rule| format!("{}.", capital(&rule(lane_rule))));
    let notes = rules.notes.iter().filter(|note| !note.trim().is_empty()).cloned();
    general.chain(lanes).chain(notes).collect()
}

/// A rule for lanes, as `runs of 120 m to 400 m in lanes 3 and 4`.
pub(crate) fn rule(rule: &LaneRule) -> String {
    let place = match (rule.lanes.as_slice(), rule.on) {
        ([], _) => "off the track".to_owned(),
        (lanes, RuleCourse::Track) => format!("in {}", LaneList(lanes)),
        (lanes, RuleCourse::Straights) => format!("in {} on the straights", LaneList(lanes)),
    };
    let what = match (rule.of, rule.over, rule.from, rule.up_to) {
        (Activity::Hurdles, ..) => "hurdles".to_owned(),
        (Activity::Recoveries, ..) => "jogs and walks".to_owned(),
        (Activity::Runs, Some(over), _, Some(up_to)) => format!("runs over {over} m up to {up_to} m"),
        (Activity::Runs, Some(over), _, None) => format!("runs over {over} m"),
        (Activity::Runs, None, Some(from), Some(up_to)) => format!("runs of {from} m to {up_to} m"),
        (Activity::Runs, None, Some(from), None) => format!("runs of {from} m and more"),
        (Activity::Runs, None, None, Some(up_to)) => format!("runs up to {up_to} m"),
        (Activity::Runs, None, None, None) => "runs".to_owned(),
    };
    format!("{what} {place}")
}
