//! Workouts as coaches write them, read and printed back.
//!
//! A line of a workout becomes a [`Block`]: runs with all their clauses, or a note such as a
//! warm-up. What is printed is one form of all those that mean the same, and shows how a text was
//! understood:
//!
//! ```
//! use workout_notation::{Block, Gap};
//!
//! let block = Block::parse("6X200M,LANE 2,90S REST").expect("it is well formed");
//! assert_eq!(block.to_string(), "6 x 200 in lanes 2 rest 1:30");
//! assert_eq!(block.count(), 6);
//! assert_eq!(block.steps()[0].gap, Some(Gap::Rest(90.0)));
//! ```
//!
//! [`notation`] lists every form. Spacing and case do not matter; `x`, `X`, `×` and `*` are the same;
//! `+`, `,`, `&` and `then` are the same between runs. A number without a unit is metres where a
//! distance is meant, and seconds where a time is.
//!
//! The crate knows no track, no athlete and no file: whether a run fits in its lane is for others to
//! say.
//!
//! The [`guide`] explains the notation to those who are new to it: the words of the trade, how a text is read without losing
//! a number, and the forms by example.
//!
//! # What is wrong, and where
//!
//! Any text gives a block or problems, in time linear in the text. All problems of a text are reported
//! at once. What could be read in two ways is asked about rather than guessed:
//!
//! ```
//! use workout_notation::Block;
//!
//! let problems = Block::parse("6 x 200 in lain 2 rset 90").expect_err("two words are misspelt");
//! assert_eq!(problems[0].message, "expected `lane` after `in`, found `lain`");
//! assert_eq!(problems[1].help.as_deref(), Some("did you mean `rest`?"));
//! assert_eq!(problems[1].span, 18..22);
//!
//! let problem = |text: &str| Block::parse(text).expect_err("it could be either")[0].message.clone();
//! assert_eq!(problem("6 x 200 rest 3"), "`3` could be seconds or minutes");
//! ```

mod attendance;
mod best_time;
mod block;
mod block_break;
mod bold;
mod clauses;
mod clock_time;
mod closing_remarks;
mod closing_time;
mod closing_words;
mod closure;
mod cursor;
mod day;
mod doubt;
mod form;
mod forms;
mod group_counts;
mod group_label;
mod group_labels;
mod group_lanes;
mod group_time;
pub mod guide;
mod heading;
mod heading_words;
mod hurdles_race;
mod in_brackets;
mod item;
mod lanes_of_day;
mod last_run;
mod lateness;
mod line_words;
mod lines;
mod list;
mod listed;
mod misspelt;
mod names_in_front;
mod number_word;
mod people;
mod phrases;
mod piece;
mod problem;
mod quantity;
mod reader;
mod rest_in_list;
mod rest_words;
mod roster;
mod run;
mod same_as;
mod session_athletes;
mod session_doubts;
mod session_groups;
mod session_reader;
mod session_text;
mod session_title;
mod sets;
mod share;
mod shared;
mod source_text;
mod spanned;
mod table;
mod targets_behind;
mod token;
mod told;
mod track_part;
mod turns;
mod unit;
mod unread;
mod visible;
mod vocabulary;
mod watches;
mod workout;

pub use best_time::BestTime;
pub use block::{Block, Body, Item, RestAfter, Series};
pub use doubt::Doubt;
pub use form::NotationForm;
pub use forms::{
    Details, Gap, HurdlePart, MOST_REPS, Pace, Recovery, RecoveryKind, Run, RunKind, RunLength, RunPlace,
    Stance, Step, notation,
};
pub use hurdles_race::hurdles_race_m;
pub use problem::{Problem, Problems};
pub use reader::{distance, lanes, race_distance, seconds};
pub use session_reader::MOST_BLOCKS;
pub use source_text::SourceText;
pub use spanned::Spanned;
pub use track_part::TrackPart;
pub use turns::Turns;
pub use unit::MILE_M;
pub use visible::{visible, visible_line};
pub use watches::Watches;
pub use workout::{LaneClosure, LateAthlete, Part, Workout};
