//! Why a block cannot be laid out, in words.

use lane_distance::{LandmarkError, LaneError, SearchError};
use session_plan::{Limit, PlanFault};
use wave_plan::SquadError;

use crate::words::fault::{helped, plain};
use crate::words::names::{all_called, called};
use crate::words::numbers::{clock, metres};

/// How a question is answered where what it asks about is meant.
const FORCE: &str = "to plan it all the same, use `--force`, or `force: true` in a session file";

/// Why a block cannot be laid out, and what to write instead if that is known.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Session, Venue};
/// use workout_notation::Block;
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let block = Block::parse("200 in lane 9").expect("it is well formed");
/// let errors = session_plan::plan(&venue, &Session::of_block("t", block)).expect_err("there are eight lanes");
/// let (_, help) = plan_sheet::plan_fault_words(&errors[0].fault.value);
/// assert_eq!(help.as_deref(), Some("use open lanes, for example lane 1"));
/// ```
pub fn plan_fault_words(fault: &PlanFault) -> (String, Option<String>) {
    match fault {
        PlanFault::Lane(error) => {
            let (LaneError::Missing { open, .. } | LaneError::Closed { open, .. }) = error;
            (error.to_string(), open.first().map(|open| format!("use open lanes, for example lane {open}")))
        }
        PlanFault::NoLaneOpen(course) => {
            helped(format!("no lane of the {course} is open"), "open a lane, or run on another day")
        }
        PlanFault::Landmark(error) => {
            let near = match error {
                LandmarkError::Unknown { near, .. } | LandmarkError::Ambiguous { near, .. } => near.first(),
                _ => None,
            };
            (error.to_string(), near.map(|near| format!("write for example `{near}`")))
        }
        PlanFault::NoPaint(error) => {
            helped(error.to_string(), "choose a track whose paint has it, or name the distance")
        }
        PlanFault::Search(error) => {
            let help = match error {
                SearchError::TooLong { length_m, .. } | SearchError::TooLongForBend { length_m, .. } => {
                    Some(format!("write at most {} m", length_m.floor()))
                }
                _ => None,
            };
            (error.to_string(), help)
        }
        PlanFault::NoRoute(error) => plain(error.to_string()),
        PlanFault::NoRoomForRunIn { distance_m, run_in_m } => helped(
            format!(
                "no place has room for {} m and a run-in of {} m before it",
                metres(*distance_m),
                metres(*run_in_m)
            ),
            "shorten the run-in",
        ),
        PlanFault::LeavesStraight { distance_m, course, length_m } => plain(format!(
            "{} m from there does not fit on the {course}, which is {length_m:.2} m long",
            metres(*distance_m)
        )),
        PlanFault::OtherDistance { lane, distance_m, real_m } => helped(
            format!("between these places it is {real_m:.2} m in lane {lane}, not {} m", metres(*distance_m)),
            "leave out one end, or change the distance",
        ),
        PlanFault::HazardThere { lane, distance_m, hazard } => helped(
            format!("the {hazard} is in the way of {} m there in lane {lane}", metres(*distance_m)),
            "try another lane, another place or another time",
        ),
        PlanFault::NoPlaceLeft { lane, distance_m } => helped(
            format!(
                "no place is left for {} m in lane {lane}: hazards in use or a closed stretch are in the way",
                metres(*distance_m)
            ),
            "try another lane or another distance",
        ),
        PlanFault::TooFast { who, distance_m, target_s } => helped(
            format!(
                "{} m in {}{} is faster than anybody has ever run",
                metres(*distance_m),
                clock(*target_s),
                who.as_ref().map_or_else(String::new, |who| format!(" for {}", called(who)))
            ),
            format!("check the distance and the time; {FORCE}"),
        ),
        PlanFault::NoTime { who, distance_m, target_s } => helped(
            format!(
                "{target_s} s is not a time for {} m{}",
                metres(*distance_m),
                who.as_ref().map_or_else(String::new, |who| format!(" by {}", called(who)))
            ),
            minutes_with_colon(*target_s, *distance_m)
                .unwrap_or_else(|| "write for example `@ 32` or `@ 1:12`".to_owned()),
        ),
        PlanFault::CycleTooShort { who, cycle_s, lasts_s, is_target } => {
            let run = match (who, is_target) {
                (Some(who), _) => format!("{}'s run, which takes {}", called(who), clock(*lasts_s)),
                (None, true) => format!("the run, which takes {}", clock(*lasts_s)),
                (None, false) => "anybody has ever needed for the run".to_owned(),
            };
            helped(
                format!("a cycle of {} is shorter than {run}", clock(*cycle_s)),
                format!("write a longer cycle, or a rest; {FORCE}"),
            )
        }
        PlanFault::TooManyRuns => helped(
            format!("the athletes of the session have more than {} runs in all", Limit::Runs.most()),
            "split it into several sessions",
        ),
        PlanFault::TooManyReps => helped(
            format!("the session has more than {} repetitions", Limit::Reps.most()),
            "split it into several sessions",
        ),
        PlanFault::Squad(error @ SquadError::Beside { .. }) => {
            helped(error.to_string(), "name lanes side by side, for example `in lanes 2-5`")
        }
        PlanFault::Squad(error) => plain(error.to_string()),
        PlanFault::NoCommonLane { athletes } => helped(
            format!("{} have no lane in common", all_called(athletes)),
            "change their `lanes`, or put them in other teams with `relay`",
        ),
        PlanFault::NotARun => helped("this is not a run", "write for example `150 in lane 2`"),
        PlanFault::NoFinish => helped("a run by time has no finish", "write a distance"),
        PlanFault::SeveralLanes => helped("only one lane can be searched for spots", "name one lane"),
    }
}

/// `in 3.20` for a kilometre: minutes and seconds, which have a colon between them.
fn minutes_with_colon(target_s: f64, distance_m: f64) -> Option<String> {
    let seconds = (target_s.trunc() * 60.0 + target_s.fract() * 100.0).round();
    let is_likely = target_s.fract() < 0.6 && seconds > 0.0 && (2.5..=9.0).contains(&(distance_m / seconds));
    is_likely.then(|| format!("write `@ {}` for minutes and seconds", clock(seconds)))
}
