//! How a running track is measured and marked, from the first word on: no more than school geometry is needed.
//!
//! Read in order. Each chapter ends with an example that runs as a test, on the 400 m standard track unless it says
//! otherwise: two straights of 84.39 m, two half circles of 36.50 m to the kerb, lanes of 1.22 m (World Athletics, *Track
//! and Field Facilities Manual*, chapter 2).
//!
//! 1. [`measure_line`]: where in its lane a runner is taken to run, and how long a lap of each lane is.
//! 2. [`stagger`]: why the starts of a race in lanes lie one past the other, and by how much.
//! 3. [`bends`]: tracks whose bends have several radii.
//! 4. [`break_line`]: races that leave their lanes, and the extra diagonal that moves their starts.
//! 5. [`curved_start`]: the start line of a race without lanes.
//! 6. [`paint`]: what is painted, how a place is said by it, and why a tape reads less than a runner runs.
//! 7. [`finding_spots`]: how the start and the finish of a repetition are looked for and ranked.
//!
//! # Words
//!
//! | word | what it is |
//! |---|---|
//! | *lane* | a strip of the track, counted from the inside; its outer line belongs to it |
//! | *course* | what is run on: the oval, the home straight, the back straight |
//! | *finish line* | one line across all lanes, at the end of the home straight; all distances count back from it |
//! | *measure line* | the line in a lane along which its length is measured |
//! | *mark* | a place that is painted, with a name: a start line, a tick of a hurdle, an edge of a takeover zone |
//! | *spot* | a lane, a course and a distance along the measure line: [`Spot`](crate::Spot) |
//! | *past*, *behind* | past a mark is towards the finish in the direction of running, behind it is away from the finish |
//! | *chute* | what a straight has behind the oval, so that 100 m and 110 m are run without a bend |
//!
//! Sources are named where a formula stands. Rule numbers and most of the manual's constants are from memory; where that
//! makes a difference, `tests/reference` of the repository says which value was read and which was not. *Own derivation*
//! means that the formula follows from the geometry given beside it, *common practice* that no publication is known.

#[doc = include_str!("measure_line.md")]
pub mod measure_line {}

#[doc = include_str!("stagger.md")]
pub mod stagger {}

#[doc = include_str!("bends.md")]
pub mod bends {}

#[doc = include_str!("break_line.md")]
pub mod break_line {}

#[doc = include_str!("curved_start.md")]
pub mod curved_start {}

#[doc = include_str!("paint.md")]
pub mod paint {}

#[doc = include_str!("finding_spots.md")]
pub mod finding_spots {}
