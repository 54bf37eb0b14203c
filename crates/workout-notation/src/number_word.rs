//! Numbers that are written as words: `six x 200`, `lane two`.

/// All of them, with their values.
const NUMBERS: [(&str, f64); 21] = [
    ("dozen", 12.0),
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
    ("fifteen", 15.0),
    ("twenty", 20.0),
    ("thirty", 30.0),
    ("forty", 40.0),
    ("fifty", 50.0),
    ("sixty", 60.0),
    ("eighty", 80.0),
    ("ninety", 90.0),
];

/// What makes the word before it a number: `six by 150`, `two sets`, `ninety seconds`.
#[rustfmt::skip]
const COUNTED: [&str; 41] = [
    "x", "by", "times", "lots", "sets", "set", "reps", "rep", "repetitions", "series", "laps", "lap", "miles",
    "mile", "min", "mins", "minute", "minutes", "sec", "secs", "second", "seconds", "k", "km", "metres", "meters",
    "hurdles", "flying", "starts", "strides", "sprints", "runs", "yards", "athletes", "rounds", "hour", "hours",
    "hundred", "changeovers", "exchanges", "lanes",
];

/// What a number follows that names one of several: `lane two`.
const NAMED: [&str; 4] = ["lane", "lanes", "zone", "hurdle"];

/// The words for numbers.
pub(crate) fn number_words() -> impl Iterator<Item = &'static str> {
    NUMBERS.iter().map(|(word, _)| *word)
}

/// The value of a word that is a number where it stands: given the words beside it, and whether a number or a times sign
/// follows.
pub(crate) fn number_word(
    word: &[u8],
    before: Option<&[u8]>,
    behind: Option<&[u8]>,
    is_before_number: bool,
) -> Option<f64> {
    let is_one_of = |word: &[u8], words: &[&str]| words.iter().any(|known| known.as_bytes() == word);
    let (_, value) = NUMBERS.iter().find(|(name, _)| name.as_bytes() == word)?;
    let is_counted = behind.is_some_and(|word| is_one_of(word, &COUNTED));
    let is_named = before.is_some_and(|word| is_one_of(word, &NAMED));
    (is_before_number || is_counted || is_named).then_some(*value)
}
