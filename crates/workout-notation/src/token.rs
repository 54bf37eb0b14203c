//! Words, numbers and signs of the notation.

use std::borrow::Cow;
use std::ops::Range;

use crate::form::Forms;
use crate::number_word::number_word;
use crate::rest_words::RESTS;
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
    pub(crate) tokens: Cow<'a, [Token]>,
    /// Everything that its words may begin.
    pub(crate) roles: Role,
    pub(crate) forms: &'static Forms,
}

impl<'a> Lexed<'a> {
    /// Cuts a text into tokens; every text has some way to be cut.
    pub(crate) fn new(text: &'a str, forms: &'static Forms) -> Self {
        let has_capitals = text.bytes().any(|byte| byte.is_ascii_uppercase());
        let small: Cow<'a, [u8]> =
            if has_capitals { text.to_ascii_lowercase().into_bytes().into() } else { text.as_bytes().into() };
        let mut tokens = tokens(text);
        let mut roles = Role::default();
        for token in &mut tokens {
            let entry = match token.kind {
                Kind::Number(_) => Entry::default(),
                Kind::Word => forms.vocabulary.entry(&small[token.span.clone()]),
                Kind::Sign(sign) => forms.vocabulary.entry(sign.encode_utf8(&mut [0; 4]).as_bytes()),
            };
            (token.role, token.unit) = (entry.role, entry.unit);
            roles = roles.with(entry.role);
        }
        // `six x` is `6 x`.
        if roles.has(Role::NUMBER) {
            for index in 0..tokens.len() {
                if let Some(value) = number_at(&small, &tokens, index) {
                    let token = &mut tokens[index];
                    (token.kind, token.role, token.unit) = (Kind::Number(value), Role::default(), None);
                }
            }
        }
        for index in 1..tokens.len() {
            if tokens[index].unit == Some(Unit::Metre) && is_minutes(&small, &tokens, index) {
                tokens[index].unit = Some(Unit::Minute);
            }
        }
        Self { text, small, tokens: tokens.into(), roles, forms }
    }

    /// A part of the text, by its bytes.
    pub(crate) fn part(&self, range: Range<usize>) -> Lexed<'_> {
        if range == (0..self.text.len()) {
            let (small, tokens) = (Cow::Borrowed(&*self.small), Cow::Borrowed(&*self.tokens));
            return Lexed { text: self.text, small, tokens, roles: self.roles, forms: self.forms };
        }
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
            roles: self.roles,
            forms: self.forms,
        }
    }
}

/// Signs that say nothing, like the space between words.
const SILENT: [char; 12] = ['!', '?', '…', '~', '≈', '•', '·', '✓', '✔', '\u{200b}', '\u{feff}', '_'];

