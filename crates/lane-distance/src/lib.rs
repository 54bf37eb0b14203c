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
//! # What a stagger is
//!
//! A lane is measured along its *measure line*: 0.30 m outside a raised kerb in lane 1, 0.20 m
//! outside the inner line of every other lane (and of lane 1 where there is no kerb). On a straight
//! all lanes are equally long. On a bend an outer lane is longer, by its distance from lane 1 times
//! the angle that is turned: 1.12 m × 2π = 7.04 m a lap for lane 2 with lanes of 1.22 m. So that all
//! run the same distance, each lane's start is painted further on: that is the stagger.
//!
//! # How a spot is found
//!
//! [`Track::search`] looks at every painted mark of the lane as a start and at the finish line as a
//! finish, and ranks what it finds by a rule written there. A spot off the paint is given by the
//! nearest mark of its lane: how far behind it (away from the finish) or past it, on the measure
//! line, and as a tape reads on the lane's inner line, which is shorter on a bend.
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
