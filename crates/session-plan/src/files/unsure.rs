//! Parts of a file that could not be read.

use lane_distance::Key;

/// The ways to the parts of a file that could not be read: faults that follow from them are not faults
/// of the file.
#[derive(Clone, Debug, Default)]
pub(crate) struct Unsure(Vec<Vec<Key>>);

impl FromIterator<Vec<Key>> for Unsure {
    fn from_iter<I: IntoIterator<Item = Vec<Key>>>(ways: I) -> Self {
        Self(ways.into_iter().collect())
    }
}

impl Unsure {
    pub(crate) fn push(&mut self, at: Vec<Key>) {
        self.0.push(at);
    }

    /// Adds the parts of another reading.
    pub(crate) fn extend(&mut self, other: Self) {
        self.0.extend(other.0);
    }

    /// Whether a part is one of them, or within one.
    pub(crate) fn holds(&self, at: &[Key]) -> bool {
        self.0.iter().any(|unsure| !unsure.is_empty() && at.starts_with(unsure))
    }

    /// Whether a part is one of them, is within one, or has one within it.
    pub(crate) fn touches(&self, at: &[Key]) -> bool {
        self.holds(at) || self.0.iter().any(|unsure| unsure.starts_with(at))
    }

    /// The ways to them.
    pub(crate) fn ways(&self) -> impl Iterator<Item = &[Key]> {
        self.0.iter().map(Vec::as_slice)
    }
}
