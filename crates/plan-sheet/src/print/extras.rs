//! What is printed only when it is asked for.

/// What a printed sheet has beside its first page and the boxes for the times.
///
/// ```
/// let extras = plan_sheet::Extras { cards: true, ..Default::default() };
/// assert!(!extras.lanes && !extras.care);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Extras {
    /// A card for each athlete, to cut out.
    pub cards: bool,
    /// The lanes unrolled at both ends of each run, with the paint there.
    pub lanes: bool,
    /// Every caution in full, and how people behave on the track.
    pub care: bool,
}
