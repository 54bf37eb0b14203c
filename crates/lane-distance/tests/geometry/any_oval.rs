//! Ovals of any size: whatever the search offers there is the distance apart, measured from the
//! coordinates along a line that is built from the dimensions alone.

use crate::any_track::{Seen, check_pair};
use crate::fixtures::for_any;
use crate::lane_number;
use crate::random_track::{Ground, any_inner_edge};
use lane_distance::Place;
use proptest::prelude::*;

fn any_oval() -> impl Strategy<Value = Ground> {
    let sets = prop_oneof![
        Just(vec!["standard"]),
        Just(vec!["standard", "club lines", "former takeover zones", "300 m hurdles"]),
        Just(vec!["small oval", "club lines"]),
        Just(vec!["yards"]),
    ];
    let widths_m = prop::collection::vec(0.9..1.5, 1..=10);
    (10.0..60.0, 5.0..150.0, widths_m, any_inner_edge(), 0.0..120.0, sets).prop_map(
        |(radius_m, straight_m, widths_m, inner_edge, chute_m, sets)| Ground {
            bend: vec![(radius_m, 180.0)],
            straight_m,
            lanes: [widths_m.len() as u8; 3],
            widths_m,
            chutes_m: [chute_m, 0.0],
            inner_edge,
            closed: Vec::new(),
            surveyed_off_m: None,
            hazards: Vec::new(),
            sets,
        },
    )
}

#[test]
fn every_pair_on_any_oval_is_the_distance_apart() {
    let cases = (any_oval(), any::<prop::sample::Index>(), prop_oneof![10.0..400.0, 10.0..10_000.0]);
    for_any(200, cases, |(ground, lane, distance_m)| {
        let lane = lane.index(ground.widths_m.len()) as u8 + 1;
        let (track, seen) = (ground.track(), Seen::new(&ground, lane));
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        prop_assert!((lap_m - seen.lap_m).abs() < 1e-6, "a lap of {lap_m} m, integrated {} m", seen.lap_m);
        let pairs = track.search(lane_number(lane), distance_m).expect("lane and distance are in range");
        prop_assert!(!pairs.is_empty(), "nothing is offered");
        pairs.iter().try_for_each(|pair| check_pair(&seen, &track, pair, Place::Anywhere))
    });
}
