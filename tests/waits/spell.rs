//! How long something took.

use std::fmt;

/// How long something took in several rounds, in seconds.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spell {
    pub(crate) median_s: f64,
    least_s: f64,
    most_s: f64,
}

impl Spell {
    /// Of the times of some rounds, at least one.
    pub(crate) fn of(mut rounds_s: Vec<f64>) -> Self {
        rounds_s.sort_by(f64::total_cmp);
        let at = |place: usize| rounds_s.get(place).copied().unwrap_or(f64::NAN);
        let last = rounds_s.len().saturating_sub(1);
        Self { median_s: at(last / 2), least_s: at(0), most_s: at(last) }
    }
}

/// A unit of time that suits a time, and how many of it are a second.
fn unit(time_s: f64) -> (&'static str, f64) {
    match time_s {
        _ if time_s < 1e-6 => ("ns", 1e9),
        _ if time_s < 1e-3 => ("µs", 1e6),
        _ if time_s < 1.0 => ("ms", 1e3),
        _ => ("s", 1.0),
    }
}

/// A number with three figures, as far as it has decimals.
pub(crate) fn figures(value: f64) -> String {
    let decimals = match value {
        _ if value < 9.995 => 2,
        _ if value < 99.95 => 1,
        _ => 0,
    };
    format!("{value:.decimals$}")
}

/// A time with its unit.
pub(crate) fn time(time_s: f64) -> String {
    let (unit, in_a_second) = unit(time_s);
    format!("{} {unit}", figures(time_s * in_a_second))
}

impl fmt::Display for Spell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (_, in_a_second) = unit(self.median_s);
        let [least, most] = [self.least_s, self.most_s].map(|time_s| figures(time_s * in_a_second));
        f.pad(&format!("{} ({least}–{most})", time(self.median_s)))
    }
}
