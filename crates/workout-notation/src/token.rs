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

/// All tokens of a text; every text has some way to be cut into them.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut at = 0;
    while let Some(first) = text[at..].chars().next() {
        let rest = &text[at..];
        if first.is_whitespace() {
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
    tokens
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
        '′' | '’' | '‘' => '\'',
        '″' | '”' | '“' => '"',
        sign => sign,
    }
}
