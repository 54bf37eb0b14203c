//! Values as people write them in track files: lengths, lists, and what is said of others.

use lane_distance::spec::{ClosedSpec, LengthSpec, OneOrMany};
use lane_distance::{Course, HazardKind, LaneList, LaneNumber, Place, Side};
use serde::Deserialize;
use serde::de::value::SeqDeserializer;

use crate::lane_number;

/// International feet and yards are exact: 0.3048 m and 0.9144 m.
#[test]
fn a_length_is_a_number_of_metres_or_has_units() {
    for (text, metres) in [
        ("84.39", 84.39),
        ("84.39 m", 84.39),
        ("84.39M", 84.39),
        (" 2 km ", 2000.0),
        ("50 cm", 0.5),
        ("110 yd", 100.584),
        ("4 ft", 1.2192),
        ("1 in", 0.0254),
        ("4 ft 6 in", 1.3716),
        ("4ft6in", 1.3716),
        ("-3.5 m", -3.5),
        ("+3.5", 3.5),
        ("1 m 20 cm", 1.2),
    ] {
        let length: LengthSpec = text.parse().unwrap_or_else(|error| panic!("{error}"));
        assert!((length.metres() - metres).abs() < 1e-12, "{text}: {} m", length.metres());
    }
    for wrong in ["", "  ", "m", "4 furlongs", "4 ft 6 furlongs", "1.2.3", "four", "4 4 -", "- 4", "4,5 m"] {
        let error = wrong.parse::<LengthSpec>().expect_err("it is not a length");
        assert_eq!(
            error.to_string(),
            format!(
                "`{wrong}` is not a length; write metres as a number (84.39), or a unit with it \
                 (84.39 m, 110 yd, 4 ft, 4 ft 6 in)"
            )
        );
    }
}

#[test]
fn one_value_or_a_list_may_be_written() {
    let m = LengthSpec::from_metres;
    let read = |text: &str| serde_yaml::from_str::<OneOrMany<LengthSpec>>(text);
    for (text, expected) in [
        ("1.22", OneOrMany::One(m(1.22))),
        ("4 ft", OneOrMany::One(m(1.2192))),
        ("[1.22]", OneOrMany::Many(vec![m(1.22)])),
        ("[1.22, 50 cm]", OneOrMany::Many(vec![m(1.22), m(0.5)])),
        ("[]", OneOrMany::Many(vec![])),
    ] {
        assert_eq!(read(text).unwrap_or_else(|error| panic!("{error}: {text}")), expected);
    }
    assert_eq!(read("1.22").map(|one| one.as_slice().len()).ok(), Some(1));
    assert_eq!(
        read("[1, 2, 3]").map(|many| many.as_slice().to_vec()).ok(),
        Some(vec![m(1.0), m(2.0), m(3.0)])
    );
    for wrong in ["{ wide: 1.22 }", "[one]", "true"] {
        let error = read(wrong).expect_err("it is not a length");
        assert!(error.to_string().contains("expected a length, or a list of lengths"), "{wrong}: {error}");
    }
    // A reader that hands over a list as what it is.
    let items = [serde_json::json!(1.22), serde_json::json!("2 m")].into_iter();
    let list = OneOrMany::<LengthSpec>::deserialize(SeqDeserializer::<_, serde_json::Error>::new(items));
    assert_eq!(list.ok(), Some(OneOrMany::Many(vec![m(1.22), m(2.0)])));
}

#[test]
fn closed_lanes_are_a_list_or_have_a_reason() {
    let read = |text: &str| serde_yaml::from_str::<ClosedSpec>(text);
    let plain = read("[1, 2]").unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((plain.lanes(), plain.reason()), ([1, 2].as_slice(), None));
    let because = read("{ lanes: [3], reason: wet }").unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((because.lanes(), because.reason()), ([3].as_slice(), Some("wet")));
    let error = read("lane 1").expect_err("it is not a list");
    assert!(error.to_string().contains("expected a list of lanes such as `[1, 2]`"), "{error}");
    assert_eq!(ClosedSpec::default().lanes(), [0_u8; 0]);
}

#[test]
fn lanes_are_listed_as_people_say_them() {
    for (lanes, said) in [
        ([].as_slice(), "no lane"),
        (&[2], "lane 2"),
        (&[2, 2], "lane 2"),
        (&[2, 3], "lanes 2 and 3"),
        (&[2, 4], "lanes 2 and 4"),
        (&[2, 3, 4], "lanes 2 to 4"),
        (&[4, 2, 3, 3], "lanes 2 to 4"),
        (&[1, 3, 4], "lanes 1, 3 and 4"),
        (&[1, 2, 3, 5], "lanes 1, 2, 3 and 5"),
    ] {
        let lanes: Vec<LaneNumber> = lanes.iter().copied().map(lane_number).collect();
        assert_eq!(LaneList(&lanes).to_string(), said);
        let bare = said.trim_start_matches("lanes ").trim_start_matches("lane ");
        assert_eq!(LaneList(&lanes).numbers(), if lanes.is_empty() { "" } else { bare });
    }
}

#[test]
fn a_place_is_said_in_words() {
    for (place, said) in [
        (Place::Anywhere, "track"),
        (Place::On(Course::Oval), "oval"),
        (Place::On(Course::HomeStraight), "home straight"),
        (Place::Against(Course::BackStraight), "back straight, run the other way"),
        (Place::Bend, "bend"),
    ] {
        assert_eq!(place.to_string(), said);
    }
    let sides = [Side::Inside, Side::Outside, Side::Across].map(|side| side.to_string());
    assert_eq!(sides, ["inside", "outside", "across the lanes"]);
    assert_eq!(HazardKind::LongJumpPit.to_string(), "long-jump pit");
}

#[test]
fn a_lane_is_numbered_from_1_to_10() {
    let numbers: Vec<u8> = (0..=12).filter(|number| LaneNumber::new(*number).is_some()).collect();
    assert_eq!(numbers, [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    assert!(LaneNumber::ALL.into_iter().map(LaneNumber::get).eq(1..=10));
    assert!(LaneNumber::ALL.into_iter().map(LaneNumber::index).eq(0..10));
    assert!(LaneNumber::first(20).map(u8::from).eq(1..=10));
    assert_eq!(LaneNumber::try_from(7_u8), Ok(LaneNumber::of::<7>()));
    let error = LaneNumber::try_from(11_u8).expect_err("no lane has it");
    assert_eq!(error.to_string(), "there is no lane 11; lanes are numbered from 1 to 10");
    assert!(lane_number(3) == 3 && lane_number(3) != 4);
}
