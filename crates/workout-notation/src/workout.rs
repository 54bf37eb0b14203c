//! A whole session as a coach sends it.

use chrono::{NaiveDate, NaiveTime};
use lane_distance::LaneNumber;

use crate::best_time::BestTime;
use crate::block::Block;
use crate::watches::Watches;

/// A whole session as a coach sends it: lines with a title and a date in front, and headings of groups between them.
///
/// ```
/// use workout_notation::Workout;
///
/// let text = "Tuesday track\nWarm up\nSprints:\n- 4 x 60 walk back\nDistance:\n- 6 x 400, 90s\n- 4 x 100 strides";
/// let workout = Workout::parse(text).expect("it is well formed");
/// assert_eq!(workout.title.as_deref(), Some("Tuesday track"));
/// let groups: Vec<_> = workout.parts.iter().map(|part| (part.group.as_deref(), part.blocks.len())).collect();
/// assert_eq!(groups, [(None, 1), (Some("Sprints"), 1), (Some("Distance"), 2)]);
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Workout {
    /// What stands in front of everything.
    pub title: Option<String>,
    /// The day, where one stands in front with its year.
    pub date: Option<NaiveDate>,
    /// When it begins, where the lines in front say so.
    pub begins: Option<NaiveTime>,
    /// When it ends, where they say that too.
    pub ends: Option<NaiveTime>,
    /// The break between two blocks, in seconds, where a line says so: `8 min between blocks`.
    pub between_blocks_s: Option<f64>,
    /// How many people time, where they say so: `one watch`.
    pub watches: Option<Watches>,
    /// Who comes later than the others, where it says when: `Kim 15 min late`, `Kim from 6.45`.
    pub late: Vec<LateAthlete>,
    /// Who does fewer repetitions of each block, and how many: `Ada only 3`.
    pub reps: Vec<(String, u32)>,
    /// Best times that the text gives: `Sprints (Ada 400 56, Ben)`, `PBs: 800 2:10`.
    pub bests: Vec<BestTime>,
    /// The lanes that the text says are closed, from the inside.
    pub closed_lanes: Vec<LaneNumber>,
    /// The lanes that everybody has, where the lines in front give them some: `we have lanes 5 to 8`.
    pub lanes: Vec<LaneNumber>,
    /// The lanes that are closed for a part of the evening: `lane 3 shut from 6.45`.
    pub closures: Vec<LaneClosure>,
    /// What stands behind everything that is done and is only said: `See you there`.
    pub notes: Vec<String>,
    /// What is done, in the order written: everybody's blocks, and those of each group.
    pub parts: Vec<Part>,
}

/// An athlete who comes later than the others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LateAthlete {
    /// Who.
    pub name: String,
    /// When they begin.
    pub begins: NaiveTime,
}

/// Lanes that are closed for a part of the evening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaneClosure {
    /// The lanes, from the inside.
    pub lanes: Vec<LaneNumber>,
    /// From when on; from the start of the session where that is not said.
    pub from: Option<NaiveTime>,
    /// Until when; for the rest of the session where that is not said.
    pub until: Option<NaiveTime>,
}

/// The blocks of one group, or of everybody.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Part {
    /// The heading above them; nothing for what everybody does.
    pub group: Option<String>,
    /// Who is in the group, where the heading names them: `Sprinters (Ada, Ben):`.
    pub athletes: Vec<String>,
    /// Who guides whom, where the heading says so: the athlete, and the guide.
    pub guides: Vec<(String, String)>,
    /// The lanes of the group, where its heading names them: `Group A in lane 1:`.
    pub lanes: Vec<LaneNumber>,
    /// When the group begins, where its heading says so: `Seniors at 7pm:`.
    pub begins: Option<NaiveTime>,
    /// When it ends, where that is said as well: `Seniors 7-8.30pm:`.
    pub ends: Option<NaiveTime>,
    /// Their blocks, at least one.
    pub blocks: Vec<Block>,
}

impl Workout {
    /// All blocks of the text, in the order written.
    pub fn blocks(&self) -> impl Iterator<Item = &Block> {
        self.parts.iter().flat_map(|part| &part.blocks)
    }

    /// All blocks of the text, whoever does them.
    pub fn into_blocks(self) -> Vec<Block> {
        self.parts.into_iter().flat_map(|part| part.blocks).collect()
    }
}
