//! What nobody has ever run.

/// Distance in metres and time in seconds that nobody has run it in.
///
/// The best times of anybody over each distance, from memory, with a margin of three to five per cent for what may
/// yet come, for starts without a gun and for a coach's watch. No source; they only have to part a slip of the pen from
/// a target.
const FASTEST: [(f64, f64); 14] = [
    (10.0, 1.5),
    (20.0, 2.5),
    (30.0, 3.4),
    (60.0, 5.9),
    (100.0, 9.2),
    (200.0, 18.5),
    (400.0, 42.0),
    (800.0, 98.0),
    (1_000.0, 128.0),
    (1_500.0, 200.0),
    (3_000.0, 426.0),
    (5_000.0, 735.0),
    (10_000.0, 1_530.0),
    (42_195.0, 7_000.0),
];

/// The highest speed that anybody has been seen to run at, with the same margin, in metres a second.
const TOP_M_PER_S: f64 = 12.9;

/// A speed that is a slip of the pen whoever insists on it, in metres a second: ten times that of the fastest.
pub(crate) const IMPOSSIBLE_M_PER_S: f64 = 120.0;

/// Slower than this is not running, nor walking, in metres a second; common practice, no source.
const SLOWEST_M_PER_S: f64 = 1.0;

/// The time under which nobody has run a distance from a standing start, in seconds.
pub(crate) fn fastest_s(distance_m: f64) -> f64 {
    let (first, last) = (FASTEST[0], FASTEST[FASTEST.len() - 1]);
    let pair = FASTEST.windows(2).find(|pair| distance_m <= pair[1].0);
    match pair {
        _ if distance_m <= first.0 => first.1 * distance_m / first.0,
        Some(pair) => power_law(pair[0], pair[1], distance_m),
        None => last.1 * distance_m / last.0,
    }
}

/// The time under which nobody has run a distance that begins at full speed, in seconds.
pub(crate) fn fastest_flying_s(distance_m: f64) -> f64 {
    distance_m / TOP_M_PER_S
}

/// The time over which a distance is not run, in seconds.
pub(crate) fn slowest_s(distance_m: f64) -> f64 {
    distance_m / SLOWEST_M_PER_S
}

/// The time over a distance on the power law through two times, each after its distance: t = t₁·(d / d₁)^k with
/// k = ln(t₂ / t₁) / ln(d₂ / d₁), a straight line where both axes are logarithmic.
pub(crate) fn power_law((from_m, from_s): (f64, f64), (to_m, to_s): (f64, f64), distance_m: f64) -> f64 {
    let exponent = libm::log(to_s / from_s) / libm::log(to_m / from_m);
    from_s * libm::pow(distance_m / from_m, exponent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_limit_grows_with_the_distance_and_the_speed_falls_from_200_m_on() {
        let distances: Vec<f64> = (1..=500).map(|n| f64::from(n) * 100.0).collect();
        for pair in distances.windows(2) {
            assert!(fastest_s(pair[0]) < fastest_s(pair[1]), "{pair:?}");
            let speed = |metres: f64| metres / fastest_s(metres);
            assert!(pair[0] < 200.0 || speed(pair[0]) >= speed(pair[1]) - 1e-9, "{pair:?}");
        }
    }

    #[test]
    fn times_that_have_been_run_are_within_it() {
        // Championship times, rounded up.
        for (metres, seconds) in [(60.0, 6.4), (100.0, 9.6), (150.0, 14.4), (200.0, 19.2), (300.0, 30.7)]
            .into_iter()
            .chain([(400.0, 43.1), (600.0, 72.9), (800.0, 101.0), (1_000.0, 132.0), (1_500.0, 206.0)])
            .chain([(2_000.0, 283.2), (3_000.0, 437.6), (5_000.0, 755.4), (10_000.0, 1_571.0)])
        {
            assert!(fastest_s(metres) < seconds && seconds < 1.1 * fastest_s(metres), "{metres} m");
        }
    }
}
