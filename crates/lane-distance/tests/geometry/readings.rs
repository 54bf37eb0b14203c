//! How a spot is read off the paint: the nearest mark on either side, the one easiest to find of those at one place.

use lane_distance::{Course, Placement, Spot, Track};

use crate::by_hand::{lap_m, radius_m};
use crate::few_marks::track_with_only;
use crate::fixtures::{mark_of, standard_with};
use crate::lane_number;

/// The mark that a spot of lane 4 is read off, and how far past it the spot lies.
fn read(track: &Track, course: Course, to_finish_m: f64) -> (String, f64) {
    let reading = track.read(Spot { course, lane: lane_number(4), to_finish_m });
    (mark_of(track, reading).name.to_string(), (reading.past_m * 1e6).round() / 1e6)
}

fn tick(name: &str, rule: &str) -> String {
    format!("name: {name}, colour: red, form: tick, {rule}")
}

fn track_of(marks: &[String]) -> Track {
    track_with_only(&marks.iter().map(String::as_str).collect::<Vec<_>>())
}

#[test]
fn on_the_oval_the_nearest_mark_may_lie_across_the_finish_line() {
    let track = track_of(&[tick("near", "to_finish: 10"), tick("far", "to_finish: 390")]);
    let lap_m = lap_m(4);
    for (at_m, name, past_m) in [
        (10.0, "near", 0.0),
        (12.0, "near", -2.0),
        (0.0, "near", 10.0),
        (lap_m - 5.0, "near", 15.0),
        (250.0, "far", 140.0),
        (195.0, "near", -185.0),
        (205.0, "far", 185.0),
        (389.0, "far", 1.0),
        (395.0, "far", -5.0),
    ] {
        assert_eq!(read(&track, Course::Oval, at_m), (name.to_owned(), past_m), "{at_m} m");
    }
    // Past the middle between the two, by way of the finish line.
    let middle_m = (lap_m - 390.0 + 10.0) / 2.0;
    assert_eq!(read(&track, Course::Oval, 10.0 - middle_m + 0.1 + lap_m).0, "near");
    assert_eq!(read(&track, Course::Oval, 10.0 - middle_m - 0.1 + lap_m).0, "far");
}

#[test]
fn on_a_straight_the_nearest_mark_lies_on_either_side() {
    let track = track_of(&[
        tick("near", "before_finish: 10"),
        tick("far", "before_finish: 90"),
        tick("back", "on: back straight, before_finish: 20"),
    ]);
    for (at_m, name, past_m) in
        [(0.0, "near", 10.0), (49.0, "near", -39.0), (51.0, "far", 39.0), (113.0, "far", -23.0)]
    {
        assert_eq!(read(&track, Course::HomeStraight, at_m), (name.to_owned(), past_m), "{at_m} m");
    }
    assert_eq!(read(&track, Course::BackStraight, 80.0), ("back".to_owned(), -60.0));
}

#[test]
fn a_mark_a_hair_across_the_finish_line_is_stood_on() {
    let lap_m = lap_m(4);
    for (rule, at_m, past_m) in [
        (0.02, lap_m - 0.02, 0.04),
        (0.02, 0.06, -0.04),
        (lap_m - 0.02, 0.02, -0.04),
        (lap_m - 0.02, lap_m - 0.06, 0.04),
    ] {
        let track = track_of(&[tick("tick", &format!("to_finish: {rule}"))]);
        let reading = track.read(Spot::on_oval(lane_number(4), at_m));
        assert!(reading.is_on_paint() && (reading.past_m - past_m).abs() < 1e-9, "{reading:?}");
    }
    // Of two that a spot stands on, one of them across the line, the nearer.
    let track =
        track_of(&[tick("before", "to_finish: 0.03"), tick("past", &format!("to_finish: {}", lap_m - 0.01))]);
    assert_eq!(read(&track, Course::Oval, 0.0).0, "past");
    assert_eq!(read(&track, Course::Oval, 0.02).0, "before");
}

