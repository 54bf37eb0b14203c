//! What the search offers where a track has so few marks that every pair can be worked out by hand.
//!
//! The ground is the 400 m standard track, lane 1: a lap of 2 · (84.39 + π · 36.80) m, the second bend from 200.0 m to
//! 84.39 m before the finish, and a home straight of 113 m with its chute.

use lane_distance::{Course, Place, SearchError, Track};

use crate::by_hand::{STRAIGHT_M, lap_m};
use crate::fixtures::standard_with;
use crate::lane_number;

const OVAL: Place = Place::On(Course::Oval);

/// The standard track with these marks and no others.
pub(crate) fn track_with_only(marks: &[&str]) -> Track {
    let own = marks.iter().map(|mark| format!("  - {{ {mark} }}\n")).collect::<String>();
    let own = if own.is_empty() { "own: []".to_owned() } else { format!("own:\n{own}") };
    let marks = format!("sets: []\n{own}");
    standard_with(|spec| {
        spec.marks = serde_yaml::from_str(&marks).unwrap_or_else(|error| panic!("{error}: {marks}"));
    })
}

/// A white line across the lane.
fn line(name: &str, rule: &str) -> String {
    format!("name: {name}, colour: white, form: line across, {rule}")
}

fn tick(name: &str, rule: &str) -> String {
    format!("name: {name}, colour: green, form: tick, {rule}")
}

fn track_of(marks: &[String]) -> Track {
    track_with_only(&marks.iter().map(String::as_str).collect::<Vec<_>>())
}

/// Asserts that lane 1 offers exactly these starts and finishes, best first, in metres to the finish.
fn assert_offers(track: &Track, place: Place, distance_m: f64, expected: &[(f64, f64)]) {
    let pairs = track.search_at(place, lane_number(1), distance_m).expect("the distance fits");
    let found: Vec<_> = pairs.iter().map(|pair| (pair.start.to_finish_m, pair.finish.to_finish_m)).collect();
    let is_near = |(a, b): (&(f64, f64), &(f64, f64))| (a.0 - b.0).abs() < 1e-6 && (a.1 - b.1).abs() < 1e-6;
    assert!(
        found.len() == expected.len() && found.iter().zip(expected).all(is_near),
        "{distance_m} m, {place}: {found:?}, not {expected:?}"
    );
}

#[test]
fn on_the_oval_paint_goes_before_tape_and_nobody_finishes_just_past_the_line() {
    let marks =
        [line("far", "to_finish: 250"), line("near", "to_finish: 100"), tick("tick", "to_finish: 130")];
    let (track, lap_m) = (track_of(&marks), lap_m(1));
    for place in [OVAL, Place::Against(Course::Oval), Place::Anywhere] {
        // From the far line to the near one; to the finish line; from the near line past the finish.
        assert_offers(&track, place, 150.0, &[(250.0, 100.0), (150.0, 0.0), (100.0, lap_m - 50.0)]);
        assert_offers(&track, place, 120.5, &[(120.5, 0.0), (250.0, 129.5), (100.0, lap_m - 20.5)]);
        // A finish 19.50 m or 15 m past the finish line is in the way of those who stop there.
        assert_offers(&track, place, 119.5, &[(119.5, 0.0), (250.0, 130.5)]);
        assert_offers(&track, place, 115.0, &[(115.0, 0.0), (250.0, 135.0)]);
        // A tick is a finish, and no start.
        assert_offers(&track, place, 120.005, &[(250.0, 129.995), (120.005, 0.0), (100.0, lap_m - 20.005)]);
        assert_offers(&track, place, 250.0, &[(250.0, 0.0), (100.0, lap_m - 150.0)]);
        // A lap more, and both go round.
        let long_m = 150.0 + lap_m;
        assert_offers(&track, place, long_m, &[(250.0, 100.0), (150.0, 0.0), (100.0, lap_m - 50.0)]);
    }
}

#[test]
fn the_nearest_mark_may_lie_beyond_the_finish_line() {
    let lap_m = lap_m(1);
    // The tape from the tick is 35 m across the finish line for the one, 60 m for the other.
    let marks = [line("lines", "to_finish: [250, 345]"), tick("tick", "to_finish: 5")];
    assert_offers(&track_of(&marks), OVAL, 280.0, &[(280.0, 0.0), (250.0, lap_m - 30.0), (345.0, 65.0)]);
    // The tick lies past the finish line: 15 m for the one, 70 m for the other.
    let marks = [line("lines", "to_finish: [290, 345]"), tick("tick", "to_finish: 395")];
    assert_offers(&track_of(&marks), OVAL, 280.0, &[(280.0, 0.0), (290.0, 10.0), (345.0, 65.0)]);
}

