//! What a plan had to decide or could not do.

use lane_distance::LaneNumber;

use chrono::NaiveTime;
use serde::Serialize;

use crate::people::house_rules::LaneRule;
use crate::plan::block_at::BlockAt;

/// What a plan had to decide or could not do.
///
/// In JSON its `kind` names it; times are in seconds, lengths in metres.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind")]
pub enum Warning {
    /// A block is run with the wind or against it, and the wind is not known: it is taken to be from behind on the
    /// home straight.
    #[serde(rename = "wind assumed")]
    WindAssumed {
        /// The block.
        at: BlockAt,
        /// Whether it is run against the wind.
        against: bool,
    },
    /// A block is too long for a straight, and the wind asks for one that is run the other way.
    #[serde(rename = "too long for the wind")]
    TooLongForWind {
        /// The block.
        at: BlockAt,
        /// Whether it was to be run against the wind.
        against: bool,
    },
    /// An athlete's guide is absent.
    #[serde(rename = "no guide")]
    NoGuide {
        /// The athlete.
        athlete: String,
        /// Who is absent.
        guide: String,
    },
    /// A block names no lane, and runs in the innermost open one.
    #[serde(rename = "innermost lane chosen")]
    InnermostLane {
        /// The block.
        at: BlockAt,
        /// The lane.
        lane: LaneNumber,
    },
    /// A block names no lane, and runs in the innermost one that no others have who are there at once.
    #[serde(rename = "innermost free lane chosen")]
    FreeLane {
        /// The block.
        at: BlockAt,
        /// The lane.
        lane: LaneNumber,
    },
    /// A block names no lane, and runs in the one of a house rule.
    #[serde(rename = "lane chosen by house rule")]
    RuledLane {
        /// The block.
        at: BlockAt,
        /// The lane.
        lane: LaneNumber,
        /// The rule.
        rule: LaneRule,
    },
    /// A block names no lane, and none of its house rule is open: it runs in the innermost open one.
    #[serde(rename = "lanes of house rule closed")]
    RuledLanesClosed {
        /// The block.
        at: BlockAt,
        /// The lane.
        lane: LaneNumber,
        /// The rule.
        rule: LaneRule,
    },
    /// A block names lanes that a house rule keeps for others.
    #[serde(rename = "house rule broken")]
    RuleBroken {
        /// The block.
        at: BlockAt,
        /// The rule.
        rule: LaneRule,
        /// The lanes that it does not allow.
        lanes: Vec<LaneNumber>,
    },
    /// A block runs clockwise, and the house rules say anticlockwise everywhere.
    #[serde(rename = "clockwise against house rule")]
    Clockwise {
        /// The block.
        at: BlockAt,
    },
    /// The break between two blocks is not given.
    #[serde(rename = "break assumed")]
    BreakAssumed {
        /// How long it is taken to be.
        break_s: f64,
    },
    /// The session ends after the booking.
    #[serde(rename = "past the booking")]
    PastBooking {
        /// When it ends.
        ends: NaiveTime,
        /// How much later that is than the end of the booking.
        over_s: f64,
        /// When the booking begins.
        booked_from: NaiveTime,
        /// When the booking ends.
        booked_until: NaiveTime,
    },
    /// Two runs come too close in a lane.
    #[serde(rename = "clash in lane")]
    ClashInLane {
        /// The lane.
        lane: LaneNumber,
        /// The two runs.
        runs: [ClashingRun; 2],
        /// When, from the start of the session.
        at_s: f64,
        /// How far before the finish.
        before_finish_m: f64,
        /// What they come closer than.
        closer_than_m: f64,
    },
    /// Two runs finish too close for one watch.
    #[serde(rename = "clash at the finish")]
    ClashAtFinish {
        /// The two runs.
        runs: [ClashingRun; 2],
        /// When the later one finishes, from the start of the session.
        at_s: f64,
        /// How far apart they finish.
        apart_s: f64,
        /// How far apart one watch needs them.
        needs_s: f64,
    },
    /// Flat runs go through the hurdles of another block while those stand.
    #[serde(rename = "through hurdles")]
    ThroughHurdles {
        /// The number of their block, from 1.
        block: usize,
        /// The number of the block that is run over hurdles.
        hurdles: usize,
        /// The lanes in which they do.
        lanes: Vec<LaneNumber>,
        /// When the first of them goes, in seconds from the start of the session.
        at_s: f64,
    },
    /// A whistle at the finish is heard late at the starts.
    #[serde(rename = "late sound")]
    LateSound {
        /// How long the runs are whose start it reaches last.
        distance_m: f64,
        /// How late that is.
        late_s: f64,
    },
    /// There are more clashes than are listed.
    #[serde(rename = "more clashes")]
    MoreClashes,
}

impl Warning {
    /// The block that it is about, where it is about one.
    pub const fn at(&self) -> Option<BlockAt> {
        match self {
            Self::InnermostLane { at, .. }
            | Self::FreeLane { at, .. }
            | Self::RuledLane { at, .. }
            | Self::RuledLanesClosed { at, .. }
            | Self::RuleBroken { at, .. }
            | Self::WindAssumed { at, .. }
            | Self::TooLongForWind { at, .. }
            | Self::Clockwise { at } => Some(*at),
            _ => None,
        }
    }
}

/// A run that clashes with another one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClashingRun {
    /// The number of its block, from 1.
    pub block: usize,
    /// The number of the repetition.
    pub rep: u32,
    /// The athlete, or else the group, that runs it.
    pub who: Option<String>,
}
