//! Any text is a block or has problems, with places inside it; a block is the same after printing
//! and reading, and a track takes it or says why not.

#![no_main]

use std::sync::LazyLock;

use lane_distance::Track;
use libfuzzer_sys::fuzz_target;
use workout_notation::{self as notation, Block, Workout};
use session_plan::{Session, Venue};
use workout_notation::Problem;

static VENUE: LazyLock<Venue> =
    LazyLock::new(|| Venue::from(Track::built_in("standard").expect("it comes with the crate")));

fn check(text: &str, problem: &Problem) {
    assert!(text.get(problem.span.clone()).is_some(), "{problem:?} lies outside {text:?}");
}

fuzz_target!(|text: &str| {
    for read in [notation::distance, notation::seconds, notation::race_distance] {
        if let Err(problem) = read(text) {
            check(text, &problem);
        }
    }
    match Workout::parse(text) {
        Ok(workout) => assert!(workout.blocks().next().is_some(), "nothing is made of {text:?}"),
        Err(problems) => {
            assert!(!problems.is_empty(), "{text:?} is refused without a word");
            problems.iter().for_each(|problem| check(text, problem));
        }
    }
    match Block::parse(text) {
        Ok(block) => {
            let printed = block.to_string();
            assert_eq!(Block::parse(&printed).as_ref(), Ok(&block), "{text:?} prints as {printed:?}");
            if let Err(errors) = session_plan::plan(&VENUE, &Session::of_block("fuzz", block)) {
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
