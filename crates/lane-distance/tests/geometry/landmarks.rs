//! Places by name: what is found, and what is said where nothing is.

use lane_distance::{Course, LandmarkError, LaneNumber, PaintReading, Spot, Track};

use crate::by_hand::lap_m;
use crate::few_marks::track_with_only;
use crate::fixtures::{mark_of, standard, standard_with};
use crate::lane_number;

/// Where a name leads in lane 4: the course, and metres to its finish.
fn place(track: &Track, name: &str) -> (Course, f64) {
    let spot = track.landmark(name, lane_number(4)).unwrap_or_else(|error| panic!("{name}: {error}"));
    (spot.course, spot.to_finish_m)
}

fn said(track: &Track, name: &str) -> String {
    track.landmark(name, lane_number(4)).expect_err("the name leads nowhere").to_string()
}

/// A track whose only marks are so many ticks in a row.
fn cones(count: usize) -> Track {
    let metres: Vec<String> = (1..=count).map(|n| (n * 10).to_string()).collect();
    let row = format!("name: 'cone {{n}}', colour: red, form: tick, to_finish: [{}]", metres.join(", "));
    track_with_only(&[&row])
}

#[test]
fn metres_past_a_mark_come_nearer_to_the_finish() {
    let track = standard();
    let oval = |metres| (Course::Oval, metres);
    for (name, expected) in [
        ("200 m start", oval(200.0)),
        ("200m START", oval(200.0)),
        (" 200 m start + 5 ", oval(195.0)),
        ("200 m start + 5 m", oval(195.0)),
        ("200 m start - 2.5m", oval(202.5)),
        ("finish line - 10", oval(10.0)),
        ("finish line + 10", oval(lap_m(4) - 10.0)),
        ("200 m start + 10000", oval((200.0 - 10_000.0_f64).rem_euclid(lap_m(4)))),
        ("100 m start", (Course::HomeStraight, 100.0)),
        ("100 m start + 100", (Course::HomeStraight, 0.0)),
        ("100 m start - 13", (Course::HomeStraight, 113.0)),
    ] {
        let found = place(&track, name);
        assert!(found.0 == expected.0 && (found.1 - expected.1).abs() < 1e-6, "{name}: {found:?}");
    }
    // The reading is that of the mark which was named.
    let (spot, reading) =
        track.landmark_with_reading("200 m start - 2.5", lane_number(4)).expect("it is painted");
    assert_eq!((spot.to_finish_m, reading.past_m), (202.5, -2.5));
    assert_eq!(&*mark_of(&track, reading).name, "200 m start");
    // On the bend the inner line of lane 4 is shorter by the ratio of the radii.
    let inner_m = 2.5 * (36.50 + 3.0 * 1.22) / (36.50 + 3.0 * 1.22 + 0.20);
    let (_, on_bend) =
        track.landmark_with_reading("200 m start + 2.5", lane_number(4)).expect("it is painted");
    assert!((on_bend.tape_m - inner_m).abs() < 1e-9, "{} m", on_bend.tape_m);
}

#[test]
fn a_place_off_its_straight_is_refused() {
    let track = standard();
    for name in ["100 m start + 100.5", "100 m start - 13.5"] {
        assert_eq!(
            said(&track, name),
            format!("`{name}` lies off the home straight, which is 113.00 m long with its chute")
        );
    }
}

#[test]
fn what_is_not_a_number_of_metres_is_told() {
    let track = standard();
    for (name, part) in [
        ("400 m start + five", "+ five"),
        ("400 m start - ", "-"),
        ("400 m start + 10001", "+ 10001"),
        ("400 m start - 10000.5 m", "- 10000.5 m"),
        ("400 m start + inf", "+ inf"),
        ("400 m start - nan", "- nan"),
    ] {
        let said = said(&track, name);
        let expected = format!("`{part}` is not a number of metres; write for example `400 m start + 5`");
        assert_eq!(said, expected, "{name}");
    }
    // The last sign counts: what stands before it is a name.
    let signs = track_with_only(&[
        "name: 'cone - red', colour: red, form: tick, to_finish: 50",
        "name: 'cone + blue', colour: blue, form: tick, to_finish: 60",
    ]);
    assert_eq!(place(&signs, "cone - red + 5"), (Course::Oval, 45.0));
    assert_eq!(place(&signs, "cone + blue - 5"), (Course::Oval, 65.0));
}

