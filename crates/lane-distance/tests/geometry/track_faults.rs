//! Descriptions of tracks that are refused: what is wrong, and where.

use lane_distance::spec::TrackSpec;
use lane_distance::{Key, PathError, Quantity, Track, TrackFault, TrackFaultKind};

/// A sound description, to be spoiled a line at a time.
const SOUND: &str = "
name: spoiled
path:
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
lanes: 8
lane_width: 1.22
";

fn faults_of(text: &str) -> Vec<TrackFault> {
    let spec: TrackSpec = serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"));
    Track::build(&spec).expect_err("the description has a fault")
}

/// The faults of the sound description after one line is written otherwise.
fn faults_with(line: &str, instead: &str) -> Vec<TrackFault> {
    assert!(SOUND.contains(line), "there is no line `{line}`");
    faults_of(&SOUND.replacen(line, instead, 1))
}

/// The faults of the sound description with more lines at its end.
fn faults_added(lines: &str) -> Vec<TrackFault> {
    faults_of(&format!("{SOUND}{lines}"))
}

/// The fault at a value, by the keys that lead there: `path.1.radius`.
fn fault(at: &str, kind: TrackFaultKind) -> TrackFault {
    let key = |name: &str| name.parse().map_or_else(|_| Key::from(name), |index: usize| Key::from(index));
    TrackFault { at: at.split('.').map(key).collect(), kind }
}

fn out_of_range(at: &str, quantity: Quantity, value: f64, low: f64, high: f64) -> TrackFault {
    fault(at, TrackFaultKind::OutOfRange { quantity, value, low, high })
}

#[test]
fn the_sound_description_is_taken() {
    let spec: TrackSpec = serde_yaml::from_str(SOUND).expect("it is well formed");
    assert_eq!(Track::build(&spec).map(|track| track.name().to_owned()), Ok("spoiled".to_owned()));
}

#[test]
fn a_path_that_does_not_close_names_the_gap() {
    let faults = faults_with("  - straight: 84.39\n", "  - straight: 84.00\n");
    let [TrackFault { at, kind: TrackFaultKind::Path(PathError::Gap { gap_m, along_m, across_m }) }] =
        faults.as_slice()
    else {
        panic!("{faults:?}");
    };
    assert_eq!(at, &[Key::from("path")]);
    assert!((gap_m - 0.39).abs() < 1e-9, "{gap_m}");
    assert_eq!((*along_m, *across_m), (0.39, 0.0));
}

#[test]
fn a_gap_of_a_millimetre_is_allowed_and_no_more() {
    for (straight, is_sound) in [("84.3909", true), ("84.3911", false)] {
        let line = format!("  - straight: {straight}\n");
        let spoiled = SOUND.replacen("  - straight: 84.39\n", &line, 1);
        let spec: TrackSpec = serde_yaml::from_str(&spoiled).expect("it is well formed");
        assert_eq!(Track::build(&spec).is_ok(), is_sound, "{straight} m");
    }
}

#[test]
fn a_lap_turns_360_degrees() {
    let faults = faults_with("turn: 180 }", "turn: 179.5 }");
    let [TrackFault { at, kind: TrackFaultKind::Path(PathError::Turn { turn_deg }) }] = faults.as_slice()
    else {
        panic!("{faults:?}");
    };
    assert_eq!(at, &[Key::from("path")]);
    assert!((turn_deg - 359.5).abs() < 1e-9, "{turn_deg}");
}

#[test]
fn a_path_ends_with_the_home_straight() {
    let faults = faults_of("{name: arcs, path: [{radius: 40, turn: 360}], lanes: 4, lane_width: 1.22}");
    assert_eq!(faults, [fault("path", TrackFaultKind::Path(PathError::NoHomeStraight))]);
}

#[test]
fn a_piece_is_a_straight_or_an_arc() {
    for piece in ["{ straight: 84.39, radius: 36.50, turn: 180 }", "{ radius: 36.50 }", "{ turn: 180 }", "{}"]
    {
        let faults = faults_with("straight: 84.39", piece);
        assert_eq!(faults, [fault("path.1", TrackFaultKind::StraightOrArc)], "{piece}");
    }
}

#[test]
fn a_radius_is_5_to_200_m() {
    for radius in [4.99, 200.5, -36.5] {
        let faults = faults_with("radius: 36.50", &format!("radius: {radius}"));
        assert_eq!(faults, [out_of_range("path.0.radius", Quantity::Radius, radius, 5.0, 200.0)]);
    }
    let faults = faults_with("radius: 36.50", "radius: .nan");
    let is_of_nan =
        |kind: &TrackFaultKind| matches!(kind, TrackFaultKind::OutOfRange { value, .. } if value.is_nan());
    assert!(faults.len() == 1 && is_of_nan(&faults[0].kind), "{faults:?}");
}

#[test]
fn a_straight_is_1_mm_to_400_m() {
    for straight in [0.0, 401.0] {
        let faults = faults_with("straight: 84.39", &format!("straight: {straight}"));
        assert_eq!(faults, [out_of_range("path.1.straight", Quantity::Straight, straight, 0.001, 400.0)]);
    }
}

