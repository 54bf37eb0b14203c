//! What is wrong with a file, and where in it.

use lane_distance::{Key, TrackFault};

use crate::files::track_fault_words::words;

/// A fault in a file: its place, what is wrong, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Fault {
    /// The keys that lead to the value that is wrong, from the top of the file.
    pub(crate) at: Vec<Key>,
    /// What is wrong.
    pub(crate) message: String,
    /// What to write instead.
    pub(crate) help: Option<String>,
}

impl Fault {
    /// A fault at a place.
    pub(crate) fn new(at: Vec<Key>, message: impl Into<String>) -> Self {
        Self { at, message: message.into(), help: None }
    }

    /// Adds what to write instead.
    pub(crate) fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

impl From<TrackFault> for Fault {
    fn from(fault: TrackFault) -> Self {
        let (message, help) = words(&fault.kind);
        Self { at: fault.at, message, help }
    }
}
