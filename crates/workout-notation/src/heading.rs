//! Lines that are not done but say of what follows what it is: a title, a date, a group, a part of the session.

use chrono::NaiveDate;

use crate::block::Block;
use crate::cursor::Cursor;
use crate::group_label::LEAST_DISTANCE_M;
use crate::heading_words::{begins_with_day, is_everybody, names_part};
use crate::people::{MOST_WORDS, is_age, is_group_name, names_people};
use crate::roster::{Roster, with_athletes};
use crate::token::Lexed;

/// What a line stands above that makes it a heading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Above {
    /// Lines with bullets.
    Bullets,
    /// Runs without bullets.
    Runs,
    /// Nothing that would.
    Nothing,
}

/// What a line says of the lines that follow it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Heading {
    /// The day, and the other words of its line.
    Date {
        /// The day.
        date: NaiveDate,
        /// The line without it.
        words: String,
    },
    /// What the session is called.
    Title(String),
    /// Who does what follows: the name of a group, and the athletes behind it.
    Group(String, Roster),
    /// That everybody does what follows.
    Everybody,
    /// What the next block is called: `Main set:`.
    Label(String),
}

/// What a line says of those that follow it, if it does: given whether it is the first, whether there are more, and what
/// it stands above.
pub(crate) fn heading(lexed: &Lexed<'_>, is_first: bool, has_more: bool, above: Above) -> Option<Heading> {
    let line = lexed.text;
    let ends_in_colon = line.ends_with(':');
    let stands_above = above != Above::Nothing;
    if !has_more || !is_first && !ends_in_colon && !stands_above {
        return None;
    }
    if is_first && let Some((date, words)) = date(line) {
        return Some(Heading::Date { date, words });
    }
    let mut cursor = Cursor::new(lexed);
    let (words, athletes) = with_athletes(line.trim_end_matches(':').trim(), false);
    let is_day = begins_with_day(&cursor);
    let has_item = (0..lexed.tokens.len().min(40)).any(|ahead| {
        // `U13s` is no time.
        let is_in_word = cursor.is_in_word(ahead);
        cursor.is_counted_item(ahead)
            || cursor.is_number(ahead)
                && !is_in_word
                && !is_age(&cursor, ahead)
                && (cursor.metres_in(ahead + 1).is_some()
                    || cursor.is_laps(ahead)
                    || cursor.is_duration_at(ahead))
    });
    if has_item || words.is_empty() || length(words) > 60 {
        return None;
    }
    // `1200, 1000, 800`: what is a list of runs is no title.
    if is_first && begins_with_runs(lexed) {
        return None;
    }
    if is_first
        && !ends_in_colon
        && (is_day
            || !cursor.is_note_alone()
                && !cursor.is_clause(0)
                && !cursor.is_effort(0)
                && !cursor.is_run_name(0))
    {
        return Some(Heading::Title(words.to_owned()));
    }
    let is_note = cursor.is_note_alone();
    // Without a colon, whatever might be done is done.
    let is_done = is_note
        || words.contains(':')
        || !is_group_name(words)
            && (0..lexed.tokens.len().min(40)).any(|ahead| {
                let is_in_word = cursor.is_in_word(ahead);
                cursor.is_number(ahead) && !is_in_word
            });
    if !ends_in_colon && (!stands_above || is_done) {
        return None;
    }
    // Above runs a longer line without a colon is rather something to be told.
    let is_sentence = words.split_whitespace().count() > MOST_WORDS
        || !is_group_name(words) && (cursor.is_clause(0) || cursor.is_effort(0));
    if !ends_in_colon && above == Above::Runs && is_sentence {
        return None;
    }
    if athletes.is_empty() && (names_part(words) && !names_people(words) || is_note) {
        return Some(Heading::Label(words.to_owned()));
    }
    if is_day && is_first {
        return Some(Heading::Title(words.to_owned()));
    }
    cursor.go_back(0);
    if is_everybody(words) {
        return Some(Heading::Everybody);
    }
    Some(Heading::Group(words.to_owned(), athletes))
}

/// The most words in front of a list of distances.
const MOST_IN_FRONT: usize = 6;

/// Whether two distances with a sign between them stand `ahead`.
fn is_list_of_distances(cursor: &Cursor<'_>, ahead: usize) -> bool {
    let is_distance = |ahead: usize| cursor.number_at(ahead).is_some_and(|metres| metres >= LEAST_DISTANCE_M);
    is_distance(ahead)
        && [',', '-', '/'].iter().any(|&sign| cursor.is_sign(ahead + 1, sign))
        && is_distance(ahead + 2)
}

