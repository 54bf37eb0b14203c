//! Words, numbers and signs of the notation.

use std::ops::Range;

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Kind {
    /// A number without a sign; its value is infinite where it is too large to hold.
    Number(f64),
    /// Letters.
    Word,
    /// A single character that is neither.
    Sign(char),
}

/// A token and its place in the text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Token {
    pub(crate) kind: Kind,
    pub(crate) span: Range<usize>,
}

/// Signs that say nothing, like the space between words.
const SILENT: [char; 13] = ['!', '?', '…', '~', '≈', '•', '·', '✓', '✔', '→', '\u{200b}', '\u{feff}', '_'];

/// All tokens of a text; every text has some way to be cut into them.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut at = 0;
    while let Some(first) = text[at..].chars().next() {
        let rest = &text[at..];
        if first.is_whitespace() || SILENT.contains(&first) {
            at += first.len_utf8();
            continue;
        }
        let (kind, length) = if first.is_ascii_digit() {
            let length = number_length(rest);
            (Kind::Number(rest[..length].parse().unwrap_or(f64::INFINITY)), length)
        } else if first.is_alphabetic() {
            let length = rest.find(|sign: char| !sign.is_alphabetic()).unwrap_or(rest.len());
            let is_glued = |before: &Token| matches!(before.kind, Kind::Number(_)) && before.span.end == at;
            // In `3xflying 30` the letter is a times sign: no word of the notation begins with it.
            if length > 1 && matches!(first, 'x' | 'X') && tokens.last().is_some_and(is_glued) {
                (Kind::Sign('x'), 1)
            } else {
                (Kind::Word, length)
            }
        } else {
            (Kind::Sign(plain(first)), first.len_utf8())
        };
        tokens.push(Token { kind, span: at..at + length });
        at += length;
    }
    for index in 0..tokens.len() {
        if let Some(value) = number_word(text, &tokens, index) {
            tokens[index].kind = Kind::Number(value);
        }
    }
    tokens
}

/// Numbers that are written as words.
const NUMBERS: [(&str, f64); 20] = [
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
const COUNTED: [&str; 40] = [
    "x", "by", "times", "lots", "sets", "set", "reps", "rep", "repetitions", "series", "laps", "lap", "miles",
    "mile", "min", "mins", "minute", "minutes", "sec", "secs", "second", "seconds", "k", "km", "metres", "meters",
    "hurdles", "flying", "starts", "strides", "sprints", "runs", "yards", "athletes", "rounds", "hour", "hours",
    "hundred", "changeovers", "exchanges",
];

/// What a number follows that names one of several: `lane two`.
const NAMED: [&str; 4] = ["lane", "lanes", "zone", "hurdle"];

/// The value of a word that is a number where it stands.
fn number_word(text: &str, tokens: &[Token], index: usize) -> Option<f64> {
    let word_at = |index: usize| {
        let token: &Token = tokens.get(index)?;
        (token.kind == Kind::Word).then(|| &text[token.span.clone()])
    };
    let word = word_at(index)?;
    let (_, value) = NUMBERS.iter().find(|(name, _)| word.eq_ignore_ascii_case(name))?;
    let is_one_of = |word: &str, words: &[&str]| words.iter().any(|known| word.eq_ignore_ascii_case(known));
    let next = tokens.get(index + 1);
    let is_before_number = next.is_some_and(|next| matches!(next.kind, Kind::Number(_) | Kind::Sign('x')));
    let is_counted = word_at(index + 1).is_some_and(|word| is_one_of(word, &COUNTED));
    let is_named = index > 0 && word_at(index - 1).is_some_and(|word| is_one_of(word, &NAMED));
    (is_before_number || is_counted || is_named).then_some(*value)
}

/// How many bytes a number has that a text begins with: `48`, `48.5`, `1e9`.
fn number_length(text: &str) -> usize {
    let digits = |from: usize| text[from..].bytes().take_while(u8::is_ascii_digit).count();
    let mut end = digits(0);
    if text[end..].starts_with('.') && digits(end + 1) > 0 {
        end += 1 + digits(end + 1);
    }
    if text[end..].starts_with(['e', 'E']) {
        let exponent = end + 1 + usize::from(text[end + 1..].starts_with(['+', '-']));
        if digits(exponent) > 0 {
            end = exponent + digits(exponent);
        }
    }
    end
}

/// Signs that are written in several ways.
fn plain(sign: char) -> char {
    match sign {
        '×' | '*' | '✕' | '✖' => 'x',
        '–' | '—' | '‒' | '−' | '‐' | '‑' => '-',
        '[' | '{' => '(',
        ']' | '}' => ')',
        '&' => '+',
        '|' => ',',
        '′' | '’' | '‘' => '\'',
        '″' | '”' | '“' => '"',
        sign => sign,
    }
}
