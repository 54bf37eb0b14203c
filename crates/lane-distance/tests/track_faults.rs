//! Descriptions of tracks that are refused: what is said, and of which place.

use lane_distance::{Fault, Key, Track, TrackSpec};

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

fn faults_of(text: &str) -> Vec<Fault> {
    let spec: TrackSpec = serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"));
    Track::build(&spec).expect_err("the description has a fault")
}

/// The faults of the sound description after one line is written otherwise.
fn faults_with(line: &str, instead: &str) -> Vec<Fault> {
    assert!(SOUND.contains(line), "there is no line `{line}`");
    faults_of(&SOUND.replacen(line, instead, 1))
}

/// The faults of the sound description with more lines at its end.
fn faults_added(lines: &str) -> Vec<Fault> {
    faults_of(&format!("{SOUND}{lines}"))
}

/// Asserts that there is one fault, which reads like this: its place, a colon, a sentence.
fn assert_fault(faults: &[Fault], says: &str) {
    let said: Vec<String> = faults.iter().map(Fault::to_string).collect();
    assert_eq!(said, [says]);
}

/// The way to a value, as the keys that lead there.
fn at(names: &[&str]) -> Vec<Key> {
    let key = |name: &&str| name.parse().map_or_else(|_| Key::from(*name), |index: usize| Key::from(index));
    names.iter().map(key).collect()
}

#[test]
fn the_sound_description_is_taken() {
    let spec: TrackSpec = serde_yaml::from_str(SOUND).expect("it is well formed");
    assert_eq!(Track::build(&spec).map(|track| track.name().to_owned()), Ok("spoiled".to_owned()));
}

#[test]
fn a_path_that_does_not_close_names_the_gap() {
    let faults = faults_with("  - straight: 84.39\n", "  - straight: 84.00\n");
    assert_eq!(faults[0].at, at(&["path"]));
    assert_fault(
        &faults,
        "path: the path does not close: after a whole lap it ends 0.390 m from where it began \
         (+0.390 m along the home straight, +0.000 m across); the most allowed is 0.001 m",
    );
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
    assert_eq!(faults[0].at, at(&["path"]));
    assert_fault(&faults, "path: the arcs of the path turn 359.5000° in all; a lap turns exactly 360°");
}

#[test]
fn a_path_ends_with_the_home_straight() {
    let faults = faults_of("{name: arcs, path: [{radius: 40, turn: 360}], lanes: 4, lane_width: 1.22}");
    assert_fault(&faults, "path: the last piece of the path is the home straight, and must be a straight");
}

#[test]
fn a_piece_is_a_straight_or_an_arc() {
    for piece in ["{ straight: 84.39, radius: 36.50, turn: 180 }", "{ radius: 36.50 }", "{ turn: 180 }", "{}"]
    {
        let faults = faults_with("straight: 84.39", piece);
        assert_eq!(faults[0].at, at(&["path", "1"]), "{piece}");
        assert_fault(&faults, "path[1]: a piece of the path is either a straight or an arc");
        let help = "write `- straight: 84.39`, or `- { radius: 36.50, turn: 180 }`";
        assert_eq!(faults[0].help.as_deref(), Some(help));
    }
}

#[test]
fn a_radius_is_5_to_200_m() {
    for (radius, says) in [
        ("4.99", "path[0].radius: a radius of 4.99 m is out of range: 5 m to 200 m"),
        ("200.5", "path[0].radius: a radius of 200.5 m is out of range: 5 m to 200 m"),
        ("-36.5", "path[0].radius: a radius of -36.5 m is out of range: 5 m to 200 m"),
        (".nan", "path[0].radius: a radius of NaN m is out of range: 5 m to 200 m"),
    ] {
        let faults = faults_with("radius: 36.50", &format!("radius: {radius}"));
        assert_eq!(faults[0].at, at(&["path", "0", "radius"]));
        assert_fault(&faults, says);
    }
}

#[test]
fn a_straight_is_1_mm_to_400_m() {
    for (straight, says) in [
        ("0", "path[1].straight: a straight of 0 m is out of range: 0.001 m to 400 m"),
        ("401", "path[1].straight: a straight of 401 m is out of range: 0.001 m to 400 m"),
    ] {
        let faults = faults_with("straight: 84.39", &format!("straight: {straight}"));
        assert_eq!(faults[0].at, at(&["path", "1", "straight"]));
        assert_fault(&faults, says);
    }
}

#[test]
fn a_track_has_1_to_10_lanes() {
    for (lanes, says) in [
        ("0", "lanes: 0 lanes are out of range: a track has 1 to 10"),
        ("11", "lanes: 11 lanes are out of range: a track has 1 to 10"),
    ] {
        let faults = faults_with("lanes: 8", &format!("lanes: {lanes}"));
        assert_eq!(faults[0].at, at(&["lanes"]));
        assert_fault(&faults, says);
    }
}

