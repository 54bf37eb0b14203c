//! Where a block stands in its session.

use serde::Serialize;

/// Where a block stands in its session.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct BlockAt {
    /// The group whose own block it is, counted from 0; nothing for a block of the session.
    pub group: Option<usize>,
    /// Its place among those blocks, counted from 0.
    pub block: usize,
}
