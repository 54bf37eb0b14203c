//! Tracks of any shape, with closed lanes, hazards, chutes and surveyed laps: whatever the search
//! offers is the distance apart, on its measure line, in an open lane, clear of hazards and in its place.
//!
//! All is measured from the coordinates, along lines built from the dimensions alone.

use std::cell::Cell;
use std::ops::Range;

use crate::fixtures::for_any;
use crate::lane_number;
use crate::random_track::{Ground, any_ground};
use crate::trace::Trace;
use lane_distance::{Course, Hazard, HazardKind, Pair, Place, SearchError, Spot, Track};
use proptest::prelude::*;
use proptest::test_runner::TestCaseResult;

/// To what distances agree, in metres: what the curves library locates a place to.
const AGREES_M: f64 = 1e-6;

fn any_place() -> impl Strategy<Value = Place> {
    prop_oneof![
        3 => Just(Place::Anywhere),
        1 => Just(Place::On(Course::Oval)),
        1 => Just(Place::On(Course::HomeStraight)),
        1 => Just(Place::On(Course::BackStraight)),
        1 => Just(Place::Against(Course::HomeStraight)),
        1 => Just(Place::Against(Course::BackStraight)),
        2 => Just(Place::Bend),
    ]
}

fn any_distance() -> impl Strategy<Value = f64> {
    prop_oneof![3 => 10.0..150.0, 2 => 10.0..500.0, 1 => 10.0..10_000.0]
}

/// A run in terms of lane 1, all as surveyed: where it starts and finishes along the lap, or how far
/// before the end of its straight it lies.
pub(crate) struct Seen<'a> {
    ground: &'a Ground,
    line: Trace,
    pub(crate) lap_m: f64,
}

impl<'a> Seen<'a> {
    pub(crate) fn new(ground: &'a Ground, lane: u8) -> Self {
        let line = ground.measure_line(lane);
        let lap_m = line.lap_m * ground.scale();
        Self { ground, line, lap_m }
    }

    /// How far along its lane's lap a spot lies, and how far off the measure line, in metres.
    fn along_m(&self, track: &Track, spot: Spot) -> (f64, f64) {
        let point = track.point(spot);
        let (along_m, off_m) = self.line.locate(point.x, point.y);
        (along_m * self.ground.scale(), off_m)
    }

    /// Where along lane 1 the square line through a place of a lane lies.
    fn along_lane_1_m(&self, lane: u8, along_m: f64) -> f64 {
        let scale = self.ground.scale();
        self.ground.along_lane_1_m(lane, along_m / scale) * scale
    }
}

/// The parts of lane 1's lap that a hazard covers, and the part of each straight, as distances before
/// its end. On the oval, one that goes across the finish line has two parts.
fn covered(ground: &Ground, hazard: &Hazard) -> (Vec<Range<f64>>, [Option<Range<f64>>; 2]) {
    let scale = ground.scale();
    let (lap_m, straight_m) = (ground.lap_m(1) * scale, ground.straight_m * scale);
    let (from_m, to_m) = (hazard.from.metres(), hazard.to.metres());
    let ends_m = [lap_m, lap_m / 2.0];
    match hazard.on {
        Course::Oval => {
            let parts = match from_m >= to_m {
                true => vec![lap_m - from_m..lap_m - to_m],
                false => vec![lap_m - from_m..lap_m, 0.0..lap_m - to_m],
            };
            let straights = ends_m.map(|end_m| {
                let part = parts.iter().find(|part| part.end > end_m - straight_m && part.start < end_m)?;
                Some((end_m - part.end).max(0.0)..(end_m - part.start).min(straight_m))
            });
            (parts, straights)
        }
        straight => {
            let n = usize::from(straight == Course::BackStraight);
            let mut straights = [None, None];
            straights[n] = Some(to_m..from_m);
            let on_oval = ends_m[n] - from_m.min(straight_m)..ends_m[n] - to_m;
            (if to_m < straight_m { vec![on_oval] } else { Vec::new() }, straights)
        }
    }
}

/// Whether two ranges have more than a rounding error in common.
fn overlap(a: &Range<f64>, b: &Range<f64>) -> bool {
    a.start + AGREES_M < b.end && b.start + AGREES_M < a.end
}

