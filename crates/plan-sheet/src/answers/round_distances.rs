//! The distances that people train over.

/// The distances that people train over, in metres: for these a line says whether they start or finish there.
pub const ROUND_DISTANCES_M: [f64; 22] = [
    50.0, 60.0, 80.0, 100.0, 110.0, 120.0, 150.0, 200.0, 250.0, 300.0, 350.0, 400.0, 500.0, 600.0, 800.0,
    1000.0, 1200.0, 1500.0, 1600.0, 2000.0, 3000.0, 5000.0,
];

/// The one of them that is nearest to a distance, in metres.
///
/// ```
/// assert_eq!(plan_sheet::nearest_round_m(207.04), 200.0);
/// ```
pub fn nearest_round_m(distance_m: f64) -> f64 {
    let off_m = |round_m: f64| (round_m - distance_m).abs();
    ROUND_DISTANCES_M
        .into_iter()
        .fold(ROUND_DISTANCES_M[0], |best, round| if off_m(round) < off_m(best) { round } else { best })
}
