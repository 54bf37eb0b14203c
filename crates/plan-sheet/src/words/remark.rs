//! What there is to say of a block, in sentences.

use lane_distance::LaneList;
use session_plan::{Recovery, Remark, WALK_M_PER_S};

use crate::words::numbers::clock;

/// A remark as a sentence.
pub(crate) fn remark(remark: &Remark) -> String {
    match remark {
        Remark::SameStart { lane, recovery } => {
            format!(
                "In lane {lane} each start is the same: the {} brings the runners back to it.",
                verb(*recovery)
            )
        }
        Remark::StartsMove { lane, moves_m, recovery, cancelled_by_m } => {
            let side = if *moves_m < 0.0 { "behind" } else { "past" };
            let cancel = cancelled_by_m.map_or_else(String::new, |by_m| {
                format!("; a {} of {by_m:.2} m would cancel it", verb(*recovery))
            });
            format!("In lane {lane} each start lies {:.2} m {side} the one before{cancel}.", moves_m.abs())
        }
        Remark::WalkBack { lane, walk_m, takes_s } => format!(
            "Walk back in lane {lane}: {walk_m:.0} m along the track, {} at {WALK_M_PER_S} m/s.",
            clock(*takes_s)
        ),
        Remark::RestTooShortToWalk { lane, walk_m, needs_s, has_s, changing_ends } => {
            let remedy = if *changing_ends { "" } else { ", write `changing ends`" };
            format!(
                "The rest of {} in lane {lane} is too short to walk the {walk_m:.0} m to the next start, which \
                 takes {} at {WALK_M_PER_S} m/s: rest {} or more{remedy}, or jog.",
                clock(*has_s),
                clock(*needs_s),
                clock((needs_s / 5.0).ceil() * 5.0)
            )
        }
        Remark::NoTarget { pace, why } => {
            format!("No target for `@ {pace}`: {why}; give `bests` in the session file.")
        }
        Remark::TargetsMissing { athletes, slowest_s } => format!(
            "No target is known for {}: they run with the slowest, in {}.",
            athletes.join(", "),
            clock(*slowest_s)
        ),
        Remark::NoTargets => "No target is known for anybody: all are one group, the waves follow the list, \
                              and have no start times."
            .to_owned(),
        Remark::NoRest => "No rest is named: the waves have no start times.".to_owned(),
        Remark::WavesKept { kept, of } if kept == of => {
            "Everybody keeps the wave of the plan before.".to_owned()
        }
        Remark::WavesKept { kept, of } => format!("{kept} of {of} keep the wave of the plan before."),
        Remark::Waves { sizes, lanes } => waves(sizes, &LaneList(lanes).to_string()),
        Remark::SetTakes { lasts_s, is_proven: true, .. } => {
            format!("The set takes {}; no plan that keeps every rest is shorter.", clock(*lasts_s))
        }
        Remark::SetTakes { lasts_s, bound_s, is_proven: false } => format!(
            "The set takes {}, the best that was found; no plan is shorter than {}.",
            clock(*lasts_s),
            clock(*bound_s)
        ),
        Remark::MuchLongerThanAlone { alone_s } => format!(
            "One athlete alone would take {}: open more lanes, or split the squad.",
            clock(*alone_s)
        ),
        Remark::NoPlaceForCoach => "No place is named for the coach: level with every finish, something in \
                                    use lies on both sides of the lanes. Stand where the venue's rules let you."
            .to_owned(),
    }
}

const fn verb(recovery: Recovery) -> &'static str {
    match recovery {
        Recovery::Jog => "jog",
        Recovery::Walk => "walk",
        Recovery::Stand => "rest standing",
    }
}

fn waves(sizes: &[usize], lanes: &str) -> String {
    match sizes {
        [size] => format!("One wave of {size} in {lanes}."),
        [first, others @ ..] if others.iter().all(|size| size == first) => {
            format!("{} waves of {first} in {lanes}.", sizes.len())
        }
        sizes => {
            let list = sizes.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
            format!("{} waves of {list} in {lanes}.", sizes.len())
        }
    }
}
