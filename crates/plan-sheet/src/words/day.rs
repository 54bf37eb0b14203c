//! Days and times of day in words.

use crate::words::numbers::clock;
use chrono::{NaiveDate, NaiveTime, TimeDelta};

/// A day, as `Tuesday 13 April 2027`.
pub(crate) fn in_words(date: NaiveDate) -> String {
    date.format("%A %-d %B %Y").to_string()
}

/// A day beside a title: without the day of the week where the title has it, as `13 April 2027`.
pub(crate) fn beside(title: &str, date: NaiveDate) -> String {
    let weekday = date.format("%A").to_string();
    let mut words = title.split(|sign: char| !sign.is_alphanumeric());
    // `Wednesday`, `Weds`, `Wed`
    let names_it = |word: &str| {
        let word = word.trim_end_matches('s');
        word.len() > 2 && weekday.get(..word.len()).is_some_and(|begins| word.eq_ignore_ascii_case(begins))
    };
    match words.any(names_it) {
        true => date.format("%-d %B %Y").to_string(),
        false => in_words(date),
    }
}

/// A time of day to the minute, as `18:05`.
pub(crate) fn minute(time: NaiveTime) -> String {
    time.format("%H:%M").to_string()
}

/// A time of the session: of the day where that is known, else from the start.
pub(crate) fn time_at(begins: Option<NaiveTime>, seconds: f64) -> String {
    match begins {
        None => clock(seconds),
        Some(begins) => later(begins, seconds).format("%H:%M:%S").to_string(),
    }
}

/// A time of day some seconds later, past midnight if need be; unchanged if no calendar reaches that far.
pub(crate) fn later(begins: NaiveTime, seconds: f64) -> NaiveTime {
    begins + TimeDelta::try_milliseconds((seconds * 1000.0).round() as i64).unwrap_or_default()
}