/// Whether a place lies within a range, and not merely at its edge.
fn within(range: &Range<f64>, at_m: f64) -> bool {
    (range.start + AGREES_M..range.end - AGREES_M).contains(&at_m)
}

fn check_hazards(seen: &Seen<'_>, track: &Track, pair: &Pair) -> TestCaseResult {
    let lane = pair.start.lane;
    for hazard in seen.ground.hazards.iter() {
        if hazard.lanes.as_ref().is_some_and(|lanes| !lanes.contains(&lane.get())) {
            continue;
        }
        let (on_oval, straights) = covered(seen.ground, hazard);
        let is_barred = hazard.kind == HazardKind::ClosedStretch;
        let n = match pair.start.course {
            Course::Oval => {
                let [starts_m, ends_m] = [pair.start, pair.finish]
                    .map(|spot| seen.along_lane_1_m(lane.get(), seen.along_m(track, spot).0));
                for part in &on_oval {
                    let holds = within(part, starts_m) || within(part, ends_m);
                    prop_assert!(!holds, "an end in {hazard:?}: {pair:?}");
                    let lap_m = seen.ground.lap_m(1) * seen.ground.scale();
                    let run = if pair.distance_m >= seen.lap_m {
                        vec![0.0..lap_m]
                    } else if ends_m < starts_m {
                        vec![starts_m..lap_m, 0.0..ends_m]
                    } else {
                        vec![starts_m..ends_m]
                    };
                    let passes = is_barred && run.iter().any(|run| overlap(run, part));
                    prop_assert!(!passes, "it leads through {hazard:?}: {pair:?}");
                }
                continue;
            }
            Course::HomeStraight => 0,
            Course::BackStraight => 1,
        };
        let ends_m = [pair.start.to_finish_m, pair.finish.to_finish_m];
        if let Some(part) = &straights[n] {
            let run = ends_m[0].min(ends_m[1])..ends_m[0].max(ends_m[1]);
            prop_assert!(!ends_m.iter().any(|&at_m| within(part, at_m)), "an end in {hazard:?}: {pair:?}");
            prop_assert!(!(is_barred && overlap(&run, part)), "it leads through {hazard:?}: {pair:?}");
        }
    }
    Ok(())
}

/// Whether a pair is the distance apart, on its measure line and in its place.
pub(crate) fn check_pair(seen: &Seen<'_>, track: &Track, pair: &Pair, place: Place) -> TestCaseResult {
    match pair.start.course {
        Course::Oval => check_oval_pair(seen, track, pair, place),
        _ => check_straight_pair(seen, track, pair, place),
    }
}

fn check_oval_pair(seen: &Seen<'_>, track: &Track, pair: &Pair, place: Place) -> TestCaseResult {
    let ends = [pair.start, pair.finish].map(|spot| seen.along_m(track, spot));
    prop_assert!(ends.iter().all(|end| end.1 < AGREES_M), "off its measure line: {pair:?}");
    let part_m = ends[1].0 - ends[0].0;
    let laps = ((pair.distance_m - part_m) / seen.lap_m).round();
    let wrong_by_m = part_m + laps * seen.lap_m - pair.distance_m;
    prop_assert!(wrong_by_m.abs() < AGREES_M, "{wrong_by_m} m wrong: {pair:?}");
    if place == Place::Bend {
        let bend_m = seen.ground.bend_m(pair.start.lane.get()) * seen.ground.scale();
        let is_on = [0.0, seen.lap_m / 2.0].into_iter().any(|begins_m| {
            // A bend that begins at the finish line begins at the end of the lap too.
            let start_m = if seen.lap_m - ends[0].0 < AGREES_M { 0.0 } else { ends[0].0 };
            start_m >= begins_m - AGREES_M && start_m + pair.distance_m <= begins_m + bend_m + AGREES_M
        });
        prop_assert!(is_on, "not on one bend: {pair:?}");
    }
    Ok(())
}

