//! Tapes in a walker's steps.

use lane_distance::Placement;

/// Adds to the words of a spot off the paint how many steps the tape is for someone with this
/// stride, to the half step.
pub(crate) fn with_strides(mut placement: Placement, stride_m: Option<f64>) -> Placement {
    if let Some(stride_m) = stride_m
        && !placement.is_on_paint()
    {
        placement.words += &format!("; {} steps", steps(placement.tape_m, stride_m));
    }
    placement
}

/// How many steps a tape is, to the half step.
///
/// ```
/// assert_eq!(session_plan::steps(-9.95, 0.85), "11½");
/// assert_eq!(session_plan::steps(1.7, 0.85), "2");
/// ```
pub fn steps(tape_m: f64, stride_m: f64) -> String {
    let halves = (tape_m.abs() / stride_m * 2.0).round() as u64;
    match (halves / 2, halves % 2) {
        (0, 1) => "½".to_owned(),
        (whole, 0) => whole.to_string(),
        (whole, _) => format!("{whole}½"),
    }
}
