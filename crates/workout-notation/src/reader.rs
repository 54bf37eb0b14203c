//! From a text to a block, a distance, a duration or lanes.

use lane_distance::LaneNumber;
use std::ops::Range;

use crate::block::{Block, Body, Item, Series};
use crate::cursor::{Cursor, Read};
use crate::day;
use crate::doubt::Doubt;
use crate::forms::{
    Details, EXAMPLE, FORMS, FURTHEST_M, Gap, MOST_REPS, NOT_IN_TURN, NOT_IN_TURN_HELP, Pace, RecoveryKind,
    RunKind, RunLength, is_time_of_day,
};
use crate::item::{TOO_DEEP, TOO_DEEP_HELP};
use crate::problem::Problem;
use crate::quantity::{TIME_THAT_CAN_BE, is_time_that_can_be};
use crate::share::{rest_as_long, two_rests_in_turn};
use crate::token::Lexed;

/// The longest text that is read, in bytes.
const LONGEST_TEXT: usize = 10_000;

/// The deepest that series may be nested.
const DEEPEST: usize = 8;

impl Block {
    /// Reads a line of a workout.
    ///
    /// # Errors
    ///
    /// Every [`Problem`] of the text, in its order.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        check_length(text)?;
        let lexed = Lexed::new(text, &FORMS);
        if let Some(problem) = day::closure_in_block(&lexed) {
            return Err(vec![problem]);
        }
        Self::read(&lexed)
    }

    /// Reads a line that is cut into tokens.
    pub(crate) fn read(lexed: &Lexed<'_>) -> Result<Self, Vec<Problem>> {
        let text = lexed.text;
        check_length(text)?;
        if let Some(problem) = letter_in_number(lexed) {
            return Err(vec![problem]);
        }
        let mut cursor = Cursor::new(lexed);
        let (label, body) = read(&mut cursor).map_err(|mut problems| {
            problems.sort_by_key(|problem| problem.span.start);
            problems
        })?;
        turned_round(text, &cursor.not_read)?;
        let words = |spans: &[Range<usize>]| -> Vec<String> {
            spans
                .iter()
                .map(|span| text[span.clone()].split_whitespace().collect::<Vec<_>>().join(" "))
                .collect()
        };
        let asides = cursor.said_counts.iter().map(|count| format!("{count} in all"));
        let mut block = Self {
            label,
            asides: asides.chain(words(&cursor.asides)).collect(),
            not_read: words(&cursor.not_read),
            doubts: cursor.doubts,
            ..Self::new(text, body)
        };
        let slow = slower_than_walking(&block);
        block.doubts.extend(slow.into_iter().chain(metres_or_yards(&block)));
        if names_relays(lexed) && !block.doubts.contains(&Doubt::RelayOrRuns) {
            block.doubts.push(Doubt::RelayOrRuns);
        }
        Ok(block)
    }
}

/// `20O`: letters that look like a digit, right behind a number.
fn letter_in_number(lexed: &Lexed<'_>) -> Option<Problem> {
    let pairs = lexed.tokens.windows(2);
    pairs.filter(|pair| pair[0].is_number() && pair[0].span.end == pair[1].span.start).find_map(|pair| {
        let letters = &lexed.text[pair[1].span.clone()];
        let are_zeros = letters.bytes().all(|letter| letter.eq_ignore_ascii_case(&b'o'));
        are_zeros.then(|| {
            let message = format!("`{letters}` is letters, right behind a number");
            let help = format!(
                "write the digit: `{}{}`",
                &lexed.text[pair[0].span.clone()],
                "0".repeat(letters.len())
            );
            Problem::new(pair[1].span.clone(), message).with_help(help)
        })
    })
}

/// Whoever is slower than this does not run, in metres a second.
const SLOWEST_M_PER_S: f64 = 1.2;

/// The first run of a block with a time that nobody needs for it.
fn slower_than_walking(block: &Block) -> Option<Doubt> {
    block.steps().iter().find_map(|step| match (step.run.kind.value, step.pace?.value) {
        (RunKind::Plain(RunLength::Metres(metres)), Pace::Time { seconds, .. }) => {
            (metres < SLOWEST_M_PER_S * seconds).then_some(Doubt::SlowerThanWalking { metres, seconds })
        }
        _ => None,
    })
}

