//! Runs from a mark or to one with paint at the other end, against the distance between the two.

use lane_distance::{Course, RunEnd, Track};

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