/// Whether a line is runs, of which the first is a bare distance; or whether everybody does a distance in it.
fn begins_with_runs(lexed: &Lexed<'_>) -> bool {
    let cursor = Cursor::new(lexed);
    let begins = if cursor.is_number(0) {
        0
    } else {
        let colon = (1..4).find(|&ahead| cursor.is_sign(ahead, ':'));
        match colon.and_then(|colon| Some((lexed.tokens.get(colon)?.span.start, colon + 1))) {
            Some((end, next)) if is_everybody(lexed.text[..end].trim()) && cursor.is_number(next) => next,
            // `Ladder 200-400-200`
            _ => match (1..MOST_IN_FRONT).find(|&ahead| is_list_of_distances(&cursor, ahead)) {
                Some(ahead) => ahead,
                None => return false,
            },
        }
    };
    let text = lexed.tokens.get(begins).map_or("", |token| &lexed.text[token.span.start..]);
    Block::parse(text).is_ok_and(|block| block.count() > 0)
}

/// How long words are, with one space between them.
fn length(words: &str) -> usize {
    words.split_whitespace().map(|word| word.len() + 1).sum()
}

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// The number of a month by its name, from 1.
pub(crate) fn month(word: &str) -> Option<u32> {
    let word = word.to_lowercase();
    let index = MONTHS.iter().position(|month| word.starts_with(month))?;
    word.chars().all(char::is_alphabetic).then_some(index as u32 + 1)
}

/// Years that may be written with two digits.
const SHORT_YEARS: std::ops::RangeInclusive<u32> = 20..=79;

/// A day with its year in a line, and the line without it: `2027-04-13`, `13 April 2027`, `April 13, 2027`, `13/4/2027`,
/// `13/4/27`.
fn date(line: &str) -> Option<(NaiveDate, String)> {
    let pieces: Vec<(usize, &str)> = words(line);
    let number = |at: usize| {
        pieces
            .get(at)
            .and_then(|(_, word)| word.trim_end_matches(['t', 'h', 's', 'n', 'd', 'r']).parse::<u32>().ok())
    };
    let month = |at: usize| month(pieces.get(at)?.1);
    // `5/5/27`: a year of two digits stands behind two signs alike.
    let short_year = |at: usize| {
        let [one, two, three] = [at, at + 1, at + 2].map(|at| pieces.get(at).copied());
        let ((one, day), (two, month), (three, year)) = (one?, two?, three?);
        let sign = line.get(one + day.len()..two)?;
        let is_date = ["/", "."].contains(&sign) && line.get(two + month.len()..three) == Some(sign);
        let year = year.parse::<u32>().ok().filter(|year| SHORT_YEARS.contains(year))?;
        is_date.then_some(2000 + year)
    };
    for at in 0..pieces.len().min(12) {
        let year = short_year(at).or_else(|| number(at + 2));
        let found = match (number(at), number(at + 1), year) {
            (Some(year @ 1900..), Some(month), Some(day)) => NaiveDate::from_ymd_opt(year as i32, month, day),
            // A day before its month, unless that cannot be.
            (Some(day), Some(month), Some(year @ 1900..)) => NaiveDate::from_ymd_opt(year as i32, month, day)
                .or_else(|| NaiveDate::from_ymd_opt(year as i32, day, month)),
            (Some(day), None, Some(year @ 1900..)) => {
                month(at + 1).and_then(|month| NaiveDate::from_ymd_opt(year as i32, month, day))
            }
            (None, Some(day), Some(year @ 1900..)) => {
                month(at).and_then(|month| NaiveDate::from_ymd_opt(year as i32, month, day))
            }
            _ => None,
        };
        if let Some(date) = found.filter(|date| (1900..=9999).contains(&chrono::Datelike::year(date))) {
            let (start, _) = pieces[at];
            let (last, word) = pieces[at + 2];
            let rest = format!("{} {}", &line[..start], &line[last + word.len()..]);
            let rest = rest.split_whitespace().collect::<Vec<_>>().join(" ");
            let rest = rest.trim_matches([',', '-', '–', '—', ':', ' ', '(', ')']).to_owned();
            let is_session = words(&rest).iter().any(|(_, word)| word.parse::<f64>().is_ok());
            return (!is_session).then_some((date, rest));
        }
    }
    None
}

/// The words and numbers of a line, and where they begin.
fn words(line: &str) -> Vec<(usize, &str)> {
    let mut words = Vec::new();
    let mut start = None;
    for (at, letter) in line.char_indices().chain([(line.len(), ' ')]) {
        match (letter.is_alphanumeric(), start) {
            (true, None) => start = Some(at),
            (false, Some(begins)) => {
                words.push((begins, &line[begins..at]));
                start = None;
            }
            _ => {}
        }
    }
    words
}
