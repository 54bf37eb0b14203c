//! From a written session to a plan: session and track files, the people of a session, and the [`Plan`]
//! that every view is made of.
//!
//! ```
//! use lane_distance::Track;
//! use session_plan::{Session, Venue};
//! use workout_notation::Block;
//!
//! let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
//! let session = Session::of_block("6 x 200 in lane 2", Block::parse("6 x 200 in lane 2").expect("it is well formed"));
//! let plan = session_plan::plan(&venue, &session).expect("lane 2 is open");
//! let rep = &plan.blocks[0].reps[5];
//! assert_eq!(rep.start.mark.as_deref(), Some("200 m start"));
//! assert_eq!(rep.finish.mark.as_deref(), Some("finish line"));
//! ```
//!
//! It opens no file and asks no clock: texts come in, values go out. It words, draws and prints nothing.
//!
//! The [`guide`] explains recoveries, targets, times that nobody gave and late changes, with formulas, sources and examples that
//! run.

mod files;
pub mod guide;
mod people;
mod plan;
mod week;

pub use files::file_fault::{
    Expected, FileFault, FileFaultKind, FileFaults, Found, Named, SessionNumber, UnknownName,
};
pub use files::file_kind::FileKind;
pub use files::limit::Limit;
pub use files::session_file::{SessionFile, TrackName};
pub use files::session_text::SessionText;
pub use files::written_session::WrittenSession;
pub use files::yaml_text::YamlText;
pub use files::yaml_value::{YamlKeys, YamlValue};
pub use people::age_group::{AgeGroup, AgeGroupError};
pub use people::bests::{Bests, RIEGEL_EXPONENT, RIEGEL_RANGE_S, TargetError, riegel};
pub use people::hours::{Hours, HoursError};
pub use people::house_rules::{Activity, Direction, HouseRules, InfieldCrossing, LaneRule, RuleCourse};
pub use people::lane_closure::LaneClosure;
pub use people::late_changes::{HazardBegun, LateChanges, SkippedBlock};
pub use people::late_fault::LateFault;
pub use people::page_address::{PageAddress, PageAddressError};
pub use people::session::{Athlete, BETWEEN_BLOCKS_S, Group, NoAthlete, Session, SquadRules};
pub use people::session_changes::OwnLaneError;
pub use people::since::{Since, SinceError};
pub use people::time_of_day::{TimeOfDay, TimeOfDayError};
pub use people::timezone::{Timezone, TimezoneError};
pub use people::venue::Venue;
pub use people::wind::{Wind, WindFrom};
pub use plan::block_at::BlockAt;
pub use plan::caution::{Caution, cautions};
pub use plan::change::Change;
pub use plan::check_mark::{CheckMark, FOOT_M};
pub use plan::choices::{pairs, pairs_in_lane};
pub use plan::coach_place::CoachPlace;
pub use plan::cone::{Cone, ConeLabel, Cones, PaintedSpot, SpotEnd, SpotUse};
pub use plan::fault::{PlanError, PlanFault};
pub use plan::handover::Handover;
pub use plan::lane_move::LaneMove;
pub use plan::nominal::{Nominal, OtherLength};
pub use plan::on_foot::WALK_M_PER_S;
pub use plan::overrun::{Overrun, Remedy, RemedyKind};
pub use plan::own_time::OwnTime;
pub use plan::pace_change::PaceChange;
pub use plan::pairing::Prefer;
pub use plan::plan::{Plan, PlanLane, PlanTrack};
pub use plan::plan_block::PlanBlock;
pub use plan::planner::{plan, replan};
pub use plan::recovery_remarks::creep_m;
pub use plan::remark::{Recovery, Remark, SetTakes};
pub use plan::rep::{Guide, Rep};
pub use plan::setup_walk::{SetupWalk, USUAL_STRIDE_M};
pub use plan::split::Split;
pub use plan::warning::{ClashingRun, Warning};
pub use week::pace_band::{PACE_BANDS, PaceBand};
pub use week::week::{GroupLoad, Week};
pub use week::week_entry::{Difference, NotCounted, RunRow, WeekEntry};
pub use week::week_load::Load;
