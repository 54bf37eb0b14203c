//! Words by which a heading or a label is known.

use crate::cursor::Cursor;
use crate::forms::lanes::LANE_NAMES;
use crate::line_words;

/// Words for a part of a session, which name no group.
const PARTS: [&str; 22] = [
    "main",
    "set",
    "session",
    "warm",
    "warmup",
    "wu",
    "cool",
    "cooldown",
    "cd",
    "part",
    "block",
    "drills",
    "speed",
    "tempo",
    "track",
    "finish",
    "finisher",
    "strides",
    "then",
    "workout",
    "prep",
    "conditioning",
];

/// Words of a cool-down.
const COOL_DOWN: [&str; 6] = ["cool", "cooldown", "cooling", "cd", "wd", "warmdown"];

/// Names of all groups.
const EVERYBODY: [&str; 12] = [
    "all",
    "both",
    "everyone",
    "everybody",
    "all groups",
    "all together",
    "everyone together",
    "everybody together",
    "together",
    "whole squad",
    "whole group",
    "both groups",
];

/// Words that may stand in front of them.
const IN_FRONT_OF_EVERYBODY: [&str; 4] = ["then", "and", "finally", "lastly"];

/// Words of a title.
pub(crate) const TITLES: [&str; 9] =
    ["session", "track", "training", "practice", "night", "club", "week", "workout", "plan"];

/// Words of a day, which begin a title.
pub(crate) const DAYS: [&str; 18] = [
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
    "mon",
    "tue",
    "tues",
    "wed",
    "thu",
    "thurs",
    "fri",
    "sat",
    "sun",
    "weds",
    "thur",
];

/// Whether words name a part of a session.
pub(crate) fn names_part(words: &str) -> bool {
    has_word(words, &PARTS)
}

/// Whether a day is among words.
pub(crate) fn names_day(words: &str) -> bool {
    has_word(words, &DAYS)
}

/// Whether words are a day and nothing else.
pub(crate) fn is_day(words: &str) -> bool {
    DAYS.iter().any(|day| words.eq_ignore_ascii_case(day))
}

/// Whether a line begins with a day.
pub(crate) fn begins_with_day(cursor: &Cursor<'_>) -> bool {
    cursor.is_word(0, &DAYS)
}

/// Whether words name all groups.
pub(crate) fn is_everybody(words: &str) -> bool {
    // `Then everyone together`
    let mut words = words;
    while let Some((first, more)) = words.split_once(' ')
        && IN_FRONT_OF_EVERYBODY.iter().any(|word| first.eq_ignore_ascii_case(word))
    {
        words = more.trim_start();
    }
    EVERYBODY.iter().any(|name| words.eq_ignore_ascii_case(name))
}

/// Whether a line in front of everything is a title, and no group.
pub(crate) fn is_title(line: &str) -> bool {
    has_word(line, &TITLES) || names_day(line)
}

/// Whether words are of a cool-down.
pub(crate) fn is_cool_down(words: &str) -> bool {
    // `Warm down`, `c/d`
    let begins = |begins: &str| words.get(..begins.len()).is_some_and(|own| own.eq_ignore_ascii_case(begins));
    has_word(words, &COOL_DOWN) || ["warm down", "warm-down", "c/d", "w/d"].into_iter().any(begins)
}

/// The most words of the heading of a group that nothing else says to be one.
const MOST_WORDS_OF_NAME: usize = 4;

/// Whether words are few enough for the name of a group, and not about lanes.
pub(crate) fn is_short_name(words: &str) -> bool {
    words.split_whitespace().count() <= MOST_WORDS_OF_NAME && !has_word(words, &LANE_NAMES)
}

/// Whether one of several words, in small letters, stands in a line.
pub(crate) fn has_word(line: &str, words: &[&str]) -> bool {
    // `Gp1` is `gp` and a number.
    line_words::words(line).iter().any(|own| own.is_one(words))
}
