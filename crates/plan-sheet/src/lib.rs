//! Every view of a training plan, and of the answers that the track alone can give.
//!
//! # From a plan to a view
//!
//! A `Plan` holds facts: numbers, places, and remarks and warnings as enums. On its way to paper it goes through two stages.
//!
//! ```text
//! Plan ──► Sheet: every value in words, blocks, rows, waves and cones ──► terminal · paper · phone · message
//!      └─► numbers as they are ─────────────────────────────────────────► JSON · CSV · calendar · map
//! ```
//!
//! All English about a plan stands in `words/`, a file for each noun, and all grouping of rows in `sheet/`; so two views never
//! say the same thing in two ways, and a better word changes all of them. A view only renders: it takes values and gives text or
//! bytes, opens no file and knows no command line. [`FORMATS`] is the one table of what a plan can be written as: help, dispatch
//! and errors are made from it.
//!
//! Terminal views fit 80 columns, mark headings with bold type and say everything in words, so that a view without colour loses
//! nothing.
//!
//! ```
//! use lane_distance::Track;
//! use plan_sheet::{Format, RenderSettings};
//! use session_plan::{Session, Venue};
//! use workout_notation::Block;
//!
//! let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
//! let text = "150 from the 400 m start in lane 3";
//! let session = Session::of_block(text, Block::parse(text).expect("it is well formed"));
//! let plans = [session_plan::plan(&venue, &session).expect("lane 3 is open")];
//! let written = |ending| -> Result<String, Box<dyn std::error::Error>> {
//!     let format = Format::with_ending(ending).expect("there is such a kind");
//!     let rendered = format.render(&plans, Some(&plans), &RenderSettings::default())?;
//!     Ok(String::from_utf8(rendered.files.concat())?)
//! };
//! // One place, in the words of each view and as a number.
//! for ending in ["txt", "md", "html"] {
//!     assert!(written(ending)?.contains("4th green tick"), "{ending}");
//! }
//! let json: serde_json::Value = serde_json::from_str(&written("json")?)?;
//! let finish = &json["blocks"][0]["reps"][0]["finish"];
//! assert_eq!(finish["mark"], "400 m hurdle tick 4");
//! assert!((finish["to_finish_line_m"].as_f64().expect("it is a number") - 250.0).abs() < 1e-9);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # Answers without a plan
//!
//! What the track alone can answer is a [`View`] as well: laps and staggers, marks, distances, where a repetition fits.
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
pub use tables::yaml::yaml;
pub use terminal::notation_text::{notation_screen, notation_text};
pub use words::file_fault::file_fault_words;
pub use words::late_fault::late_fault_words;
pub use words::plan_fault::plan_fault_words;
pub use words::reading::{doubts, reading};
pub use words::spot::spot as spot_words;
