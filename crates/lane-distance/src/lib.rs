//! Geometry of a running track: where its lanes and painted marks lie, and where a repetition of a
//! given distance can start and finish.
//!
//! Every place is a [`Spot`]: a lane, a course, and a distance along that lane's measure line. A
//! mark is a named spot in each lane; a repetition is two spots a given distance apart.
//!
//! ```
//! use lane_distance::{LaneNumber, Placement, Track};
//!
//! let track = Track::built_in("standard").expect("it comes with the crate");
//! let best = track.search(LaneNumber::of::<2>(), 200.0)?[0];
//! assert_eq!(Placement::of(&track, best.start).mark.as_deref(), Some("200 m start"));
//! assert_eq!(Placement::of(&track, best.finish).mark.as_deref(), Some("finish line"));
//! # Ok::<(), lane_distance::SearchError>(())
//! ```
//!
//! The [`guide`] explains the field to those who are new to it: the measure line and the lap of a lane, staggers, bends of
//! several radii, the break line of the 800 m, curved starts, paint and tapes, and how a spot is found. It has the formulas,
//! where each comes from, and examples that run.
//!
//! # Design
//!
//! * All lengths are metres in `f64`; they are rounded only where text is made.
//! * Arc length is exact: an arc of angle θ at offset o is (r + o)·θ. Nothing is sampled.
//! * Coordinates: origin at the centre of the infield, +x the direction of running on the home
//!   straight, +y from the home straight to the back straight.
//! * Marks are data (`marks/*.yaml`), and so are the built-in tracks (`tracks/*.yaml`).
//! * Nothing here reads a file, a clock or the environment, or knows of workouts, athletes or time.

mod geometry;
pub mod guide;
mod paint;
mod search;
pub mod spec;
mod track;

pub use geometry::course::Course;
pub use geometry::lane::{LINE_MEASURE_M, Lane};
pub use geometry::lane_number::{LaneNumber, MOST_LANES, NoSuchLaneError};
pub use geometry::line::Line;
pub use geometry::path::{Path, PathError};
pub use geometry::piece::Piece;
pub use geometry::point::{Point, Pose};
pub use geometry::spot::{ON_PAINT_M, PaintReading, Spot};
pub use geometry::station::Station;
pub use paint::landmark::LandmarkError;
pub use paint::mark::{Form, Mark, MarkId};
pub use paint::paint::Painted;
pub use paint::placement::Placement;
pub use search::bend_share::BendShare;
pub use search::curved_start::CurvePoint;
pub use search::join::Join;
pub use search::on_paint_run::{OnPaintRun, RunEnd};
pub use search::pair::Pair;
pub use search::place::Place;
pub use search::route::{NoRouteError, Route};
pub use search::search::{REP_RANGE_M, SearchError};
pub use track::hazard::{Hazard, HazardKind, Side};
pub use track::key::Key;
pub use track::lane_error::{LaneError, LaneList};
pub use track::layout::{Layout, StraightCourse};
pub use track::track::Track;
pub use track::track_fault::{Quantity, TrackFault, TrackFaultKind};
