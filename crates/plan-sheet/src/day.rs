//! Days and times of day in words.

use chrono::{NaiveDate, NaiveTime};

/// A day, as `Tuesday 13 April 2027`.
pub(crate) fn in_words(date: NaiveDate) -> String {
    date.format("%A %-d %B %Y").to_string()
}

/// A time of day to the minute, as `18:05`.
pub(crate) fn minute(time: NaiveTime) -> String {
    time.format("%H:%M").to_string()
}
