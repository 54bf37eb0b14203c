//! The built-in tracks, against `tests/reference/tracks.csv`: World Athletics, Track and Field Facilities
//! Manual, chapter 2 (double bends from memory), and a trade sheet of line markers for the two small ovals.

use crate::lane_number;
use crate::published::{Row, rows, source};
use lane_distance::Track;
use lane_distance::spec::{InnerEdge, OneOrMany, RadiusAt, TrackSpec};

pub(crate) const TRACKS: &str = include_str!("../../../../tests/reference/tracks.csv");

/// The built-in tracks of a row.
pub(crate) fn built_in(row: &Row) -> &'static [&'static str] {
    match row["name"].as_str() {
        "400 m standard track" => &["standard", "standard-6"],
        "double bend 1" => &["double-bend-1"],
        "double bend 2" => &["double-bend-2"],
        "double bend 3" => &["double-bend-3"],
        "small oval 300 m" => &["oval-300"],
        "small oval 200 m" => &["indoor-200"],
        other => panic!("no built-in track is known for {other}"),
    }
}

fn spec(name: &str) -> TrackSpec {
    TrackSpec::built_in(name).expect("it comes with the crate")
}

fn number(text: &str) -> f64 {
    text.trim().parse().unwrap_or_else(|_| panic!("`{text}` is not a number"))
}

/// The arcs of one bend as the table writes them: `34.000 x 70 + 51.543 x 40 + 34.000 x 70`.
fn arcs(row: &Row) -> (Vec<(f64, f64)>, RadiusAt) {
    let column = &row["bend (radius_m x turn_deg)"];
    let (bend, radius_at) = match column.strip_suffix("(radius of the measure line)") {
        Some(bend) => (bend, RadiusAt::MeasureLine),
        None => (column.as_str(), RadiusAt::InnerEdge),
    };
    let arcs = bend.split('+').map(|arc| {
        let (radius, turn) = arc.split_once('x').unwrap_or_else(|| panic!("`{arc}` is not an arc"));
        (number(radius), number(turn))
    });
    (arcs.collect(), radius_at)
}

#[test]
fn a_lap_of_lane_1_is_as_long_as_published() {
    let rows = rows(TRACKS);
    assert_eq!(rows.len(), 6);
    for row in &rows {
        let published_m = number(&row["lap_at_measure_line_m"]);
        for name in built_in(row) {
            let track = Track::build(&spec(name)).unwrap_or_else(|faults| panic!("{name}: {faults:?}"));
            let lap_m = track.lap_m(lane_number(1)).expect("every track has a lane 1");
            assert!(
                (lap_m - published_m).abs() < 0.01,
                "{name}: {lap_m:.4} m, published {published_m} m ({})",
                source(row)
            );
        }
    }
}

#[test]
fn the_pieces_are_those_that_are_published() {
    for row in rows(TRACKS) {
        let (arcs, radius_at) = arcs(&row);
        let straight_m = number(&row["straight_m"]);
        for name in built_in(&row) {
            let spec = spec(name);
            let pieces: Vec<_> = spec
                .path
                .iter()
                .map(|piece| {
                    (piece.straight.map(|m| m.metres()), piece.radius.map(|m| m.metres()), piece.turn)
                })
                .collect();
            let bend = arcs.iter().map(|(radius_m, turn)| (None, Some(*radius_m), Some(*turn)));
            let half: Vec<_> = bend.chain([(Some(straight_m), None, None)]).collect();
            assert_eq!(pieces, half.repeat(2), "{name} ({})", source(&row));
            assert_eq!(spec.radius_at, radius_at, "{name} ({})", source(&row));
        }
    }
}

#[test]
fn kerb_and_lanes_are_those_that_are_published() {
    for row in rows(TRACKS) {
        for name in built_in(&row) {
            let spec = spec(name);
            assert_eq!((row["inner_edge"].as_str(), spec.inner_edge), ("kerb", InnerEdge::Kerb), "{name}");
            let OneOrMany::One(width) = spec.lane_width else {
                panic!("{name} has lanes of several widths");
            };
            assert_eq!(width.metres(), number(&row["lane_width_m"]), "{name} ({})", source(&row));
        }
    }
}

/// World Athletics, Track and Field Facilities Manual, chapter 2: 400.001 m, computed from dimensions that were
/// read; 407.038 m is a lap of lane 1 and the stagger of lane 2, from memory.
#[test]
fn lanes_1_and_2_of_the_standard_track_to_1_mm() {
    let track = Track::built_in("standard").expect("it comes with the crate");
    for (lane, published_m) in [(1, 400.001), (2, 407.038)] {
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        assert!((lap_m - published_m).abs() < 0.001, "lane {lane}: {lap_m:.4} m, published {published_m} m");
    }
}

/// 440 yd of 0.9144 m are a quarter of a mile; common practice of imperial tracks, no source.
#[test]
fn a_lap_of_the_imperial_track_is_440_yd() {
    let track = Track::built_in("yards-440").expect("it comes with the crate");
    let lap_m = track.lap_m(lane_number(1)).expect("the track has a lane 1");
    assert!((lap_m - 440.0 * 0.9144).abs() < 0.001, "{lap_m:.4} m");
}