#[test]
fn a_track_has_1_to_10_lanes() {
    for lanes in [0.0, 11.0] {
        let faults = faults_with("lanes: 8", &format!("lanes: {lanes:.0}"));
        assert_eq!(faults, [out_of_range("lanes", Quantity::Lanes, lanes, 1.0, 10.0)]);
    }
}

#[test]
fn so_has_each_straight() {
    for straight in ["home_straight", "back_straight"] {
        let faults = faults_added(&format!("{straight}: {{ lanes: 12 }}\n"));
        let at = format!("{straight}.lanes");
        assert_eq!(faults, [out_of_range(&at, Quantity::Lanes, 12.0, 1.0, 10.0)]);
    }
}

#[test]
fn a_lane_is_half_a_metre_to_3_m_wide() {
    for width in [0.49, 3.01] {
        let faults = faults_with("lane_width: 1.22", &format!("lane_width: {width}"));
        assert_eq!(faults, [out_of_range("lane_width", Quantity::LaneWidth, width, 0.5, 3.0)]);
    }
    let widths = "lane_width: [1.22, 1.22, 0.2, 1.22, 1.22, 1.22, 1.22, 1.22]";
    let faults = faults_with("lane_width: 1.22", widths);
    assert_eq!(faults, [out_of_range("lane_width.2", Quantity::LaneWidth, 0.2, 0.5, 3.0)]);
}

#[test]
fn there_is_one_lane_width_or_one_for_each_lane() {
    let faults = faults_with("lane_width: 1.22", "lane_width: [1.22, 1.25]");
    assert_eq!(faults, [fault("lane_width", TrackFaultKind::WidthCount { widths: 2, lanes: 8 })]);
}

#[test]
fn every_lane_width_that_is_wrong_is_reported() {
    let faults = faults_with("lane_width: 1.22", "lane_width: [0.1, 1.22, 1.22, 9]");
    assert_eq!(
        faults,
        [
            fault("lane_width", TrackFaultKind::WidthCount { widths: 4, lanes: 8 }),
            out_of_range("lane_width.0", Quantity::LaneWidth, 0.1, 0.5, 3.0),
            out_of_range("lane_width.3", Quantity::LaneWidth, 9.0, 0.5, 3.0),
        ]
    );
}

#[test]
fn while_the_number_of_lanes_is_wrong_no_lane_is_missed() {
    for lanes in [0.0, 12.0] {
        let text = SOUND.replacen("lanes: 8", &format!("lanes: {lanes:.0}\nclosed_lanes: [8]"), 1);
        let text = text.replacen("lane_width: 1.22", "lane_width: [1.22, 1.22]", 1);
        assert_eq!(faults_of(&text), [out_of_range("lanes", Quantity::Lanes, lanes, 1.0, 10.0)]);
    }
}

#[test]
fn a_chute_is_at_most_200_m() {
    for chute in [-1.0, 201.0] {
        let faults = faults_added(&format!("home_straight: {{ chute: {chute} }}\n"));
        assert_eq!(faults, [out_of_range("home_straight.chute", Quantity::Chute, chute, 0.0, 200.0)]);
    }
}

#[test]
fn a_lane_that_is_closed_is_there() {
    let missing = || TrackFaultKind::NoLane { lane: 9, outermost: 8 };
    let faults = faults_added("closed_lanes: [9]\n");
    assert_eq!(faults, [fault("closed_lanes.0", missing())]);
    let faults = faults_added("closed_lanes: { lanes: [1, 9], reason: races }\n");
    assert_eq!(faults, [fault("closed_lanes.lanes.1", missing())]);
}

#[test]
fn a_track_has_a_name() {
    let faults = faults_with("name: spoiled", "name: ' '");
    assert_eq!(faults, [fault("name", TrackFaultKind::NoName)]);
}

#[test]
fn several_faults_are_reported_at_once() {
    let faults = faults_of(
        "
name: ''
path:
  - { radius: 2, turn: 180 }
  - straight: 84.39
  - { radius: 36.50, turn: 400 }
  - straight: 500
lanes: 8
lane_width: 0.3
home_straight: { chute: 300 }
marks:
  sets: [standart]
  own: [{ name: bare, colour: white, form: tick }]
  worn: [{ mark: finish line }]
",
    );
    let known = lane_distance::spec::MarkSet::built_in_names().collect();
    assert_eq!(
        faults,
        [
            fault("name", TrackFaultKind::NoName),
            out_of_range("home_straight.chute", Quantity::Chute, 300.0, 0.0, 200.0),
            out_of_range("lane_width", Quantity::LaneWidth, 0.3, 0.5, 3.0),
            out_of_range("path.0.radius", Quantity::Radius, 2.0, 5.0, 200.0),
            out_of_range("path.2.turn", Quantity::Turn, 400.0, 0.001, 360.0),
            out_of_range("path.3.straight", Quantity::Straight, 500.0, 0.001, 400.0),
            fault("marks.sets.0", TrackFaultKind::UnknownSet { name: "standart".to_owned(), known }),
            fault("marks.own.0", TrackFaultKind::NoRule { mark: "bare".to_owned() }),
        ]
    );
}
