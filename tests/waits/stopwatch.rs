//! Times what is done, in rounds.

use std::hint::black_box;
use std::time::Instant;

use crate::spell::Spell;

/// What is quicker than this is done several times in a round, in seconds.
const ROUND_S: f64 = 0.003;

/// Something that is done so many times in a round.
struct Round<F> {
    work: F,
    times: u32,
}

impl<T, F: FnMut() -> T> Round<F> {
    fn new(mut work: F) -> Self {
        // The first time meets cold caches.
        let once_s = [(); 2].map(|()| run_s(&mut work, 1)).into_iter().fold(f64::INFINITY, f64::min);
        Self { work, times: (ROUND_S / once_s.max(1e-9)).ceil().max(1.0) as u32 }
    }

    fn run_s(&mut self) -> f64 {
        run_s(&mut self.work, self.times)
    }
}

/// How long one of some times took on average, in seconds.
fn run_s<T>(work: &mut impl FnMut() -> T, times: u32) -> f64 {
    let begun = Instant::now();
    for _ in 0..times {
        black_box(work());
    }
    begun.elapsed().as_secs_f64() / f64::from(times)
}

/// How long something takes.
pub(crate) fn alone<T>(rounds: usize, work: impl FnMut() -> T) -> Spell {
    let mut round = Round::new(work);
    Spell::of((0..rounds).map(|_| round.run_s()).collect())
}

/// How long each of two takes; they take turns.
pub(crate) fn beside<A, B>(rounds: usize, ours: impl FnMut() -> A, other: impl FnMut() -> B) -> [Spell; 2] {
    let (mut ours, mut other) = (Round::new(ours), Round::new(other));
    let (ours_s, other_s) = (0..rounds).map(|_| (ours.run_s(), other.run_s())).unzip();
    [Spell::of(ours_s), Spell::of(other_s)]
}
