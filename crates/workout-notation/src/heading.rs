//! Lines that are not done but say of what follows what it is: a title, a date, a group, a part of the session.

use chrono::NaiveDate;

use crate::cursor::Cursor;
use crate::heading_words::{begins_with_day, is_everybody, names_part};
use crate::people::{MOST_WORDS, is_age, is_group_name, names_people};
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
#[derive(Clone, Debug, PartialEq, Eq)]
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
    /// Who does what follows: the name of a group, and the athletes in brackets behind it.
    Group(String, Vec<String>),
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
    let (words, athletes) = with_athletes(line.trim_end_matches(':').trim());
    let is_day = begins_with_day(&cursor);
    let has_item = (0..lexed.tokens.len().min(40)).any(|ahead| {
        // `U13s` is no time.
        let is_in_word = ahead > 0 && cursor.is_glued(ahead) && cursor.word_at(ahead - 1).is_some();
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
                let is_in_word = ahead > 0 && cursor.is_glued(ahead) && cursor.word_at(ahead - 1).is_some();
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

/// The name of a group and who is in it: `Sprinters (Ada, Ben and Cyd)`. Two names at least are needed: one word in
/// brackets may be anything.
pub(crate) fn with_athletes(words: &str) -> (&str, Vec<String>) {
    let parts = words.strip_suffix(')').and_then(|words| words.split_once('('));
    let Some((group, names)) = parts.filter(|(group, _)| !group.trim().is_empty()) else {
        return (words, Vec::new());
    };
    let names: Vec<&str> =
        names.split([',', ';', '&']).flat_map(|names| names.split(" and ")).map(str::trim).collect();
    // `Ada, Ben, and Cyd`
    let names: Vec<&str> = names.iter().map(|name| name.strip_prefix("and ").unwrap_or(name)).collect();
    let is_name = |name: &&str| {
        name.starts_with(char::is_uppercase)
            && name.split_whitespace().count() <= MOST_WORDS
            && name.chars().all(|letter| letter.is_alphabetic() || " '’.-".contains(letter))
    };
    if names.len() < 2 || !names.iter().all(is_name) {
        return (words, Vec::new());
    }
    (group.trim(), names.into_iter().map(str::to_owned).collect())
}

/// How long words are, with one space between them.
fn length(words: &str) -> usize {
    words.split_whitespace().map(|word| word.len() + 1).sum()
}

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// A day with its year in a line, and the line without it: `2027-04-13`, `13 April 2027`, `April 13, 2027`, `13/4/2027`.
fn date(line: &str) -> Option<(NaiveDate, String)> {
    let pieces: Vec<(usize, &str)> = words(line);
    let number = |at: usize| {
        pieces
            .get(at)
            .and_then(|(_, word)| word.trim_end_matches(['t', 'h', 's', 'n', 'd', 'r']).parse::<u32>().ok())
    };
    let month = |at: usize| {
        let (_, word) = pieces.get(at)?;
        let word = word.to_lowercase();
        let index = MONTHS.iter().position(|month| word.starts_with(month))?;
        word.chars().all(char::is_alphabetic).then_some(index as u32 + 1)
    };
    for at in 0..pieces.len().min(12) {
        let found = match (number(at), number(at + 1), number(at + 2)) {
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