#[test]
fn of_marks_at_one_place_the_plainest_is_named() {
    let form = |name: &str, form: &str, at_m: f64| {
        format!("name: {name}, colour: green, form: {form}, to_finish: {at_m}")
    };
    let white = "name: white, colour: white, form: line across, to_finish: 100".to_owned();
    let marks = [
        white,
        form("green", "line across", 100.0),
        form("edge", "box edge", 100.0),
        form("tick", "tick", 100.0),
        form("curve", "curved line", 100.0),
    ];
    // Whatever their order in the file, each goes before those after it.
    for first in 0..marks.len() {
        let rest: Vec<String> = marks[first..].iter().rev().cloned().collect();
        let name = marks[first].split([':', ',']).nth(1).unwrap_or_default().trim();
        assert_eq!(read(&track_of(&rest), Course::Oval, 100.0).0, name);
        assert_eq!(read(&track_of(&rest), Course::Oval, 95.0), (name.to_owned(), 5.0));
    }
    // Of two that are alike the one that is listed first.
    let alike = track_of(&[form("one", "tick", 100.0), form("two", "tick", 100.0)]);
    assert_eq!(read(&alike, Course::Oval, 95.0), ("one".to_owned(), 5.0));
    // A trap is named last, and only where one stands on it.
    let trap = format!("{}, trap: it misleads", form("trap", "line across", 100.0));
    let track = track_of(&[trap.clone(), form("tick", "tick", 100.01)]);
    assert_eq!(read(&track, Course::Oval, 100.0).0, "tick");
    let track = track_of(&[trap, form("tick", "tick", 130.0)]);
    assert_eq!(read(&track, Course::Oval, 100.0), ("trap".to_owned(), 0.0));
    assert_eq!(read(&track, Course::Oval, 99.0), ("tick".to_owned(), 31.0));
    let any = track.read_any(Spot::on_oval(lane_number(4), 99.0));
    assert_eq!(&*mark_of(&track, any).name, "tick");
    // A hair apart is one place, two centimetres are not.
    let apart = |at_m| track_of(&[form("tick", "tick", 100.0), form("line", "line across", at_m)]);
    assert_eq!(read(&apart(100.0002), Course::Oval, 100.0).0, "line");
    assert_eq!(read(&apart(100.02), Course::Oval, 100.0).0, "tick");
}

#[test]
fn a_mark_misleads_from_the_lane_on_that_its_trap_names() {
    let track =
        track_of(&[format!("{}, trap: it misleads, trap_from_lane: 3", tick("tick", "to_finish: 100"))]);
    let mark = &track.marks()[0];
    let lanes: Vec<u8> = (1..=8).filter(|lane| mark.trap_in(lane_number(*lane)).is_some()).collect();
    assert_eq!(lanes, [3, 4, 5, 6, 7, 8]);
    let everywhere = track_of(&[format!("{}, trap: it misleads", tick("tick", "to_finish: 100"))]);
    assert_eq!(everywhere.marks()[0].trap_in(lane_number(1)), Some("it misleads"));
}

