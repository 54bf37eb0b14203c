//! Descriptions of tracks that are refused: what is wrong, and where.

use lane_distance::spec::TrackSpec;
use lane_distance::{Course, Key, PathError, Quantity, Track, TrackFault, TrackFaultKind};

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

/// The faults with a line of the description changed, or with one added to it.
fn faults_with(line: &str, instead: &str) -> Vec<TrackFault> {
    assert!(SOUND.contains(line), "there is no line `{line}`");
    match line {
        "" => faults_of(&format!("{SOUND}{instead}\n")),
        _ => faults_of(&SOUND.replacen(line, instead, 1)),
    }
}

/// The fault at a value, by the keys that lead there: `path.1.radius`.
pub(crate) fn fault(at: &str, kind: TrackFaultKind) -> TrackFault {
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
fn a_number_out_of_range_is_reported_with_the_range() {
    type Case = (&'static str, &'static str, &'static str, Quantity, [f64; 2], &'static [f64]);
    let cases: [Case; 8] = [
        (
            "radius: 36.50",
            "radius: #",
            "path.0.radius",
            Quantity::Radius,
            [5.0, 200.0],
            &[4.99, 200.5, -36.5],
        ),
        (
            "straight: 84.39",
            "straight: #",
            "path.1.straight",
            Quantity::Straight,
            [0.001, 400.0],
            &[0.0, 401.0],
        ),
        ("lanes: 8", "lanes: #", "lanes", Quantity::Lanes, [1.0, 10.0], &[0.0, 11.0]),
        ("lane_width: 1.22", "lane_width: #", "lane_width", Quantity::LaneWidth, [0.5, 3.0], &[0.49, 3.01]),
        (
            "lane_width: 1.22",
            "lane_width: [1.22, 1.22, #, 1.22, 1.22, 1.22, 1.22, 1.22]",
            "lane_width.2",
            Quantity::LaneWidth,
            [0.5, 3.0],
            &[0.2],
        ),
        ("", "home_straight: { lanes: # }", "home_straight.lanes", Quantity::Lanes, [1.0, 10.0], &[12.0]),
        ("", "back_straight: { lanes: # }", "back_straight.lanes", Quantity::Lanes, [1.0, 10.0], &[12.0]),
        (
            "",
            "home_straight: { chute: # }",
            "home_straight.chute",
            Quantity::Chute,
            [0.0, 200.0],
            &[-1.0, 201.0],
        ),
    ];
    for (line, instead, at, quantity, [low, high], wrong) in cases {
        for &value in wrong {
            let faults = faults_with(line, &instead.replace('#', &value.to_string()));
            assert_eq!(faults, [out_of_range(at, quantity, value, low, high)]);
        }
    }
    let faults = faults_with("radius: 36.50", "radius: .nan");
    let is_of_nan =
        |kind: &TrackFaultKind| matches!(kind, TrackFaultKind::OutOfRange { value, .. } if value.is_nan());
    assert!(faults.len() == 1 && is_of_nan(&faults[0].kind), "{faults:?}");
}

#[test]
fn a_line_that_cannot_be_is_reported_at_its_key() {
    let missing = || TrackFaultKind::NoLane { lane: 9, outermost: 8 };
    for (line, instead, at, kind) in [
        // A piece is a straight or an arc.
        (
            "straight: 84.39",
            "{ straight: 84.39, radius: 36.50, turn: 180 }",
            "path.1",
            TrackFaultKind::StraightOrArc,
        ),
        ("straight: 84.39", "{ radius: 36.50 }", "path.1", TrackFaultKind::StraightOrArc),
        ("straight: 84.39", "{ turn: 180 }", "path.1", TrackFaultKind::StraightOrArc),
        ("straight: 84.39", "{}", "path.1", TrackFaultKind::StraightOrArc),
        // There is one lane width, or one for each lane.
        (
            "lane_width: 1.22",
            "lane_width: [1.22, 1.25]",
            "lane_width",
            TrackFaultKind::WidthCount { widths: 2, lanes: 8 },
        ),
        ("", "closed_lanes: [9]", "closed_lanes.0", missing()),
        ("", "closed_lanes: { lanes: [1, 9], reason: races }", "closed_lanes.lanes.1", missing()),
        ("name: spoiled", "name: ' '", "name", TrackFaultKind::NoName),
    ] {
        assert_eq!(faults_with(line, instead), [fault(at, kind)], "{instead}");
    }
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

#[test]
fn values_that_need_no_geometry_have_ranges() {
    for (line, at, quantity, high, value) in [
        ("bearing: 360", "bearing", Quantity::Bearing, 360.0, 360.0),
        ("bearing: -1", "bearing", Quantity::Bearing, 360.0, -1.0),
        ("tolerances: { lane_width: 1.5 }", "tolerances.lane_width", Quantity::Tolerance, 1.0, 1.5),
        ("tolerances: { radius: -0.1 }", "tolerances.radius", Quantity::Tolerance, 1.0, -0.1),
        ("tolerances: { tape: 2 }", "tolerances.tape", Quantity::Tolerance, 1.0, 2.0),
        ("back_straight: { chute: 201 }", "back_straight.chute", Quantity::Chute, 200.0, 201.0),
    ] {
        assert_eq!(faults_with("", line), [out_of_range(at, quantity, value, 0.0, high)], "{line}");
    }
    for sound in ["bearing: 0", "bearing: 359.9", "tolerances: { tape: 1 }", "back_straight: { chute: 200 }"]
    {
        let spec: TrackSpec = serde_yaml::from_str(&format!("{SOUND}{sound}\n")).expect("it is well formed");
        assert!(Track::build(&spec).is_ok(), "{sound}");
    }
}

#[test]
fn a_hazard_lies_on_its_course() {
    let hazard = |ends: &str| format!("hazards: [{{ kind: gate, side: inside, {ends} }}]");
    let off = |course, from_finish_m: f64, length_m: f64| TrackFaultKind::HazardOffCourse {
        course,
        from_finish_m,
        length_m,
    };
    let lap_m = 2.0 * (84.39 + std::f64::consts::PI * 36.80);
    let back = Course::BackStraight;
    for (ends, at, kind) in [
        ("on: home straight, from: 30, to: 40", "hazards.0", TrackFaultKind::HazardEndsFirst),
        ("on: back straight, from: 90, to: 40", "hazards.0.from", off(back, 90.0, 84.39)),
        ("on: back straight, from: 40, to: -1", "hazards.0.to", off(back, -1.0, 84.39)),
        (
            "from: 30, to: 20, lanes: [3, 9]",
            "hazards.0.lanes.1",
            TrackFaultKind::NoLane { lane: 9, outermost: 8 },
        ),
        (
            "from: 30, to: 20, lanes: [0]",
            "hazards.0.lanes.0",
            TrackFaultKind::NoLane { lane: 0, outermost: 8 },
        ),
    ] {
        assert_eq!(faults_with("", &hazard(ends)), [fault(at, kind)], "{ends}");
    }
    let far = faults_with("", &hazard("from: 401, to: 20"));
    let [TrackFault { kind: TrackFaultKind::HazardOffCourse { course: Course::Oval, length_m, .. }, .. }] =
        far.as_slice()
    else {
        panic!("{far:?}");
    };
    assert!((length_m - lap_m).abs() < 1e-9);
    for sound in
        ["from: 20, to: 390", "on: home straight, from: 84, to: 0", "on: home straight, from: 40, to: 40"]
    {
        let spec: TrackSpec =
            serde_yaml::from_str(&format!("{SOUND}{}\n", hazard(sound))).expect("it is well formed");
        let track = Track::build(&spec).unwrap_or_else(|faults| panic!("{sound}: {faults:?}"));
        assert_eq!(track.hazards(), spec.hazards);
        assert!(track.with_hazards(|_| false).hazards().is_empty());
    }
    // Without a back straight nothing lies on it.
    let corner = "{ radius: 30, turn: 120 }, { straight: 60 }";
    let faults = faults_of(&format!(
        "{{ name: three, lanes: 2, lane_width: 1.22, path: [{corner}, {corner}, {corner}], {} }}",
        hazard("on: back straight, from: 30, to: 20")
    ));
    assert_eq!(faults, [fault("hazards.0.on", TrackFaultKind::NoStraight(back))]);
}

#[test]
fn a_surveyed_lap_may_differ_by_half_a_metre() {
    let computed = 2.0 * (84.39 + std::f64::consts::PI * 36.80);
    for (off_m, is_sound) in [(0.499, true), (-0.499, true), (0.501, false), (-0.501, false)] {
        let text = format!("{SOUND}surveyed_lap: {}\n", computed + off_m);
        let spec: TrackSpec = serde_yaml::from_str(&text).expect("it is well formed");
        match Track::build(&spec) {
            Ok(track) => {
                let lap_m = track.lap_m(crate::lane_number(1)).expect("it has lane 1");
                assert!(is_sound && (lap_m - computed - off_m).abs() < 1e-9, "{off_m}: {lap_m}");
            }
            Err(faults) => {
                let [TrackFault { at, kind: TrackFaultKind::SurveyedLap { surveyed_m, computed_m, most_m } }] =
                    faults.as_slice()
                else {
                    panic!("{faults:?}");
                };
                assert!(!is_sound && at == &[Key::from("surveyed_lap")], "{off_m}");
                assert!((surveyed_m - computed_m - off_m).abs() < 1e-9 && *most_m == 0.5);
            }
        }
    }
}

#[test]
fn a_radius_may_be_that_of_the_measure_line() {
    // 36.80 m at the measure line are 36.50 m at a kerb, and 36.60 m at a line.
    for (edge, lap_1_m, inner_m) in [("kerb", 36.80, 36.50), ("line", 36.80, 36.60)] {
        let text = SOUND.replace("radius: 36.50", "radius: 36.80");
        let text = format!("{text}radius_at: measure line\ninner_edge: {edge}\n");
        let spec: TrackSpec = serde_yaml::from_str(&text).expect("it is well formed");
        let track = Track::build(&spec).unwrap_or_else(|faults| panic!("{faults:?}"));
        for (lane, radius_m) in [(1, lap_1_m), (2, inner_m + 1.22 + 0.20)] {
            let lap_m = track.lap_m(crate::lane_number(lane)).expect("it has the lane");
            let expected_m = 2.0 * (84.39 + std::f64::consts::PI * radius_m);
            assert!((lap_m - expected_m).abs() < 1e-9, "{edge}, lane {lane}: {lap_m} m");
        }
    }
}
