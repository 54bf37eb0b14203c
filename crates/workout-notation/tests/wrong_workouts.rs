//! Every text of `wrong_workouts.txt` is refused, and everything that is wrong with it is reported in
//! words that a coach understands, under the very word.

use workout_notation::{Block, Problem};

const TABLE: &str = include_str!("wrong_workouts.txt");

/// The fewest texts that the table must hold.
const FEWEST: usize = 80;

/// What must be reported in a text.
#[derive(Debug)]
struct Expected {
    column: usize,
    message: &'static str,
    help: &'static str,
}

impl Expected {
    fn read(line: &'static str) -> Self {
        let (column, words) = line.trim().split_once(' ').expect("a column and a message");
        let (message, help) = words.split_once(" -> ").unwrap_or((words, ""));
        Self { column: column.parse().expect("the column is a number"), message, help }
    }

    fn is_met_by(&self, text: &str, problem: &Problem) -> bool {
        let column = text[..problem.span.start].chars().count() + 1;
        let help = problem.help.as_deref().unwrap_or_default();
        column == self.column && problem.message.starts_with(self.message) && help.contains(self.help)
    }
}

fn table() -> Vec<(&'static str, Vec<Expected>)> {
    let mut table: Vec<(&str, Vec<Expected>)> = Vec::new();
    for line in TABLE.lines().filter(|line| !line.starts_with('#') && !line.is_empty()) {
        match table.last_mut() {
            Some((_, expected)) if line.starts_with("  ") => expected.push(Expected::read(line)),
            _ => table.push((line, Vec::new())),
        }
    }
    table
}

#[test]
fn the_table_holds_enough_texts_and_something_is_reported_in_each() {
    let table = table();
    assert!(table.len() >= FEWEST, "{} are too few", table.len());
    for (text, expected) in table {
        assert!(!expected.is_empty(), "nothing is reported in {text:?}");
    }
}

#[test]
fn everything_that_is_wrong_is_reported_under_its_word() {
    let mut faults = Vec::new();
    for (text, expected) in table() {
        match Block::parse(text) {
            Ok(block) => faults.push(format!("{text:?} is read as {:?}", block.to_string())),
            Err(problems) => {
                let is_met = expected.len() == problems.len()
                    && expected
                        .iter()
                        .zip(&problems)
                        .all(|(expected, problem)| expected.is_met_by(text, problem));
                if !is_met {
                    faults.push(format!("{text:?} has {problems:#?}"));
                }
            }
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn every_problem_says_what_to_write_instead() {
    for (text, _) in table() {
        for problem in Block::parse(text).expect_err("it is wrong") {
            assert!(problem.help.is_some_and(|help| !help.is_empty()), "{text:?}: {}", problem.message);
        }
    }
}

#[test]
fn a_text_without_words_is_empty_and_a_very_long_one_too_long() {
    let message = |text: &str| Block::parse(text).expect_err("it is wrong")[0].message.clone();
    assert_eq!(message(""), "the workout is empty");
    assert_eq!(message(" \n\t\u{a0}"), "the workout is empty");
    assert_eq!(message(&"200 + ".repeat(2000)), "a block of 12000 characters is too long: at most 10000");
}

#[test]
fn however_many_problems_there_are_each_is_reported() {
    let problems = Block::parse(&"0 x 200 + ".repeat(100)).expect_err("it is wrong");
    assert!(problems.len() >= 100);
    assert_eq!(problems[49].span, 490..491);
}

#[test]
fn a_text_of_a_megabyte_is_refused_by_its_size() {
    let text = "6 x 200 in lane 2, rest 90s\n".repeat(38_000);
    let problems = workout_notation::Workout::parse(&text).expect_err("it is far too long");
    assert!(text.len() > 1_000_000);
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].message, "a session of 1064000 characters is too long: at most 100000");
}
