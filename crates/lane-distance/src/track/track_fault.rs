//! What is wrong with the description of a track, and where in it.

use std::ops::RangeInclusive;

use crate::geometry::course::Course;
use crate::geometry::path::PathError;
use crate::track::key::Key;

/// A fault in the description of a track.
#[derive(Clone, Debug, PartialEq)]
pub struct TrackFault {
    /// The keys that lead to the value that is wrong, from the top of the description.
    pub at: Vec<Key>,
    /// What is wrong with it.
    pub kind: TrackFaultKind,
}

/// What is wrong with a value in the description of a track.
#[derive(Clone, Debug, PartialEq)]
pub enum TrackFaultKind {
    /// The name is blank.
    NoName,
    /// A number is too small, too large or not a number.
    OutOfRange {
        /// What the number stands for.
        quantity: Quantity,
        /// The number, in the unit of its quantity.
        value: f64,
        /// The least that is accepted.
        low: f64,
        /// The most that is accepted.
        high: f64,
    },
    /// There are more or fewer lane widths than lanes.
    WidthCount {
        /// How many widths are given.
        widths: usize,
        /// How many lanes the widest course has.
        lanes: u8,
    },
    /// No course has such a lane.
    NoLane {
        /// The lane.
        lane: u8,
        /// The outermost lane of the widest course.
        outermost: u8,
    },
    /// A piece of the path is neither a straight nor an arc, or both.
    StraightOrArc,
    /// The pieces of the path are not a lap.
    Path(PathError),
    /// The surveyed lap of lane 1 differs too much from the computed one.
    SurveyedLap {
        /// The surveyed lap, in metres.
        surveyed_m: f64,
        /// The lap computed from the path, in metres.
        computed_m: f64,
        /// The largest difference that is accepted, in metres.
        most_m: f64,
    },
    /// The track has no such straight.
    NoStraight(Course),
    /// A hazard on a straight ends before it begins.
    HazardEndsFirst,
    /// An end of a hazard lies off its course.
    HazardOffCourse {
        /// The course of the hazard.
        course: Course,
        /// Distance of the end from the finish, in metres.
        from_finish_m: f64,
        /// Length of the course, in metres.
        length_m: f64,
    },
    /// A mark set is listed twice.
    SetTwice(String),
    /// No mark set has such a name.
    UnknownSet {
        /// The name.
        name: String,
        /// The sets there are.
        known: Vec<&'static str>,
    },
    /// A mark is listed as worn that the track does not have.
    UnknownWorn {
        /// The name.
        name: String,
        /// The mark whose name is most like it, if one is.
        near: Option<String>,
    },
    /// A mark is placed from one that the track does not have.
    UnknownBase {
        /// The mark.
        mark: String,
        /// The name of the missing mark.
        base: String,
        /// The mark whose name is most like it, if one is.
        near: Option<String>,
    },
    /// A mark is placed from itself, by way of other marks or not.
    PlacedFromItself {
        /// The mark.
        mark: String,
    },
    /// A mark on a straight lies farther from the finish than the straight and its chute reach.
    MarkOffStraight {
        /// The mark.
        mark: String,
        /// Its distance before the finish, in metres.
        before_finish_m: f64,
        /// The straight.
        course: Course,
        /// Length of the straight with its chute, in metres.
        length_m: f64,
    },
    /// `before_finish` is used on the oval.
    BeforeFinishOnOval,
    /// No race breaks after this many bends in lanes.
    Bends(u8),
    /// A key of a mark means nothing without another one.
    NeedsPartner {
        /// The mark.
        mark: String,
        /// The key.
        key: &'static str,
        /// The keys of which one has to be there.
        partners: &'static [&'static str],
    },
    /// A rule of a mark has an empty list of distances.
    EmptyRule {
        /// The mark.
        mark: String,
        /// The key of the rule.
        rule: &'static str,
    },
    /// A mark has no rule that places it.
    NoRule {
        /// The mark.
        mark: String,
    },
    /// A mark has several rules that place it.
    SeveralRules {
        /// The mark.
        mark: String,
        /// The keys of the rules.
        rules: Vec<&'static str>,
    },
}

/// What a number in the description of a track stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// Number of lanes of a course.
    Lanes,
    /// Width of a lane, in metres.
    LaneWidth,
    /// Radius of an arc, in metres.
    Radius,
    /// Turn of an arc, in degrees.
    Turn,
    /// Length of a straight, in metres.
    Straight,
    /// Length of a chute, in metres.
    Chute,
    /// Compass bearing of the home straight, in degrees.
    Bearing,
    /// A tolerance, in metres.
    Tolerance,
    /// The distance in a rule of a mark, in metres, by the key of the rule.
    Rule(&'static str),
}

impl TrackFault {
    pub(crate) const fn new(at: Vec<Key>, kind: TrackFaultKind) -> Self {
        Self { at, kind }
    }

    /// A fault where a value lies outside a range, or is not a number.
    pub(crate) fn out_of_range(
        at: Vec<Key>,
        quantity: Quantity,
        value: f64,
        range: RangeInclusive<f64>,
    ) -> Option<Self> {
        let (low, high) = range.clone().into_inner();
        (!range.contains(&value))
            .then(|| Self::new(at, TrackFaultKind::OutOfRange { quantity, value, low, high }))
    }
}
