//! Whose block it is.

use crate::people::bests::Bests;
use crate::people::session::{Group, Session};

/// Whose block it is.
pub(crate) struct Who<'a> {
    pub(crate) session: &'a Session,
    pub(crate) group: Option<&'a Group>,
}

impl Who<'_> {
    pub(crate) fn name(&self) -> Option<String> {
        self.group.map(|group| group.name.clone())
    }

    pub(crate) fn athletes(&self) -> Vec<String> {
        self.group.map_or_else(Vec::new, |group| {
            group.athletes.iter().map(|athlete| athlete.name.clone()).collect()
        })
    }

    /// The bests that targets are taken from.
    pub(crate) fn bests(&self) -> &Bests {
        match self.group {
            Some(group) if !group.bests.is_empty() => &group.bests,
            _ => &self.session.bests,
        }
    }
}
