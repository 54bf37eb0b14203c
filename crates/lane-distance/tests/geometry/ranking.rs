//! The order in which the search offers its pairs, and what it never offers, as
//! [`Track::search`](lane_distance::Track::search) documents them.
//!
//! The kinds and the keys are worked out again here, from the marks that lie under each end.

use std::cmp::Reverse;

use lane_distance::{Course, Form, LaneError, Mark, Pair, Place, SearchError, Spot, Track};

use crate::fixtures::{built_in, mark_of};
use crate::lane_number;

/// Round distances, distances that fit no paint, and whole laps of some lanes.
fn distances_m() -> impl Iterator<Item = f64> {
    let round = (1..=100).map(|tens| f64::from(tens) * 10.0);
    let long = (2..=20).map(|halves| f64::from(halves) * 500.0);
    let odd = (0..60).map(|n| 10.0 + 17.37 * f64::from(n));
    round.chain(long).chain(odd).chain([333.33, 400.001, 407.038, 1609.344])
}

/// Calls `look` with every built-in track, every distance and lane that it takes, and the pairs offered.
fn for_every_search(mut look: impl FnMut(&Track, &str, &[Pair])) {
    for track in built_in() {
        let lanes = 1..=track.layout().lanes().len() as u8;
        for (lane, distance_m) in lanes.flat_map(|lane| distances_m().map(move |metres| (lane, metres))) {
            let what = format!("{} lane {lane}, {distance_m} m", track.name());
            match track.search(lane_number(lane), distance_m) {
                Ok(pairs) => look(&track, &what, &pairs),
                // The home straight may have lanes that the oval has not.
                Err(SearchError::Lane(LaneError::Missing { course: Course::Oval, .. })) => {}
                Err(error) => panic!("{what}: {error}"),
            }
        }
    }
}

/// The place of a pair's kind in the documented list.
fn kind(pair: &Pair) -> u8 {
    match (pair.start_reading.is_on_paint(), pair.finish.to_finish_m == 0.0) {
        (true, true) => 1,
        (true, false) if pair.finish_reading.is_on_paint() => 2,
        (false, true) => 3,
        (true, false) => 4,
        (false, false) => panic!("neither end can be found: {pair:?}"),
    }
}

/// White lines, other lines, zone edges, ticks, curved lines.
fn form(mark: &Mark) -> u32 {
    match mark.form {
        Form::Line if mark.colour.contains("white") => 0,
        Form::Line => 1,
        Form::Edge | Form::ShortLine => 2,
        Form::Tick => 3,
        Form::Curve => 4,
    }
}

fn cm(metres: f64) -> u32 {
    (metres.abs() * 100.0).round() as u32
}

/// The marks within `within_m` of a spot that are no trap, with how far off each lies: a spot may stand
/// on more marks than the one that it is told by.
fn marks_at(track: &Track, spot: Spot, within_m: f64) -> Vec<(f64, &Mark)> {
    let painted = track.painted(spot.course, spot.lane).iter();
    painted
        .map(|painted| ((painted.to_finish_m - spot.to_finish_m).abs(), &track.marks()[painted.mark.index()]))
        .filter(|(off_m, mark)| *off_m <= within_m && mark.trap_in(spot.lane).is_none())
        .collect()
}

/// The marks under a start that reach across the lane.
fn across_at(track: &Track, spot: Spot) -> impl Iterator<Item = &Mark> {
    marks_at(track, spot, 1e-9).into_iter().map(|(_, mark)| mark).filter(|mark| form(mark) <= 2)
}

/// What orders pairs of one kind: less is better. Where marks share a place, the best counts.
fn key(track: &Track, pair: &Pair) -> Option<[u32; 4]> {
    let to_finish_mm = (pair.finish.to_finish_m * 1000.0) as u32;
    match kind(pair) {
        // The finish line is one place on each course: only the tape tells them apart.
        1 | 3 => Some([cm(pair.start_reading.past_m), 0, 0, to_finish_mm]),
        2 => {
            let finishes = marks_at(track, pair.finish, 0.01);
            across_at(track, pair.start)
                .flat_map(|start| finishes.iter().map(move |(off_m, finish)| (start, *off_m, *finish)))
                .map(|(start, off_m, finish)| {
                    [cm(off_m), start.set.max(finish.set).into(), form(start) + form(finish), to_finish_mm]
                })
                .min()
        }
        _ => across_at(track, pair.start)
            .map(|start| [form(start), start.set.into(), cm(pair.finish_reading.past_m), to_finish_mm])
            .min(),
    }
}

#[test]
fn kinds_come_in_the_documented_order_and_at_most_three_of_each() {
    for_every_search(|_, what, pairs| {
        let kinds: Vec<u8> = pairs.iter().map(kind).collect();
        assert!(kinds.is_sorted(), "{what}: {kinds:?}");
        for kind in 1..=4 {
            let offered = kinds.iter().filter(|other| **other == kind).count();
            assert!(offered <= 3, "{what}: {offered} pairs of kind {kind}");
        }
    });
}

