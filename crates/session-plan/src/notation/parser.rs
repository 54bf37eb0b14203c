//! From a text to a block.

use super::block::{Block, Body, Length, MOST_REPS};
use super::cursor::Cursor;
use super::quantity::EXAMPLE;
use super::token::tokens;
use crate::problem::Problem;

/// The longest text that is read, in bytes.
const LONGEST_TEXT: usize = 10_000;

/// The most problems that are told of one text: nobody mends more at a time.
const MOST_PROBLEMS: usize = 50;

pub(crate) fn block(text: &str) -> Result<Block, Vec<Problem>> {
    if text.len() > LONGEST_TEXT {
        let message = format!("a block of {} characters is too long: at most {LONGEST_TEXT}", text.len());
        return Err(vec![Problem::new(0..0, message).with_help("split it into several blocks")]);
    }
    let tokens = tokens(text);
    let mut cursor = Cursor::new(text, &tokens);
    read(&mut cursor).map(|body| Block { text: text.to_owned(), body }).map_err(|mut problems| {
        problems.sort_by_key(|problem| problem.span.start);
        problems.truncate(MOST_PROBLEMS);
        problems
    })
}

fn read(cursor: &mut Cursor<'_>) -> Result<Body, Vec<Problem>> {
    if cursor.is_at_end() {
        return Err(vec![Problem::new(0..0, "the workout is empty").with_help(EXAMPLE)]);
    }
    if let Some(note) = cursor.note() {
        return Ok(note);
    }
    (0..cursor.label()).for_each(|_| cursor.skip());
    let group = cursor.list(0);
    let problems = std::mem::take(&mut cursor.problems);
    let Some(group) = group.filter(|_| problems.is_empty()) else {
        return Err(problems);
    };
    if group.runs() > MOST_REPS {
        let message = format!("the block has more than {MOST_REPS} repetitions");
        let whole = 0..cursor.text.len();
        return Err(vec![Problem::new(whole, message).with_help("split it into several sessions")]);
    }
    Ok(Body::Runs(Box::new(group)))
}

/// A distance alone.
pub(crate) fn distance(text: &str) -> Result<f64, Problem> {
    alone(text, |cursor| match cursor.length()?.value {
        Length::Metres(metres) => Some(metres),
        Length::Laps(_) => {
            cursor.problem(0..text.len(), "a lap is a lap of some lane", "write metres");
            None
        }
    })
}

/// Lanes alone.
pub(crate) fn lanes(text: &str) -> Result<Vec<u8>, Problem> {
    alone(text, |cursor| cursor.lanes().map(|lanes| lanes.value))
}

/// The distance of a race alone.
pub(crate) fn race_distance(text: &str) -> Result<f64, Problem> {
    alone(text, |cursor| {
        let help = "write for example `800`, `5k` or `mile`";
        match cursor.metres() {
            Some((metres, _)) if (10.0..=100_000.0).contains(&metres) => Some(metres),
            _ => {
                cursor.problem(0..text.len(), format!("`{text}` is not the distance of a race"), help);
                None
            }
        }
    })
}

/// A duration alone.
pub(crate) fn seconds(text: &str) -> Result<f64, Problem> {
    let help = "write for example `48`, `48s` or `1:12`";
    alone(text, |cursor| cursor.seconds("a time", help).map(|seconds| seconds.value))
}

fn alone<T>(text: &str, read: impl FnOnce(&mut Cursor<'_>) -> Option<T>) -> Result<T, Problem> {
    let tokens = tokens(text);
    let mut cursor = Cursor::new(text, &tokens);
    let value = read(&mut cursor);
    let (here, is_at_end) = (cursor.here(), cursor.is_at_end());
    match (value, cursor.problems.into_iter().next()) {
        (_, Some(problem)) => Err(problem),
        (Some(value), None) if is_at_end => Ok(value),
        _ => Err(Problem::new(here, format!("`{text}` is not understood"))),
    }
}