#[test]
fn on_the_home_straight_a_run_ends_on_the_finish_line_or_on_paint() {
    let lines = line("lines", "before_finish: [0, 30, 100]");
    let track = track_of(&[lines]);
    let there = Place::On(Course::HomeStraight);
    assert_offers(&track, there, 70.0, &[(100.0, 30.0), (70.0, 0.0)]);
    assert_offers(&track, there, 100.0, &[(100.0, 0.0)]);
    assert_offers(&track, there, 30.0, &[(30.0, 0.0), (100.0, 70.0)]);
    assert_offers(&track, there, 113.0, &[(113.0, 0.0)]);
    // The other way there is no finish line to end on, and the start is at the smaller distance.
    let back = Place::Against(Course::HomeStraight);
    assert_offers(&track, back, 70.0, &[(30.0, 100.0), (0.0, 70.0)]);
    assert_offers(&track, back, 60.0, &[(30.0, 90.0), (0.0, 60.0)]);
    assert_offers(&track, back, 100.0, &[(0.0, 100.0)]);
    assert_offers(&track, back, 113.0, &[(0.0, 113.0)]);
    let pairs = track.search_at(back, lane_number(1), 70.0).expect("it fits");
    assert!(pairs.iter().all(|pair| pair.against));
}

#[test]
fn where_a_place_leaves_no_room_a_run_ends_on_paint_or_begins_with_the_place() {
    let there = Place::On(Course::BackStraight);
    let with_line =
        |to_end_m: f64| track_of(&[line("line", &format!("on: back straight, before_finish: {to_end_m}"))]);
    let track = with_line(80.0);
    assert_offers(&track, there, 70.0, &[(80.0, 10.0)]);
    assert_offers(&track, there, 80.0, &[(80.0, 0.0)]);
    assert_offers(&track, there, 83.0, &[(STRAIGHT_M, STRAIGHT_M - 83.0)]);
    assert_offers(&track, there, STRAIGHT_M, &[(STRAIGHT_M, 0.0)]);
    let back = Place::Against(Course::BackStraight);
    assert_offers(&track, back, 70.0, &[(10.0, 80.0)]);
    assert_offers(&track, back, 82.0, &[(0.0, 82.0)]);
    assert_offers(&with_line(5.0), there, 70.0, &[(75.0, 5.0)]);
}

#[test]
fn a_run_on_a_bend_stays_on_it() {
    let (lap_m, bend_m) = (lap_m(1), std::f64::consts::PI * 36.80);
    let place = Place::Bend;
    let second_m = STRAIGHT_M + bend_m;
    let track = track_of(&[line("line", "to_finish: 190"), tick("tick", "to_finish: 100")]);
    assert_offers(&track, place, 90.0, &[(190.0, 100.0)]);
    assert_offers(&track, place, 80.0, &[(190.0, 110.0)]);
    assert_offers(&track, place, 105.0, &[(190.0, 85.0)]);
    // From 190 m there are 105.61 m left on the bend, and 99.99 m end on the tick.
    assert_offers(&track, place, 106.0, &[(second_m, second_m - 106.0), (0.0, lap_m - 106.0)]);
    let ticked = track_of(&[tick("tick", "to_finish: 100")]);
    assert_offers(&ticked, place, 99.0, &[(199.0, 100.0)]);
    // Without paint, from the beginning of either bend.
    let bare = track_with_only(&[]);
    for metres in [10.0, 50.0, 115.6, bend_m] {
        assert_offers(&bare, place, metres, &[(second_m, second_m - metres), (0.0, lap_m - metres)]);
    }
    let error = bare.search_at(place, lane_number(1), 116.0).expect_err("it is too long");
    assert_eq!(
        error.to_string(),
        "116 m does not fit on a bend in lane 1; the longest that fits there is 115.61 m"
    );
}

#[test]
fn a_finish_that_nearly_meets_a_mark_is_no_pair() {
    let track = track_of(&[line("lines", "to_finish: [250, 320]")]);
    // To the centimetre it is one; up to the width of the paint it is none, nor a finish beside the paint.
    assert_offers(&track, OVAL, 70.0, &[(320.0, 250.0), (70.0, 0.0), (250.0, 180.0)]);
    assert_offers(&track, OVAL, 70.005, &[(320.0, 249.995), (70.005, 0.0), (250.0, 179.995)]);
    assert_offers(&track, OVAL, 70.03, &[(70.03, 0.0), (250.0, 179.97)]);
    assert_offers(&track, OVAL, 70.08, &[(70.08, 0.0), (320.0, 249.92), (250.0, 179.92)]);
}

