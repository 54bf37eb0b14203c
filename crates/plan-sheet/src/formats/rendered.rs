//! What a view makes of an answer, and why it cannot.

use chrono::{DateTime, Utc};

use crate::print::extras::Extras;
use crate::print::paper::Paper;

/// What a view has to know that no plan says.
#[derive(Clone, Copy, Debug, Default)]
pub struct RenderSettings {
    /// The paper to print on.
    pub paper: Paper,
    /// What is printed beside the first page and the boxes for the times.
    pub extras: Extras,
    /// When the file is made.
    pub now: DateTime<Utc>,
}

/// An answer as it is written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Rendered {
    /// The bytes of each file: one, but for pictures of pages.
    pub files: Vec<Vec<u8>>,
    /// Notices for the user; not errors.
    pub notes: Vec<String>,
}

impl From<String> for Rendered {
    fn from(text: String) -> Self {
        Self { files: vec![text.into_bytes()], notes: Vec::new() }
    }
}

/// Why an answer could not be written as a kind of file.
#[derive(Debug, thiserror::Error)]
pub enum RenderError {
    /// The kind shows plans, and the answer has none.
    #[error("a .{ending} file needs a plan, and this answer has none; end the name in {instead}")]
    NoPlan {
        /// The ending of its files.
        ending: &'static str,
        /// The endings that this answer can have, in words.
        instead: String,
    },
    /// The kind holds one plan, and there are several.
    #[error("a .{ending} file holds one session, not {plans}; write one at a time")]
    SeveralPlans {
        /// The ending of its files.
        ending: &'static str,
        /// How many plans there are.
        plans: usize,
    },
    /// There is more of the plans than anybody prints.
    #[error(
        "a .{ending} file of about {lines} lines is too long: at most {most}; write fewer groups, blocks or sessions \
         at a time, {or}"
    )]
    TooLong {
        /// The ending of its files.
        ending: &'static str,
        /// About how many lines there are.
        lines: usize,
        /// The most that there may be.
        most: usize,
        /// What else can be written, in words.
        or: &'static str,
    },
    /// No session has a date, and a calendar needs one.
    #[error("a calendar needs dates, and {0} has none; {WRITE_A_DATE}")]
    NoDate(String),
    /// This build cannot print.
    #[error("this build of toeline cannot print; build it with the feature `pdf`")]
    CannotPrint,
    /// This build writes no tables for people.
    #[error("this build of toeline writes no .txt files; build it with the feature `text`")]
    NoText,
    /// A mistake of this program: a template, or a value that has no JSON.
    #[error("the file could not be made, a bug in this program: {0}")]
    Mistake(String),
}

impl From<serde_json::Error> for RenderError {
    fn from(error: serde_json::Error) -> Self {
        Self::Mistake(error.to_string())
    }
}

impl RenderError {
    /// Whether it lies in what was asked for, and not in this program.
    pub const fn is_of_input(&self) -> bool {
        !matches!(self, Self::Mistake(_))
    }
}

/// What to do about a session without a date.
pub(crate) const WRITE_A_DATE: &str = "write for example `date: 2027-04-13` in its session file";
