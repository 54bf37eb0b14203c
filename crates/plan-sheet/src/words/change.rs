//! What has changed since a session was written, in words.

use lane_distance::{LaneList, LaneNumber};
use session_plan::{Change, LaneMove, Plan};

use crate::words::capital;
use crate::words::day::minute;
use crate::words::names::{all_called, called};
use crate::words::wind::wind_words;

/// The first line of a plan after a late change; nothing where nothing has changed.
pub(crate) fn changed(plan: &Plan) -> Option<String> {
    let changes: Vec<String> = plan.changes.iter().map(|change| self::change(change, plan)).collect();
    (!changes.is_empty()).then(|| format!("Changed: {}.", changes.join("; ")))
}

/// A change, as part of a sentence.
fn change(change: &Change, plan: &Plan) -> String {
    match change {
        Change::Start { at } => format!("start at {}", minute(*at)),
        Change::Late { group, at } => format!("{group} from {}", minute(*at)),
        Change::Without { athletes } => format!("without {}", all_called(athletes)),
        Change::WithoutGuide { guide, athlete } => {
            format!("without {}, so {} has no guide", called(guide), called(athlete))
        }
        Change::Reps { athlete, reps: 1 } => format!("{} does 1 rep", called(athlete)),
        Change::Reps { athlete, reps } => format!("{} does {reps} reps", called(athlete)),
        Change::Closed { lanes, from, until, moved } => {
            let moved = if moved.is_empty() { String::new() } else { format!(" ({})", moves(moved)) };
            let from = from.map_or_else(String::new, |from| format!(" from {}", minute(from)));
            let until = until.map_or_else(String::new, |until| format!(" until {}", minute(until)));
            format!("{} closed{from}{until}{moved}", LaneList(lanes))
        }
        Change::Hazard { hazard, from } => {
            let from =
                from.or(plan.begins).map_or_else(String::new, |from| format!(" from {}", minute(from)));
            format!("{hazard} in use{from}")
        }
        Change::Wind { wind } => format!("wind now {}", wind_words(wind)),
        Change::Skip { number, block, group } => {
            let group = group.as_ref().map_or_else(String::new, |group| format!("{group}, "));
            format!("block {number} left out ({group}{block})")
        }
    }
}

/// A change as a sentence.
pub(crate) fn sentence(value: &Change, plan: &Plan) -> String {
    format!("{}.", capital(&change(value, plan)))
}

/// The lanes of each block that moved: `4 x 150 in lanes 3-5: lane 2, not 4`.
fn moves(moved: &[LaneMove]) -> String {
    let of_block = |moves: &[LaneMove]| {
        let from: Vec<LaneNumber> = moves.iter().map(|moved| moved.from).collect();
        let to: Vec<LaneNumber> = moves.iter().filter_map(|moved| moved.to).collect();
        match to.as_slice() {
            [] => format!("{}: not in {}", moves[0].block, LaneList(&from)),
            to => format!("{}: {}, not {}", moves[0].block, LaneList(to), LaneList(&from).numbers()),
        }
    };
    moved.chunk_by(|a, b| a.at == b.at).map(of_block).collect::<Vec<_>>().join("; ")
}
