//! What is said of several runs at once, one value for each of them.

use std::ops::Range;

use crate::spanned::Spanned;

/// Values that were read for several runs and are not yet shared among them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Shared {
    /// `in 32, 31, 30`
    pub(crate) paces: Vec<Spanned<SharedPace>>,
    /// Whether two paces are the first and the last of several, as in `cut down 50-46`.
    pub(crate) is_progression: bool,
    /// `alternating easy/hard`, by turns.
    pub(crate) efforts: Vec<Spanned<String>>,
    /// By how much the time of each run differs from that of the run before, in seconds: `@ 75, 1s faster each`.
    pub(crate) step_s: Option<f64>,
    /// Whether the paces are taken by turns: `alternating 72/68`.
    pub(crate) is_alternating: bool,
    /// `6-5-4 min`, in seconds.
    pub(crate) rests: Vec<Spanned<f64>>,
    /// `walk equal distance`, `half distance jog`
    pub(crate) equal: Option<Spanned<Equal>>,
    /// `equal rest`, `1:1`, behind runs whose times their targets say: the share of each.
    pub(crate) as_long: Option<Spanned<f64>>,
    /// `1 min for every 10m`
    pub(crate) per_distance: Option<Spanned<PerDistance>>,
}

/// A pace of one of several runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum SharedPace {
    /// In this time, in seconds.
    Time(f64),
    /// At the pace of a race over this distance, in metres.
    Race(f64),
    /// At this percentage of the speed of a best.
    Percent(f64),
}

/// A recovery as far, or as long, as the run before it, or a part of that.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Equal {
    /// Whether it is a jog, where the run is over a distance.
    pub(crate) is_jog: bool,
    /// Its share of the run.
    pub(crate) share: f64,
}

/// A rest that grows with the run before it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PerDistance {
    /// How long, in seconds.
    pub(crate) seconds: f64,
    /// For each of these distances, in metres.
    pub(crate) per_m: f64,
}

impl Shared {
    /// Where values stand that were shared among no runs.
    pub(crate) fn left(&self) -> Option<Range<usize>> {
        let of = |first: &Range<usize>, last: &Range<usize>| first.start..last.end;
        let paces =
            self.paces.first().zip(self.paces.last()).map(|(first, last)| of(&first.span, &last.span));
        let rests =
            self.rests.first().zip(self.rests.last()).map(|(first, last)| of(&first.span, &last.span));
        let efforts = self.efforts.first().zip(self.efforts.last());
        paces.or(rests).or_else(|| efforts.map(|(first, last)| of(&first.span, &last.span)))
    }
}