#[test]
fn a_beginning_or_a_part_of_one_name_is_enough() {
    let tick = |name: &str, to_finish_m: u32| {
        format!("name: {name}, colour: red, form: tick, to_finish: {to_finish_m}")
    };
    let marks = [tick("cone red", 10), tick("red cone", 20), tick("blue box", 30), tick("gate", 40)];
    let track = track_with_only(&marks.each_ref().map(String::as_str));
    for (name, to_finish_m) in [
        ("cone red", 10.0),
        // The beginning of a name goes before its middle.
        ("cone", 10.0),
        ("red", 20.0),
        ("box", 30.0),
        ("BLUE", 30.0),
        ("lueb", 30.0),
        ("ate", 40.0),
    ] {
        assert_eq!(place(&track, name), (Course::Oval, to_finish_m), "{name}");
    }
    for name in ["", "  ", " + 5"] {
        assert_eq!(said(&track, name), "no mark is called ``", "{name:?}");
    }
    let called = track_with_only(&[
        "name: seven, called: '7th green tick', colour: green, form: tick, to_finish: 70",
        "name: exit, colour: yellow, form: box edge, to_finish: 80",
    ]);
    for name in ["7th green tick", "the 7th GREEN tick"] {
        assert_eq!(place(&called, name), (Course::Oval, 70.0), "{name}");
    }
    assert_eq!(place(&called, "exit (yellow)"), (Course::Oval, 80.0));
}

#[test]
fn a_name_of_several_marks_lists_them() {
    assert_eq!(said(&cones(2), "cone"), "`cone` could be `cone 1` or `cone 2`");
    assert_eq!(said(&cones(3), "one"), "`one` could be `cone 1`, `cone 2` or `cone 3`");
    assert_eq!(
        said(&cones(6), "cone"),
        "`cone` could be `cone 1`, `cone 2`, `cone 3`, `cone 4`, `cone 5` or `cone 6`"
    );
    assert_eq!(
        said(&cones(9), "cone"),
        "`cone` could be `cone 1`, `cone 2`, `cone 3`, `cone 4`, `cone 5`, `cone 6` or one of 3 more"
    );
}

#[test]
fn an_unknown_name_is_answered_with_those_most_like_it() {
    let tick = |name: &str| format!("name: {name}, colour: red, form: tick, to_finish: 10");
    let one = track_with_only(&[&tick("start of sprint"), &tick("gate")]);
    assert_eq!(
        said(&one, "strat of sprint"),
        "no mark is called `strat of sprint`; near it: `start of sprint`"
    );
    assert_eq!(said(&one, "zzzz"), "no mark is called `zzzz`");
    let track = track_with_only(&[&tick("kone 13"), &tick("cone 12"), &tick("pit")]);
    assert_eq!(said(&track, "cone 13"), "no mark is called `cone 13`; near it: `cone 12` or `kone 13`");
    let Err(LandmarkError::Unknown { near, .. }) = cones(5).landmark("cune 1", lane_number(4)) else {
        panic!("there is no such mark");
    };
    assert_eq!((near.len(), near[0].as_str()), (3, "cone 1"));
}

#[test]
fn a_mark_of_other_lanes_names_them() {
    let track = track_with_only(&["name: cone, colour: red, form: tick, lanes: [2, 3, 7], to_finish: 50"]);
    assert_eq!(said(&track, "cone"), "the cone is not painted in lane 4; it is in lanes 2, 3 and 7");
    assert!(track.landmark("cone", lane_number(7)).is_ok());
    let error = track.landmark("cone", lane_number(9)).expect_err("the track has eight lanes");
    assert_eq!(error.to_string(), "there is no lane 9 on the oval; open there: lanes 1 to 8");
}

#[test]
fn the_name_of_a_spot_is_that_of_the_nearest_mark_that_is_no_trap() {
    let name = |track: &Track, spot: Spot| track.landmark_name(spot);
    let on_oval = |to_finish_m| Spot::on_oval(LaneNumber::of::<2>(), to_finish_m);
    let track = standard();
    for (to_finish_m, expected) in [
        (200.0, "200 m start"),
        (205.0, "200 m start - 5"),
        (196.0, "200 m start + 4"),
        (200.5, "200 m start - 0.50"),
        (200.004, "200 m start"),
    ] {
        assert_eq!(name(&track, on_oval(to_finish_m)).as_deref(), Some(expected), "{to_finish_m} m");
    }
    let trap = "name: bad, colour: red, form: tick, to_finish: 51, trap: it misleads";
    let plain = "name: good, colour: red, form: tick, to_finish: 60";
    assert_eq!(name(&track_with_only(&[trap, plain]), on_oval(50.0)).as_deref(), Some("good + 10"));
    assert_eq!(name(&track_with_only(&[trap]), on_oval(50.0)).as_deref(), Some("bad + 1"));
    assert_eq!(name(&track_with_only(&[]), on_oval(50.0)), None);
}

