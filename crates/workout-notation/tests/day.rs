//! What a text says of the day: lanes that are closed, and when it begins.

use chrono::NaiveTime;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use workout_notation::{Block, Doubt, Watches, Workout};

fn read(text: &str) -> Workout {
    Workout::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}"))
}

fn blocks(workout: &Workout) -> Vec<String> {
    workout.blocks().map(ToString::to_string).collect()
}

#[test]
fn lanes_that_are_closed_are_closed_wherever_that_is_said() {
    for (text, lanes) in [
        ("6 x 200, lane 1 closed", &[1][..]),
        ("Lane 1 closed all night\n6 x 200", &[1]),
        ("6 x 200 lane 1 closed", &[1]),
        ("6 x 200; lane 1 shut", &[1]),
        ("6 x 200 (lane 1 is shut for repair)", &[1]),
        ("6 x 200 - no lane 1", &[1]),
        ("6 x 200 not in lane 1", &[1]),
        ("lane 1 out of use tonight, 6 x 200", &[1]),
        ("Avoid lane 1: 6 x 200", &[1]),
        ("no lane 1, 6 x 200", &[1]),
        ("Note: lanes 1 and 2 closed\n6 x 200", &[1, 2]),
        ("6 x 200\nlanes 1-3 are not available because of the meeting", &[1, 2, 3]),
        ("NB keep off lanes 1, 2 & 8\n6 x 200", &[1, 2, 8]),
        ("inside lane closed\n- 6 x 200", &[1]),
        ("Tuesday track\nLane 8 reserved for the club next door\n6 x 200", &[8]),
        ("lane 1 off limits, 6 x 200", &[1]),
        ("lane 1 out of bounds, 6 x 200", &[1]),
        ("Thursday\ncant use lanes 1 & 2\n6 x 200", &[1, 2]),
        ("Thursday\nwe can't use lane 1\n6 x 200", &[1]),
        ("lane 1 off-limits today: 6 x 200", &[1]),
        ("closed: lanes 1, 2\n6 x 200", &[1, 2]),
    ] {
        let workout = read(text);
        let closed: Vec<u8> = workout.closed_lanes.iter().map(|lane| lane.get()).collect();
        assert_eq!(closed, lanes, "{text}");
        assert_eq!(blocks(&workout), ["6 x 200"], "{text}");
    }
}

#[test]
fn other_words_around_a_closed_lane_are_kept() {
    let workout = read("6 x 200 in lane 2, lane 1 shut, 90 s rest");
    assert_eq!(blocks(&workout), ["6 x 200 in lanes 2 rest 1:30"]);
    // A time would be lost with its reason.
    assert!(Workout::parse("6 x 200\nlane 1 closed until 19:30").is_err());
    let workout = read("Tuesday, lane 1 shut, at the top field\n6 x 200");
    assert_eq!(workout.title.as_deref(), Some("Tuesday, at the top field"));
}

#[test]
fn lanes_are_closed_for_a_part_of_the_evening() {
    let at = |hour, minute| NaiveTime::from_hms_opt(hour, minute, 0);
    for (said, lanes, from, until) in [
        ("no lane 1 or 2 until 7", vec![1, 2], None, at(19, 0)),
        ("lanes 3-1 closed until 7", vec![1, 2, 3], None, at(19, 0)),
        ("don't use 1 and 2 until 7", vec![1, 2], None, at(19, 0)),
        ("lane 1 & lane 8 closed after 7", vec![1, 8], at(19, 0), None),
        ("Lane 1 - coned off from half 6", vec![1], at(18, 30), None),
        ("Lanes 1, 2 or 4 not to be used from 7", vec![1, 2, 4], at(19, 0), None),
        ("lane 3 shut from 6.45", vec![3], at(18, 45), None),
        ("Lane 3 closes at 7", vec![3], at(19, 0), None),
        ("lane 3 is closed after 18:45", vec![3], at(18, 45), None),
        ("lanes 1-2 closed until 7pm", vec![1, 2], None, at(19, 0)),
        ("Not in lane 1 until half six", vec![1], None, at(18, 30)),
        ("no lane 1 before 6.30", vec![1], None, at(18, 30)),
        ("Lane 1 opens at 7", vec![1], None, at(19, 0)),
        ("lane 1 open again from 7", vec![1], None, at(19, 0)),
        ("lane 1 back in use at 7pm", vec![1], None, at(19, 0)),
        ("lane 4 available until 7", vec![4], at(19, 0), None),
        ("lane 2 closed 6.30-7", vec![2], at(18, 30), at(19, 0)),
        ("lane 2 closed between 6.30 and 7.15pm", vec![2], at(18, 30), at(19, 15)),
        ("lanes 7-8 closed for hurdles from 6.30 onwards", vec![7, 8], at(18, 30), None),
        ("lanes 7+8 go to the javelin from 7.30", vec![7, 8], at(19, 30), None),
        ("lane 8 closed to the public from 7", vec![8], at(19, 0), None),
        ("lane 2 flooded until 7 because of the rain", vec![2], None, at(19, 0)),
        ("lane 2 closed from 5", vec![2], None, None),
        ("lane 2 shut from 7 (re-marking)", vec![2], at(19, 0), None),
    ] {
        for text in [format!("Tuesday 6pm\n{said}\n6 x 200"), format!("Tuesday 6pm. {said}\n\n6 x 200")] {
            let workout = read(&text);
            assert_eq!(workout.title.as_deref(), Some("Tuesday"), "{text}");
            assert_eq!(
                (workout.begins, workout.closed_lanes.as_slice()),
                (at(18, 0), [].as_slice()),
                "{text}"
            );
            let [closure] = workout.closures.as_slice() else { panic!("{text}: {:?}", workout.closures) };
            let found: Vec<u8> = closure.lanes.iter().map(|lane| lane.get()).collect();
            assert_eq!((found, closure.from, closure.until), (lanes.clone(), from, until), "{text}");
        }
    }
    let morning = &read("Saturday 9.30am\nlane 1 closed until 10\n6 x 200").closures[0];
    assert_eq!((morning.from, morning.until), (None, at(10, 0)));
    assert!(read("Tuesday 6pm\n6 x 200 in lane 3, open to all").closures.is_empty());
    for text in ["lane 3 shut from 6.45\n6 x 200", "Tuesday 6pm\nlane 3 closed until 5pm\n6 x 200"] {
        assert!(Workout::parse(text).is_err(), "{text}");
    }
}