fn check_straight_pair(seen: &Seen<'_>, track: &Track, pair: &Pair, place: Place) -> TestCaseResult {
    let scale = seen.ground.scale();
    let (home, lane) = (pair.start.course == Course::HomeStraight, pair.start.lane);
    // The end of the straight: the finish line, or opposite to it.
    let end = track.layout().pose(Spot { to_finish_m: 0.0, ..pair.start });
    let (along_m, off_m) = seen.line.locate(end.point.x, end.point.y);
    let expected_m = if home { 0.0 } else { seen.line.lap_m / 2.0 };
    let differs_m = (along_m - expected_m).abs().min(seen.line.lap_m - (along_m - expected_m).abs());
    prop_assert!(off_m < AGREES_M && differs_m < AGREES_M, "the {} ends elsewhere", pair.start.course);
    let forwards = if home { 1.0 } else { -1.0 };
    let before_m = [pair.start, pair.finish].map(|spot| {
        let point = track.point(spot);
        ((end.point.x - point.x) * forwards * scale, (point.y - end.point.y).abs())
    });
    prop_assert!(before_m.iter().all(|at| at.1 < AGREES_M), "lane {lane} off its measure line: {pair:?}");
    let run_m = (before_m[0].0 - before_m[1].0) * if pair.against { -1.0 } else { 1.0 };
    prop_assert!((run_m - pair.distance_m).abs() < AGREES_M, "{run_m} m: {pair:?}");
    prop_assert_eq!(pair.against, matches!(place, Place::Against(_)));
    let room = -AGREES_M..=seen.ground.course_m(pair.start.course) + AGREES_M;
    prop_assert!(before_m.iter().all(|at| room.contains(&at.0)), "off its straight: {pair:?}");
    Ok(())
}

/// Whether a refusal is right.
fn check_refusal(ground: &Ground, place: Place, lane: u8, distance_m: f64, error: &SearchError) -> bool {
    match (error, place) {
        (SearchError::Lane(_), _) => {
            let course = match place {
                Place::On(course) | Place::Against(course) => course,
                _ => Course::Oval,
            };
            ground.closed.contains(&lane) || lane > ground.lanes[course as usize]
        }
        (SearchError::TooLong { .. }, Place::On(course) | Place::Against(course)) => {
            distance_m > ground.course_m(course)
        }
        (SearchError::TooLongForBend { length_m, .. }, Place::Bend) => {
            let bend_m = ground.bend_m(lane) * ground.scale();
            distance_m > bend_m && (length_m - bend_m).abs() < AGREES_M
        }
        _ => false,
    }
}

#[test]
fn every_pair_on_any_track_is_sound() {
    let checked = Cell::new([0; 4]);
    let count = |what: usize| {
        let mut counts = checked.get();
        counts[what] += 1;
        checked.set(counts);
    };
    let cases = (any_ground(), any_place(), 1u8..=10, any_distance());
    for_any(5000, cases, |(ground, place, lane, distance_m)| {
        let lane = (lane - 1) % ground.widths_m.len() as u8 + 1;
        let (track, seen) = (ground.track(), Seen::new(&ground, lane));
        match track.search_at(place, lane_number(lane), distance_m) {
            Err(error) => {
                count(3);
                let is_right = check_refusal(&ground, place, lane, distance_m, &error);
                prop_assert!(is_right, "refused at the {place} in lane {lane}, {distance_m} m: {error}");
            }
            Ok(pairs) => {
                prop_assert!(!pairs.is_empty() || !ground.hazards.is_empty(), "nothing is offered");
                for pair in pairs {
                    prop_assert_eq!([pair.start.lane, pair.finish.lane], [lane, lane]);
                    prop_assert_eq!((pair.start.course, pair.distance_m), (pair.finish.course, distance_m));
                    prop_assert!(!ground.closed.contains(&lane), "in a closed lane: {pair:?}");
                    let is_there = match place {
                        Place::Anywhere => pair.start.course != Course::BackStraight,
                        Place::On(course) | Place::Against(course) => pair.start.course == course,
                        Place::Bend => pair.start.course == Course::Oval,
                    };
                    prop_assert!(is_there, "not at the {place}: {pair:?}");
                    check_pair(&seen, &track, &pair, place)?;
                    check_hazards(&seen, &track, &pair)?;
                    count(pair.start.course as usize);
                }
            }
        }
        Ok(())
    });
    // A search that offers nothing, or refuses all, is no sound search.
    let [oval, home, back, refused] = checked.get();
    assert!(oval > 4000 && home > 900 && back > 250 && refused > 2000, "{:?}", checked.get());
}
