//! What is kept free of runs, against each half metre of the runs.

use lane_distance::spec::LengthSpec;
use lane_distance::{Course, Hazard, HazardKind, LaneNumber, Pair, Side, Spot, Track};

use crate::fixtures::standard;
use crate::lane_number;

/// From one distance to the finish of a course to another, in metres.
fn stretch(kind: HazardKind, on: Course, from_m: f64, to_m: f64) -> Hazard {
    let (from, to) = (LengthSpec::from_metres(from_m), LengthSpec::from_metres(to_m));
    Hazard { kind, on, from, to, side: Side::Inside, lanes: None, note: None }
}

fn on_oval(lane: u8, to_finish_m: f64) -> Spot {
    Spot::on_oval(lane_number(lane), to_finish_m)
}

#[test]
fn a_stretch_of_the_oval_covers_what_lies_between_its_ends() {
    let track = standard();
    let layout = track.layout();
    // In the middle of the back straight, and across the finish line.
    for (from_m, to_m) in [(262.0, 236.0), (6.0, 391.0)] {
        let hazard = stretch(HazardKind::Gate, Course::Oval, from_m, to_m);
        for half_m in 0..800 {
            let at_m = f64::from(half_m) / 2.0 + 0.25;
            let lies_between =
                if from_m > to_m { (to_m..=from_m).contains(&at_m) } else { at_m <= from_m || at_m >= to_m };
            assert_eq!(hazard.covers(layout, on_oval(1, at_m)), lies_between, "{at_m} m of {from_m}-{to_m}");
        }
        // Square across the track it is the same for every lane.
        for lane in 2..=8 {
            for (at_m, is_covered) in [(from_m - 1.0, true), (from_m + 1.0, false)] {
                let there = layout.abreast(on_oval(1, at_m), lane_number(lane));
                assert_eq!(hazard.covers(layout, there), is_covered, "{at_m} m in lane {lane}");
            }
        }
    }
}

#[test]
fn a_stretch_of_a_straight_covers_the_oval_beside_it_and_its_chute() {
    let track = standard();
    let layout = track.layout();
    let spot = |course, to_finish_m| Spot { course, lane: LaneNumber::of::<3>(), to_finish_m };
    let on_straight = stretch(HazardKind::Gate, Course::HomeStraight, 100.0, 40.0);
    let on_oval = stretch(HazardKind::Gate, Course::Oval, 70.0, 40.0);
    for (at_m, straight, oval) in [
        (39.0, false, false),
        (41.0, true, true),
        (69.0, true, true),
        (71.0, true, false),
        (99.0, true, false),
        (101.0, false, false),
    ] {
        let there = spot(Course::HomeStraight, at_m);
        assert_eq!(on_straight.covers(layout, there), straight, "{at_m} m");
        assert_eq!(on_oval.covers(layout, there), oval, "{at_m} m");
        // In front of the bend the oval has no such place.
        if at_m < 84.0 {
            assert_eq!(
                on_straight.covers(layout, spot(Course::Oval, at_m)),
                straight,
                "{at_m} m of the oval"
            );
        }
    }
    // The back straight ends half a lap before the finish line.
    let back = stretch(HazardKind::Gate, Course::BackStraight, 30.0, 10.0);
    let half_m = layout.measure(LaneNumber::FIRST).lap_m() / 2.0;
    let first = |to_finish_m| Spot::on_oval(LaneNumber::FIRST, to_finish_m);
    assert!(back.covers(layout, first(half_m + 20.0)) && !back.covers(layout, first(half_m + 5.0)));
    assert!(
        !back.covers(layout, first(half_m + 35.0)) && !back.covers(layout, spot(Course::HomeStraight, 20.0))
    );
}

/// Whether a hazard covers some place of a run, by half metres.
fn covers_some_of(hazard: &Hazard, track: &Track, pair: &Pair) -> bool {
    let layout = track.layout();
    let way = if pair.against { 1.0 } else { -1.0 };
    let steps = (pair.distance_m * 2.0) as u32;
    (0..=steps).any(|step| {
        let to_finish_m = pair.start.to_finish_m + way * f64::from(step) / 2.0;
        let place = match pair.start.course {
            Course::Oval => layout.measure(pair.start.lane).within_lap_m(to_finish_m),
            _ if to_finish_m < 0.0 => return false,
            _ => to_finish_m,
        };
        hazard.covers(layout, Spot { to_finish_m: place, ..pair.start })
    })
}

