//! What cannot be laid out on a track.

use std::ops::Range;

use lane_distance::{Course, HazardKind, LandmarkError, LaneError, LaneNumber, NoRouteError, SearchError};
use wave_plan::SquadError;
use workout_notation::{Spanned, Step};

use crate::plan::block_at::BlockAt;

/// Why a block cannot be laid out.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanFault {
    /// It names a lane that is missing or closed.
    Lane(LaneError),
    /// It names no lane, and none of the course is open.
    NoLaneOpen(Course),
    /// It starts or finishes at a place that the paint does not have.
    Landmark(LandmarkError),
    /// It is run between marks that are not painted here: over hurdles, or through a takeover zone.
    NoPaint(LandmarkError),
    /// Its distance does not fit.
    Search(SearchError),
    /// No way leads from its start to its finish.
    NoRoute(NoRouteError),
    /// No place has room for it with its run-in.
    NoRoomForRunIn {
        /// The timed distance, in metres.
        distance_m: f64,
        /// The run-in before it, in metres.
        run_in_m: f64,
    },
    /// From its start, or to its finish, it would leave the straight.
    LeavesStraight {
        /// Its distance, in metres.
        distance_m: f64,
        /// The straight.
        course: Course,
        /// How long that is, in metres.
        length_m: f64,
    },
    /// Its start and its finish are not as far apart as it says.
    OtherDistance {
        /// The lane.
        lane: LaneNumber,
        /// The distance that it says, in metres.
        distance_m: f64,
        /// How far it is from its start to its finish, in metres.
        real_m: f64,
    },
    /// Hazards in use or a closed stretch are in the way of every place for it.
    NoPlaceLeft {
        /// The lane.
        lane: LaneNumber,
        /// Its distance, in metres.
        distance_m: f64,
    },
    /// A hazard in use or a closed stretch is where it has to be.
    HazardThere {
        /// The lane.
        lane: LaneNumber,
        /// Its distance, in metres.
        distance_m: f64,
        /// What is there.
        hazard: HazardKind,
    },
    /// Its target is faster than anybody has ever run.
    TooFast {
        /// Whose target it is, where it is one athlete's own.
        who: Option<String>,
        /// Its distance, in metres.
        distance_m: f64,
        /// The target, in seconds.
        target_s: f64,
    },
    /// Its target is so short that it cannot be a time.
    NoTime {
        /// Whose target it is, where it is one athlete's own.
        who: Option<String>,
        /// Its distance, in metres.
        distance_m: f64,
        /// The target, in seconds.
        target_s: f64,
    },
    /// It starts again before it can be over.
    CycleTooShort {
        /// Whose run lasts longer, where it is one athlete's own target.
        who: Option<String>,
        /// From start to start, in seconds.
        cycle_s: f64,
        /// How long the run lasts, in seconds; where it has no target, as long as nobody has ever needed.
        lasts_s: f64,
        /// Whether that is its target.
        is_target: bool,
    },
    /// The session has more repetitions than can be planned.
    TooManyReps,
    /// Its athletes have more runs than can be planned.
    TooManyRuns,
    /// Its squad cannot be cut into waves.
    Squad(SquadError),
    /// The athletes of a relay team have no lane that all of them may run in.
    NoCommonLane {
        /// Who they are.
        athletes: Vec<String>,
    },
    /// It is not a run, and a run was asked for.
    NotARun,
    /// It is a run by time, and a finish was asked for.
    NoFinish,
    /// It names several lanes, and one was asked for.
    SeveralLanes,
}

/// A block that cannot be laid out on the track.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanError {
    /// Which block it is.
    pub at: BlockAt,
    /// Why, with its place in the block's text.
    pub fault: Spanned<PlanFault>,
}

/// A value, or why a block cannot be laid out and where it says so.
pub(crate) type Planned<T> = Result<T, Spanned<PlanFault>>;

impl PlanFault {
    /// The fault with its place in the block's text.
    pub(crate) const fn at(self, span: Range<usize>) -> Spanned<Self> {
        Spanned { value: self, span }
    }

    /// The fault of a run, under its distance.
    pub(crate) fn at_run(self, step: &Step<'_>) -> Spanned<Self> {
        self.at(step.run.kind.span.clone())
    }

    /// The fault of a run, under the rest or the cycle after it where it names its own.
    pub(crate) fn at_gap(self, step: &Step<'_>) -> Spanned<Self> {
        let gap = step.run.details.recovery.gap.as_ref();
        self.at(gap.map_or_else(|| step.run.kind.span.clone(), |gap| gap.span.clone()))
    }

    /// The fault of a run, under its lanes where it names any.
    pub(crate) fn at_lanes(self, step: &Step<'_>) -> Spanned<Self> {
        self.at(step.lanes.map_or_else(|| step.run.kind.span.clone(), |lanes| lanes.span.clone()))
    }
}
