//! Marks of a track that are refused: what is wrong, and where.

use lane_distance::spec::{MarkSet, TrackSpec};
use lane_distance::{Course, Quantity, Track, TrackFault, TrackFaultKind};

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

#[test]
fn a_key_that_means_nothing_alone_names_the_one_it_needs() {
    let own = "own: [{ name: cone, colour: red, form: tick";
    for (keys, key, partners) in [
        ("to_finish: 30, on: home straight", "on", ["before_finish", "hurdles"].as_slice()),
        ("to_finish: 30, past: 3", "past", &["from"]),
        ("to_finish: 30, bends: 1", "bends", &["race"]),
        ("to_finish: 30, trap_from_lane: 2", "trap_from_lane", &["trap"]),
    ] {
        let kind = TrackFaultKind::NeedsPartner { mark: "cone".to_owned(), key, partners };
        assert_eq!(faults_of(&format!("{own}, {keys} }}]")), [fault(&format!("marks.own.0.{key}"), kind)]);
    }
    let built = |keys: &str| {
        let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
        spec.marks = serde_yaml::from_str(&format!("{own}, {keys} }}]")).expect("it is well formed");
        Track::build(&spec).map(|_| ())
    };
    for sound in [
        "before_finish: 30, on: back straight",
        "hurdles: { race: 60, first: 13, between: 8, count: 5 }, on: home straight",
        "from: finish line, past: 3",
        "from: finish line",
        "race: 800, bends: 3",
        "race: 800",
        "to_finish: 30, trap: it misleads, trap_from_lane: 2",
        "to_finish: 0",
        "to_finish: 10000",
        "across: -10000",
    ] {
        assert_eq!(built(sound), Ok(()), "{sound}");
    }
}

#[test]
fn hurdles_stand_a_metre_apart_at_least() {
    let own = "own: [{ name: cone, colour: red, form: tick, hurdles: { race: 60, first: 13";
    for (between, count, is_wrong) in
        [(0.99, 2, true), (0.0, 3, true), (-8.0, 2, true), (1.0, 2, false), (0.5, 1, false)]
    {
        let marks = format!("{own}, between: {between}, count: {count} }} }}]");
        let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
        spec.marks = serde_yaml::from_str(&marks).expect("it is well formed");
        let kind = TrackFaultKind::OutOfRange {
            quantity: Quantity::Rule("between"),
            value: between,
            low: 1.0,
            high: 10_000.0,
        };
        let expected = vec![fault("marks.own.0.hurdles.between", kind)];
        assert_eq!(Track::build(&spec).err(), is_wrong.then_some(expected), "{marks}");
    }
    let kind = TrackFaultKind::EmptyRule { mark: "cone".to_owned(), rule: "hurdles" };
    let faults = faults_of(&format!("{own}, between: 8, count: 0 }} }}]"));
    assert_eq!(faults, [fault("marks.own.0.hurdles", kind)]);
}

#[test]
fn a_mark_behind_the_chute_of_its_straight_is_refused() {
    let cone = "name: cone, colour: red, form: tick";
    let off = |mark: &str, before_finish_m, course, length_m| TrackFaultKind::MarkOffStraight {
        mark: mark.to_owned(),
        before_finish_m,
        course,
        length_m,
    };
    let (home, back) = (Course::HomeStraight, Course::BackStraight);
    for (rule, key, kind) in [
        ("before_finish: 114", "before_finish", off("cone", 114.0, home, 113.0)),
        ("before_finish: [30, 114, 120]", "before_finish", off("cone", 114.0, home, 113.0)),
        ("before_finish: 85, on: back straight", "before_finish", off("cone", 85.0, back, 84.39)),
        (
            "on: home straight, hurdles: { race: 130, first: 13, between: 9, count: 10 }",
            "hurdles",
            off("cone", 117.0, home, 113.0),
        ),
    ] {
        let faults = faults_of(&format!("own: [{{ {cone}, to_finish: 5 }}, {{ {cone}, {rule} }}]"));
        assert_eq!(faults, [fault(&format!("marks.own.1.{key}"), kind)], "{rule}");
    }
    let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
    spec.marks =
        serde_yaml::from_str(&format!("own: [{{ {cone}, before_finish: 113 }}]")).expect("well formed");
    assert!(Track::build(&spec).is_ok(), "the chute reaches 113 m");
}

#[test]
fn a_name_longer_than_any_is_like_none() {
    let worn = |name: String| faults_of(&format!("worn: [{{ mark: '{name}' }}]"));
    let near = |name: String| match worn(name).remove(0).kind {
        TrackFaultKind::UnknownWorn { near, .. } => near,
        other => panic!("{other:?}"),
    };
    assert_eq!(near("Finish Lane".to_owned()).as_deref(), Some("finish line"));
    assert_eq!(near(format!("finish line{}", "e".repeat(300))), None);
}

#[test]
fn a_base_of_a_mark_set_that_is_missing_is_reported_at_the_mark() {
    let own = "own: [{ name: cone, colour: red, form: tick, from: finish lime, past: 3 }]";
    let kind = TrackFaultKind::UnknownBase {
        mark: "cone".to_owned(),
        base: "finish lime".to_owned(),
        near: Some("finish line".to_owned()),
    };
    assert_eq!(faults_of(own), [fault("marks.own.0.from", kind)]);
    let twice = faults_of("sets: [standard, club lines, standard]");
    assert_eq!(twice, [fault("marks.sets.2", TrackFaultKind::SetTwice("standard".to_owned()))]);
}
