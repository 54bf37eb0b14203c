//! Marks of a track that are refused: what is wrong, and where.

use lane_distance::spec::{MarkSet, TrackSpec};
use lane_distance::{Quantity, Track, TrackFault, TrackFaultKind};

use crate::track_faults::fault;

/// The faults of a sound track with these marks.
fn faults_of(marks: &str) -> Vec<TrackFault> {
    let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
    spec.marks = serde_yaml::from_str(marks).unwrap_or_else(|error| panic!("{error}: {marks}"));
    Track::build(&spec).expect_err("the marks have a fault")
}

#[test]
fn a_mark_that_cannot_be_is_reported_at_its_key() {
    let (cone, own) = ("cone".to_owned(), "own: [{ name: cone, colour: red, form: tick");
    let rules = vec!["to_finish", "across"];
    let known = MarkSet::built_in_names().collect();
    let worn = |name: &str, near: Option<&str>| TrackFaultKind::UnknownWorn {
        name: name.to_owned(),
        near: near.map(str::to_owned),
    };
    let base = TrackFaultKind::UnknownBase { mark: cone.clone(), base: "the old oak".to_owned(), near: None };
    for (marks, at, kind) in [
        (format!("{own} }}]"), "own.0", TrackFaultKind::NoRule { mark: cone.clone() }),
        (
            format!("{own}, to_finish: 30, across: 30 }}]"),
            "own.0",
            TrackFaultKind::SeveralRules { mark: cone.clone(), rules },
        ),
        // A race breaks after one bend or three.
        (format!("{own}, race: 800, bends: 2 }}]"), "own.0.bends", TrackFaultKind::Bends(2)),
        (format!("{own}, before_finish: 30, on: oval }}]"), "own.0.on", TrackFaultKind::BeforeFinishOnOval),
        (
            "sets: [standard, club marks]".to_owned(),
            "sets.1",
            TrackFaultKind::UnknownSet { name: "club marks".to_owned(), known },
        ),
        ("worn: [{ mark: 400 m strat }]".to_owned(), "worn.0.mark", worn("400 m strat", Some("400 m start"))),
        ("worn: [{ mark: zzzz }]".to_owned(), "worn.0.mark", worn("zzzz", None)),
        (format!("{own}, from: the old oak, past: 3 }}]"), "own.0.from", base),
        (
            format!("{own}, from: cone, past: 3 }}]"),
            "own.0.from",
            TrackFaultKind::PlacedFromItself { mark: cone.clone() },
        ),
    ] {
        assert_eq!(faults_of(&marks), [fault(&format!("marks.{at}"), kind)], "{marks}");
    }
}

#[test]
fn a_length_out_of_range_names_its_rule() {
    for (rule, value, low) in [
        ("to_finish", -1.0, 0.0),
        ("to_finish", 10_001.0, 0.0),
        ("before_finish", -30.0, 0.0),
        ("curve", -9.344, 0.0),
        ("across", -10_001.0, -10_000.0),
        ("race", 12_000.0, 0.0),
    ] {
        let faults = faults_of(&format!("own: [{{ name: cone, colour: red, form: tick, {rule}: {value} }}]"));
        let kind = TrackFaultKind::OutOfRange { quantity: Quantity::Rule(rule), value, low, high: 10_000.0 };
        assert_eq!(faults, [fault(&format!("marks.own.0.{rule}"), kind)]);
    }
}

#[test]
fn two_marks_are_not_placed_from_each_other() {
    let faults = faults_of(
        "own:
  - { name: left cone, colour: red, form: tick, from: right cone, past: 3 }
  - { name: right cone, colour: red, form: tick, from: left cone, past: -3 }",
    );
    let kinds: Vec<TrackFaultKind> = faults.into_iter().map(|fault| fault.kind).collect();
    let itself = |mark: &str| TrackFaultKind::PlacedFromItself { mark: mark.to_owned() };
    assert_eq!(kinds, [itself("left cone"), itself("right cone")]);
}

#[test]
fn names_are_not_looked_for_while_a_set_is_not_known() {
    let faults = faults_of("sets: [standart]\nworn: [{ mark: finish line }]");
    assert_eq!(faults.len(), 1, "the finish line may be of that set: {faults:?}");
}