#[test]
fn what_is_run_in_a_lane_does_not_close_it() {
    for text in [
        "6 x 200 in lane 1",
        "6 x 200 in lanes 1-4, no rush",
        "6 x 200 lane 1, 90s off",
        "6 x 200, not too fast",
    ] {
        assert!(read(text).closed_lanes.is_empty(), "{text}");
    }
}

#[test]
fn a_block_alone_closes_no_lane() {
    let problems = Block::parse("6 x 200, lane 1 closed").expect_err("it would be run in lane 1");
    assert_eq!(problems[0].span, 7..22);
    assert_eq!(
        problems[0].message,
        "`lane 1 closed` is about the whole session, and this is one block of it"
    );
    assert!(Workout::parse_blocks("4 x 60\n6 x 200 no lane 1").is_err());
}

#[test]
fn a_text_says_when_it_begins_and_ends() {
    let at = |hour, minute| NaiveTime::from_hms_opt(hour, minute, 0).expect("it is a time of day");
    for (head, begins, ends, title) in [
        ("Tuesday\n6pm start", at(18, 0), None, Some("Tuesday")),
        ("Masters squad Tues 19:00", at(19, 0), None, Some("Masters squad Tues")),
        ("Under 11s  Saturday 9:30 - 10:30", at(9, 30), Some(at(10, 30)), Some("Under 11s Saturday")),
        ("Tuesday\nMeet 18:45, first rep 19:10 sharp", at(19, 10), None, Some("Tuesday")),
        ("Tuesday 18h30", at(18, 30), None, Some("Tuesday")),
        ("Tuesday, start 18:15", at(18, 15), None, Some("Tuesday")),
        ("Tuesday - 6.30 pm", at(18, 30), None, Some("Tuesday")),
        ("Tuesday 7pm track", at(19, 0), None, Some("Tuesday 7pm track")),
        ("Tuesday (18:00-19:30)", at(18, 0), Some(at(19, 30)), Some("Tuesday")),
        ("Tuesday 18:00-19:30", at(18, 0), Some(at(19, 30)), Some("Tuesday")),
        ("Tue 24 Nov 18:00-19:30", at(18, 0), Some(at(19, 30)), Some("Tue 24 Nov")),
        ("Tuesday, from 6 to 7:30pm", at(18, 0), Some(at(19, 30)), Some("Tuesday")),
        ("Saturday 9.30am-11am", at(9, 30), Some(at(11, 0)), Some("Saturday")),
        ("Saturday, 11am-1pm", at(11, 0), Some(at(13, 0)), Some("Saturday")),
        ("Thu 26 Nov, 6.30-8pm Wrenbeck", at(18, 30), Some(at(20, 0)), Some("Thu 26 Nov, Wrenbeck")),
        ("6.30 - 8", at(18, 30), Some(at(20, 0)), None),
        ("6:30 pm - 8:00 pm", at(18, 30), Some(at(20, 0)), None),
        ("Tuesday 6.30pm - 8pm", at(18, 30), Some(at(20, 0)), Some("Tuesday")),
        ("18:00-19:30", at(18, 0), Some(at(19, 30)), None),
        ("6pm-7.30", at(18, 0), Some(at(19, 30)), None),
        ("Tuesday 18:30", at(18, 30), None, Some("Tuesday")),
        ("Tonight 6:30pm", at(18, 30), None, None),
        ("Training 1830", at(18, 30), None, Some("Training")),
        ("Wednesday 5 May 2027 18:30", at(18, 30), None, Some("Wednesday")),
        ("2027-05-05 18:30", at(18, 30), None, None),
        ("5/5/27 18:30", at(18, 30), None, None),
        ("5.5.27, 6.30pm", at(18, 30), None, None),
        ("Tuesday 13 April 18:30 at Wrenbeck", at(18, 30), None, Some("Tuesday 13 April at Wrenbeck")),
        ("Sat 10.30", at(10, 30), None, Some("Sat")),
        ("THURS 15/4 - 6:15pm", at(18, 15), None, Some("THURS 15/4")),
        ("Sat 17/4 - 9am", at(9, 0), None, Some("Sat 17/4")),
        ("Tue 20 April. Track 18:00.", at(18, 0), None, Some("Tue 20 April. Track")),
        ("1830", at(18, 30), None, None),
        ("1830 start", at(18, 30), None, None),
        ("6.15 for 6.30pm start", at(18, 30), None, None),
        ("Hi all! Thursday 6.15pm for 6.30pm", at(18, 30), None, Some("Thursday")),
        ("half past six pm start", at(18, 30), None, None),
        ("Tuesday, quarter to 7 pm", at(18, 45), None, Some("Tuesday")),
        ("6pm-7.30, track closed from 7.15", at(18, 0), Some(at(19, 15)), None),
        ("Tuesday 6pm, finish by 7.30", at(18, 0), Some(at(19, 30)), Some("Tuesday")),
        ("10am\nGates shut at 11.30", at(10, 0), Some(at(11, 30)), None),
        ("Tuesday\n6.15pm start, lane 1 shut, one watch", at(18, 15), None, Some("Tuesday")),
    ] {
        let workout = read(&format!("{head}\n6 x 200"));
        assert_eq!((workout.begins, workout.ends), (Some(begins), ends), "{head}");
        assert_eq!(workout.title.as_deref(), title, "{head}");
        assert_eq!(blocks(&workout), ["6 x 200"], "{head}");
    }
}

