//! Every row of `tests/reference/marks.csv` on the standard track, in lanes 1 and 5, at the place where its rule
//! puts it. The rows come from World Athletics, 400 m standard track marking plan and Technical Rules, and from
//! club practice; most are from memory, as their column `how` says.
//!
//! The places are worked out by hand from the published dimensions.

use std::f64::consts::PI;

use crate::by_hand::{STRAIGHT_M, lap_m, radius_m, way_in_lane_1_m};
use crate::fixtures::{painted, standard_with_former_zones};
use crate::published::{Row, rows, source};
use lane_distance::{Course, Form, Mark};

const MARKS: &str = include_str!("../../../../tests/reference/marks.csv");

/// What the track calls the marks of a row, in the order in which its rule lists their places.
fn names(row: &Row) -> Vec<String> {
    let nth = |rest: &str| ["first", "second", "third"].map(|nth| format!("{nth} {rest}")).to_vec();
    let ticks = |race: &str| (1..=10).map(|n| format!("{race} hurdle tick {n}")).collect();
    let two = |zone: &str| ["entry", "exit"].map(|end| format!("{zone} {end}")).to_vec();
    match row["name"].as_str() {
        "400 m start (also 4x100 m and 400 m hurdles)" => vec!["400 m start".to_owned()],
        "4x400 m first takeover zone entry and exit" => two("first 4x400 m takeover zone"),
        "4x400 m later takeover zone entry and exit" => two("later 4x400 m takeover zone"),
        "4x100 m takeover zone entry" => nth("4x100 m takeover zone entry"),
        "4x100 m takeover zone exit" => nth("4x100 m takeover zone exit"),
        "4x100 m former zone entry (20 m zone)" => nth("former 4x100 m takeover zone entry"),
        "400 m hurdle ticks 1 to 10" => ticks("400 m"),
        "110 m hurdle ticks 1 to 10" => ticks("110 m"),
        "100 m hurdle ticks 1 to 10" => ticks("100 m"),
        "1000 3000 and 5000 m start" => vec!["1000 m, 3000 m and 5000 m start".to_owned()],
        "2000 and 10000 m start" => vec!["2000 m and 10,000 m start".to_owned()],
        name => vec![name.to_owned()],
    }
}

/// The numbers in a text.
fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().filter_map(|word| word.parse().ok()).collect()
}

/// Distance to the finish of each mark of a row in a lane, by the words of its rule; a curved line is
/// given by its place in lane 1.
fn places_m(row: &Row, lane: u8) -> Vec<f64> {
    let rule = row["rule"].as_str();
    let back_straight_ends_m = STRAIGHT_M + PI * radius_m(lane);
    let first_bend_ends_m = back_straight_ends_m + STRAIGHT_M;
    // The way of one lane's own length that is left before the break, laid off behind it.
    let before_break_m = |race_m: f64, laps_after: f64| {
        let in_lane_m = race_m - way_in_lane_1_m(lane, first_bend_ends_m) - laps_after * lap_m(1);
        (first_bend_ends_m + in_lane_m) % lap_m(lane)
    };
    let start_800_m = || before_break_m(800.0, 1.0);
    match rule {
        "end of the first bend" => vec![first_bend_ends_m],
        "800 m with one bend in lanes then the break" => vec![start_800_m()],
        // The second runner breaks; the third and the fourth run whole laps of lane 1.
        "three bends in lanes then the break" => vec![before_break_m(1600.0, 2.0)],
        "10 m behind and 10 m past the 800 m start in lanes" => {
            vec![start_800_m() + 10.0, start_800_m() - 10.0]
        }
        // Past the finish line the track bends: what is 10 m in lane 1 is more further out.
        "10 m behind and 10 m past the finish line" => {
            vec![10.0, lap_m(lane) - 10.0 * radius_m(lane) / radius_m(1)]
        }
        "at the finish line in lane 1" => vec![0.0],
        // The sum in brackets gives the millimetres.
        _ if rule.contains(" m behind the finish line in lane 1 (") => {
            numbers(rule).last().copied().into_iter().collect()
        }
        _ if rule.contains(" less ") => {
            let [first_m, between_m] = numbers(rule)[..] else { panic!("`{rule}` is not a row of hurdles") };
            (0..10).map(|n| first_m - f64::from(n) * between_m).collect()
        }
        _ if rule.ends_with(" m to the finish along the lane")
            || rule.ends_with(" m before the finish")
            || rule.ends_with(" m to the finish in lane 1")
            || rule.ends_with(" m to the finish") =>
        {
            let listed = rule.split(" m ").next().expect("a rule has words");
            numbers(listed)
        }
        other => panic!("the rule `{other}` is not known"),
    }
}

