//! Runs from a mark or to one with paint at the other end, against the distance between the two.

use lane_distance::{Course, Form, MarkId, OnPaintRun, RunEnd, Track};

use crate::fixtures::built_in;

#[test]
fn both_ends_are_as_far_apart_as_the_run_is_long() {
    let mut runs = 0;
    for track in built_in() {
        for lane in track.layout().lanes().iter().map(|lane| lane.number) {
            for (spot, mark) in track.walk(lane) {
                for distance_m in [50.0, 60.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0, 1000.0] {
                    for run in track.on_paint_runs(spot, mark, distance_m) {
                        let (from, to) = match run.end {
                            RunEnd::Start => (spot, run.other),
                            RunEnd::Finish => (run.other, spot),
                        };
                        let once_m = track.distance_m(from, to).expect("a run leads there");
                        let lap_m = track.layout().measure(lane).lap_m();
                        let more_m = (distance_m - once_m).rem_euclid(lap_m);
                        let off_m = more_m.min(lap_m - more_m);
                        assert!(off_m < 1e-6, "{} lane {lane}, {run:?}: {once_m} m", track.name());
                        assert!(track.read(run.other).is_on_paint());
                        runs += 1;
                    }
                }
            }
        }
    }
    assert!(runs > 1_000, "only {runs} runs were found");
}

#[test]
fn a_run_out_of_a_chute_is_found_from_both_ends() {
    let track = Track::built_in("standard").expect("it comes with the crate");
    let lane = crate::lane_number(4);
    for (name, distance_m) in [("100 m start", 100.0), ("110 m hurdles start", 110.0)] {
        let ends = [(name, RunEnd::Start), ("finish line", RunEnd::Finish)];
        for (mark, end) in ends {
            let (spot, reading) = track.landmark_with_reading(mark, lane).expect("it is painted");
            let mark = reading.mark.expect("it is one");
            let found = track.on_paint_runs(spot, mark, distance_m).filter(|run| run.end == end);
            let straight =
                found.filter(|run| end == RunEnd::Start || run.other.course == Course::HomeStraight);
            assert_eq!(straight.count(), 1, "{name} from the {end:?}");
        }
    }
}

#[test]
fn what_lies_between_any_two_marks_is_found_from_both() {
    let mut found = [0, 0];
    for name in ["standard", "standard-6", "indoor-200", "oval-300"] {
        let track = Track::built_in(name).expect("it comes with the crate");
        for lane in track.layout().lanes().iter().map(|lane| lane.number) {
            let is_trap = |mark: &MarkId| {
                track.mark(*mark).is_some_and(|mark| mark.trap_in(lane).is_some() || mark.form == Form::Curve)
            };
            let marks: Vec<_> = track.walk(lane).into_iter().filter(|(_, mark)| !is_trap(mark)).collect();
            for &(from, start) in &marks {
                for &(to, finish) in &marks {
                    let Ok(once_m) = track.distance_m(from, to) else { continue };
                    let place = |run: &OnPaintRun| track.point(run.other);
                    for laps in 0..2 {
                        let lap_m = track.layout().measure(lane).lap_m();
                        let distance_m = once_m + f64::from(laps) * lap_m;
                        let ends = [(from, start, RunEnd::Start, to), (to, finish, RunEnd::Finish, from)];
                        for (spot, mark, end, other) in ends {
                            // Whoever runs out of a chute and round the oval is found from the start alone.
                            let is_round = laps > 0 || track.layout().on_course(to, from.course).is_none();
                            let goes_round = track.layout().on_course(from, Course::Oval).is_some();
                            if is_round && !goes_round && (laps > 0 || end == RunEnd::Finish) {
                                continue;
                            }
                            let mut runs = track.on_paint_runs(spot, mark, distance_m);
                            let is_there = |run: OnPaintRun| {
                                run.end == end && place(&run).distance(track.point(other)) < 1e-6
                            };
                            assert!(
                                runs.any(is_there),
                                "{name} lane {lane}: {distance_m} m from {from:?} to {to:?}, {end:?}"
                            );
                            found[usize::from(end == RunEnd::Finish)] += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(found.iter().all(|count| *count > 1_000), "{found:?}");
}

#[test]
fn a_trap_serves_only_as_the_start_of_a_run_to_the_finish_line() {
    let mut starts = 0;
    for track in built_in() {
        for lane in track.layout().lanes().iter().map(|lane| lane.number) {
            let is_trap = |mark: MarkId| track.mark(mark).is_some_and(|mark| mark.trap_in(lane).is_some());
            let walk = track.walk(lane);
            for &(spot, mark) in &walk {
                for &(other, _) in &walk {
                    let Ok(distance_m) = track.distance_m(spot, other) else { continue };
                    for run in track.on_paint_runs(spot, mark, distance_m) {
                        let there = run.reading.mark.expect("it is on paint");
                        let (start, finish, end) = match run.end {
                            RunEnd::Start => (mark, there, run.other),
                            RunEnd::Finish => (there, mark, spot),
                        };
                        let is_on_line = end.to_finish_m == 0.0 && end.course != Course::BackStraight;
                        assert!(!is_trap(finish), "{} lane {lane}: {run:?} ends on a trap", track.name());
                        assert!(!is_trap(start) || is_on_line, "{} lane {lane}: {run:?}", track.name());
                        starts += usize::from(is_trap(start));
                    }
                }
            }
        }
    }
    assert!(starts > 10, "only {starts} runs start on a trap");
}
