//! From a written workout to a plan: the notation, session and track files, and the [`Plan`] that
//! every view is made of.
//!
//! ```
//! use lane_distance::Track;
//! use session_plan::{Block, Session, Venue};
//!
//! let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
//! let session = Session::of_block("6 x 200 in lane 2", Block::parse("6 x 200 in lane 2").expect("it is well formed"));
//! let plan = session_plan::plan(&venue, &session).expect("lane 2 is open");
//! let rep = &plan.blocks[0].reps[5];
//! assert_eq!(rep.start.words, "on the 200 m start line");
//! assert_eq!(rep.finish.words, "on the finish line");
//! ```
//!
//! # The stages
//!
//! Text becomes a [`Block`] ([`notation`]); blocks, a date and a title make a [`Session`]; a session
//! on a track makes a [`Plan`] ([`plan`](fn@plan)). A stage knows nothing of the next. What is wrong
//! with a text is a [`Problem`]: a sentence, the place in the text, and what to write instead.
//!
//! # What it does not do
//!
//! It opens no file and asks no clock: texts come in, values go out. It draws and prints nothing.

pub mod notation;
pub mod plan_words;
pub mod squad;

mod bests;
mod block_plan;
mod caution;
mod chain;
mod clash;
mod clock;
mod coach_place;
mod file_kind;
mod follow;
mod form;
mod form_words;
mod hours;
mod house_rules;
mod kept;
mod nominal;
mod notation_summary;
mod pace_band;
mod pairing;
mod places;
mod plan;
mod planner;
mod problem;
mod quantities;
mod schema;
mod session;
mod session_file;
mod session_spec;
mod setup_walk;
mod split;
mod squad_block;
mod squad_spec;
mod stride;
mod timezone;
mod venue;
mod week;
mod week_entry;
mod week_load;
mod wherein;
mod yaml;

pub use bests::{Bests, RIEGEL_EXPONENT, RIEGEL_RANGE_S, TargetError, riegel};
pub use block_plan::pairs;
pub use caution::cautions;
pub use chain::{WALK_M_PER_S, creep_m};
pub use coach_place::CoachPlace;
pub use file_kind::FileKind;
pub use hours::{Hours, HoursError};
pub use house_rules::{Activity, Direction, HouseRules, InfieldCrossing, LaneRule, RuleCourse};
pub use nominal::Nominal;
pub use notation::Block;
pub use notation_summary::{NOTATION, NotationForm};
pub use pace_band::{BandMetres, PACE_BANDS, PaceBand};
pub use pairing::Prefer;
pub use plan::{Plan, PlanBlock, PlanLane, PlanTrack, Rep};
pub use planner::{PlanError, plan, replan};
pub use problem::{Problem, Problems, SourceText};
pub use session::{Athlete, BETWEEN_BLOCKS_S, Group, NoAthlete, Session, SquadRules};
pub use session_file::{SessionFile, TrackName};
pub use setup_walk::{SetupItem, SetupWalk, USUAL_STRIDE_M};
pub use split::Split;
pub use stride::steps;
pub use timezone::{Timezone, TimezoneError};
pub use venue::Venue;
pub use week::{GroupLoad, Week};
pub use week_entry::{Difference, RunRow, WeekEntry};
pub use week_load::Load;
pub use yaml::LARGEST_FILE;
