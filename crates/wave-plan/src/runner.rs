//! Who runs.

/// Somebody who runs an itinerary.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Runner {
    /// The name.
    pub name: String,
    /// The times of each run; as many as the itinerary has, or fewer for somebody who does only the first of them.
    pub times: Vec<RunTimes>,
    /// The lanes that the runner may use, if not all: after an injury, no tight bends.
    pub lanes: Option<Vec<u8>>,
    /// How many lanes next to the runner's own, on its outside, are taken as well: one for a guide.
    pub lanes_beside: u8,
}

/// The times of one run of a runner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunTimes {
    /// How long the run takes, in seconds.
    pub target_s: f64,
    /// The least time from its finish to the next start, in seconds.
    pub rest_s: f64,
}

impl RunTimes {
    /// The least time from its start to the next, in seconds.
    pub(crate) fn cycle_s(self) -> f64 {
        self.target_s + self.rest_s
    }
}

impl Runner {
    /// A runner who may use every lane, with the same times in each of `runs` runs.
    pub fn new(name: impl Into<String>, runs: usize, target_s: f64, rest_s: f64) -> Self {
        Self { name: name.into(), times: vec![RunTimes { target_s, rest_s }; runs], ..Self::default() }
    }

    /// How long the runner needs for all runs, with nobody in the way, in seconds.
    pub(crate) fn alone_s(&self) -> f64 {
        let Some((last, before)) = self.times.split_last() else { return 0.0 };
        before.iter().map(|times| times.cycle_s()).sum::<f64>() + last.target_s
    }

    /// The shortest of the runs, in seconds.
    pub(crate) fn shortest_s(&self) -> f64 {
        self.times.iter().map(|times| times.target_s).fold(f64::INFINITY, f64::min)
    }

    pub(crate) fn may_use(&self, lane: u8) -> bool {
        self.lanes.as_ref().is_none_or(|own| own.contains(&lane))
    }

    /// The lanes that are taken where the runner has this one.
    pub(crate) fn takes(&self, lane: u8) -> impl Iterator<Item = u8> {
        lane..=lane.saturating_add(self.lanes_beside)
    }

    /// Whether the runner may have this lane, with those beside it, of some lanes.
    pub(crate) fn may_have(&self, lane: u8, lanes: &[u8]) -> bool {
        self.may_use(lane) && self.takes(lane).all(|taken| lanes.contains(&taken))
    }
}
