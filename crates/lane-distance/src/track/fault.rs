//! What is wrong with a description of a track, and where in it.

use std::fmt;

/// One step into nested data.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// The value under a name.
    Name(String),
    /// The item of a list, counted from 0.
    Index(usize),
}

impl From<&str> for Key {
    fn from(name: &str) -> Self {
        Self::Name(name.to_owned())
    }
}

impl From<usize> for Key {
    fn from(index: usize) -> Self {
        Self::Index(index)
    }
}

/// A fault in described data: a sentence, the place it speaks of, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}{message}", Within(.at))]
pub struct Fault {
    /// The way to the value that is wrong, from the top of the description.
    pub at: Vec<Key>,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
}

impl Fault {
    /// A fault at a place.
    pub fn new(at: Vec<Key>, message: impl Into<String>) -> Self {
        Self { at, message: message.into(), help: None }
    }

    /// Adds what to write instead.
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

/// Builds the way to a value: `key!["path", 2, "radius"]`.
macro_rules! key {
    ($($part:expr),* $(,)?) => { vec![$($crate::track::fault::Key::from($part)),*] };
}
pub(crate) use key;

struct Within<'a>(&'a [Key]);

impl fmt::Display for Within<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, key) in self.0.iter().enumerate() {
            match key {
                Key::Name(name) if place == 0 => write!(f, "{name}")?,
                Key::Name(name) => write!(f, ".{name}")?,
                Key::Index(index) => write!(f, "[{index}]")?,
            }
        }
        if self.0.is_empty() { Ok(()) } else { f.write_str(": ") }
    }
}
