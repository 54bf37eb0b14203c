//! The limits of values that are read alone, and what is made of a block or a problem that is there already.

use lane_distance::LaneNumber;
use workout_notation::{
    Block, Problem, Problems, SourceText, Turns, distance, lanes, race_distance, seconds,
};

/// What is said of a text that is no value.
fn refusal<T: std::fmt::Debug>(read: impl Fn(&str) -> Result<T, Problem>, text: &str) -> String {
    read(text).expect_err(text).message
}

#[test]
fn a_distance_has_10_to_10000_metres() {
    for (text, metres) in [("10", 10.0), ("200 m", 200.0), ("10km", 10_000.0), ("10000", 10_000.0)] {
        assert_eq!(distance(text), Ok(metres), "{text}");
    }
    for text in ["9", "9.9", "0", "-5", "10001", "10.1km", "1e9"] {
        assert_eq!(refusal(distance, text), format!("a repetition of `{text}` is out of range"));
    }
    assert_eq!(refusal(distance, "2 laps"), "a lap has no fixed length");
    assert_eq!(distance("200 m x").map_err(|problem| problem.span), Err(6..7));
}

#[test]
fn a_race_has_10_m_to_100_km() {
    for (text, metres) in [("10", 10.0), ("5k", 5000.0), ("100km", 100_000.0)] {
        assert_eq!(race_distance(text), Ok(metres), "{text}");
    }
    for text in ["9.9", "100001", "100.1km", "2 laps", "", "5k run"] {
        assert!(race_distance(text).is_err(), "{text}");
    }
    assert_eq!(refusal(race_distance, "9.9"), "`9.9` is not the distance of a race");
}

#[test]
fn a_time_has_more_than_0_seconds_and_at_most_6_hours() {
    for (text, time_s) in [
        ("0.1", 0.1),
        ("48.5s", 48.5),
        ("1:12.5", 72.5),
        ("3'30", 210.0),
        ("1h", 3600.0),
        ("6h", 21_600.0),
        ("21600", 21_600.0),
    ] {
        assert_eq!(seconds(text), Ok(time_s), "{text}");
    }
    for text in ["0", "21601", "7h"] {
        assert_eq!(refusal(seconds, text), format!("`{text}` is out of range for a time"));
    }
    assert_eq!(refusal(seconds, "1:60"), "expected seconds below 60 after the colon");
    assert_eq!(refusal(seconds, "-3"), "expected a time, found `-`");
    assert_eq!(refusal(seconds, "48s s"), "`48s s` is not understood");
}

#[test]
fn lanes_go_from_1_to_10() {
    let numbers = |text| lanes(text).map(|lanes| lanes.iter().map(|lane| lane.get()).collect::<Vec<_>>());
    assert_eq!(numbers("1-10"), Ok((1..=10).collect()));
    assert_eq!(numbers("2-4, 6"), Ok(vec![2, 3, 4, 6]));
    assert_eq!(numbers("4 and 2"), Ok(vec![4, 2]));
    for text in ["0", "11"] {
        assert_eq!(refusal(lanes, text), format!("`{text}` is not a lane"));
    }
    assert_eq!(refusal(lanes, "5-2"), "lanes 5 to 2 are in reverse order");
    assert_eq!(lanes("1,1").map_err(|problem| problem.span), Err(2..3));
}

#[test]
fn a_block_that_is_moved_keeps_what_stands_beside_it() {
    let text = "warm-up\nTue: 2 x (150, 80 from the finish line) in lanes 3-5, bananas, teams of 3\n\n5 min rest\n\n60";
    let blocks = workout_notation::Workout::parse(text).expect("it is well formed").into_blocks();
    let block = &blocks[1];
    assert_eq!(block.rest_after.as_ref().map(|rest| rest.seconds), Some(300.0));
    let beside = |block: &Block| (block.start, block.rest_after.clone());

    let moved = block.in_lanes(&[LaneNumber::of::<2>(), LaneNumber::of::<4>()]);
    assert_eq!(moved.text, "Tue: 2 x (150, 80 from the finish line) in lanes 2,4, bananas, teams of 3");
    assert_eq!(beside(&moved), beside(block));

    let moved = block.with_ends(Some("200 m start"), None);
    assert_eq!(moved.text, "2 x (150 + 80) in lanes 3,4,5 from the 200 m start");
    assert_eq!(beside(&moved), beside(block));
    assert_eq!(
        (&moved.label, &moved.asides, &moved.not_read),
        (&block.label, &block.asides, &block.not_read)
    );
    assert_eq!(blocks[0].with_ends(Some("200 m start"), None).text, "warm-up");
}

#[test]
fn turns_are_one_to_eight_of_10_to_5000_metres() {
    for metres in [&[10.0][..], &[5000.0], &[100.0; 8]] {
        assert_eq!(Turns::new(metres).expect("they are within the limits").metres(), metres);
    }
    for metres in [&[][..], &[9.9], &[5000.1], &[100.0; 9], &[100.0, 5.0]] {
        assert_eq!(Turns::new(metres), None, "{metres:?}");
    }
    let turns = Turns::new(&[60.0, 40.0]).expect("they are within the limits");
    let changes = |distance_m| turns.changes_m(distance_m).collect::<Vec<_>>();
    assert_eq!(changes(260.0), [60.0, 100.0, 160.0, 200.0]);
    // Nobody changes at the finish, nor within the width of its line.
    assert_eq!(changes(200.0), [60.0, 100.0, 160.0]);
    assert_eq!(changes(60.04), [0.0; 0]);
    assert_eq!(changes(60.06), [60.0]);
}

#[test]
fn problems_are_listed_in_the_order_of_the_text_by_line_and_column() {
    let text = "6 x 200\n4 x è 60 bananas 7\n";
    let late = Problem::new(7..9, "late").shifted(10).with_help("write it sooner");
    assert_eq!(late.span, 17..19);
    let problems =
        Problems::new(SourceText::new("tues\tday.txt", text), vec![late, Problem::new(2..3, "early")]);
    let listed = "tues day.txt:1:3: early\ntues day.txt:2:9: late; write it sooner";
    assert_eq!(problems.to_string(), listed);
    assert_eq!(SourceText::new("a", "6\tx\t200").without_tabs().text(), "6 x 200");
}

#[test]
fn what_cannot_be_seen_is_shown_by_a_sign() {
    use workout_notation::{visible, visible_line};
    for hidden in [
        '\0', '\u{7f}', '\u{9f}', '\u{61c}', '\u{200e}', '\u{200f}', '\u{2028}', '\u{202e}', '\u{2066}',
        '\u{2069}',
    ] {
        assert_eq!(visible(&format!("6{hidden} x 200\tè\n")), "6\u{fffd} x 200\tè\n");
    }
    assert_eq!(visible("6 x\r\n200\r60"), "6 x\n200\n60");
    assert_eq!(visible_line("6 x\r\n200\t60"), "6 x 200 60");
    assert_eq!(visible_line("6\u{2028}"), "6\u{fffd}");
}
