//! Late changes that cannot be made, in words.

use lane_distance::{HazardKind, LaneList};
use session_plan::LateFault;

use crate::words::athlete::no_athlete_words;
use crate::words::day::minute;
use crate::words::fault::quoted;

/// Why a late change cannot be made, and what there is instead.
///
/// ```
/// let mut session = session_plan::Session::default();
/// session.add_athletes(2);
/// let late = [("throwers".to_owned(), Default::default())];
/// let error = session.come_late(&late).expect_err("the group is called squad");
/// assert_eq!(plan_sheet::late_fault_words(&error), "no group is called `throwers`; the session has `squad`");
/// ```
pub fn late_fault_words(fault: &LateFault) -> String {
    match fault {
        LateFault::NoAthlete(error) => no_athlete_words(error),
        LateFault::NobodyLeft => "nobody would be left; leave at least one athlete in".to_owned(),
        LateFault::NoGroup { name, groups } if groups.is_empty() => {
            format!("no group is called `{name}`; the session has no groups")
        }
        LateFault::NoGroup { name, groups } => {
            format!("no group is called `{name}`; the session has {}", quoted(groups, ", "))
        }
        LateFault::InRelay { athlete, group } => format!(
            "`{athlete}` hands on a baton in `{group}`; write --late {group}=19:00, or leave `{athlete}` out"
        ),
        LateFault::Twice { name } => format!("`{name}` has two values; keep one of them"),
        LateFault::NoStart { group } => format!(
            "nothing says when the session starts, so `{group}` cannot come later; add `hours` to the session \
             file, or write --start 18:00"
        ),
        LateFault::OutsideBooking { time, hours } => {
            format!("{} is outside the booking, {hours}; write a time within it", minute(*time))
        }
        LateFault::BeforeStart { group, time, begins } => format!(
            "`{group}` cannot begin at {}, before the session starts at {}",
            minute(*time),
            minute(*begins)
        ),
        LateFault::NotFewer { name, reps, most } => {
            format!(
                "`{name}` does no more than {most} reps in any block; write fewer than {most}, not {reps}"
            )
        }
        LateFault::NoHazard { name, hazards } if hazards.is_empty() => {
            format!(
                "no hazard is called `{name}`: the track has none. A track file lists them; see `toeline manual track-file`"
            )
        }
        LateFault::NoHazard { name, hazards } => {
            format!("no hazard is called `{name}`; the track has {}", names(hazards))
        }
        LateFault::SeveralHazards { name, hazards } => {
            format!("`{name}` fits several hazards; write one of {}", names(hazards))
        }
        LateFault::Lane(error) => error.to_string(),
        LateFault::NoStartOfClosure { lanes } => format!(
            "nothing says when the session starts, so {} cannot close for a part of it; add `hours` to the session file, or \
             write --start 18:00",
            LaneList(lanes)
        ),
        LateFault::ClosureBackwards { from, until } => format!(
            "lanes cannot be closed from {} until {}; write the earlier time first",
            minute(*from),
            minute(*until)
        ),
        LateFault::NoLaneLeft => "no lane would be left open; leave at least one open".to_owned(),
        LateFault::NoBlock { number, blocks } => {
            let blocks: Vec<String> =
                (1..).zip(blocks).map(|(number, block)| format!("{number}: {block}")).collect();
            format!("there is no block {number}; the plan has {}", blocks.join("; "))
        }
        LateFault::NoBlockLeft => "no block would be left; leave at least one in".to_owned(),
    }
}

fn names(hazards: &[HazardKind]) -> String {
    quoted(hazards.iter().map(ToString::to_string), ", ")
}
