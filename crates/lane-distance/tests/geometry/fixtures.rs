//! What the tests share: tracks, marks by their names, and random cases.

use lane_distance::spec::TrackSpec;
use lane_distance::{Course, Mark, PaintReading, Spot, Track};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseResult, TestRng, TestRunner};

use crate::lane_number;

pub(crate) fn standard() -> Track {
    Track::built_in("standard").expect("it comes with the crate")
}

/// The standard track with something else in its description.
pub(crate) fn standard_with(change: impl FnOnce(&mut TrackSpec)) -> Track {
    let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
    change(&mut spec);
    Track::build(&spec).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// The standard track with these sets of marks.
pub(crate) fn standard_with_sets(sets: &[&str]) -> Track {
    standard_with(|spec| spec.marks.sets = Some(sets.iter().map(|set| (*set).to_owned()).collect()))
}

/// The standard track with its own marks, and those of relays before the zones were made longer.
pub(crate) fn standard_with_former_zones() -> Track {
    standard_with(|spec| {
        let sets = spec.marks.sets.as_mut().expect("the track names its sets");
        sets.push("former takeover zones".to_owned());
    })
}

pub(crate) fn built_in() -> impl Iterator<Item = Track> {
    Track::built_in_names().map(|name| Track::built_in(name).expect("it comes with the crate"))
}

/// The mark that a spot is measured from.
pub(crate) fn mark_of(track: &Track, reading: PaintReading) -> &Mark {
    let id = reading.mark.expect("every lane of a built-in track has paint");
    track.mark(id).expect("it is a mark of this track")
}

/// The only mark of this name in a lane, and how far it lies from the finish, in metres.
pub(crate) fn painted<'a>(track: &'a Track, course: Course, lane: u8, name: &str) -> (f64, &'a Mark) {
    let found: Vec<_> = track
        .painted(course, lane_number(lane))
        .iter()
        .map(|painted| (painted.to_finish_m, &track.marks()[painted.mark.index()]))
        .filter(|(_, mark)| *mark.name == *name)
        .collect();
    assert_eq!(found.len(), 1, "`{name}` on the {course} in lane {lane}: {found:?}");
    found[0]
}

/// How far it lies from the finish, in metres.
pub(crate) fn painted_m(track: &Track, course: Course, lane: u8, name: &str) -> f64 {
    painted(track, course, lane, name).0
}

/// How far a mark of the oval lies ahead of the same mark in a lane further in, in metres.
pub(crate) fn ahead_m(track: &Track, name: &str, lane: u8, of: u8) -> f64 {
    let spot = |lane: u8| Spot::on_oval(lane_number(lane), painted_m(track, Course::Oval, lane, name));
    let layout = track.layout();
    layout.past_m(layout.abreast(spot(of), lane_number(lane)), spot(lane))
}

/// Checks so many cases, the same each time: a check that fails today fails tomorrow.
pub(crate) fn for_any<S: Strategy>(cases: u32, strategy: S, check: impl Fn(S::Value) -> TestCaseResult) {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    let mut runner = TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    runner.run(&strategy, check).unwrap_or_else(|error| panic!("{error}"));
}
