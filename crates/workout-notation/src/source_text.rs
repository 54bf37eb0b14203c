//! A text from outside.

use crate::visible::{visible, visible_line};

/// A text and the name that people know it by, both with what cannot be seen replaced ([`visible`]).
///
/// ```
/// use workout_notation::SourceText;
///
/// let source = SourceText::new("tues\tday.txt", "\u{feff}6 x 200\u{1b}[2J\r\n");
/// assert_eq!(source.name(), "tues day.txt");
/// assert_eq!(source.text(), "6 x 200\u{fffd}[2J\n");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SourceText {
    name: String,
    text: String,
}

impl SourceText {
    /// A text with a file's name, or `workout` for what was typed on the command line. A mark of the order of bytes
    /// (BOM) in front of it is left out.
    pub fn new(name: &str, text: &str) -> Self {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        Self { name: visible_line(name).into_owned(), text: visible(text).into_owned() }
    }

    /// The name that people know it by.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The same with a space for each tab, for texts in which a tab means no more.
    pub fn without_tabs(mut self) -> Self {
        self.text = self.text.replace('\t', " ");
        self
    }
}