#[test]
fn so_has_each_straight() {
    for straight in ["home_straight", "back_straight"] {
        let faults = faults_added(&format!("{straight}: {{ lanes: 12 }}\n"));
        assert_eq!(faults[0].at, at(&[straight, "lanes"]));
        assert_fault(&faults, &format!("{straight}.lanes: 12 lanes are out of range: a track has 1 to 10"));
    }
}

#[test]
fn a_lane_is_half_a_metre_to_3_m_wide() {
    for (width, says) in [
        ("0.49", "lane_width: a lane width of 0.49 m is out of range: 0.5 m to 3 m"),
        ("3.01", "lane_width: a lane width of 3.01 m is out of range: 0.5 m to 3 m"),
    ] {
        let faults = faults_with("lane_width: 1.22", &format!("lane_width: {width}"));
        assert_eq!(faults[0].at, at(&["lane_width"]));
        assert_fault(&faults, says);
    }
    let widths = "lane_width: [1.22, 1.22, 0.2, 1.22, 1.22, 1.22, 1.22, 1.22]";
    let faults = faults_with("lane_width: 1.22", widths);
    assert_eq!(faults[0].at, at(&["lane_width", "2"]));
    assert_fault(&faults, "lane_width[2]: a lane width of 0.2 m is out of range: 0.5 m to 3 m");
}

#[test]
fn there_is_one_lane_width_or_one_for_each_lane() {
    let faults = faults_with("lane_width: 1.22", "lane_width: [1.22, 1.25]");
    assert_eq!(faults[0].at, at(&["lane_width"]));
    assert_fault(&faults, "lane_width: 2 lane widths are given for 8 lanes");
}

#[test]
fn every_lane_width_that_is_wrong_is_told() {
    let faults = faults_with("lane_width: 1.22", "lane_width: [0.1, 1.22, 1.22, 9]");
    let said: Vec<String> = faults.iter().map(Fault::to_string).collect();
    assert_eq!(
        said,
        [
            "lane_width: 4 lane widths are given for 8 lanes",
            "lane_width[0]: a lane width of 0.1 m is out of range: 0.5 m to 3 m",
            "lane_width[3]: a lane width of 9 m is out of range: 0.5 m to 3 m",
        ]
    );
}

#[test]
fn while_the_number_of_lanes_is_wrong_no_lane_is_missed() {
    for lanes in ["0", "12"] {
        let text = SOUND.replacen("lanes: 8", &format!("lanes: {lanes}\nclosed_lanes: [8]"), 1);
        let text = text.replacen("lane_width: 1.22", "lane_width: [1.22, 1.22]", 1);
        let says = format!("lanes: {lanes} lanes are out of range: a track has 1 to 10");
        assert_fault(&faults_of(&text), &says);
    }
}

#[test]
fn a_chute_is_at_most_200_m() {
    for chute in ["-1", "201"] {
        let faults = faults_added(&format!("home_straight: {{ chute: {chute} }}\n"));
        assert_eq!(faults[0].at, at(&["home_straight", "chute"]));
        let says = format!("home_straight.chute: a chute of {chute} m is out of range: 0 m to 200 m");
        assert_fault(&faults, &says);
    }
}

#[test]
fn a_lane_that_is_closed_is_there() {
    let faults = faults_added("closed_lanes: [9]\n");
    assert_fault(&faults, "closed_lanes[0]: there is no lane 9: the track has lanes 1 to 8");
    let faults = faults_added("closed_lanes: { lanes: [1, 9], reason: races }\n");
    assert_fault(&faults, "closed_lanes.lanes[1]: there is no lane 9: the track has lanes 1 to 8");
}

#[test]
fn a_track_has_a_name() {
    let faults = faults_with("name: spoiled", "name: ' '");
    assert_eq!(faults[0].at, at(&["name"]));
    assert_fault(&faults, "name: the track has no name");
}

#[test]
fn several_faults_are_told_at_once() {
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
    let said: Vec<String> = faults.iter().map(Fault::to_string).collect();
    assert_eq!(
        said,
        [
            "name: the track has no name",
            "home_straight.chute: a chute of 300 m is out of range: 0 m to 200 m",
            "lane_width: a lane width of 0.3 m is out of range: 0.5 m to 3 m",
            "path[0].radius: a radius of 2 m is out of range: 5 m to 200 m",
            "path[2].turn: a turn of 400° is out of range: 0.001° to 360°",
            "path[3].straight: a straight of 500 m is out of range: 0.001 m to 400 m",
            "marks.sets[0]: there is no mark set `standart`",
            "marks.own[0]: nothing says where the mark `bare` is painted",
        ]
    );
}
