//! How texts were read: every number of a text stands in its reading.

use lane_distance::Track;
use plan_sheet::{View, reading};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;
use session_plan::{Session, Venue};
use workout_notation::{Block, Workout};

fn read(text: &str) -> String {
    match Block::parse(text) {
        Ok(block) => reading(&block),
        Err(problems) => panic!("{text}: {problems:?}"),
    }
}

/// The numbers of a text that its reading lacks: runs of digits, each as often as it is written.
fn lost(text: &str, reading: &str) -> Vec<String> {
    let numbers = |text: &str| {
        let numbers = text.split(|letter: char| !letter.is_ascii_digit()).filter(|number| !number.is_empty());
        numbers.map(str::to_owned).collect::<Vec<_>>()
    };
    let mut shown = numbers(reading);
    let is_lost = |number: &String| match shown.iter().position(|other| other == number) {
        Some(at) => {
            shown.swap_remove(at);
            false
        }
        None => true,
    };
    numbers(text).into_iter().filter(is_lost).collect()
}

#[test]
fn readings_say_what_is_done_in_words_and_numbers() {
    for (text, said) in [
        ("6X200M,LANE 2,90S REST", "6 × 200 m in lane 2, 90 s rest"),
        ("3 sets of 4 x 200", "3 × (4 × 200 m)"),
        ("(300, 150) x 2", "2 × (300 m, 150 m)"),
        ("main set: 2 x [300 & 150]", "main set: 2 × (300 m, 150 m)"),
        ("200-400-600 @ 5k pace", "(200 m, 400 m, 600 m) @ 5 km pace"),
        ("300 @ 48 + 200 @ 30", "300 m @ 48 s, 200 m @ 30 s"),
        ("300 in 48-50s", "300 m @ 48-50 s"),
        ("600 @ 75/400", "600 m @ 75 s per 400 m"),
        ("1000 @ 3:20 per km rest 2'30\"", "1000 m @ 3:20 per km, 2 min 30 s rest"),
        ("150 @ 90% of best", "150 m @ 90% of best"),
        ("10 x 400 off 3:00", "10 × 400 m, every 3:00"),
        ("2 x 2 x 60 rest 2/8min", "2 × (2 × 60 m), 2 min rest, 8 min between sets"),
        ("6 x 200 walk 100 in 60s", "6 × 200 m, 100 m walk in 60 s"),
        ("6 x 200 jog exactly 200", "6 × 200 m, jog exactly 200 m"),
        ("6 x 60, slow walk back, 3min", "6 × 60 m, walk back, 3 min rest"),
        ("4 x 100 standing 20s", "4 × 100 m, standing, 20 s rest"),
        ("easy 20 min", "20 min easy"),
        ("jog 10 min", "10 min jogging"),
        ("20 min steady", "20 min steady"),
        ("4 flying 30s", "4 × flying 30 m with 20 m run-in"),
        ("30m flying (25m run-in)", "flying 30 m with 25 m run-in"),
        ("110mH over 5 hurdles", "110 m hurdles to hurdle 5"),
        ("4 x exchange zone 2 in lane 3", "4 × exchange in zone 2 in lane 3"),
        ("800 in-and-out 50s", "800 m in and out every 50 m"),
        ("1,000m in lanes 2,4", "1,000 m in lanes 2, 4"),
        ("mile easy", "mile easy"),
        ("200 from the 400 m start + 5", "200 m from the 400 m start + 5"),
        ("60 on the back straight with the wind", "60 m on the back straight with the wind"),
        ("warm-up  15 min", "warm-up 15 min"),
        ("4 x 300 in 50, 49, 48, 47", "4 × 300 m @ 50 s, 49 s, 48 s, 47 s"),
        ("4 x 300 cut-down 54-48, 3 min", "4 × 300 m @ 54-48 s, 3 min rest"),
        (
            "4 x 300 with reducing recoveries of 3 min, 2 min, 1 min",
            "4 × 300 m, 3 min rest, 2 min rest, 1 min rest",
        ),
        ("4 x 40 from a 3-point start", "4 × 40 m from a 3-point start"),
        ("2 miles of 300 hard/100 float", "2 miles as 300 + 100 m"),
        ("12 x 300 in 3 sets of 4", "3 × (4 × 300 m), 12 in all"),
        ("8 x 100 on the straights, jog the bends", "8 × 100 m on the straights, jog the bends, 100 m"),
        ("8 x 110 round the bends, walk the straights", "8 × 110 m on the bend, walk the straights, 90 m"),
        ("6 x 80 on the home straight", "6 × 80 m on the home straight"),
        ("3 x 120 relay leg", "3 × 120 m, relay leg"),
        ("5 x 600 steeplechase barriers, 3 min", "5 × 600 m, 3 min rest, steeplechase barriers"),
        ("6 x 1k @ 3000SC pace", "6 × 1 km @ 3000 SC pace"),
        ("4 x 800m race walk in 5:10", "4 × 800 m @ 5:10, race walk"),
        ("600 (400 in 64, 200 in 30)", "600 m as 400 + 200 m, 400 in 64, 200 in 30"),
        ("3 x 500 (last 200 in 29), 5 min", "3 × 500 m, 5 min rest, last 200 in 29"),
        ("6 x 300. First 4 @ 54, last 2 @ 50", "4 × 300 m @ 54 s, 2 × 300 m @ 50 s, 6 in all"),
        ("3-2-1 min hard, half time recovery", "(3 min, 1:30 rest, 2 min, 1:00 rest, 1 min, 30 s rest) hard"),
        ("8 x 100 on the minute", "8 × 100 m, every 1:00"),
    ] {
        assert_eq!(read(text), said, "{text}");
        assert_eq!(lost(text, said), [""; 0], "{text}");
    }
}

