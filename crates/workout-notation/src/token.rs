//! Words, numbers and signs of the notation.

use std::borrow::Cow;
use std::ops::Range;

use crate::form::Forms;
use crate::unit::Unit;
use crate::vocabulary::{Entry, Role};

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

/// A token, its place in the text, and what the notation knows of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Token {
    pub(crate) kind: Kind,
    pub(crate) span: Range<usize>,
    /// What it may begin.
    pub(crate) role: Role,
    /// The unit that it is.
    pub(crate) unit: Option<Unit>,
}

impl Token {
    /// Whether it is a word.
    pub(crate) const fn is_word(&self) -> bool {
        matches!(self.kind, Kind::Word)
    }

    /// Whether it is a number.
    pub(crate) const fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Number(_))
    }

    /// Whether it is a sign.
    pub(crate) fn is_sign(&self, sign: char) -> bool {
        matches!(self.kind, Kind::Sign(own) if own == sign)
    }
}

/// A text that is cut into tokens. Each is looked up once, as it is looked at again and again.
pub(crate) struct Lexed<'a> {
    pub(crate) text: &'a str,
    /// The text in small letters.
    pub(crate) small: Cow<'a, [u8]>,
    pub(crate) tokens: Vec<Token>,
    pub(crate) forms: &'static Forms,
}

impl<'a> Lexed<'a> {
    /// Cuts a text into tokens; every text has some way to be cut.
    pub(crate) fn new(text: &'a str, forms: &'static Forms) -> Self {
        let has_capitals = text.bytes().any(|byte| byte.is_ascii_uppercase());
        let small: Cow<'a, [u8]> =
            if has_capitals { text.to_ascii_lowercase().into_bytes().into() } else { text.as_bytes().into() };
        let mut tokens = tokens(text, &small);
        for token in &mut tokens {
            let entry = match token.kind {
                Kind::Number(_) => Entry::default(),
                Kind::Word => forms.vocabulary.entry(&small[token.span.clone()]),
                Kind::Sign(sign) => forms.vocabulary.entry(sign.encode_utf8(&mut [0; 4]).as_bytes()),
            };
            (token.role, token.unit) = (entry.role, entry.unit);
        }
        Self { text, small, tokens, forms }
    }

    /// A part of the text, by its bytes.
    pub(crate) fn part(&self, range: Range<usize>) -> Lexed<'_> {
        let first = self.tokens.partition_point(|token| token.span.start < range.start);
        let end = self.tokens.partition_point(|token| token.span.end <= range.end);
        let tokens = self.tokens.get(first..end).unwrap_or_default().iter();
        let moved = |token: &Token| Token {
            span: token.span.start - range.start..token.span.end - range.start,
            ..token.clone()
        };
        Lexed {
            text: &self.text[range.clone()],
            small: Cow::Borrowed(&self.small[range.clone()]),
            tokens: tokens.map(moved).collect(),
            forms: self.forms,
        }
    }
}

/// Signs that say nothing, like the space between words.
const SILENT: [char; 12] = ['!', '?', '…', '~', '≈', '•', '·', '✓', '✔', '\u{200b}', '\u{feff}', '_'];

/// All tokens of a text, given in small letters as well.
fn tokens(text: &str, small: &[u8]) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::with_capacity(text.len() / 3 + 4);
    let mut at = 0;
    while let Some(first) = text[at..].chars().next() {
        let rest = &text[at..];
        if first.is_whitespace() || SILENT.contains(&first) {
            at += first.len_utf8();
            continue;
        }
        let (kind, length) = if first.is_ascii_digit() {
            if let Some((share, length)) = half_in_words(rest) {
                tokens.push(Token {
                    kind: Kind::Number(share),
                    span: at..at + length,
                    role: Role::default(),
                    unit: None,
                });
                at += length;
                continue;
            }
            let length = number_length(rest);
            let number: f64 = rest[..length].parse().unwrap_or(f64::INFINITY);
            // `1½`
            match rest[length..].chars().next().and_then(|sign| Some((sign, fraction(sign)?))) {
                Some((sign, part)) => (Kind::Number(number + part), length + sign.len_utf8()),
                None => (Kind::Number(number), length),
            }
        } else if let Some(part) = fraction(first) {
            (Kind::Number(part), first.len_utf8())
        } else if first.is_alphabetic() {
            let length = rest.find(|sign: char| !sign.is_alphabetic()).unwrap_or(rest.len());
            let is_glued = |before: &Token| before.is_number() && before.span.end == at;
            // In `3xflying 30` the letter is a times sign: no word of the notation begins with it.
            if length > 1 && matches!(first, 'x' | 'X') && tokens.last().is_some_and(is_glued) {
                (Kind::Sign('x'), 1)
            } else {
                (Kind::Word, length)
            }
        } else {
            (Kind::Sign(plain(first)), first.len_utf8())
        };
        tokens.push(Token { kind, span: at..at + length, role: Role::default(), unit: None });
        at += length;
    }
    for index in 0..tokens.len() {
        if let Some(value) = number_word(small, &tokens, index) {
            tokens[index].kind = Kind::Number(value);
        }
    }
    tokens
}

/// `1/2 lap`, `3/4 mile`: a fraction in front of what is counted in fractions, and how many bytes it has.
fn half_in_words(text: &str) -> Option<(f64, usize)> {
    let (fraction, share) = [("1/2", 0.5), ("1/4", 0.25), ("3/4", 0.75)]
        .into_iter()
        .find(|(fraction, _)| text.starts_with(fraction))?;
    let behind = text[fraction.len()..].trim_start_matches(' ');
    let of = behind.strip_prefix("a ").unwrap_or(behind);
    let is_so = ["lap", "mile"]
        .iter()
        .any(|unit| of.get(..unit.len()).is_some_and(|own| own.eq_ignore_ascii_case(unit)));
    is_so.then_some((share, fraction.len()))
}

/// The value of a fraction that is one character.
const fn fraction(sign: char) -> Option<f64> {
    match sign {
        '½' => Some(0.5),
        '¼' => Some(0.25),
        '¾' => Some(0.75),
        _ => None,
    }
}

/// Numbers that are written as words.
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
const COUNTED: [&str; 40] = [
    "x", "by", "times", "lots", "sets", "set", "reps", "rep", "repetitions", "series", "laps", "lap", "miles",
    "mile", "min", "mins", "minute", "minutes", "sec", "secs", "second", "seconds", "k", "km", "metres", "meters",
    "hurdles", "flying", "starts", "strides", "sprints", "runs", "yards", "athletes", "rounds", "hour", "hours",
    "hundred", "changeovers", "exchanges",
];

/// What a number follows that names one of several: `lane two`.
const NAMED: [&str; 4] = ["lane", "lanes", "zone", "hurdle"];

/// The value of a word that is a number where it stands.
fn number_word(small: &[u8], tokens: &[Token], index: usize) -> Option<f64> {
    let word_at = |index: usize| {
        let token: &Token = tokens.get(index).filter(|token| token.is_word())?;
        small.get(token.span.clone())
    };
    let is_one_of = |word: &[u8], words: &[&str]| words.iter().any(|known| known.as_bytes() == word);
    let word = word_at(index)?;
    let (_, value) = NUMBERS.iter().find(|(name, _)| name.as_bytes() == word)?;
    let next = tokens.get(index + 1);
    let is_before_number = next.is_some_and(|next| next.is_number() || next.is_sign('x'));
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
        '→' | '➔' | '➜' => '>',
        '′' | '’' | '‘' => '\'',
        '″' | '”' | '“' => '"',
        sign => sign,
    }
}
