//! What is wrong with a text.

use std::fmt;
use std::ops::Range;

use crate::source_text::SourceText;

/// One thing that is wrong: a sentence, where, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// The bytes of the text that are wrong; an empty range is a place between two characters.
    pub span: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
}

impl Problem {
    /// A problem at a place.
    pub fn new(span: Range<usize>, message: impl Into<String>) -> Self {
        Self { span, message: message.into(), help: None }
    }

    /// Adds what to write instead.
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// The same problem in a text that holds this one from byte `start` on.
    pub fn shifted(mut self, start: usize) -> Self {
        self.span = self.span.start + start..self.span.end + start;
        self
    }
}

/// Everything that is wrong with one text. It holds at least one problem.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problems {
    /// The text.
    pub source: SourceText,
    /// What is wrong with it, in the order of the text.
    pub problems: Vec<Problem>,
}

impl Problems {
    /// Problems of a text, put into the order of the text.
    pub fn new(source: SourceText, mut problems: Vec<Problem>) -> Self {
        problems.sort_by_key(|problem| problem.span.start);
        Self { source, problems }
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.problems.iter().enumerate() {
            let (line, column) = line_and_column(self.source.text(), problem.span.start);
            let separator = if index == 0 { "" } else { "\n" };
            write!(f, "{separator}{}:{line}:{column}: {}", self.source.name(), problem.message)?;
            if let Some(help) = &problem.help {
                write!(f, "; {help}")?;
            }
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}

/// Line and column of a byte of a text, both counted from 1, the column in characters.
pub(crate) fn line_and_column(text: &str, byte: usize) -> (usize, usize) {
    let before = &text[..text.floor_char_boundary(byte)];
    let line_starts = before.rfind('\n').map_or(0, |newline| newline + 1);
    (before.matches('\n').count() + 1, before[line_starts..].chars().count() + 1)
}
