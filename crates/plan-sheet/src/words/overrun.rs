//! A session that ends after the booking, and what would bring it in, in words.

use lane_distance::LaneList;
use session_plan::{Overrun, Plan, Remedy, RemedyKind};

use crate::words::day::minute;
use crate::words::numbers::{after, clock};

/// What stands at the top of a plan that ends after its booking.
pub(crate) fn lines(plan: &Plan) -> Vec<String> {
    let Some(overrun) = &plan.overrun else { return Vec::new() };
    std::iter::once(overran(overrun)).chain(overrun.remedies.iter().map(remedy)).collect()
}

/// That the session ends after the booking.
pub(crate) fn overran(overrun: &Overrun) -> String {
    format!(
        "Ends at {}, {} after the booking, which ends at {}.",
        minute(overrun.ends),
        after(overrun.over_s),
        minute(overrun.booked_until)
    )
}

/// What would bring it in: `Drop block 4: ends 19:24 (2 x 250 in lanes 3,5).`
pub(crate) fn remedy(remedy: &Remedy) -> String {
    let Remedy { number, block, ends, spare_s, .. } = remedy;
    let what = match &remedy.kind {
        RemedyKind::Drop => format!("Drop block {number}"),
        RemedyKind::Rest { from_s, to_s } => {
            format!("Rest {}, not {}, in block {number}", clock(*to_s), clock(*from_s))
        }
        RemedyKind::Lanes { lanes, opened } if opened.is_empty() => {
            format!("Use {} for block {number}", LaneList(lanes))
        }
        RemedyKind::Lanes { lanes, opened } => {
            format!("Open {} and use {} for block {number}", LaneList(opened), LaneList(lanes))
        }
    };
    let still = if *spare_s < 0.0 { ", still late" } else { "" };
    format!("{what} ({block}): ends {}{still}.", minute(*ends))
}