/// `2 x 4x100`, `4 x 75 relay`: a race of four legs.
fn names_relays(lexed: &Lexed<'_>) -> bool {
    let cursor = Cursor::new(lexed);
    // `4 x 75 relay`
    let is_called = |at: usize| {
        let unit = usize::from(cursor.metres_in(at + 3).is_some());
        cursor.number_at(at) == Some(4.0)
            && cursor.is_times(at + 1)
            && cursor.is_number(at + 2)
            && cursor.is_word(at + 3 + unit, &["relay", "relays"])
    };
    (0..lexed.tokens.len()).any(|at| {
        if is_called(at) {
            return true;
        }
        let is_race = cursor.number_at(at + 2) == Some(4.0)
            && cursor.number_at(at + 4).is_some_and(|leg_m| leg_m == 100.0 || leg_m == 400.0);
        cursor.is_number(at)
            && cursor.is_times(at + 1)
            && !cursor.is_glued(at + 1)
            && is_race
            && [3, 4].iter().all(|&ahead| cursor.is_glued(at + ahead))
            && cursor.is_times(at + 3)
    })
}

/// The first distance of a block without a unit that is a race in yards and none in metres: `4 x 440`.
fn metres_or_yards(block: &Block) -> Option<Doubt> {
    block.steps().iter().find_map(|step| {
        let RunKind::Plain(RunLength::Metres(distance)) = step.run.kind.value else { return None };
        let written = block.text.get(step.run.kind.span.clone())?;
        let is_bare = written.bytes().all(|byte| byte.is_ascii_digit());
        (is_bare && [220.0, 440.0, 880.0].contains(&distance)).then_some(Doubt::MetresOrYards { distance })
    })
}

fn check_length(text: &str) -> Result<(), Vec<Problem>> {
    if text.len() <= LONGEST_TEXT {
        return Ok(());
    }
    let message = format!("a block of {} characters is too long: at most {LONGEST_TEXT}", text.len());
    Err(vec![Problem::new(0..0, message).with_help("split it into several blocks")])
}

/// Words that turn round what stands right behind them.
const TURNS_ROUND: [&str; 6] = ["no", "not", "without", "never", "don't", "nor"];

/// Words that keep what stands behind them for a part of the runs.
const KEEPS: [&str; 6] = ["except", "instead", "every", "only", "some", "but"];

/// Refuses a text that has such a word among those that are not read, in front of what was read: that would be done all
/// the same, and by all.
fn turned_round(text: &str, not_read: &[Range<usize>]) -> Result<(), Vec<Problem>> {
    for span in not_read {
        let behind = text[span.end..].trim_start();
        if !behind.starts_with(|letter: char| letter.is_alphanumeric() || letter == '@') {
            continue;
        }
        let is_one = |word: &str, of: &[&str]| of.iter().any(|one| word.eq_ignore_ascii_case(one));
        let mut words = text[span.clone()].split_whitespace();
        let kept = words.clone().find(|word| is_one(word, &KEEPS));
        // `not too fast in lane 2` says nothing of the lane, `no starts from blocks` does.
        let turned = match behind.split_whitespace().next() {
            Some("from") => words.find(|word| is_one(word, &TURNS_ROUND)),
            _ => words.next_back().filter(|word| is_one(word, &TURNS_ROUND)),
        };
        if let Some(word) = kept.or(turned) {
            let message =
                format!("`{word}` is not understood here, and what follows it would be done all the same");
            let help = "leave it out, or say what is to be done instead";
            return Err(vec![Problem::new(span.clone(), message).with_help(help)]);
        }
    }
    Ok(())
}

