//! Stretches of the track that are not safe to stand on, or to run through, while in use.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::Spot;
use crate::spec::length_spec::LengthSpec;
use crate::track::layout::Layout;

/// What makes a stretch unsafe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum HazardKind {
    /// The run-up of the javelin.
    #[serde(rename = "javelin runway")]
    JavelinRunway,
    /// The landing sector of a hammer or discus cage.
    #[serde(rename = "cage sector")]
    CageSector,
    /// The water jump.
    #[serde(rename = "water jump")]
    WaterJump,
    /// A steeplechase barrier.
    #[serde(rename = "steeplechase barrier")]
    SteeplechaseBarrier,
    /// A long-jump pit and its run-up.
    #[serde(rename = "long-jump pit")]
    LongJumpPit,
    /// An edge of the kerb that stands open.
    #[serde(rename = "kerb edge")]
    KerbEdge,
    /// A gate through which people come on to the track.
    #[serde(rename = "gate")]
    Gate,
    /// A stretch that nobody may run through: works, standing water, a fence.
    #[serde(rename = "closed stretch")]
    ClosedStretch,
}

impl fmt::Display for HazardKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The word that a track file has for it.
        self.serialize(f)
    }
}

/// On which side of the running lanes it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Side {
    /// On the infield side.
    #[serde(rename = "inside")]
    Inside,
    /// Beyond the outermost lane.
    #[serde(rename = "outside")]
    Outside,
    /// Across the lanes.
    #[serde(rename = "across")]
    Across,
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Inside => "inside",
            Self::Outside => "outside",
            Self::Across => "across the lanes",
        })
    }
}

/// A stretch of a course that is not safe while in use, as a track file gives it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// What it is.
    pub kind: HazardKind,
    /// The course along which it lies.
    #[serde(default = "oval")]
    pub on: Course,
    /// Where it begins in the direction of running: distance to the finish in lane 1.
    pub from: LengthSpec,
    /// Where it ends: distance to the finish in lane 1. On the oval it may lie beyond the finish
    /// line, and is then the larger number.
    pub to: LengthSpec,
    /// On which side it lies.
    pub side: Side,
    /// The lanes in which nobody may stand there; every lane unless given.
    #[serde(default)]
    pub lanes: Option<Vec<u8>>,
    /// Anything else to say of it.
    #[serde(default)]
    pub note: Option<String>,
}

const fn oval() -> Course {
    Course::Oval
}

impl Hazard {
    fn is_in_lane(&self, lane: LaneNumber) -> bool {
        self.lanes.as_ref().is_none_or(|lanes| lanes.contains(&lane.get()))
    }

    /// Where it begins and ends in a lane of a course, as distances to that course's finish; on the
    /// oval the end may lie beyond the finish line, and is then the larger one. Nothing where the
    /// course does not reach it.
    pub fn extent_m(&self, layout: &Layout, course: Course, lane: LaneNumber) -> Option<(f64, f64)> {
        let (from_m, to_m) = (self.from.metres(), self.to.metres());
        let in_lane = |to_finish_m: f64| {
            let inside =
                Spot::on_oval(LaneNumber::FIRST, layout.measure(LaneNumber::FIRST).within_lap_m(to_finish_m));
            layout.abreast(inside, lane).to_finish_m
        };
        match (self.on, course) {
            (on, course) if on == course && on != Course::Oval => Some((from_m, to_m)),
            (Course::Oval, Course::Oval) => Some((in_lane(from_m), in_lane(to_m))),
            (Course::Oval, straight) => {
                let ground = layout.straight(straight)?;
                let beyond_m = layout.beyond_m(LaneNumber::FIRST, ground);
                let (begins_m, ends_m) = (from_m - beyond_m, to_m - beyond_m);
                // One that goes on beyond the finish line covers the end of the home straight.
                let ends_m = if ends_m > begins_m { 0.0 } else { ends_m.max(0.0) };
                let begins_m = begins_m.min(ground.straight_m);
                (begins_m >= ends_m).then_some((begins_m, ends_m))
            }
            (straight, Course::Oval) => {
                let ground = layout.straight(straight)?;
                let line = layout.measure(lane);
                let on_oval = |to_m: f64| line.within_lap_m(to_m + layout.beyond_m(lane, ground));
                (to_m <= ground.straight_m).then(|| (on_oval(from_m.min(ground.straight_m)), on_oval(to_m)))
            }
            _ => None,
        }
    }

