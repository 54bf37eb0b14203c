//! Words that no form knows stop nothing and are kept beside the block; numbers are never lost with them.

use workout_notation::Block;

/// The canonical form of a text, and the words that were not read.
fn read(text: &str) -> (String, Vec<String>) {
    let block = Block::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}"));
    (block.to_string(), block.not_read)
}

#[test]
fn words_alone_stop_nothing() {
    for (text, printed, not_read) in [
        ("6 x 200 bananas", "6 x 200", "bananas"),
        ("6 x 200 stedy", "6 x 200", "stedy"),
        ("6 x 200 für alle", "6 x 200", "für alle"),
        ("4 x 80 on the grass", "4 x 80", "on the grass"),
        ("4 x 80 on the bedn", "4 x 80", "on the bedn"),
        ("6 x 200 rest as needed", "6 x 200", "rest as needed"),
        ("6 x 200 walk home", "6 x 200", "walk home"),
        ("6 x 200 in spikes, rest 90s", "6 x 200 rest 1:30", "in spikes"),
        ("6 x 200 with friends in lane 2", "6 x 200 in lanes 2", "with friends"),
        ("6 x 200 finishing at the, rest 3min", "6 x 200 rest 3:00", "finishing at the"),
    ] {
        assert_eq!(read(text), (printed.to_owned(), vec![not_read.to_owned()]), "{text}");
    }
}

#[test]
fn a_number_beside_words_that_are_not_read_is_refused_under_the_word_or_the_number() {
    for (text, column) in [
        ("6 x 200 rset 90", 9),
        ("4 x 150 betwen sets 5min", 9),
        ("6 x 200 bananas 7", 17),
        ("6 x 200 with 7 friends", 9),
        ("200 6 x 300", 5),
    ] {
        let problems = Block::parse(text).expect_err(text);
        assert_eq!(problems[0].span.start + 1, column, "{text}: {problems:?}");
    }
}

#[test]
fn what_is_told_besides_is_kept_with_its_numbers() {
    for (text, aside) in [
        ("6 x 150, last 50 fast", "last 50 fast"),
        ("8 x 400 teams of 3", "teams of 3"),
        ("6 x 150 (note: 4 cones a side, 20 cm high)", "4 cones a side, 20 cm high"),
        ("3 x 600 over 4 barriers a lap, 3 min", "over 4 barriers a lap"),
        ("5 x 200 RPE 8, 3 min", "RPE 8"),
    ] {
        let block = Block::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}"));
        assert_eq!(block.asides, [aside], "{text}");
    }
}

#[test]
fn headings_name_groups_with_a_colon_or_above_bullets() {
    let text = "Club night, 13 April 2027\nWarm up 15 mins, drills\nSprints:\n- 4 x 30\nMiddle distance\n- 6 x 400, 90s\n\
                - strides on the grass\nJuniors (U13s):\n- 2 x (4 x 60) 60s & 4min\n";
    let workout = workout_notation::Workout::parse(text).expect("it is well formed");
    assert_eq!(workout.title.as_deref(), Some("Club night"));
    assert_eq!(workout.date.map(|date| date.to_string()).as_deref(), Some("2027-04-13"));
    let parts: Vec<_> = workout.parts.iter().map(|part| (part.group.as_deref(), part.blocks.len())).collect();
    let groups = [(None, 2), (Some("Sprints"), 1), (Some("Middle distance"), 2), (Some("Juniors (U13s)"), 1)];
    assert_eq!(parts, groups);
}

/// The groups of a text with the first words of their blocks; nothing for what everybody does.
fn parts(text: &str) -> Vec<(Option<String>, Vec<String>)> {
    let workout =
        workout_notation::Workout::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}"));
    let texts = |blocks: Vec<Block>| blocks.into_iter().map(|block| block.text).collect();
    workout.parts.into_iter().map(|part| (part.group, texts(part.blocks))).collect()
}

fn part(group: &str, blocks: &[&str]) -> (Option<String>, Vec<String>) {
    let group = Some(group.to_owned()).filter(|group| !group.is_empty());
    (group, blocks.iter().map(|&block| block.to_owned()).collect())
}

