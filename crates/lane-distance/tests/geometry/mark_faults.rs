//! Marks of a track that are refused: what is wrong, and where.

use lane_distance::spec::{MarkSet, TrackSpec};
use lane_distance::{Key, Quantity, Track, TrackFault, TrackFaultKind};

/// The faults of a sound track with these marks.
fn faults_of(marks: &str) -> Vec<TrackFault> {
    let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
    spec.marks = serde_yaml::from_str(marks).unwrap_or_else(|error| panic!("{error}: {marks}"));
    Track::build(&spec).expect_err("the marks have a fault")
}

/// Asserts that there is one fault, of this kind and at this place.
fn assert_fault(marks: &str, at: Vec<Key>, kind: TrackFaultKind) {
    assert_eq!(faults_of(marks), [TrackFault { at, kind }], "{marks}");
}

/// The way to a value of the first mark.
fn own(rule: Option<&str>) -> Vec<Key> {
    let row = [Key::from("marks"), Key::from("own"), Key::from(0)];
    row.into_iter().chain(rule.map(Key::from)).collect()
}

fn cone() -> String {
    "cone".to_owned()
}

#[test]
fn a_mark_without_a_rule_is_refused() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick }]",
        own(None),
        TrackFaultKind::NoRule { mark: cone() },
    );
}

#[test]
fn a_mark_with_two_rules_is_refused() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, to_finish: 30, across: 30 }]",
        own(None),
        TrackFaultKind::SeveralRules { mark: cone(), rules: vec!["to_finish", "across"] },
    );
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
        assert_fault(
            &format!("own: [{{ name: cone, colour: red, form: tick, {rule}: {value} }}]"),
            own(Some(rule)),
            TrackFaultKind::OutOfRange { quantity: Quantity::Rule(rule), value, low, high: 10_000.0 },
        );
    }
}

#[test]
fn a_race_breaks_after_one_bend_or_three() {
    assert_fault(
        "own: [{ name: odd start, colour: white, form: line across, race: 800, bends: 2 }]",
        own(Some("bends")),
        TrackFaultKind::Bends(2),
    );
}

#[test]
fn before_finish_belongs_to_a_straight() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, before_finish: 30, on: oval }]",
        own(Some("on")),
        TrackFaultKind::BeforeFinishOnOval,
    );
}

#[test]
fn an_unknown_mark_set_lists_those_there_are() {
    let known = MarkSet::built_in_names().collect();
    assert_fault(
        "sets: [standard, club marks]",
        vec![Key::from("marks"), Key::from("sets"), Key::from(1)],
        TrackFaultKind::UnknownSet { name: "club marks".to_owned(), known },
    );
}

#[test]
fn a_worn_mark_that_is_not_there_has_the_nearest_name_beside_it() {
    for (name, near) in [("400 m strat", Some("400 m start".to_owned())), ("zzzz", None)] {
        assert_fault(
            &format!("worn: [{{ mark: {name} }}]"),
            vec![Key::from("marks"), Key::from("worn"), Key::from(0), Key::from("mark")],
            TrackFaultKind::UnknownWorn { name: name.to_owned(), near },
        );
    }
}

#[test]
fn a_base_that_is_not_there_is_named() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, from: the old oak, past: 3 }]",
        own(Some("from")),
        TrackFaultKind::UnknownBase { mark: cone(), base: "the old oak".to_owned(), near: None },
    );
}

#[test]
fn a_mark_is_not_placed_from_itself() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, from: cone, past: 3 }]",
        own(Some("from")),
        TrackFaultKind::PlacedFromItself { mark: cone() },
    );
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