fn read(cursor: &mut Cursor<'_>) -> Result<(Option<String>, Body), Vec<Problem>> {
    if cursor.is_at_end() {
        return Err(vec![Problem::new(0..0, "the workout is empty").with_help(EXAMPLE)]);
    }
    let begins_turns = cursor.is_straights_and_bends();
    if !begins_turns && let Some(note) = cursor.note() {
        return Ok((None, Body::Note { words: note.words, lasts_s: note.lasts_s, length: note.length }));
    }
    let straights = cursor.straights_beside_bends();
    let label = if begins_turns { None } else { cursor.label() };
    // It is asked for in brackets alone.
    cursor.has_open_rest = cursor.has_brackets() && cursor.has_rest_outside_brackets();
    let series = cursor.list(0);
    if cursor.problems.is_empty()
        && let Some(span) = straights
        && !cursor.has_parts
    {
        cursor.problem(span, NOT_IN_TURN, NOT_IN_TURN_HELP);
    }
    if let Some(span) = cursor.shared.left() {
        cursor.problem(
            span,
            "there are not as many runs as values here",
            "give one for each run, or one for all",
        );
    }
    if cursor.problems.is_empty() && !cursor.is_at_end() {
        cursor.not_understood();
    }
    // Whatever was made of a text, no number of it is lost.
    if cursor.problems.is_empty()
        && let Some(span) = cursor.unbound()
    {
        let message = format!("`{}` is not understood here", &cursor.text[span.clone()]);
        cursor.problem(
            span,
            message,
            "say what the number is: `@ 48s`, `rest 90s`, `in lane 2`, `(note: …)`",
        );
    }
    let problems = std::mem::take(&mut cursor.problems);
    let Some(series) = series.filter(|_| problems.is_empty()) else {
        return Err(problems);
    };
    let mut series = series;
    if let Some(share) = cursor.shared.as_long.take()
        && rest_as_long(&mut series, &share, None)
    {
        cursor.asides.retain(|aside| *aside != share.span);
    }
    two_rests_in_turn(&mut series, cursor.text);
    if let Some(problem) = recovery_out_of_range(&series, cursor.text) {
        return Err(vec![problem]);
    }
    if let Some(problem) = time_of_day(&series, cursor.text) {
        return Err(vec![problem]);
    }
    if let Some(span) = too_deep(&series, 1) {
        return Err(vec![Problem::new(span, TOO_DEEP).with_help(TOO_DEEP_HELP)]);
    }
    if series.runs() > MOST_REPS {
        let message = format!("the block has more than {MOST_REPS} repetitions");
        let whole = 0..cursor.text.len();
        return Err(vec![Problem::new(whole, message).with_help("split it into several sessions")]);
    }
    Ok((label, Body::Runs(Box::new(series))))
}

/// `11.30 all: core`: one run over so many metres is rather a time of day.
fn time_of_day(series: &Series, text: &str) -> Option<Problem> {
    let (1, [Item::Run(run)]) = (series.count, series.items.as_slice()) else { return None };
    let written = text.get(run.kind.span.clone())?;
    if !matches!(run.kind.value, RunKind::Plain(_)) || !is_time_of_day(written) {
        return None;
    }
    let problem = Problem::new(run.kind.span.clone(), format!("`{written}` could be a time of day"));
    let with_colon = written.replace('.', ":");
    Some(
        problem.with_help(format!("write `{with_colon} - ` in front of what is done then, or `{written} m`")),
    )
}

/// A recovery that nobody takes between runs: what it is made of, such as the distance of its run, can be anything.
fn recovery_out_of_range(series: &Series, text: &str) -> Option<Problem> {
    let of = |Details { recovery, .. }: &Details| {
        let (span, help) = match (&recovery.kind, &recovery.gap) {
            (Some(kind), _) if kind.value != RecoveryKind::Stand && kind.on_m().is_some_and(is_too_far) => {
                (kind.span.clone(), format!("write from 1 m to {FURTHEST_M} m"))
            }
            (_, Some(gap)) => {
                let (Gap::Rest(seconds) | Gap::Cycle(seconds)) = gap.value;
                if is_time_that_can_be(seconds) {
                    return None;
                }
                (gap.span.clone(), TIME_THAT_CAN_BE.to_owned())
            }
            _ => return None,
        };
        let message = format!("`{}` is out of range for a recovery", &text[span.clone()]);
        Some(Problem::new(span, message).with_help(help))
    };
    let of_item = |item: &Item| match item {
        Item::Run(run) => of(&run.details),
        Item::Series(series) => recovery_out_of_range(series, text),
    };
    of(&series.details).or_else(|| series.items.iter().find_map(of_item))
}

fn is_too_far(metres: f64) -> bool {
    metres <= 0.0 || metres > FURTHEST_M
}

/// A run that lies in more series than may be nested.
fn too_deep(series: &Series, depth: usize) -> Option<Range<usize>> {
    series.items.iter().find_map(|item| match item {
        Item::Run(run) => (depth > DEEPEST).then(|| run.kind.span.clone()),
        Item::Series(series) => too_deep(series, depth + 1),
    })
}

/// Reads a distance alone, in metres: `200`, `1km`, `110 yd`.
///
/// ```
/// assert_eq!(workout_notation::distance("1 mile"), Ok(1609.344));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn distance(text: &str) -> Result<f64, Problem> {
    alone(text, |cursor| match cursor.length()?.value {
        RunLength::Metres(metres) => Ok(metres),
        RunLength::Laps(_) => Err(cursor.problem(0..text.len(), "a lap has no fixed length", "write metres")),
    })
}

/// Reads lanes alone: `2`, `2-5`, `2,4,6`.
///
/// ```
/// let lanes = workout_notation::lanes("2-4, 6").expect("they are lanes");
/// assert_eq!(lanes, [2, 3, 4, 6]);
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn lanes(text: &str) -> Result<Vec<LaneNumber>, Problem> {
    alone(text, |cursor| cursor.lanes().map(|lanes| lanes.value))
}