#[test]
fn a_run_comes_by_what_covers_some_of_it() {
    let hazards = [
        stretch(HazardKind::Gate, Course::Oval, 262.0, 236.0),
        stretch(HazardKind::Gate, Course::Oval, 6.0, 391.0),
        stretch(HazardKind::Gate, Course::HomeStraight, 100.0, 60.0),
        stretch(HazardKind::Gate, Course::BackStraight, 50.0, 20.0),
    ];
    let mut passed = [0, 0];
    for hazard in hazards {
        let track = standard_with_hazard(&hazard);
        for lane in [1, 4, 8] {
            for metres in [60.0, 100.0, 200.0, 300.0, 400.0] {
                let pairs = track.search(lane_number(lane), metres).unwrap_or_default();
                // A run that leaves its straight goes on round the bend.
                for pair in pairs.iter().filter(|pair| pair.start.course == pair.finish.course) {
                    let is_named = track.hazards_of(pair).next().is_some();
                    assert_eq!(is_named, covers_some_of(&hazard, &track, pair), "{hazard:?}: {pair:?}");
                    passed[usize::from(is_named)] += 1;
                }
            }
        }
    }
    assert!(passed.iter().all(|count| *count > 50), "{passed:?}");
}

/// The standard track with a hazard.
fn standard_with_hazard(hazard: &Hazard) -> Track {
    crate::fixtures::standard_with(|spec| spec.hazards = vec![hazard.clone()])
}

#[test]
fn a_closed_stretch_bars_its_lanes_and_a_gate_only_where_one_stands() {
    let gate = stretch(HazardKind::Gate, Course::Oval, 262.0, 236.0);
    let closed = Hazard { kind: HazardKind::ClosedStretch, lanes: Some(vec![2]), ..gate.clone() };
    let pair = |lane: u8, start_m: f64, distance_m: f64| {
        let [start, finish] = [start_m, start_m - distance_m].map(|at_m| on_oval(lane, at_m));
        let found = standard().search(lane_number(lane), distance_m).expect("it fits");
        Pair { start, finish, distance_m, ..found[0] }
    };
    let is_barred = |hazard: &Hazard, pair: &Pair| standard_with_hazard(hazard).obstacle(pair).is_some();
    // By it, into it, out of it, and far from it.
    for (start_m, distance_m, by_gate, by_closure) in [
        (300.0, 100.0, false, true),
        (300.0, 50.0, true, true),
        (250.0, 100.0, true, true),
        (200.0, 100.0, false, false),
    ] {
        let run = pair(2, start_m, distance_m);
        assert_eq!(is_barred(&gate, &run), by_gate, "{start_m} m");
        assert_eq!(is_barred(&closed, &run), by_closure, "{start_m} m");
        assert!(!is_barred(&closed, &pair(3, start_m, distance_m)), "lane 3 is open");
    }
}

#[test]
fn a_run_out_of_its_straight_comes_by_what_lies_on_the_bend() {
    let track = standard();
    let layout = track.layout();
    let [lap_m, half_m] = [1.0, 0.5].map(|part| part * layout.measure(LaneNumber::FIRST).lap_m());
    let passes = |hazard: &Hazard, course, start_m: f64, distance_m: f64, against: bool| {
        let track = standard_with_hazard(hazard);
        let start = Spot { course, lane: LaneNumber::FIRST, to_finish_m: start_m };
        let reading = track.read(start);
        let (start_reading, finish_reading) = (reading, reading);
        let pair = Pair { start, finish: start, distance_m, against, start_reading, finish_reading };
        track.hazards_of(&pair).count() == 1
    };
    // From 10 m to 30 m past the end of each straight.
    for (course, ends_m) in [(Course::HomeStraight, lap_m), (Course::BackStraight, half_m)] {
        let gate = stretch(HazardKind::Gate, Course::Oval, ends_m - 10.0, ends_m - 30.0);
        for (start_m, distance_m, against, expected) in [
            (60.0, 50.0, false, false),
            (60.0, 60.0, false, false),
            (60.0, 65.0, false, false),
            (60.0, 75.0, false, true),
            (60.0, 200.0, false, true),
            (10.0, 60.0, true, false),
            (0.0, 60.0, true, false),
        ] {
            let found = passes(&gate, course, start_m, distance_m, against);
            assert_eq!(
                found, expected,
                "{distance_m} m from {start_m} m on the {course}, against: {against}"
            );
        }
    }
}

#[test]
fn no_run_is_offered_through_a_closed_stretch() {
    let closed = stretch(HazardKind::ClosedStretch, Course::Oval, 262.0, 236.0);
    let track = standard_with_hazard(&closed);
    for lane in (1..=8).map(lane_number) {
        let mut offered = 0;
        for metres in [60.0, 100.0, 150.0, 200.0, 230.0, 300.0] {
            for pair in track.search(lane, metres).expect("it fits") {
                assert_eq!(track.obstacle(&pair), None, "{pair:?}");
                assert!(!covers_some_of(&closed, &track, &pair), "{pair:?}");
                offered += 1;
            }
        }
        assert!(offered > 5, "only {offered} in lane {lane}");
        // Any lap leads through it.
        assert_eq!(track.search(lane, 450.0), Ok(Vec::new()));
    }
}