#[test]
fn the_name_of_the_end_of_a_chute_does_not_lie_beyond_it() {
    let track = standard_with(|spec| {
        spec.home_straight.chute = lane_distance::spec::LengthSpec::from_metres(28.617);
        spec.marks.own = vec![];
    });
    let length_m = track.layout().straight(Course::HomeStraight).expect("it has one").length_m();
    let end = Spot { course: Course::HomeStraight, lane: lane_number(4), to_finish_m: length_m };
    let name = track.landmark_name(end).expect("the lane has paint");
    assert_eq!(name, "100 m start - 13");
    let read = track.landmark(&name, lane_number(4)).expect("it lies on the straight");
    assert!((read.to_finish_m - length_m).abs() < 0.0101, "{read:?}");
}

#[test]
fn a_mark_is_called_by_what_the_eye_finds() {
    let track = track_with_only(&[
        "name: 60 m start, colour: white, form: line across, to_finish: 10",
        "name: foul line, colour: white, form: line across, to_finish: 20",
        "name: dash, colour: white, form: short line, to_finish: 30",
        "name: exit, colour: yellow, form: box edge, to_finish: 40",
        "name: five, called: 5th tick, colour: green, form: tick, to_finish: 50",
        "name: six, called: the old box, colour: blue, form: box edge, to_finish: 60",
        "name: bend, colour: green, form: curved line, to_finish: 70",
    ]);
    let words: Vec<_> =
        track.marks().iter().map(|mark| (mark.form.name(), mark.spoken(), mark.look_for())).collect();
    let words: Vec<_> = words.iter().map(|(form, a, b)| (*form, a.as_str(), b.as_str())).collect();
    assert_eq!(
        words,
        [
            ("line", "60 m start line", "60 m start line"),
            ("line", "foul line", "foul line"),
            ("short line", "dash line", "dash line"),
            ("zone edge", "exit", "exit (yellow)"),
            ("tick", "5th tick", "5th tick"),
            ("zone edge", "the old box", "the old box"),
            ("curved line", "bend", "bend"),
        ]
    );
}

#[test]
fn a_row_of_marks_is_numbered_as_people_count() {
    let metres: Vec<String> = (1..=113).map(|n| n.to_string()).collect();
    let row = format!(
        "name: '{{nth}} cone', called: '{{n-th}} of row', for: 'cone {{n}}', colour: red, form: tick, to_finish: [{}]",
        metres.join(", ")
    );
    let track = track_with_only(&[&row]);
    let names = |n: usize| {
        let mark = &track.marks()[n - 1];
        (mark.name.to_string(), mark.called.clone().unwrap_or_default(), mark.purpose.clone())
    };
    for (n, nth, short) in [
        (1, "first", "1st"),
        (2, "second", "2nd"),
        (3, "third", "3rd"),
        (4, "fourth", "4th"),
        (9, "ninth", "9th"),
        (10, "tenth", "10th"),
        (11, "11th", "11th"),
        (12, "12th", "12th"),
        (13, "13th", "13th"),
        (20, "20th", "20th"),
        (21, "21st", "21st"),
        (22, "22nd", "22nd"),
        (23, "23rd", "23rd"),
        (101, "101st", "101st"),
        (111, "111th", "111th"),
        (112, "112th", "112th"),
        (113, "113th", "113th"),
    ] {
        assert_eq!(names(n), (format!("{nth} cone"), format!("{short} of row"), format!("cone {n}")));
    }
    // A name that does not count may go with words that do.
    let pair =
        track_with_only(&["name: box, called: '{n-th} box', colour: red, form: tick, to_finish: [10, 20]"]);
    let called: Vec<_> = pair.marks().iter().map(|mark| mark.spoken()).collect();
    assert_eq!(called, ["1st box", "2nd box"]);
}

#[test]
fn a_spot_stands_on_paint_up_to_5_cm_from_it() {
    let track = standard();
    let reading = |to_finish_m: f64| track.read(Spot::on_oval(lane_number(4), to_finish_m));
    assert!(reading(200.0).is_on_paint() && reading(200.04).is_on_paint() && reading(199.96).is_on_paint());
    assert!(!reading(200.06).is_on_paint() && !reading(199.94).is_on_paint());
    assert!(!PaintReading { mark: None, past_m: 0.0, tape_m: 0.0 }.is_on_paint());
}
