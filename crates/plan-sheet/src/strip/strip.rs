//! A lane unrolled from start to finish, with the paint that is passed.

use session_plan::Plan;

use super::strip_part::Stretch;
use super::unrolled::strips_in_parts;
use crate::drawing::picture::Picture;
use crate::sheet::sheet::Sheet;

/// A lane unrolled from start to finish, to the scale that all strips of a plan have.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// How far is run, in which lanes, of which block; and which part it is, where there are several.
    pub title: String,
    /// The picture, 87 mm wide, with its title in it.
    pub svg: String,
    /// How high the picture is, in millimetres.
    pub height_mm: f64,
}

/// Every run of a plan that differs from the others in what is shown of it, as the lane that is run, unrolled: start at
/// the foot, finish at the top, and the paint between them with its metres from the start. A run of which the middle is
/// left out makes two strips, the first from the start.
///
/// ```
/// use lane_distance::Track;
/// use plan_sheet::Stretch;
/// use session_plan::{Session, Venue};
/// use workout_notation::Block;
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let session = Session::of_block("a lap", Block::parse("400 in lane 1").expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &session).expect("lane 1 is open");
/// let whole = &plan_sheet::strips(&plan, Stretch::Whole)[0][0];
/// assert!(whole.title.starts_with("Block 1: 400 m, lane"));
/// assert!(whole.svg.contains("finish line"));
/// let parts = &plan_sheet::strips(&plan, Stretch::NearEnds)[0];
/// assert_eq!(parts[0].title, "Block 1: 400 m, lane 1 (1 of 2)");
/// assert!(parts[0].svg.contains("320 m left out"));
/// assert!(parts.iter().all(|part| part.height_mm < whole.height_mm / 2.0));
/// ```
pub fn strips(plan: &Plan, stretch: Stretch) -> Vec<Vec<Strip>> {
    let parts = strips_in_parts(&Sheet::of(plan), stretch).into_iter();
    parts.map(|parts| parts.into_iter().map(Strip::from).collect()).collect()
}

impl From<Picture> for Strip {
    fn from(picture: Picture) -> Self {
        Self { title: picture.title.clone(), height_mm: picture.bounds.height(), svg: picture.svg() }
    }
}
