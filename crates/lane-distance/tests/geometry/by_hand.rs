//! The 400 m standard track worked out with elementary geometry: World Athletics, Track and Field
//! Facilities Manual, chapter 2.

use std::f64::consts::PI;

/// Length of each straight.
pub(crate) const STRAIGHT_M: f64 = 84.39;

/// Radius of a lane's measure line on the bends: 36.50 m to the kerb, lanes of 1.22 m.
pub(crate) fn radius_m(lane: u8) -> f64 {
    36.50 + if lane == 1 { 0.30 } else { f64::from(lane - 1) * 1.22 + 0.20 }
}

/// A lap of a lane.
pub(crate) fn lap_m(lane: u8) -> f64 {
    2.0 * (STRAIGHT_M + PI * radius_m(lane))
}

/// The shortest way from a place in a lane to lane 1's measure line and on along it to the finish:
/// a tangent from the place to the bend, and the rest of the lap.
///
/// From a place at distance d from the centre of a circle of radius ρ, the tangent is √(d² - ρ²) long,
/// and touches the circle acos(ρ / d) further round than the place itself lies.
pub(crate) fn way_in_lane_1_m(lane: u8, to_finish_m: f64) -> f64 {
    let (radius_m, inside_m) = (radius_m(lane), radius_m(1));
    let bend_m = PI * radius_m;
    let from_finish_m = lap_m(lane) - to_finish_m;
    let half_m = STRAIGHT_M / 2.0;
    // Coordinates from the centre of the infield, the finish line at x = +half a straight.
    let (x, y) = if from_finish_m <= bend_m {
        let angle = from_finish_m / radius_m - PI / 2.0;
        (half_m + radius_m * angle.cos(), radius_m * angle.sin())
    } else if from_finish_m <= bend_m + STRAIGHT_M {
        (half_m - (from_finish_m - bend_m), radius_m)
    } else if from_finish_m <= 2.0 * bend_m + STRAIGHT_M {
        let angle = (from_finish_m - bend_m - STRAIGHT_M) / radius_m + PI / 2.0;
        (-half_m + radius_m * angle.cos(), radius_m * angle.sin())
    } else {
        (half_m - to_finish_m, -radius_m)
    };
    let tangent = |centre_x: f64| {
        let (dx, dy) = (x - centre_x, y);
        let away_m = dx.hypot(dy);
        let touches_rad = dy.atan2(dx) + (inside_m / away_m).acos();
        let across_m = (away_m * away_m - inside_m * inside_m).max(0.0).sqrt();
        (across_m, touches_rad)
    };
    // The first bend turns from -90° to 90°; a tangent that touches it beyond belongs to the second.
    let (across_m, touches_rad) = tangent(half_m);
    if from_finish_m <= bend_m && touches_rad <= PI / 2.0
        || from_finish_m > 2.0 * bend_m + STRAIGHT_M && touches_rad > -PI / 2.0
    {
        let rest_m = inside_m * (PI / 2.0 - touches_rad) + 2.0 * STRAIGHT_M + PI * inside_m;
        return across_m + rest_m;
    }
    let (across_m, touches_rad) = tangent(-half_m);
    across_m + inside_m * (1.5 * PI - touches_rad.rem_euclid(2.0 * PI)) + STRAIGHT_M
}
