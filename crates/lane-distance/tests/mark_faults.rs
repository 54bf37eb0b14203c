//! Marks of a track that are refused: what is said, and of which place.

use lane_distance::{Fault, Key, Track, TrackSpec};

/// The faults of a sound track with these marks.
fn faults_of(marks: &str) -> Vec<Fault> {
    let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
    spec.marks = serde_yaml::from_str(marks).unwrap_or_else(|error| panic!("{error}: {marks}"));
    Track::build(&spec).expect_err("the marks have a fault")
}

/// Asserts that there is one fault with this place, sentence and help.
fn assert_fault(marks: &str, at: Vec<Key>, message: &str, help: Option<&str>) {
    let fault = Fault { at, message: message.to_owned(), help: help.map(str::to_owned) };
    assert_eq!(faults_of(marks), [fault], "{marks}");
}

/// The way to a value below `marks`.
fn own(rule: Option<&str>) -> Vec<Key> {
    let row = [Key::from("marks"), Key::from("own"), Key::from(0)];
    row.into_iter().chain(rule.map(Key::from)).collect()
}

#[test]
fn a_mark_without_a_rule_is_told_which_there_are() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick }]",
        own(None),
        "nothing says where the mark `cone` is painted",
        Some("add one of `to_finish`, `before_finish`, `hurdles`, `across`, `curve`, `at`, `from` or `race`"),
    );
}

#[test]
fn a_mark_with_two_rules_is_told_to_keep_one() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, to_finish: 30, across: 30 }]",
        own(None),
        "`to_finish` and `across` both place the mark `cone`",
        Some("keep one of them"),
    );
}

#[test]
fn a_length_out_of_range_is_told_with_its_rule() {
    for (rule, length, least) in [
        ("to_finish", "-1", "0"),
        ("to_finish", "10001", "0"),
        ("before_finish", "-30", "0"),
        ("curve", "-9.344", "0"),
        ("across", "-10001", "-10000"),
        ("race", "12000", "0"),
    ] {
        assert_fault(
            &format!("own: [{{ name: cone, colour: red, form: tick, {rule}: {length} }}]"),
            own(Some(rule)),
            &format!("{length} m is out of range for `{rule}`: {least} to 10000 m"),
            None,
        );
    }
}

#[test]
fn a_race_breaks_after_one_bend_or_three() {
    assert_fault(
        "own: [{ name: odd start, colour: white, form: line across, race: 800, bends: 2 }]",
        own(Some("bends")),
        "a race cannot break after 2 bends in lanes",
        Some("write 1 or 3"),
    );
}

#[test]
fn before_finish_belongs_to_a_straight() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, before_finish: 30, on: oval }]",
        own(Some("on")),
        "`before_finish` places a mark on a straight, not on the oval",
        Some("write `on: home straight`, or `to_finish` for the oval"),
    );
}

#[test]
fn a_mark_set_that_is_not_known_is_told_which_are() {
    assert_fault(
        "sets: [standard, club marks]",
        vec![Key::from("marks"), Key::from("sets"), Key::from(1)],
        "there is no mark set `club marks`",
        Some(
            "write one of `standard`, `club lines`, `age-group hurdles`, `300 m hurdles`, \
             `former takeover zones`, `small oval`, `yards`",
        ),
    );
}

#[test]
fn a_worn_mark_that_is_not_there_is_told_the_nearest_name() {
    let at = || vec![Key::from("marks"), Key::from("worn"), Key::from(0), Key::from("mark")];
    assert_fault(
        "worn: [{ mark: 400 m strat }]",
        at(),
        "the track has no mark `400 m strat` to wear off",
        Some("did you mean `400 m start`?"),
    );
    assert_fault("worn: [{ mark: zzzz }]", at(), "the track has no mark `zzzz` to wear off", None);
}

#[test]
fn a_base_that_is_not_there_is_named() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, from: the old oak, past: 3 }]",
        own(Some("from")),
        "the mark `cone` is placed from `the old oak`, which the track does not have",
        None,
    );
}

#[test]
fn a_mark_is_not_placed_from_itself() {
    assert_fault(
        "own: [{ name: cone, colour: red, form: tick, from: cone, past: 3 }]",
        own(Some("from")),
        "the mark `cone` is placed from itself",
        None,
    );
}

#[test]
fn two_marks_are_not_placed_from_each_other() {
    let faults = faults_of(
        "own:
  - { name: left cone, colour: red, form: tick, from: right cone, past: 3 }
  - { name: right cone, colour: red, form: tick, from: left cone, past: -3 }",
    );
    let said: Vec<&str> = faults.iter().map(|fault| fault.message.as_str()).collect();
    assert_eq!(
        said,
        ["the mark `left cone` is placed from itself", "the mark `right cone` is placed from itself"]
    );
}

#[test]
fn names_are_not_looked_for_while_a_set_is_not_known() {
    let faults = faults_of("sets: [standart]\nworn: [{ mark: finish line }]");
    assert_eq!(faults.len(), 1, "the finish line may be of that set: {faults:?}");
}