/// Whether a text shows a number, with or without the noughts behind its point.
fn shows(text: &str, number: &str) -> bool {
    text.split(|letter: char| !letter.is_ascii_digit()).any(|shown| shown == number)
}

#[test]
fn every_number_of_what_coaches_write_stands_in_the_plan_in_words_and_as_json() {
    let table = include_str!("../../workout-notation/tests/coaches.txt");
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let texts =
        table.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once(" => "));
    let mut planned = 0;
    for (text, _) in texts {
        let Ok(workout) = Workout::parse(text) else { continue };
        let session = Session { force: true, ..Session::of_workout("Notes", workout) };
        // What needs a best that nobody gives is not planned.
        let Ok(plan) = session_plan::plan(&venue, &session) else { continue };
        planned += 1;
        let told = plan.text();
        let blocks = serde_json::to_value(plan.data()).expect("it has a JSON")["blocks"]
            .as_array()
            .cloned()
            .unwrap_or_default();
        let readings: Vec<&str> = blocks.iter().filter_map(|block| block["reading"].as_str()).collect();
        let readings = readings.join("; ");
        for number in text.split(|letter: char| !letter.is_ascii_digit()).filter(|number| !number.is_empty())
        {
            assert!(shows(&readings, number), "{number} of {text} is not in the JSON: {readings}");
            assert!(shows(&told, number), "{number} of {text} is not in the terminal: {told}");
        }
    }
    assert!(planned > 150, "only {planned} are planned");
}

fn one_of(parts: &'static [&'static str]) -> impl Strategy<Value = &'static str> + Clone {
    select(parts)
}

/// A run with what may stand before and behind it.
fn run() -> impl Strategy<Value = String> {
    let kinds = one_of(&[
        "200",
        "350m",
        "1.5km",
        "1,000m",
        "110 yd",
        "1 mile",
        "2 laps",
        "easy 20 min",
        "7 min jog",
        "3:30 steady",
        "flying 30 with 25 run-in",
        "40m flying (15m run-in)",
        "110h to hurdle 5",
        "100mH over 4 hurdles",
        "exchange zone 2",
        "800 in-and-out 60s",
    ]);
    let clauses = one_of(&[
        "",
        " @ 48",
        " in 47-51s",
        " @ 1:12",
        " @ 1:10-12",
        " @ 77/400",
        " @ 3:20/km",
        " @ 92%",
        " @ 5k pace",
        " hard",
        " in lane 4",
        " lanes 3-6",
        " L2 and 5",
        " from the 400 m start + 5",
        " to the finish line",
    ]);
    (kinds, clauses).prop_map(|(kind, clause)| format!("{kind}{clause}"))
}

fn recovery() -> impl Strategy<Value = &'static str> {
    one_of(&[
        "",
        " rest 95s",
        ", 1'35\" rest",
        " (75s)",
        " r 65",
        " off 4:30",
        " every 6 min",
        " jog 100",
        ", 150m jog recovery",
        " walk 100 in 70s",
        " walk back 3min",
        " standing 25s",
        " rest 2/8min",
        " rec 3min / 9min",
        " jog exactly 50",
    ])
}

/// A workout: runs, sets, lists and ladders.
fn workout() -> impl Strategy<Value = String> {
    let count = one_of(&["", "6 x ", "4X", "3 sets of ", "5 times ", "12×"]);
    let list = one_of(&[" + ", ", ", " then ", " & "]);
    let several =
        (prop::collection::vec(run(), 1..4), list).prop_map(|(runs, between)| runs.join(between)).boxed();
    prop_oneof![
        (count.clone(), run(), recovery()).prop_map(|(count, run, after)| format!("{count}{run}{after}")),
        (several.clone(), recovery()).prop_map(|(list, after)| format!("{list}{after}")),
        (count, several, recovery()).prop_map(|(count, list, after)| {
            let count = if count.is_empty() { "2 x " } else { count };
            format!("{count}({list}){after}")
        }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, rng_seed: RngSeed::Fixed(2027), ..ProptestConfig::default() })]

    #[test]
    fn every_number_of_a_text_stands_in_its_reading(text in workout()) {
        // What is refused has no reading.
        if let Ok(block) = Block::parse(&text) {
            let said = reading(&block);
            prop_assert_eq!(lost(&text, &said), Vec::<String>::new(), "{} is read: {}", text, said);
        }
    }
}
