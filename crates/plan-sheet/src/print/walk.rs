//! The walk that sets the cones out, as the first page lists it.

use lane_distance::LaneList;
use serde::Serialize;
use session_plan::ConeLabel;

use crate::sheet::cone_row::{self, ConeRow, cone_groups};
use crate::sheet::sheet::Sheet;

/// The walk that sets the cones out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Walk {
    title: &'static str,
    /// How far and how long it is, and how long a step.
    facts: String,
    cones: Vec<WalkCone>,
}

/// Cones that are worded alike.
#[derive(Clone, Debug, PartialEq, Serialize)]
struct WalkCone {
    cones: Vec<ConeLabel>,
    words: String,
}

impl Walk {
    /// The walk of a sheet, if it has cones.
    pub(crate) fn of(sheet: &Sheet) -> Option<Self> {
        let first = sheet.cones.first()?;
        // What is the same for all of several is said once.
        let is_common = |is: &dyn Fn(&ConeRow) -> bool| sheet.cones.len() > 1 && sheet.cones.iter().all(is);
        let is_one_lane = is_common(&|cone| cone.lane == first.lane);
        let is_one_use = is_common(&|cone| cone.serves == first.serves);
        let cones = |cones: &[ConeRow]| {
            let ConeRow { place, steps, serves, .. } = &cones[0];
            let lanes =
                if is_one_lane { String::new() } else { format!("{}: ", LaneList(&cone_row::lanes(cones))) };
            let steps = steps.as_ref().map_or_else(String::new, |steps| {
                let noun = if matches!(steps.as_str(), "1" | "½") { "step" } else { "steps" };
                format!(", {steps} {noun}")
            });
            let serves = if is_one_use { String::new() } else { format!(" ({serves})") };
            WalkCone {
                cones: cones.iter().map(|cone| cone.label).collect(),
                words: format!("{lanes}{place}{steps}{serves}"),
            }
        };
        let lane = is_one_lane.then(|| format!("All in lane {}.", first.lane));
        let uses = is_one_use.then(|| format!("All for {}.", first.serves));
        let facts = [Some(sheet.walk.clone()), lane, uses, sheet.stride.clone()];
        Some(Self {
            title: sheet.walk_title,
            facts: facts.into_iter().flatten().collect::<Vec<_>>().join(" "),
            cones: cone_groups(&sheet.cones).map(cones).collect(),
        })
    }
}