fn form(row: &Row) -> Form {
    match row["form"].as_str() {
        "line across" => Form::Line,
        "line short of the lane lines" => Form::ShortLine,
        "box edge" => Form::Edge,
        "tick" => Form::Tick,
        "curved line across all lanes" => Form::Curve,
        other => panic!("the form `{other}` is not known"),
    }
}

fn courses(row: &Row) -> &'static [Course] {
    match row["course"].as_str() {
        "oval" => &[Course::Oval],
        "home straight" => &[Course::HomeStraight],
        // The back straight has no finish line of its own.
        "all" => &[Course::Oval, Course::HomeStraight],
        other => panic!("the course `{other}` is not known"),
    }
}

/// A mark as the track paints it, and as its row places it.
pub(crate) struct Found<'a> {
    pub(crate) row: &'a Row,
    pub(crate) lane: u8,
    pub(crate) name: &'a str,
    /// The place that the rule gives it, in metres to the finish.
    pub(crate) place_m: f64,
    /// How far off it is painted, in metres.
    pub(crate) off_m: f64,
    mark: &'a Mark,
}

/// Calls `look` with each mark of each row, in lanes 1 and 5.
pub(crate) fn for_every_mark(mut look: impl FnMut(Found<'_>)) {
    let track = standard_with_former_zones();
    let rows = rows(MARKS);
    assert_eq!(rows.len(), 24);
    for row in &rows {
        for lane in [1, 5] {
            let (names, places_m) = (names(row), places_m(row, lane));
            assert_eq!(names.len(), places_m.len(), "{}: {names:?} {places_m:?}", row["name"]);
            for &course in courses(row) {
                for (name, &place_m) in names.iter().zip(&places_m) {
                    let (to_finish_m, mark) = painted(&track, course, lane, name);
                    let off_m = off_m(row, lane, mark, to_finish_m, place_m);
                    look(Found { row, lane, name, place_m, off_m, mark });
                }
            }
        }
    }
}

/// How far a mark is painted from its place.
fn off_m(row: &Row, lane: u8, mark: &Mark, to_finish_m: f64, place_m: f64) -> f64 {
    let is_group_start = mark.form == Form::Curve && row["name"] != "break line";
    let (is_m, lap_m) = if is_group_start && lane > 1 {
        // All who start on a curved line have the same way to run as lane 1 has.
        (way_in_lane_1_m(lane, to_finish_m), lap_m(1))
    } else {
        (to_finish_m, lap_m(lane))
    };
    let off_m = (is_m - place_m).rem_euclid(lap_m);
    // Half a step behind the finish line and half a step past it are one step apart.
    off_m.min(lap_m - off_m)
}

#[test]
fn every_mark_is_painted_where_its_rule_says() {
    for_every_mark(|Found { row, lane, name, off_m, .. }| {
        assert!(off_m < 0.001, "{name} in lane {lane} is {off_m} m off `{}` ({})", row["rule"], source(row));
    });
}

#[test]
fn every_mark_has_its_colour_and_form() {
    for_every_mark(|Found { row, name, mark, .. }| {
        assert_eq!((&*mark.colour, mark.form), (row["colour"].as_str(), form(row)), "{name}");
    });
}

#[test]
fn every_mark_of_the_standard_set_has_a_row() {
    let track = standard_with_former_zones();
    let mut named = Vec::new();
    for_every_mark(|found| named.push(found.name.to_owned()));
    for mark in track.marks().iter().filter(|mark| mark.set == 0) {
        assert!(named.iter().any(|name| **name == *mark.name), "no row of the table gives `{}`", mark.name);
    }
}
