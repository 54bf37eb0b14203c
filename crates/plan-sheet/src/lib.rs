//! Every view of a training plan, and of the answers that the track alone can give.
//!
//! Each view takes values and gives text; it opens no file and knows no command line. Terminal views
//! fit 80 columns, mark headings with bold type and say everything in words, so that a view without
//! colour loses nothing.
//!
//! ```
//! use lane_distance::Track;
//! use plan_sheet::{LaneTable, View};
//!
//! let track = Track::built_in("standard").expect("it comes with the crate");
//! let table = LaneTable::of(&track);
//! assert!(table.text().contains("407.038"));
//! assert!(table.json()?.starts_with("{"));
//! # Ok::<(), serde_json::Error>(())
//! ```

mod answers;
mod drawing;
mod formats;
mod json;
mod map;
mod phone;
mod planner;
mod print;
mod sheet;
mod strip;
mod tables;
mod terminal;
mod words;

pub use answers::choices::Choices;
pub use answers::curve::Curve;
pub use answers::lane_table::LaneTable;
pub use answers::lines_near::LinesNear;
pub use answers::mark_table::MarkTable;
pub use answers::measurement::Measurement;
pub use answers::round_distances::{ROUND_DISTANCES_M, nearest_round_m};
pub use answers::view::{InFull, View};
pub use drawing::code::code_to_scan;
pub use formats::format::{FORMATS, Format, known_endings};
pub use formats::own_picture::is_own_picture;
pub use formats::rendered::{RenderError, RenderSettings, Rendered};
pub use map::ground_map::{GroundMapSize, ground_map};
pub use map::map_picture::{MapPicture, map_pictures, map_svg, maps};
pub use phone::page_policy;
pub use phone::policy::PagePolicy;
pub use planner::plan_parts::PlanParts;
pub use print::extras::Extras;
pub use print::paper::Paper;
pub use strip::strip::{Strip, strips};
pub use strip::strip_part::Stretch;
pub use tables::csv_table::CsvTable;
pub use tables::session_yaml::{SessionGround, session_yaml};
pub use terminal::notation_text::{notation_screen, notation_text};
pub use words::file_fault::file_fault_words;
pub use words::late_fault::late_fault_words;
pub use words::plan_fault::plan_fault_words;
pub use words::reading::reading;
pub use words::spot::spot as spot_words;
