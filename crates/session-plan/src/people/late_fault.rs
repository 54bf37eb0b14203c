//! Late changes that cannot be made.

use chrono::NaiveTime;
use lane_distance::{HazardKind, LaneError, LaneNumber};

use crate::people::hours::Hours;
use crate::people::session::NoAthlete;

/// Why a late change cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub enum LateFault {
    /// It names nobody.
    NoAthlete(NoAthlete),
    /// It leaves nobody to train.
    NobodyLeft,
    /// It names no group.
    NoGroup {
        /// The name that was asked for.
        name: String,
        /// The names that there are.
        groups: Vec<String>,
    },
    /// An athlete comes late who hands on a baton with others of the group.
    InRelay {
        /// Who.
        athlete: String,
        /// In which group.
        group: String,
    },
    /// Two values are given for one athlete, group or hazard.
    Twice {
        /// Whose they are.
        name: String,
    },
    /// A group comes late, and nobody knows when the session begins.
    NoStart {
        /// The group.
        group: String,
    },
    /// A time outside the booking.
    OutsideBooking {
        /// The time.
        time: NaiveTime,
        /// The booking.
        hours: Hours,
    },
    /// A group comes late, at a time before the session begins.
    BeforeStart {
        /// The group.
        group: String,
        /// When it comes.
        time: NaiveTime,
        /// When the session begins.
        begins: NaiveTime,
    },
    /// Somebody is to do fewer repetitions, and does no more anyway.
    NotFewer {
        /// The athlete.
        name: String,
        /// The repetitions that were asked for.
        reps: u32,
        /// The most repetitions that a block of theirs has.
        most: u32,
    },
    /// The track has no such hazard.
    NoHazard {
        /// The name that was asked for.
        name: String,
        /// The hazards that it has.
        hazards: Vec<HazardKind>,
    },
    /// The name fits several hazards of the track.
    SeveralHazards {
        /// The name that was asked for.
        name: String,
        /// The hazards that it fits.
        hazards: Vec<HazardKind>,
    },
    /// A lane that the track does not have.
    Lane(LaneError),
    /// Lanes are closed for a part of the evening, and nobody knows when the session begins.
    NoStartOfClosure {
        /// The lanes.
        lanes: Vec<LaneNumber>,
    },
    /// Lanes are closed for a part of the evening that ends before it begins.
    ClosureBackwards {
        /// When it begins.
        from: NaiveTime,
        /// When it ends.
        until: NaiveTime,
    },
    /// It leaves no lane open.
    NoLaneLeft,
    /// The plan has no block of this number.
    NoBlock {
        /// The number that was asked for.
        number: usize,
        /// The blocks that there are, in order.
        blocks: Vec<String>,
    },
    /// It leaves no block to do.
    NoBlockLeft,
}