/// All tokens of a text.
fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::with_capacity(text.len() / 3 + 4);
    let mut at = 0;
    while let Some(first) = text[at..].chars().next() {
        let rest = &text[at..];
        if first == ' ' {
            at += 1;
            continue;
        }
        if !first.is_ascii_alphanumeric() && first.is_whitespace()
            || !first.is_ascii_alphanumeric() && SILENT.contains(&first)
        {
            at += first.len_utf8();
            continue;
        }
        // `300's`: several of 300 m.
        if plain(first) == '\''
            && tokens.last().is_some_and(|before| before.is_number() && before.span.end == at)
            && is_plural(&rest[first.len_utf8()..])
        {
            // Neither a tick for minutes nor seconds.
            at += first.len_utf8() + 1;
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
            let number = number_of(&rest[..length]);
            // `1½`
            match rest[length..].chars().next().and_then(|sign| Some((sign, fraction(sign)?))) {
                Some((sign, part)) => (Kind::Number(number + part), length + sign.len_utf8()),
                None => (Kind::Number(number), length),
            }
        } else if let Some(part) = fraction(first) {
            (Kind::Number(part), first.len_utf8())
        } else if first.is_alphabetic() {
            let length = word_length(rest);
            let is_glued = |before: &Token| before.is_number() && before.span.end == at;
            let percent = percent_length(rest).filter(|_| tokens.last().is_some_and(Token::is_number));
            // In `3xflying 30` the letter is a times sign: no word of the notation begins with it.
            if length > 1 && matches!(first, 'x' | 'X') && tokens.last().is_some_and(is_glued) {
                (Kind::Sign('x'), 1)
            } else if let Some(length) = percent {
                (Kind::Sign('%'), length)
            } else {
                (Kind::Word, length)
            }
        } else {
            (Kind::Sign(plain(first)), first.len_utf8())
        };
        tokens.push(Token { kind, span: at..at + length, role: Role::default(), unit: None });
        at += length;
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

/// How many bytes the words for a percent sign have that a text begins with.
fn percent_length(text: &str) -> Option<usize> {
    let begins = |word: &&str| {
        let own = text.get(..word.len()).is_some_and(|own| own.eq_ignore_ascii_case(word));
        own && !text[word.len()..].starts_with(char::is_alphanumeric)
    };
    ["percent", "per cent", "pct"].iter().find(|word| begins(word)).map(|word| word.len())
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

/// Whether a text begins with the letter of a plural, and no longer word.
fn is_plural(text: &str) -> bool {
    let mut letters = text.chars();
    matches!(letters.next(), Some('s' | 'S')) && letters.next().is_none_or(|letter| !letter.is_alphanumeric())
}

/// Words in front of a number of metres, however few they are.
const OF_METRES: [&str; 17] = [
    "x", "exactly", "past", "behind", "before", "beyond", "by", "at", "in", "to", "of", "over", "within",
    "hurdles", "hurdle", "spacing", "cones",
];

/// Words behind a time that make it one, where its unit is no more than an `m`, beside those for a rest.
const BEHIND_MINUTES: [&str; 13] = [
    "jog", "walk", "between", "btwn", "btw", "break", "off", "easy", "slow", "standing", "float", "passive",
    "active",
];

/// `5m rest`, `3 x 300, 8m`: an `m` behind a number that is too small for metres is that of minutes, where it stands like a
/// rest.
fn is_minutes(small: &[u8], tokens: &[Token], index: usize) -> bool {
    let is_one_of = |token: &Token, words: &[&str]| {
        words.iter().any(|word| small.get(token.span.clone()) == Some(word.as_bytes()))
    };
    let is_small =
        matches!(tokens[index - 1].kind, Kind::Number(value) if value < 10.0 && value % 0.5 == 0.0);
    let before = |back: usize| index.checked_sub(back).and_then(|place| tokens.get(place));
    // `2-3m rest`, `90s / 6m`
    let is_behind_time = before(3).is_some_and(|token| {
        let is_unit = token.unit.is_some_and(|unit| unit.seconds().is_some());
        is_unit || matches!(token.kind, Kind::Number(value) if value < 10.0)
    });
    // `to the 8m`
    let word = if before(2).is_some_and(|token| is_one_of(token, &["the"])) { before(3) } else { before(2) };
    let is_of_metres = word.is_none_or(|token| {
        ['-', '/'].iter().any(|&sign| token.is_sign(sign)) && !is_behind_time
            || ['+', '@', 'x', '%'].iter().any(|&sign| token.is_sign(sign))
            || is_one_of(token, &OF_METRES)
    });
    is_small
        && tokens[index].span.len() == 1
        && !is_of_metres
        && tokens.get(index + 1).is_none_or(|next| {
            let is_glued_seconds =
                next.is_number() && next.span.len() == 2 && next.span.start == tokens[index].span.end;
            is_glued_seconds
                || [',', ';', ')', '/', '.'].iter().any(|&sign| next.is_sign(sign))
                || is_one_of(next, &BEHIND_MINUTES)
                || is_one_of(next, RESTS)
        })
}

/// The value of a word that is a number where it stands.
fn number_at(small: &[u8], tokens: &[Token], index: usize) -> Option<f64> {
    let word_at = |index: usize| {
        let token: &Token = tokens.get(index).filter(|token| token.is_word())?;
        small.get(token.span.clone())
    };
    let word = word_at(index).filter(|_| tokens[index].role.has(Role::NUMBER))?;
    let next = tokens.get(index + 1);
    let is_before_number = next.is_some_and(|next| next.is_number() || next.is_sign('x'));
    number_word(word, index.checked_sub(1).and_then(word_at), word_at(index + 1), is_before_number)
}

/// How many bytes a word has that a text begins with.
fn word_length(text: &str) -> usize {
    let ascii = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    if text.as_bytes().get(ascii).is_none_or(u8::is_ascii) {
        return ascii;
    }
    text.find(|sign: char| !sign.is_alphabetic()).unwrap_or(text.len())
}

/// The value of a number; infinite where it is too large to hold.
fn number_of(digits: &str) -> f64 {
    // Most have a few digits and nothing else.
    if digits.len() < 10 && digits.bytes().all(|digit| digit.is_ascii_digit()) {
        return f64::from(digits.bytes().fold(0_u32, |number, digit| number * 10 + u32::from(digit - b'0')));
    }
    digits.parse().unwrap_or(f64::INFINITY)
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