#[test]
fn a_time_without_a_half_of_the_day_is_in_the_evening_and_in_doubt() {
    let begins = NaiveTime::from_hms_opt(18, 30, 0).expect("it is a time of day");
    for head in [
        "Tues 6.30",
        "at 6.30",
        "Tuesday, 6.30",
        "Start 6.30",
        "Tonight 6.30-8",
        "half six start",
        "6 for 6.30",
    ] {
        let workout = read(&format!("{head}\n6 x 200"));
        assert_eq!(workout.begins, Some(begins), "{head}");
        let doubts: Vec<_> = workout.blocks().flat_map(|block| &block.doubts).collect();
        assert_eq!(doubts, [&Doubt::InTheEvening { begins }], "{head}");
    }
}

#[test]
fn a_date_or_a_year_is_no_time_of_day() {
    for head in ["Tuesday 13.04", "Training 2027", "Session 12", "Tuesday 30/11/2027", "Week 6"] {
        let workout = read(&format!("{head}\n6 x 200"));
        assert_eq!((workout.begins, blocks(&workout)), (None, vec!["6 x 200".to_owned()]), "{head}");
    }
}

#[test]
fn what_is_said_of_athletes_is_told_at_their_runs() {
    let workout =
        read("Sprints (Ann, Bob (late), Max):\n4 x 60\nEndurance (Eve, Ed):\n6 x 400\nMax missing tonight");
    let doubts: Vec<_> = workout.blocks().map(|block| block.doubts.clone()).collect();
    let late = Doubt::SaidOfOne { name: "Bob".to_owned(), words: "late".to_owned() };
    assert_eq!(doubts, [vec![late, Doubt::LeftOut { name: "Max".to_owned() }], vec![]]);
    let workout = read("Max missing tonight\n6 x 200");
    let doubts: Vec<_> = workout.blocks().map(|block| block.doubts.clone()).collect();
    assert_eq!(doubts, [[Doubt::NotNamed { name: "Max".to_owned() }]]);
    assert_eq!(workout.notes, ["Max missing tonight"]);
    let workout =
        read("Tuesday 6pm\nMids - Ann, Ben (has to leave at 7.30), Cy:\n4 x 400\nZoe is out, Cy goes at 7");
    let early =
        |name: &str, words: &str| Doubt::LeavesEarly { name: name.to_owned(), words: words.to_owned() };
    let told = [
        early("Ben", "has to leave at 7.30"),
        Doubt::NotNamed { name: "Zoe".to_owned() },
        early("Cy", "goes at 7"),
    ];
    assert_eq!(workout.blocks().next().expect("it has a block").doubts, told);
    assert_eq!(workout.parts.last().expect("it has a group").begins, None);
}

