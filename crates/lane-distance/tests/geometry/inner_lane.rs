//! The shortest way from an outer lane to an inner one, and the curved starts laid by it, on every
//! built-in track: checked on coordinates, by what makes a way the shortest.
//!
//! A taut string leaves the runner straight, touches the inner measure line without crossing it, and
//! follows it from there.

use lane_distance::{Course, Layout, Point, Spot, Track};

use crate::lane_number;

fn built_in() -> impl Iterator<Item = Track> {
    Track::built_in_names().map(|name| Track::built_in(name).expect("it comes with the crate"))
}

/// Places all round a lane.
fn places(layout_of: &Track, lane: u8, count: u32) -> impl Iterator<Item = Spot> {
    let lap_m = layout_of.lap_m(lane_number(lane)).expect("the lane exists");
    (0..count).map(move |n| Spot::on_oval(lane_number(lane), lap_m * f64::from(n) / f64::from(count)))
}

/// Every outer lane with every lane inside it.
fn lanes(layout: &Layout) -> impl Iterator<Item = (u8, u8)> + use<> {
    let lanes = layout.lanes_of(Course::Oval);
    (2..=lanes).flat_map(|outer| (1..outer).map(move |inner| (outer, inner)))
}

/// How far a place lies to the right of the line from one place to another.
fn right_of_m(from: Point, to: Point, place: Point) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    ((place.x - from.x) * dy - (place.y - from.y) * dx) / dx.hypot(dy)
}

#[test]
fn the_straight_part_touches_the_inner_measure_line_and_does_not_cross_it() {
    for track in built_in() {
        let layout = track.layout();
        for (outer, inner) in lanes(layout) {
            let inside: Vec<Point> = places(&track, inner, 720).map(|spot| layout.point(spot)).collect();
            for from in places(&track, outer, 97) {
                let join = layout.join(from, lane_number(inner)).expect("the lane lies further in");
                let (begins, touches) = (layout.point(from), layout.point(join.at));
                let what = format!("{} lane {outer} to {inner} from {from:?}: {join:?}", track.name());
                assert!((begins.distance(touches) - join.across_m).abs() < 1e-6, "{what}");
                // The infield is on the left; nothing of the inner line may lie on the right.
                for place in &inside {
                    let out_m = right_of_m(begins, touches, *place);
                    assert!(out_m < 1e-6, "{what} leaves {place:?} {out_m} m on the right");
                }
            }
        }
    }
}

#[test]
fn the_straight_part_runs_forwards() {
    for track in built_in() {
        let layout = track.layout();
        for (outer, inner) in lanes(layout) {
            for from in places(&track, outer, 97) {
                let join = layout.join(from, lane_number(inner)).expect("the lane lies further in");
                let (begins, touches) = (layout.point(from), layout.point(join.at));
                let heading_rad = layout.pose(join.at).heading_rad;
                let ahead_m =
                    (touches.x - begins.x) * heading_rad.cos() + (touches.y - begins.y) * heading_rad.sin();
                assert!((ahead_m - join.across_m).abs() < 1e-6, "{} {from:?}: {join:?}", track.name());
            }
        }
    }
}

#[test]
fn the_whole_way_is_the_straight_part_and_the_rest_along_the_inner_lane() {
    for track in built_in() {
        let layout = track.layout();
        for (outer, inner) in lanes(layout) {
            let lap_m = track.lap_m(lane_number(inner)).expect("the lane exists");
            for from in places(&track, outer, 97) {
                let join = layout.join(from, lane_number(inner)).expect("the lane lies further in");
                let sum_m = join.across_m + join.at.to_finish_m;
                let laps = (join.to_finish_m - sum_m) / lap_m;
                assert!((laps - laps.round()).abs() < 1e-9, "{} {from:?}: {join:?}", track.name());
                // The inner lane is the shorter way, but not by more than the width of the track.
                let abreast_m = layout.abreast(from, lane_number(inner)).to_finish_m;
                let costs_m = join.to_finish_m - abreast_m;
                let is_at_finish = from.to_finish_m == 0.0 || abreast_m == 0.0;
                assert!(
                    is_at_finish || (0.0..14.0).contains(&costs_m),
                    "{} lane {outer} to {inner} from {from:?} costs {costs_m} m: {join:?}",
                    track.name()
                );
            }
        }
    }
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