#[test]
fn a_cool_down_that_stands_apart_behind_the_last_group_is_everybodys() {
    let sprints = part("Sprints", &["4 x 30"]);
    for (text, cool_down) in [
        ("Sprints:\n4 x 30\nDistance:\n6 x 400\n\nCD 10 min", "CD 10 min"),
        ("Sprints:\n- 4 x 30\nDistance:\n- 6 x 400\ncool down 2 laps", "cool down 2 laps"),
        ("Sprints:\n- 4 x 30\nDistance:\n- 6 x 400\nCool down:\n- jog 2 laps", "jog 2 laps"),
        ("Sprints:\n- 4 x 30\nDistance:\n- 6 x 400\nEverybody:\n- 10 min easy jog", "10 min easy jog"),
    ] {
        let expected = [sprints.clone(), part("Distance", &["6 x 400"]), part("", &[cool_down])];
        assert_eq!(parts(text), expected, "{text}");
    }
    // In the lines of a group it is the group's, and so it is where each group has one.
    for (text, own) in [
        ("Sprints:\n- 4 x 30\nDistance:\n- 6 x 400\n- CD 10 min", ["4 x 30", ""]),
        ("Sprints:\n- 4 x 30\n- CD 5 min\nDistance:\n- 6 x 400\n\nCD 10 min", ["4 x 30", "CD 5 min"]),
        ("Sprints:\n- 4 x 30\n\nCD 5 min\n\nDistance:\n- 6 x 400\n\nCD 10 min", ["4 x 30", "CD 5 min"]),
    ] {
        let own: Vec<&str> = own.into_iter().filter(|block| !block.is_empty()).collect();
        assert_eq!(
            parts(text),
            [part("Sprints", &own), part("Distance", &["6 x 400", "CD 10 min"])],
            "{text}"
        );
    }
}

#[test]
fn a_rest_in_front_of_a_heading_is_not_lost() {
    let text = "Sprints:\n4 x 30; 5 min rest;\nDistance:\n6 x 400";
    let workout = workout_notation::Workout::parse(text).expect("it is well formed");
    let rest = workout.parts[0].blocks.last().and_then(|block| block.rest_after.as_ref());
    assert_eq!(rest.map(|rest| rest.seconds), Some(300.0));
}

#[test]
fn blocks_alone_have_no_title_no_date_and_no_groups() {
    for (text, message) in [
        ("Tuesday track\n6 x 200", "`Tuesday track` is a title, and blocks have none"),
        ("13 April 2027\n6 x 200", "`13 April 2027` is a date, and blocks have none"),
        ("warm-up\nSprints:\n6 x 60", "`Sprints` is the heading of a group, and these are the blocks of one"),
    ] {
        let problems = workout_notation::Workout::parse_blocks(text).expect_err(text);
        assert_eq!(problems[0].message, message);
        assert!(text[problems[0].span.clone()].starts_with(&message[1..6]), "{problems:?}");
    }
    let blocks = workout_notation::Workout::parse_blocks("warm-up; main set: 6 x 200");
    assert_eq!(blocks.map(|blocks| blocks.len()), Ok(2));
}

#[test]
fn a_heading_above_a_block_that_has_a_label_is_kept() {
    for (text, label) in [
        ("Group 3:\nU13s: 2 x 150, 80s", "Group 3, U13s"),
        ("Main set 2:\n- U13s: 2 x 150, 80s\n- 4 x 60", "Main set 2, U13s"),
    ] {
        let blocks = workout_notation::Workout::parse(text).expect("it is well formed").into_blocks();
        assert_eq!(blocks[0].label.as_deref(), Some(label), "{text}");
    }
}

#[test]
fn headings_name_groups_above_runs_without_bullets_too() {
    let (milers, sprinters) =
        (part("Milers", &["6 x 400, 90s"]), part("Sprinters", &["4 x 60", "walk back"]));
    let both = [milers.clone(), part("Sprinters", &["4 x 60"])];
    for text in [
        // As the first line of a paragraph, of the first one as well.
        "Milers\n6 x 400, 90s\n\nSprinters\n4 x 60",
        "Tuesday track\n\nMilers\n6 x 400, 90s\n\nSprinters\n4 x 60",
        "Tuesday track\nMilers\n6 x 400, 90s\n\nSprinters\n4 x 60",
        "Milers\n\n6 x 400, 90s\n\nSprinters\n\n4 x 60",
        // Without an empty line where the words say who trains.
        "Milers\n6 x 400, 90s\nSprinters\n4 x 60",
        "Milers:\n6 x 400, 90s\nSprinters\n4 x 60",
    ] {
        assert_eq!(parts(text), both, "{text}");
    }
    let text = "Warm up\n\nMilers\n6 x 400, 90s\n\nSprinters\n4 x 60\nwalk back";
    let [_, first, second] = parts(text).try_into().expect("there are three");
    assert_eq!((first, second.0), (milers, sprinters.0));
    // What is told above runs, or says how they are run, is no group.
    for text in ["4 x 60\n\nPlease bring spikes tonight\n6 x 200", "4 x 60\n\nEasy\n6 x 200"] {
        assert_eq!(parts(text).len(), 1, "{text}");
    }
}

