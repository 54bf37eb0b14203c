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

mod board;
mod calendar;
mod card;
mod choices;
mod cone_group;
mod cone_row;
mod csv_table;
mod curve;
mod day;
mod fonts;
mod lane_table;
mod map;
mod mark_table;
mod measurement;
mod message;
mod notation_text;
mod occasion;
mod page;
mod paper;
mod place_row;
mod plan_csv;
mod plan_lines;
mod plan_text;
#[cfg(feature = "pdf")]
mod print_world;
#[cfg(feature = "pdf")]
mod printed_page;
#[cfg(feature = "pdf")]
mod printout;
mod sheet;
mod sheet_block;
mod sheet_row;
mod spans;
mod spot_columns;
#[cfg(feature = "pdf")]
mod strip_pages;
mod table;
mod take_care;
mod target;
mod view;
mod walk_words;
mod wave_times;
mod week_text;

pub use calendar::Calendar;
pub use card::{Card, CardRun};
pub use choices::{Choice, Choices};
pub use cone_row::ConeRow;
pub use csv_table::{Cell, CsvTable};
pub use curve::{Curve, CurveLane};
pub use lane_table::{ClosedStart, LaneRow, LaneTable};
pub use map::{MapPicture, Strip, map_picture, map_pictures, map_svg, phone_map, strips, strips_in_parts};
pub use mark_table::{MarkRow, MarkTable};
pub use measurement::{Measurement, RunningLine, Timed};
pub use message::message;
pub use notation_text::notation_text;
pub use page::{PageError, page};
pub use paper::Paper;
pub use place_row::PlaceRow;
#[cfg(feature = "pdf")]
pub use printout::{PrintError, Printout};
pub use sheet::Sheet;
pub use sheet_block::SheetBlock;
pub use sheet_row::{SheetRow, SheetSplit};
pub use view::View;
pub use wave_times::{Go, TimeLine, WaveTimes};
