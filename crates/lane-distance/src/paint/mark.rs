//! Painted marks and the rules that place them.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;

/// A mark's index among the marks of its track.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct MarkId(pub(crate) u32);

impl MarkId {
    /// The index into [`Track::marks`](crate::Track::marks).
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// The shape of a mark on the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Form {
    /// A line from one lane line to the next.
    #[serde(rename = "line across")]
    Line,
    /// A line that stops short of the lane lines.
    #[serde(rename = "short line")]
    ShortLine,
    /// The front or back edge of a box or zone.
    #[serde(rename = "box edge")]
    Edge,
    /// A small mark at the lane line.
    #[serde(rename = "tick")]
    Tick,
    /// A line that bends across several lanes, so that all run equally far.
    #[serde(rename = "curved line")]
    Curve,
}

impl Form {
    /// The form as a word.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::ShortLine => "short line",
            Self::Edge => "zone edge",
            Self::Tick => "tick",
            Self::Curve => "curved line",
        }
    }
}

/// A named place that is painted in some or all lanes.
///
/// Distances run to the finish line's edge nearer to the runner, from the edge of a start line that
/// is farther from the finish; a tick or a zone's line counts at the edge from which its event is
/// measured. Everything in this crate uses those edges, so the width of the paint never enters.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The name used in the trade.
    pub name: Arc<str>,
    /// How a walker would call it, where the name alone does not say what to look for.
    pub called: Option<String>,
    /// Its colour.
    pub colour: Arc<str>,
    /// Its shape on the ground.
    pub form: Form,
    /// What it was painted for.
    pub purpose: String,
    /// Why it misleads someone who trains, and the first lane in which it does.
    pub(crate) trap: Option<(u8, String)>,
    /// Place of its set in the track's list of sets: paint of an earlier set is more certain to be there.
    pub set: u8,
    /// The lanes in which it is painted; nothing means every lane of its course.
    pub lanes: Option<Vec<LaneNumber>>,
    /// The lanes in which it has worn off; the flag is set where it has worn off everywhere.
    pub(crate) worn: Worn,
    /// Where it is painted.
    pub(crate) rule: Rule,
}

/// Where a mark can no longer be seen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Worn {
    /// It is there in each of its lanes.
    #[default]
    Nowhere,
    /// It has gone from these lanes.
    Lanes(Vec<u8>),
    /// It has gone from every lane.
    Everywhere,
}

impl Mark {
    /// Whether the mark is painted, and still there, in `lane`.
    pub fn is_in_lane(&self, lane: LaneNumber) -> bool {
        self.lanes.as_ref().is_none_or(|lanes| lanes.contains(&lane))
            && match &self.worn {
                Worn::Nowhere => true,
                Worn::Lanes(lanes) => !lanes.contains(&lane.get()),
                Worn::Everywhere => false,
            }
    }

    /// Why the mark misleads in `lane`, if it does.
    pub fn trap_in(&self, lane: LaneNumber) -> Option<&str> {
        self.trap.as_ref().and_then(|(first, why)| (lane.get() >= *first).then_some(why.as_str()))
    }

    /// What a walker looks for: the name, with the form or colour where they help.
    pub fn spoken(&self) -> String {
        if let Some(called) = &self.called {
            return called.clone();
        }
        match self.form {
            Form::Line | Form::ShortLine if !self.name.ends_with("line") => format!("{} line", self.name),
            _ => self.name.to_string(),
        }
    }

    /// The same with the colour, where a name alone does not tell an edge from others.
    pub fn look_for(&self) -> String {
        match self.form {
            Form::Edge if self.called.is_none() => format!("{} ({})", self.spoken(), self.colour),
            // Ticks are called by their colour already.
            _ => self.spoken(),
        }
    }
}

/// The rule that places a mark in a lane.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Rule {
    /// This far from the finish along the lane's measure line, on the oval.
    ToFinish(f64),
    /// This far before the finish of a straight.
    BeforeFinish(Course, f64),
    /// Square across all lanes at the station that lies this far from the finish in lane 1;
    /// negative is past the finish.
    Across(f64),
    /// Square across all lanes where the first bend ends.
    EndOfFirstBend,
    /// Curved across all lanes so that each is as far from the finish as lane 1 is from this
    /// far out.
    Curve(f64),
    /// This far past another mark; negative is behind it.
    From(String, f64),
    /// The start of a race of this length that is run in lanes for some bends and then breaks for
    /// lane 1.
    AfterBreak {
        /// Length of the race, in metres.
        race_m: f64,
        /// Bends run in lanes before the break: 1 or 3.
        bends: u8,
    },
}