#[test]
fn headings_with_nothing_below_them_are_kept() {
    for (text, note) in [
        ("Throwers:\n\nSprinters:\n4 x 60\nMilers:\n6 x 400", "Throwers"),
        ("Main set:\nSprinters:\n4 x 60\nMilers:\n6 x 400", "Main set"),
        ("Sprinters:\n4 x 60\nMilers:\n6 x 400\nThrowers:\nAll:\nstretching", "Throwers"),
    ] {
        let workout = workout_notation::Workout::parse(text).expect("it is well formed");
        assert!(workout.blocks().any(|block| block.text == note), "{text}: {workout:?}");
        let groups: Vec<_> = workout.parts.iter().filter_map(|part| part.group.as_deref()).collect();
        assert_eq!(groups, ["Sprinters", "Milers"], "{text}");
    }
    let blocks =
        workout_notation::Workout::parse("warm up\nMain set:\nPart 1:\n6 x 200").expect("it is well formed");
    assert_eq!(blocks.into_blocks()[1].label.as_deref(), Some("Main set, Part 1"));
}

#[test]
fn how_often_a_line_is_repeated_is_said() {
    for (text, count) in [("4 x 60; 3 x 150; repeat x 3", 3), ("6 x 100 relaxed; 4 x 60; x 2", 2)] {
        let blocks = workout_notation::Workout::parse(text).expect("it is well formed").into_blocks();
        assert_eq!(blocks.len(), 2 * count as usize, "{text}");
        assert!(blocks[0].doubts.contains(&workout_notation::Doubt::LineRepeated { count }), "{text}");
    }
    // A cross alone repeats nothing, and whatever doubles what stands in front of it soon is too long.
    assert!(workout_notation::Workout::parse("f.*.*.*.*").is_ok_and(|workout| workout.blocks().count() == 1));
    for repeat in [". repeat", "; x 20", ". repeat x 2"] {
        let text = format!("4 x 60{}", repeat.repeat(60));
        let problems = workout_notation::Workout::parse(&text).expect_err("it is too long");
        assert_eq!(problems[0].message, "a session of more than 500 blocks is too long");
    }
    // With nothing in front of it in its line there is nothing to repeat.
    let problems = workout_notation::Workout::parse("6 x 100\nx 3").expect_err("it repeats nothing");
    assert_eq!(problems[0].message, "nothing stands in front of this in its line");
}

#[test]
fn a_count_of_distances_called_a_relay_is_in_doubt() {
    let doubts =
        |text: &str| Block::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}")).doubts;
    for text in ["4x100 relay", "2 x 4 x 100m relay", "4 x 400 relay, 8 min"] {
        assert_eq!(doubts(text), [workout_notation::Doubt::RelayOrRuns], "{text}");
    }
    // A leg alone is run by each athlete.
    assert_eq!(doubts("3 x 120 relay leg"), []);
}

#[test]
fn what_stands_behind_a_comma_is_in_doubt_where_it_could_be_the_rest() {
    use workout_notation::Doubt::{RunOrRest, TargetOrRest};
    let doubts =
        |text: &str| Block::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}")).doubts;
    assert_eq!(doubts("3 x 400 @ 60, 90"), [RunOrRest { seconds: 90.0 }]);
    assert_eq!(doubts("3 x 300 @ 45, 43"), [TargetOrRest { seconds: 43.0 }]);
    for clear in
        ["3 x 400 @ 60, 90s", "3 x 400 @ 60, 90m", "3 x 300 @ 45, 1 x 150", "3 x 300 @ 45, 43, 3 min rest"]
    {
        assert_eq!(doubts(clear), [], "{clear}");
    }
}

#[test]
fn a_time_that_nobody_needs_is_in_doubt() {
    use workout_notation::Doubt::SlowerThanWalking;
    let doubts = |text: &str| Block::parse(text).expect("it is well formed").doubts;
    assert_eq!(doubts("6 x 20 @ 75"), [SlowerThanWalking { metres: 20.0, seconds: 75.0 }]);
    assert_eq!(doubts("6 x 200 @ 75"), []);
}

#[test]
fn a_number_alone_in_a_warm_up_is_minutes_and_in_doubt() {
    let block = Block::parse("warm up 15").expect("it is well formed");
    assert_eq!(block.doubts, [workout_notation::Doubt::MinutesOfNote { minutes: 15.0 }]);
    assert!(matches!(block.body, workout_notation::Body::Note { lasts_s: Some(900.0), .. }));
}
