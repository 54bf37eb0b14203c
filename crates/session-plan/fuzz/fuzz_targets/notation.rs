//! Any text is a block or has problems, with places inside it, and a track takes a block or says why not. Every number
//! of a text that is read stands in what is said of it.

#![no_main]

use std::sync::LazyLock;

use lane_distance::Track;
use libfuzzer_sys::fuzz_target;
use session_plan::{Session, Venue};
use workout_notation::Problem;
use workout_notation::{self as notation, Block, Workout};

static VENUE: LazyLock<Venue> =
    LazyLock::new(|| Venue::from(Track::built_in("standard").expect("it comes with the crate")));

fn check(text: &str, problem: &Problem) {
    assert!(text.get(problem.span.clone()).is_some(), "{problem:?} lies outside {text:?}");
}

/// The numbers of a text: runs of digits without the zeros in front. The zeros of `2.0` say nothing.
fn numbers(text: &str) -> Vec<&str> {
    let mut numbers = Vec::new();
    let mut is_behind_point = false;
    for part in text.split_inclusive(|letter: char| !letter.is_ascii_digit()) {
        let digits = part.trim_end_matches(|letter: char| !letter.is_ascii_digit());
        let number = digits.trim_start_matches('0');
        if !digits.is_empty() && !(number.is_empty() && is_behind_point) {
            numbers.push(number);
        }
        is_behind_point = !digits.is_empty() && part.ends_with('.');
    }
    numbers
}

/// Holds a text to the rule that no number is dropped: each stands in the reading of a block, in the title, in the
/// date, or in a heading. A number in front of a line is the line's.
fn check_numbers(text: &str, workout: &Workout) {
    let mut said: Vec<String> = workout.blocks().map(plan_sheet::reading).collect();
    said.extend(workout.title.clone());
    said.extend(workout.date.map(|date| format!("{date} {}", date.format("%y"))));
    said.extend(workout.parts.iter().filter_map(|part| part.group.clone()));
    let lanes = workout.parts.iter().flat_map(|part| &part.lanes).chain(&workout.lanes);
    said.extend(lanes.chain(&workout.closed_lanes).map(ToString::to_string));
    said.extend(workout.parts.iter().flat_map(|part| part.athletes.iter().cloned()));
    // In hours of the whole day, and of its half, and as `1830` without a sign.
    let of_parts = workout.parts.iter().flat_map(|part| part.begins.into_iter().chain(part.ends));
    let late = workout.late.iter().map(|late| late.begins);
    let times = workout.begins.into_iter().chain(workout.ends).chain(of_parts).chain(late);
    said.extend(times.map(|time| format!("{} {}", time.format("%H %M %H%M"), time.format("%I %I%M"))));
    // `15 min late`
    let later = workout.late.iter().filter_map(|late| Some((late.begins - workout.begins?).num_minutes()));
    said.extend(later.map(|minutes| minutes.to_string()));
    let said = said.join("; ");
    let shown = numbers(&said);
    for line in text.lines().map(str::trim_start) {
        let in_line = numbers(line);
        let is_numbered = line.starts_with(|first: char| first.is_ascii_digit());
        for (place, number) in in_line.iter().enumerate() {
            let is_bullet = place == 0 && is_numbered;
            assert!(is_bullet || shown.contains(number), "{number} of {text:?} is lost: {said}");
        }
    }
}

fuzz_target!(|text: &str| {
    for read in [notation::distance, notation::seconds, notation::race_distance] {
        if let Err(problem) = read(text) {
            check(text, &problem);
        }
    }
    match Workout::parse(text) {
        Ok(workout) => {
            assert!(workout.blocks().next().is_some(), "nothing is made of {text:?}");
            check_numbers(text, &workout);
        }
        Err(problems) => {
            assert!(!problems.is_empty(), "{text:?} is refused without a word");
            problems.iter().for_each(|problem| check(text, problem));
        }
    }
    match Block::parse(text) {
        Ok(block) => {
            // Planning takes a thousand times as long as reading.
            let is_planned = text.bytes().fold(0_u8, u8::wrapping_add) % 32 == 0;
            if is_planned && let Err(errors) = session_plan::plan(&VENUE, &Session::of_block("fuzz", block)) {
                for error in errors {
                    let span = &error.fault.span;
                    assert!(text.get(span.clone()).is_some(), "{error:?} lies outside {text:?}");
                }
            }
        }
        Err(problems) => {
            assert!(!problems.is_empty(), "{text:?} is refused without a word");
            problems.iter().for_each(|problem| check(text, problem));
        }
    }
});