    /// Whether a spot lies within it, whatever the lane.
    pub fn covers(&self, layout: &Layout, spot: Spot) -> bool {
        self.extent_m(layout, spot.course, spot.lane).is_some_and(|(begins_m, ends_m)| match spot.course {
            Course::Oval => {
                let line = layout.measure(spot.lane);
                line.within_lap_m(begins_m - spot.to_finish_m) <= line.within_lap_m(begins_m - ends_m)
            }
            _ => (ends_m..=begins_m).contains(&spot.to_finish_m),
        })
    }

    /// Whether it lies beside a spot in the innermost or the outermost lane, on the side where there is no
    /// other lane; one across the lanes does where it reaches that lane.
    ///
    /// ```
    /// use lane_distance::{Course, Hazard, HazardKind, LaneNumber, Side, Spot, Track};
    /// use lane_distance::spec::LengthSpec;
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let (from, to) = (LengthSpec::from_metres(5.0), LengthSpec::from_metres(0.0));
    /// let gate = Hazard {
    ///     kind: HazardKind::Gate, on: Course::Oval, from, to, side: Side::Outside, lanes: None, note: None,
    /// };
    /// assert!(gate.lies_beside(track.layout(), Spot::on_oval(LaneNumber::of::<8>(), 0.0), Side::Outside));
    /// assert!(!gate.lies_beside(track.layout(), Spot::on_oval(LaneNumber::FIRST, 0.0), Side::Inside));
    /// assert!(!gate.lies_beside(track.layout(), Spot::on_oval(LaneNumber::of::<8>(), 10.0), Side::Outside));
    /// ```
    pub fn lies_beside(&self, layout: &Layout, spot: Spot, side: Side) -> bool {
        let is_there = self.side == side || (self.side == Side::Across && self.is_in_lane(spot.lane));
        is_there && self.covers(layout, spot)
    }

    /// Whether nobody may stand on a spot while the hazard is in use.
    pub(crate) fn holds(&self, layout: &Layout, spot: Spot) -> bool {
        self.is_in_lane(spot.lane) && self.covers(layout, spot)
    }

    /// Whether a run of some distance from a spot comes by; `against` is a run on a straight the
    /// other way.
    pub(crate) fn is_passed(&self, layout: &Layout, start: Spot, distance_m: f64, against: bool) -> bool {
        if self.covers(layout, start) {
            return true;
        }
        // A run that leaves its straight goes on along the oval.
        let on_m = distance_m - start.to_finish_m;
        if start.course != Course::Oval && !against && on_m > 0.0 {
            let end = layout.on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval);
            if end.is_some_and(|end| self.is_passed(layout, end, on_m, false)) {
                return true;
            }
        }
        self.extent_m(layout, start.course, start.lane).is_some_and(|(begins_m, ends_m)| {
            let at_m = start.to_finish_m;
            match start.course {
                Course::Oval => layout.measure(start.lane).within_lap_m(at_m - begins_m) <= distance_m,
                _ if against => at_m <= begins_m && at_m + distance_m >= ends_m,
                _ => at_m >= ends_m && at_m - distance_m <= begins_m,
            }
        })
    }

    /// Whether a run may not come by at all.
    pub(crate) fn bars(&self, layout: &Layout, start: Spot, distance_m: f64, against: bool) -> bool {
        self.kind == HazardKind::ClosedStretch
            && self.is_in_lane(start.lane)
            && self.is_passed(layout, start, distance_m, against)
    }
}