#[test]
fn a_mark_may_be_placed_from_another_on_the_oval_or_on_a_straight() {
    let track = track_of(&[
        tick("base", "to_finish: 100"),
        tick("past", "from: base, past: 3"),
        tick("behind", "from: past, past: -8"),
        tick("round", "from: base, past: 104"),
        tick("sprint", "before_finish: 60"),
        tick("on", "from: sprint, past: 2.5"),
        tick("across", "across: -10"),
    ]);
    let at_m = |course, lane: u8, name: &str| {
        let painted = track.painted(course, lane_number(lane)).iter();
        let mut own = painted.filter(|painted| *track.marks()[painted.mark.index()].name == *name);
        own.next().map(|painted| painted.to_finish_m)
    };
    let near = |found: Option<f64>, expected_m: f64| {
        assert!(
            found.is_some_and(|found_m| (found_m - expected_m).abs() < 1e-9),
            "{found:?}, not {expected_m}"
        );
    };
    for lane in [1, 4, 8] {
        near(at_m(Course::Oval, lane, "past"), 97.0);
        near(at_m(Course::Oval, lane, "behind"), 105.0);
        near(at_m(Course::Oval, lane, "round"), lap_m(lane) - 4.0);
        near(at_m(Course::HomeStraight, lane, "on"), 57.5);
        near(at_m(Course::Oval, lane, "on"), 57.5);
        // Square across the track 10 m past the finish line in lane 1: as much of the bend in every lane.
        near(at_m(Course::Oval, lane, "across"), lap_m(lane) - 10.0 / radius_m(1) * radius_m(lane));
    }
    // What lies behind the straight in the chute is not on the oval.
    let chute = track_of(&[tick("far", "before_finish: 100"), tick("end", "before_finish: 113")]);
    assert_eq!(chute.painted(Course::Oval, lane_number(4)), []);
    assert_eq!(chute.painted(Course::HomeStraight, lane_number(4)).len(), 2);
    assert_eq!(chute.walk(lane_number(4)).len(), 2);
}

#[test]
fn a_worn_mark_is_there_in_its_other_lanes_only() {
    let worn = |worn: &str| {
        standard_with(|spec| {
            let worn = serde_yaml::from_str(worn).unwrap_or_else(|error| panic!("{error}: {worn}"));
            spec.marks.worn = worn;
        })
    };
    let lanes = |track: &Track| -> Vec<u8> {
        (1..=8).filter(|lane| track.landmark("200 m start", lane_number(*lane)).is_ok()).collect()
    };
    assert_eq!(lanes(&worn("[{ mark: 200 m start, lanes: [2, 5] }]")), [1, 3, 4, 6, 7, 8]);
    let twice = "[{ mark: 200 m start, lanes: [2] }, { mark: 200 m start, lanes: [5] }]";
    assert_eq!(lanes(&worn(twice)), [1, 3, 4, 6, 7, 8]);
    for everywhere in [
        "[{ mark: 200 m start }]",
        "[{ mark: 200 m start, lanes: [2] }, { mark: 200 m start }]",
        "[{ mark: 200 m start }, { mark: 200 m start, lanes: [2] }]",
    ] {
        assert_eq!(lanes(&worn(everywhere)), [0_u8; 0]);
    }
}

#[test]
fn a_placement_counts_the_strides_of_its_tape() {
    let track = track_of(&[tick("tick", "to_finish: 100")]);
    let placed = |to_finish_m: f64| Placement::of(&track, Spot::on_oval(lane_number(4), to_finish_m));
    // 10 m on the measure line of the bend, laid along the inner line of lane 4.
    let tape_m = 10.0 * (radius_m(4) - 0.20) / radius_m(4);
    for (at_m, sign) in [(110.0, -1.0), (90.0, 1.0)] {
        let placement = placed(at_m);
        assert!(!placement.is_on_paint());
        assert!((placement.tape_m - sign * tape_m).abs() < 1e-9, "{placement:?}");
        let strides = placement.with_strides(0.8).strides.expect("it is off the paint");
        assert!((strides - tape_m / 0.8).abs() < 1e-9, "{strides}");
    }
    assert!(placed(100.04).is_on_paint() && !placed(100.06).is_on_paint());
    assert_eq!(placed(99.97).with_strides(0.8).strides, None);
    let bare = track_with_only(&[]);
    let nowhere = Placement::of(&bare, Spot::on_oval(lane_number(4), 50.0));
    assert!(!nowhere.is_on_paint() && nowhere.mark.is_none());
    // The distance to the finish line and that from it make a lap.
    let placement = placed(90.0);
    assert!((placement.from_finish_line_m + placement.to_finish_line_m - lap_m(4)).abs() < 1e-9);
    assert_eq!((placement.colour.as_deref(), placement.look_for.as_deref()), (Some("red"), Some("tick")));
}