/// Reads the distance of a race alone, in metres, from 10 m to 100 km: `800`, `5k`, `mile`.
///
/// ```
/// assert_eq!(workout_notation::race_distance("mile"), Ok(1609.344));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn race_distance(text: &str) -> Result<f64, Problem> {
    alone(text, |cursor| {
        let help = "write for example `800`, `5k` or `mile`";
        match cursor.metres() {
            Some((metres, _)) if (10.0..=100_000.0).contains(&metres) => Ok(metres),
            _ => {
                let message = format!("`{text}` is not the distance of a race");
                Err(cursor.problem(0..text.len(), message, help))
            }
        }
    })
}

/// Reads a duration alone, in seconds: `48`, `48.5s`, `3min`, `1:12`.
///
/// ```
/// assert_eq!(workout_notation::seconds("1:12.5"), Ok(72.5));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn seconds(text: &str) -> Result<f64, Problem> {
    let help = "write for example `48`, `48s` or `1:12`";
    alone(text, |cursor| cursor.seconds("a time", help).map(|seconds| seconds.value))
}

fn alone<T>(text: &str, read: impl FnOnce(&mut Cursor<'_>) -> Read<T>) -> Result<T, Problem> {
    let lexed = Lexed::new(text, &FORMS);
    let mut cursor = Cursor::new(&lexed);
    let value = read(&mut cursor);
    let (here, is_at_end) = (cursor.here(), cursor.is_at_end());
    match (value, cursor.problems.into_iter().next()) {
        (_, Some(problem)) => Err(problem),
        (Ok(value), None) if is_at_end => Ok(value),
        _ => Err(Problem::new(here, format!("`{text}` is not understood"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::item::DEEPEST_TEXT;

    /// Parts of texts that look ahead, go back, or are reported again and again.
    const PARTS: [&str; 40] = [
        "(",
        ")",
        "()",
        "2x(",
        "(2",
        "2x",
        "3 x (4 x 200) ",
        "200 + ",
        ",",
        ", ,",
        ",(",
        "+",
        "- ",
        "-1",
        "1-",
        "1/",
        "in ",
        "in-and-",
        "in lane 2,",
        "lanes 2 and ",
        "90s ",
        "2min / ",
        "2 min 30 ",
        "1:",
        "'",
        "2'",
        "@ ",
        "@ 5k ",
        "@ 48-",
        "5k pace ",
        "200 jog ",
        "200 (2') ",
        "(90s",
        "from ",
        "from the 400 m start + 5 ",
        "rset ",
        "easy and ",
        "with ",
        "between ",
        "1,000",
    ];

    /// What may stand before them, so that they are met at every depth and in every kind of bracket.
    fn befores() -> [String; 4] {
        [String::new(), "(".repeat(DEEPEST_TEXT - 1), "2x".repeat(DEEPEST_TEXT - 1), "200 ((".to_owned()]
    }

    /// The most looks at tokens, for each token of the text: far more than any text in the tests needs,
    /// and far fewer than twice the looks for twice the tokens would come to.
    const MOST_LOOKS: usize = 700;

    /// How often the tokens of a text are looked at for each of them.
    fn looks(text: &str) -> usize {
        let lexed = Lexed::new(text, &FORMS);
        let mut cursor = Cursor::new(&lexed);
        let _ = read(&mut cursor);
        cursor.looks.get() / lexed.tokens.len().max(1)
    }

    #[test]
    fn reading_looks_at_each_token_so_many_times_however_long_the_text_is() {
        for before in befores() {
            for part in PARTS {
                let short = format!("{before}{}", part.repeat(1000 / part.len()));
                let long = format!("{before}{}", part.repeat((LONGEST_TEXT - before.len()) / part.len()));
                let (short, long) = (looks(&short), looks(&long));
                assert!(long <= MOST_LOOKS, "{long} looks at each token of {before}{part}…");
                assert!(long <= short * 3 / 2 + 10, "{short} looks, then {long}, of {before}{part}…");
            }
        }
    }

    #[test]
    fn two_parts_by_turns_take_no_more_looks_where_the_text_is_longer() {
        for first in PARTS {
            for second in PARTS {
                let pair = format!("{first}{second}");
                let (short, long) =
                    (looks(&pair.repeat(300 / pair.len())), looks(&pair.repeat(1200 / pair.len())));
                assert!(long <= short * 3 / 2 + 10, "{short} looks, then {long}, of {pair}…");
            }
        }
    }
}