#[test]
fn a_time_in_front_of_a_block_begins_the_session_or_is_told() {
    let at = |hour, minute| NaiveTime::from_hms_opt(hour, minute, 0).expect("it is a time of day");
    let workout = read("Wed 14 April\n6:00 - jog 10 min\n6:20 - 8 x 300 @ 54 (90 sec)\n19:00 – 4 x 100");
    assert_eq!(workout.begins, Some(at(18, 0)));
    assert_eq!(blocks(&workout), ["10:00 jogging", "8 x 300 @ 54s rest 1:30", "4 x 100"]);
    let told: Vec<_> = workout.blocks().map(|block| block.doubts.last().cloned()).collect();
    let begins_at = |begins| Some(Doubt::BeginsWithoutWaiting { begins });
    assert_eq!(told[1..], [begins_at(at(18, 20)), begins_at(at(19, 0))]);
    // A rest or a run by time has no dash behind it.
    assert_eq!(blocks(&read("6:00 tempo\n6 x 200")), ["6:00 tempo", "6 x 200"]);
}

#[test]
fn a_text_says_how_many_people_time() {
    for (head, watches, title) in [
        ("Tuesday, one watch between us", Some(Watches::One), Some("Tuesday")),
        ("Tuesday\ntwo watches tonight", Some(Watches::Two), Some("Tuesday")),
        ("only 1 coach", Some(Watches::One), None),
        ("Tuesday (a watch for each group)", Some(Watches::EachGroup), Some("Tuesday")),
        ("Watch the weather", None, Some("Watch the weather")),
        ("One watch is broken", None, Some("One watch is broken")),
        ("Bring a watch", None, Some("Bring a watch")),
    ] {
        let workout = read(&format!("{head}\n6 x 200"));
        assert_eq!((workout.watches, workout.title.as_deref()), (watches, title), "{head}");
        assert_eq!(blocks(&workout), ["6 x 200"], "{head}");
    }
}

#[test]
fn a_rest_or_a_pace_is_no_time_of_day() {
    for text in [
        "4 x 2000, 18:00-20:00",
        "Sub 3:30 group\n6 x 200",
        "6 x 200, 3:00",
        "Week 12, day 2\n6 x 200",
        "1830",
        "1800\n6 x 200",
        "half price kit\n6 x 200",
    ] {
        let workout = Workout::parse(text);
        assert!(workout.is_err() || workout.is_ok_and(|workout| workout.begins.is_none()), "{text}");
    }
}

proptest! {
    /// Whatever is said of the day in any letters, a text is read or has problems within it.
    #[test]
    fn any_words_of_the_day_can_be_read(
        words in vec(select(vec![
            "lane", "lanes", "1", "2,", "8", "closed", "shut", "no", "not in", "avoid", "is", "for", "until", "19:30",
            "6pm", "18:00–19:30", "start", "half", "quarter", "to", "six", "track closed", "finish by", "*", "**", "U11s", "at", "–", "-", "(", ")", ",", ";", "\n", "6 × 200", "é", "naïve", "½", "\u{a0}", ":",
        ]), 0..14),
        spaces in vec(any::<bool>(), 14),
    ) {
        let spaced = words.iter().zip(spaces).map(|(word, has_space)| format!("{word}{}", if has_space { " " } else { "" }));
        let text: String = spaced.collect();
        if let Err(problems) = Workout::parse(&text) {
            prop_assert!(!problems.is_empty());
            for problem in problems {
                prop_assert!(text.get(problem.span.clone()).is_some(), "{:?} of {:?}", problem, text);
            }
        }
    }
}

#[test]
fn a_line_below_the_runs_says_when_it_begins() {
    let at = |hour, minute| NaiveTime::from_hms_opt(hour, minute, 0).expect("it is a time of day");
    for (line, begins) in [
        ("18:00", at(18, 0)),
        ("6pm", at(18, 0)),
        ("Start: 18:00", at(18, 0)),
        ("start 6:15", at(18, 15)),
        ("Start 1900", at(19, 0)),
        ("We start 18:15", at(18, 15)),
        ("17:00 to 18:00", at(17, 0)),
    ] {
        let workout = Workout::parse(&format!("Speed\n4 x 200\n{line}")).expect(line);
        assert_eq!((workout.begins, workout.blocks().count()), (Some(begins), 1), "{line}");
    }
    // Three minutes are a rest.
    assert_eq!(Workout::parse("4 x 200\n3:00").expect("it is a rest").begins, None);
}
