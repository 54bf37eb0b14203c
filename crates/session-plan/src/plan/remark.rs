//! What there is to say of a block.

use lane_distance::{LaneNumber, Placement};

use serde::Serialize;

use crate::people::bests::TargetError;

/// What there is to say of a block: how its starts move, walks back, rests that are too short, its waves.
///
/// In JSON its `kind` names it; times are in seconds, lengths in metres.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind")]
pub enum Remark {
    /// The recovery brings the runners back to the same start each time.
    #[serde(rename = "same start")]
    SameStart {
        /// The lane.
        lane: LaneNumber,
        /// How they recover.
        recovery: Recovery,
    },
    /// Each start lies elsewhere than the one before.
    #[serde(rename = "starts move")]
    StartsMove {
        /// The lane.
        lane: LaneNumber,
        /// How far past the one before; negative is behind it.
        moves_m: f64,
        /// How the runners recover.
        recovery: Recovery,
        /// How far they would have to recover for the same start each time, where that makes sense.
        cancelled_by_m: Option<f64>,
    },
    /// The recovery goes on to a place that is there already, and is not as far as asked.
    #[serde(rename = "recovery bends")]
    RecoveryBends {
        /// The lanes.
        lanes: Vec<LaneNumber>,
        /// How the runners recover.
        recovery: Recovery,
        /// How far it should be.
        asked_m: f64,
        /// How far it is at least.
        least_m: f64,
        /// How far it is at most.
        most_m: f64,
        /// At how many starts it ends in a lane.
        starts: usize,
    },
    /// The runners walk back.
    #[serde(rename = "walk back")]
    WalkBack {
        /// The lane.
        lane: LaneNumber,
        /// How far along the track.
        walk_m: f64,
        /// How long that takes, in whole seconds.
        takes_s: f64,
        /// Whether they jog.
        jogging: bool,
    },
    /// The rest is too short to walk to the next start.
    #[serde(rename = "rest too short to walk")]
    RestTooShortToWalk {
        /// The lane.
        lane: LaneNumber,
        /// How far it is to walk.
        walk_m: f64,
        /// How long that takes, in whole seconds.
        needs_s: f64,
        /// How long the rest is.
        has_s: f64,
        /// Whether the runners change ends already.
        changing_ends: bool,
    },
    /// The rest is too short to jog or walk on as far as the block says.
    #[serde(rename = "rest too short to go on")]
    RestTooShortToGoOn {
        /// The lane.
        lane: LaneNumber,
        /// How the runners recover.
        recovery: Recovery,
        /// How far it is.
        way_m: f64,
        /// How long that takes at least, in whole seconds.
        needs_s: f64,
        /// How long the rest is.
        has_s: f64,
        /// How far can be gone in it.
        enough_m: f64,
    },
    /// A target cannot be had.
    #[serde(rename = "no target")]
    NoTarget {
        /// The target as it is written.
        pace: String,
        /// Why it cannot be had, over the first of the distances.
        why: TargetError,
        /// The distances that no best serves for, in metres.
        to_m: Vec<f64>,
        /// Those of a squad who have none; empty for everybody.
        athletes: Vec<String>,
    },
    /// Where else its first run could start and finish: on paint at both ends, or on the finish line.
    #[serde(rename = "other choice")]
    OtherChoice {
        /// The lane.
        lane: LaneNumber,
        /// The distance, in metres.
        distance_m: f64,
        /// Whether that finishes on the finish line; else both its ends stand on paint.
        on_finish_line: bool,
        /// Where its run-in begins, where it has one.
        #[serde(skip)]
        run_in: Option<Box<Placement>>,
        /// Where it starts.
        #[serde(skip)]
        start: Box<Placement>,
        /// Where it finishes.
        #[serde(skip)]
        finish: Box<Placement>,
    },
    /// Times that nobody gave were estimated, and the timetable is about.
    #[serde(rename = "times estimated")]
    TimesEstimated {
        /// Whether nobody has a target.
        targets: bool,
        /// Who has no target, where others have.
        athletes: Vec<String>,
        /// Whether a rest between its runs is not given.
        rests: bool,
    },
    /// A go time is when the runners of a flying run set off.
    #[serde(rename = "go before run-in")]
    GoBeforeRunIn {
        /// How long the run-in is, in metres.
        run_in_m: f64,
        /// How long the fastest takes for it, in seconds.
        from_s: f64,
        /// How long the slowest takes for it, in seconds.
        to_s: f64,
    },
    /// How many kept the wave that they had before a late change.
    #[serde(rename = "waves kept")]
    WavesKept {
        /// How many did.
        kept: usize,
        /// Of how many.
        of: usize,
        /// Whether they are relay teams, not athletes.
        are_teams: bool,
    },
    /// A hazard keeps the lanes of a run from every place that they could all start or finish at.
    #[serde(rename = "no common place")]
    NoCommonPlace {
        /// The runs, from 1.
        runs: Vec<u32>,
        /// The lanes that are run in at once, in order.
        lanes: Vec<LaneNumber>,
    },
    /// An athlete runs with a guide in the next lane on the outside.
    #[serde(rename = "guide beside")]
    GuideBeside {
        /// The athlete.
        athlete: String,
        /// The guide.
        guide: String,
    },
    /// How a squad is cut into waves.
    #[serde(rename = "waves")]
    Waves {
        /// The runs that it is about, from 1; none where it is about the whole block.
        runs: Vec<u32>,
        /// How many run in each.
        sizes: Vec<usize>,
        /// The lanes that they share.
        lanes: Vec<u8>,
        /// How long the set takes, where that is known.
        takes: Option<SetTakes>,
    },
    /// How relay teams are cut into waves.
    #[serde(rename = "relay waves")]
    RelayWaves {
        /// The runs that it is about, from 1; none where it is about the whole block.
        runs: Vec<u32>,
        /// How many teams there are in each.
        sizes: Vec<usize>,
        /// The lanes that they share.
        lanes: Vec<u8>,
        /// How long the set takes, where that is known.
        takes: Option<SetTakes>,
    },
    /// Check marks come from speeds, and are a start.
    #[serde(rename = "check marks are a start")]
    CheckMarksAreAStart {
        /// Those of whom no best over 100 m or 200 m is known.
        unknown: Vec<String>,
        /// Whether that is nobody by name, as nothing is known of anybody.
        of_nobody: bool,
    },
    /// An athlete hands on no more, because all others of the team are done.
    #[serde(rename = "done with partner")]
    DoneWithPartner {
        /// Who it is.
        athlete: String,
        /// One who does no more runs.
        because_of: String,
        /// The last run of the team, from 1.
        after: usize,
        /// Whether the athlete goes on with other runs of the block.
        goes_on: bool,
    },
    /// An athlete has nobody to hand the baton to.
    #[serde(rename = "nobody to hand to")]
    NobodyToHandTo {
        /// Who that is.
        athlete: String,
    },
    /// A squad's set takes much longer than one athlete alone would.
    #[serde(rename = "much longer than alone")]
    MuchLongerThanAlone {
        /// How long one athlete alone would take.
        alone_s: f64,
    },
    /// The one coach is at another finish meanwhile.
    #[serde(rename = "coach elsewhere")]
    CoachElsewhere {
        /// The blocks, by their numbers from 1, that finish there.
        with: Vec<usize>,
    },
    /// The hurdles of a run stand where those of another race are painted.
    #[serde(rename = "hurdles of another race")]
    HurdlesOfAnotherRace {
        /// The race that is asked for, in metres; nothing where none is named.
        asked_m: Option<f64>,
        /// The race whose hurdles they are, in metres.
        race_m: f64,
        /// From the start to the first of them, in metres.
        to_first_m: f64,
        /// From each to the next, in metres.
        between_m: f64,
    },
    /// Not so many hurdles stand within a run as it is to go over.
    #[serde(rename = "fewer hurdles")]
    FewerHurdles {
        /// How many it is to go over.
        asked: u8,
        /// How many there are.
        there: u8,
        /// How far the run is, in metres.
        run_m: f64,
    },
    /// Level with every finish something in use lies on both sides of the lanes.
    #[serde(rename = "no place for the coach")]
    NoPlaceForCoach,
}

impl Remark {
    /// Whether something cannot be done as it is written, which is to be read before all else.
    pub const fn is_impossible(&self) -> bool {
        matches!(
            self,
            Self::RestTooShortToWalk { .. }
                | Self::RestTooShortToGoOn { .. }
                | Self::NobodyToHandTo { .. }
                | Self::HurdlesOfAnotherRace { asked_m: Some(_), .. }
                | Self::FewerHurdles { .. }
        )
    }
}

/// How long a squad's set takes, in seconds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SetTakes {
    /// How long.
    pub lasts_s: f64,
    /// What no plan that keeps every rest can be shorter than.
    pub bound_s: f64,
    /// Whether no plan that keeps every rest is shorter than this one.
    pub is_proven: bool,
}

/// How runners get from a finish to the next start along the track.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Recovery {
    /// They jog on.
    Jog,
    /// They walk on.
    Walk,
    /// They stay where they are.
    Stand,
}
