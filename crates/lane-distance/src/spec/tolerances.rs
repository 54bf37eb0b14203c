//! The uncertainty of a distance.

use serde::Deserialize;

use crate::geometry::lane_number::LaneNumber;
use crate::spec::length_spec::LengthSpec;

/// How far the track may differ from its description, each as one standard deviation; a
/// track file can give its own.
///
/// Errors are taken as independent, so that they add as squares:
///
/// * a lane of number n lies n − 1 lane widths out, each wrong by `lane_width`: √(n − 1) of them;
/// * the radius is wrong by `radius`;
/// * a run that turns through an angle φ is longer by φ times how far out its lane really lies;
/// * an end off the paint is wrong by `tape`.
///
/// So a run that turns through φ in lane n, with k ends off the paint, has an uncertainty of
/// √(φ²·((n − 1)·`lane_width`² + `radius`²) + k·`tape`²).
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields, default)]
pub struct Tolerances {
    /// Of the width of each lane: 0.01 m by the Technical Rules.
    pub lane_width: LengthSpec,
    /// Of the radius of the bends: none unless the track file gives it.
    pub radius: LengthSpec,
    /// Of a tape laid along the lane's inner line: 0.02 m, common practice.
    pub tape: LengthSpec,
}

impl Default for Tolerances {
    fn default() -> Self {
        Self {
            lane_width: LengthSpec::from_metres(0.01),
            radius: LengthSpec::from_metres(0.0),
            tape: LengthSpec::from_metres(0.02),
        }
    }
}

impl Tolerances {
    /// The uncertainty of a run, in metres, plus or minus.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// use lane_distance::spec::Tolerances;
    ///
    /// // One lap of lane 8 between two painted marks.
    /// let uncertainty_m = Tolerances::default().uncertainty_m(LaneNumber::of::<8>(), std::f64::consts::TAU, 0);
    /// assert!((uncertainty_m - 0.166).abs() < 0.001);
    /// ```
    pub fn uncertainty_m(&self, lane: LaneNumber, turned_rad: f64, ends_off_paint: u8) -> f64 {
        let widths = lane.index() as f64 * self.lane_width.metres().powi(2);
        let sideways = widths + self.radius.metres().powi(2);
        let tapes = f64::from(ends_off_paint) * self.tape.metres().powi(2);
        (turned_rad.powi(2) * sideways + tapes).sqrt()
    }
}
