//! Words, numbers and signs of the notation.

use std::ops::Range;

use winnow::ascii::digit1;
use winnow::combinator::{alt, opt, repeat};
use winnow::prelude::*;
use winnow::stream::LocatingSlice;
use winnow::token::{any, one_of, take_while};

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

type Input<'a> = LocatingSlice<&'a str>;

/// All tokens of a text; every text has some way to be cut into them.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut input = LocatingSlice::new(text);
    let all: ModalResult<Vec<Token>> = repeat(0.., token).parse_next(&mut input);
    // `token` takes any character, so that the only way to stop is the end of the text.
    let mut all = all.unwrap_or_default();
    part_times_signs(text, &mut all);
    all
}

/// In `3xflying 30` the letter is a times sign: no word of the notation begins with it.
fn part_times_signs(text: &str, tokens: &mut Vec<Token>) {
    let is_glued = |before: &Token, word: &Token| {
        word.kind == Kind::Word
            && word.span.len() > 1
            && text[word.span.clone()].starts_with(['x', 'X'])
            && matches!(before.kind, Kind::Number(_))
            && before.span.end == word.span.start
    };
    if !tokens.windows(2).any(|pair| is_glued(&pair[0], &pair[1])) {
        return;
    }
    let mut parted: Vec<Token> = Vec::with_capacity(tokens.len() + 1);
    for token in tokens.drain(..) {
        match parted.last() {
            Some(before) if is_glued(before, &token) => {
                let Range { start, end } = token.span;
                parted.push(Token { kind: Kind::Sign('x'), span: start..start + 1 });
                parted.push(Token { kind: Kind::Word, span: start + 1..end });
            }
            _ => parted.push(token),
        }
    }
    *tokens = parted;
}

fn token(input: &mut Input<'_>) -> ModalResult<Token> {
    let _ = take_while(0.., char::is_whitespace).parse_next(input)?;
    let kind = alt((
        number,
        take_while(1.., char::is_alphabetic).value(Kind::Word),
        any.map(|sign| Kind::Sign(plain(sign))),
    ));
    let (kind, span) = kind.with_span().parse_next(input)?;
    Ok(Token { kind, span })
}

fn number(input: &mut Input<'_>) -> ModalResult<Kind> {
    let exponent = (one_of(['e', 'E']), opt(one_of(['+', '-'])), digit1);
    (digit1, opt(('.', digit1)), opt(exponent))
        .take()
        .map(|digits: &str| Kind::Number(digits.parse().unwrap_or(f64::INFINITY)))
        .parse_next(input)
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