#[test]
fn pairs_with_both_ends_on_paint_come_first() {
    for_every_search(|_, what, pairs| {
        let ends: Vec<u8> = pairs.iter().map(Pair::ends_on_paint).collect();
        assert!(ends.is_sorted_by_key(|ends| Reverse(*ends)), "{what}: {ends:?}");
        assert!(ends.iter().all(|ends| *ends > 0), "{what}: {ends:?}");
    });
}

/// Asserts that the pairs of one kind come in the order of their keys.
fn assert_ordered(of_kind: u8) {
    for_every_search(|track, what, pairs| {
        let of_a_kind: Vec<_> = pairs.iter().filter(|pair| kind(pair) == of_kind).collect();
        let keys: Vec<_> = of_a_kind.iter().map(|pair| key(track, pair)).collect();
        assert!(keys.iter().all(Option::is_some), "{what}: {keys:?} {of_a_kind:#?}");
        assert!(keys.is_sorted(), "{what}: {keys:?} {of_a_kind:#?}");
    });
}

#[test]
fn of_pairs_to_the_finish_line_the_shortest_tape_comes_first() {
    assert_ordered(1);
    assert_ordered(3);
}

#[test]
fn of_pairs_on_paint_the_surest_and_plainest_comes_first() {
    assert_ordered(2);
}

#[test]
fn of_pairs_with_the_finish_off_paint_the_plainest_start_comes_first_then_the_shortest_tape() {
    assert_ordered(4);
}

#[test]
fn a_start_on_paint_for_a_finish_elsewhere_reaches_across_the_lane() {
    for_every_search(|track, what, pairs| {
        for pair in pairs.iter().filter(|pair| matches!(kind(pair), 2 | 4)) {
            assert!(across_at(track, pair.start).next().is_some(), "{what}: {pair:?}");
        }
    });
}

#[test]
fn a_trap_serves_only_as_the_start_of_its_own_run_to_the_finish_line() {
    for_every_search(|track, what, pairs| {
        for pair in pairs {
            let (start, finish) = (mark_of(track, pair.start_reading), mark_of(track, pair.finish_reading));
            assert_eq!(finish.trap_in(pair.finish.lane), None, "{what}: finishes by {finish:?}");
            if start.trap_in(pair.start.lane).is_some() {
                assert_eq!(kind(pair), 1, "{what}: starts by {start:?}");
                assert_ne!(start.form, Form::Curve, "{what}: starts by {start:?}");
            }
        }
    });
}

#[test]
fn nobody_finishes_within_20_m_past_the_finish_line() {
    for_every_search(|track, what, pairs| {
        for pair in pairs.iter().filter(|pair| pair.finish.course == Course::Oval) {
            let past_m = track.layout().from_finish_m(pair.finish);
            let is_at_line = pair.finish.to_finish_m == 0.0;
            assert!(is_at_line || past_m >= 20.0, "{what}: finishes {past_m} m past the finish line");
        }
    });
}

#[test]
fn no_pair_is_offered_twice() {
    for_every_search(|track, what, pairs| {
        for (at, pair) in pairs.iter().enumerate() {
            for other in &pairs[..at] {
                let is_same = pair.start.course == other.start.course
                    && track.point(pair.start).distance(track.point(other.start)) < 0.05
                    && track.point(pair.finish).distance(track.point(other.finish)) < 0.05;
                assert!(!is_same, "{what}: {pair:?} and {other:?} are the same run");
            }
        }
    });
}

/// Two marks are taken here at their places in the lane, and no search is asked.
#[test]
fn two_marks_the_distance_apart_are_found_unless_three_better_pairs_are() {
    for track in built_in() {
        for lane in 1..=track.layout().lanes_of(Course::Oval) {
            let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
            let usable: Vec<(f64, &Mark)> = track
                .painted(Course::Oval, lane_number(lane))
                .iter()
                .map(|painted| (painted.to_finish_m, &track.marks()[painted.mark.index()]))
                .filter(|(_, mark)| mark.trap_in(lane_number(lane)).is_none())
                .collect();
            for distance_m in (3..=40).map(|tens| f64::from(tens) * 10.0) {
                let pairs = track
                    .search_at(Place::On(Course::Oval), lane_number(lane), distance_m)
                    .expect("the lane is open");
                let offered: Vec<_> = pairs.iter().filter(|pair| kind(pair) == 2).collect();
                for (start_m, start) in usable.iter().filter(|(_, mark)| form(mark) <= 2) {
                    for (finish_m, finish) in &usable {
                        let wrong_m = (start_m - finish_m - distance_m).rem_euclid(lap_m);
                        let is_apart = wrong_m.min(lap_m - wrong_m) < 0.005;
                        // The finish line is another kind, and what lies just past it is no finish.
                        let is_offered_elsewhere = *finish_m < 0.05 || lap_m - finish_m < 20.0;
                        if !is_apart || is_offered_elsewhere || offered.len() == 3 {
                            continue;
                        }
                        assert!(
                            offered.iter().any(|pair| (pair.start.to_finish_m - start_m).abs() < 0.05),
                            "{} lane {lane}: {distance_m} m from {} to {} is not offered: {offered:#?}",
                            track.name(),
                            start.name,
                            finish.name
                        );
                    }
                }
            }
        }
    }
}
