//! The shortest way from an outer lane to an inner one, and the curved starts laid by it, on every
//! built-in track: checked on coordinates, by what makes a way the shortest.
//!
//! A taut string leaves the runner straight, touches the inner measure line without crossing it, and
//! follows it from there.

use lane_distance::{Course, Join, LaneNumber, Point, Spot, Track};

use crate::fixtures::built_in;
use crate::lane_number;

/// Places all round a lane.
fn places(layout_of: &Track, lane: u8, count: u32) -> impl Iterator<Item = Spot> {
    let lap_m = layout_of.lap_m(lane_number(lane)).expect("the lane exists");
    (0..count).map(move |n| Spot::on_oval(lane_number(lane), lap_m * f64::from(n) / f64::from(count)))
}

/// Calls `look` with every way from an outer lane to one inside it, on every built-in track.
fn for_every_join(mut look: impl FnMut(&Track, Spot, LaneNumber, Join)) {
    for track in built_in() {
        for outer in 2..=track.layout().lanes_of(Course::Oval) {
            for inner in LaneNumber::first(outer - 1) {
                for from in places(&track, outer, 97) {
                    let join = track.layout().join(from, inner).expect("the lane lies further in");
                    look(&track, from, inner, join);
                }
            }
        }
    }
}

/// How far a place lies to the right of the line from one place to another.
fn right_of_m(from: Point, to: Point, place: Point) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    ((place.x - from.x) * dy - (place.y - from.y) * dx) / dx.hypot(dy)
}

#[test]
fn the_straight_part_touches_the_inner_measure_line_and_does_not_cross_it() {
    for_every_join(|track, from, inner, join| {
        let layout = track.layout();
        let (begins, touches) = (layout.point(from), layout.point(join.at));
        let what = || format!("{} to lane {inner} from {from:?}: {join:?}", track.name());
        assert!((begins.distance(touches) - join.across_m).abs() < 1e-6, "{}", what());
        // The infield is on the left; nothing of the inner line may lie on the right.
        for place in places(track, inner.get(), 720).map(|spot| layout.point(spot)) {
            let out_m = right_of_m(begins, touches, place);
            assert!(out_m < 1e-6, "{} leaves {place:?} {out_m} m on the right", what());
        }
    });
}

#[test]
fn the_straight_part_runs_forwards() {
    for_every_join(|track, from, _, join| {
        let (begins, touches) = (track.point(from), track.layout().pose(join.at));
        let (sin, cos) = touches.heading_rad.sin_cos();
        let ahead_m = (touches.point.x - begins.x) * cos + (touches.point.y - begins.y) * sin;
        assert!((ahead_m - join.across_m).abs() < 1e-6, "{} {from:?}: {join:?}", track.name());
    });
}

#[test]
fn the_whole_way_is_the_straight_part_and_the_rest_along_the_inner_lane() {
    for_every_join(|track, from, inner, join| {
        let lap_m = track.lap_m(inner).expect("the lane exists");
        let sum_m = join.across_m + join.at.to_finish_m;
        let laps = (join.to_finish_m - sum_m) / lap_m;
        assert!((laps - laps.round()).abs() < 1e-9, "{} {from:?}: {join:?}", track.name());
        // The inner lane is the shorter way, but not by more than the width of the track.
        let abreast_m = track.layout().abreast(from, inner).to_finish_m;
        let costs_m = join.to_finish_m - abreast_m;
        let is_at_finish = from.to_finish_m == 0.0 || abreast_m == 0.0;
        assert!(
            is_at_finish || (0.0..14.0).contains(&costs_m),
            "{} to lane {inner} from {from:?} costs {costs_m} m: {join:?}",
            track.name()
        );
    });
}

#[test]
fn all_who_start_on_a_curved_line_have_the_same_way_to_run() {
    for track in built_in() {
        let layout = track.layout();
        let lap_m = track.lap_m(lane_number(1)).expect("the lane exists");
        for start in places(&track, 1, 61) {
            for lane in 2..=layout.lanes_of(Course::Oval) {
                let spot = layout.curved_start(lane_number(1), start.to_finish_m, lane_number(lane));
                let spot = spot.unwrap_or_else(|| panic!("{} lane {lane}: no curve", track.name()));
                let way = layout.join(spot, lane_number(1)).expect("lane 1 lies further in");
                let differs_m = (way.to_finish_m - start.to_finish_m).rem_euclid(lap_m);
                let differs_m = differs_m.min(lap_m - differs_m);
                assert!(differs_m < 1e-6, "{} {start:?} lane {lane}: {differs_m} m", track.name());
                // A curve sweeps forwards a little from lane to lane, and never back round the lap.
                let ahead_m = layout.past_m(layout.abreast(start, lane_number(lane)), spot);
                assert!(
                    (-1e-6..30.0).contains(&ahead_m),
                    "{} {start:?} lane {lane}: {ahead_m} m",
                    track.name()
                );
            }
        }
    }
}
