//! The stretches of a run that its strip shows.

/// How much of each run strips show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// All of it.
    Whole,
    /// What lies within 40 m of where somebody sets off, starts or finishes: what is looked for on the ground.
    NearEnds,
}

/// How far from an end is near, in metres.
const NEAR_M: f64 = 40.0;

/// A stretch of a run, as one part of those that show it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Part {
    /// Where it begins and ends, in metres from the start of the run.
    pub(super) ends_m: (f64, f64),
    /// Its number, from 1, and how many there are.
    pub(super) number: usize,
    pub(super) count: usize,
    /// How much of the run lies between the parts, in metres.
    pub(super) left_out_m: f64,
}

impl Part {
    /// The parts of a run that is shown from one place to another and starts between them: one, or one at each end.
    pub(super) fn all(shown_m: (f64, f64), start_m: f64, stretch: Stretch) -> Vec<Self> {
        let (from_m, to_m) = shown_m;
        let (near_start_m, near_finish_m) = (start_m + NEAR_M, to_m - NEAR_M);
        if stretch == Stretch::Whole || near_start_m >= near_finish_m {
            return vec![Self { ends_m: shown_m, number: 1, count: 1, left_out_m: 0.0 }];
        }
        let left_out_m = near_finish_m - near_start_m;
        let part = |number, ends_m| Self { ends_m, number, count: 2, left_out_m };
        vec![part(1, (from_m, near_start_m)), part(2, (near_finish_m, to_m))]
    }

    pub(super) fn length_m(&self) -> f64 {
        self.ends_m.1 - self.ends_m.0
    }

    pub(super) fn holds(&self, from_start_m: f64) -> bool {
        (self.ends_m.0..=self.ends_m.1).contains(&from_start_m)
    }

    pub(super) const fn is_first(self) -> bool {
        self.number == 1
    }

    pub(super) const fn is_last(self) -> bool {
        self.number == self.count
    }
}