#[test]
fn a_trap_starts_only_the_run_to_the_finish_line_and_ends_none() {
    let trap = format!("{}, trap: it looks like another", line("trap", "to_finish: 150"));
    let track = track_of(&[trap, line("line", "to_finish: 320")]);
    let to_line = track.search_at(OVAL, lane_number(1), 150.0).expect("it fits");
    assert!(to_line[0].start_reading.is_on_paint(), "{to_line:?}");
    assert_offers(&track, OVAL, 150.0, &[(150.0, 0.0), (320.0, 170.0)]);
    assert_offers(&track, OVAL, 100.0, &[(100.0, 0.0), (320.0, 220.0)]);
    assert_offers(&track, OVAL, 170.0, &[(170.0, 0.0)]);
}

#[test]
fn two_lines_that_share_their_paint_are_one_start() {
    let track = track_of(&[line("lines", "to_finish: [250, 250.04]")]);
    // The tape to the finish is shorter by 4 cm from the one farther out.
    assert_offers(&track, OVAL, 110.0, &[(110.0, 0.0), (250.04, 140.04)]);
    let apart = track_of(&[line("lines", "to_finish: [250, 250.06]")]);
    assert_offers(&apart, OVAL, 110.0, &[(110.0, 0.0), (250.06, 140.06), (250.0, 140.0)]);
}

#[test]
fn of_marks_at_one_place_the_one_that_is_easiest_to_find_counts() {
    let yellow = |name: &str, to_finish_m: f64| {
        format!("name: {name}, colour: yellow, form: line across, to_finish: {to_finish_m}")
    };
    // A white line counts before a yellow one, whatever the tape at the other end.
    let track = track_of(&[yellow("under", 300.0), line("over", "to_finish: 300"), yellow("short", 200.0)]);
    assert_offers(&track, OVAL, 130.0, &[(130.0, 0.0), (300.0, 170.0), (200.0, 70.0)]);
    let plain = track_of(&[yellow("under", 200.0), yellow("short", 300.0)]);
    assert_offers(&plain, OVAL, 130.0, &[(130.0, 0.0), (300.0, 170.0), (200.0, 70.0)]);
    let track = track_of(&[yellow("far", 300.0), yellow("under", 200.0), line("over", "to_finish: 200")]);
    assert_offers(&track, OVAL, 130.0, &[(130.0, 0.0), (200.0, 70.0), (300.0, 170.0)]);
}

#[test]
fn a_run_along_the_home_straight_is_found_there_and_not_again_on_the_oval() {
    let track = standard_with(|_| ());
    for metres in [60.0, 80.0, STRAIGHT_M, STRAIGHT_M + 0.03] {
        let pairs = track.search(lane_number(4), metres).expect("it fits");
        let to_line = pairs.iter().filter(|pair| pair.finish.to_finish_m == 0.0);
        let courses: Vec<_> = to_line.map(|pair| pair.start.course).collect();
        assert_eq!(courses, [Course::HomeStraight], "{metres} m");
    }
    // What begins on the bend is another run than one out of the chute.
    let pairs = track.search(lane_number(4), STRAIGHT_M + 0.07).expect("it fits");
    let to_line = pairs.iter().filter(|pair| pair.finish.to_finish_m == 0.0).count();
    assert_eq!(to_line, 2);
    let lines = track_of(&[line("lines", "before_finish: [80, 20]")]);
    let pairs = lines.search(lane_number(1), 60.0).expect("it fits");
    let found: Vec<_> = pairs.iter().map(|pair| (pair.start.course, pair.start.to_finish_m)).collect();
    assert_eq!(found[0], (Course::HomeStraight, 80.0), "{found:?}");
    assert_eq!(found.iter().filter(|(_, at_m)| *at_m == 80.0).count(), 1, "{found:?}");
}

#[test]
fn a_place_that_is_not_there_is_refused() {
    let six = Track::built_in("standard-6").expect("it comes with the crate");
    let track = standard_with(|_| ());
    let at = |place, metres| track.search_at(place, lane_number(1), metres).expect_err("it does not fit");
    assert_eq!(
        at(Place::On(Course::HomeStraight), 113.5).to_string(),
        "113.5 m does not fit on the home straight, which is 113.00 m long with its chute"
    );
    assert_eq!(
        at(Place::Against(Course::BackStraight), 84.5).to_string(),
        "84.5 m does not fit on the back straight, which is 84.39 m long with its chute"
    );
    assert!(matches!(six.search_at(Place::Bend, lane_number(7), 50.0), Err(SearchError::Lane(_))));
}
