//! Lines that are not run but told.

use crate::block::{Block, Body};
use crate::cursor::Cursor;
use crate::token::{Lexed, Token};

/// Whether a line begins with `Note:`.
pub(crate) fn is_told(lexed: &Lexed<'_>) -> bool {
    let cursor = Cursor::new(lexed);
    cursor.is_word(0, &["note", "notes"]) && cursor.is_sign(1, ':')
}

/// Whether a line is a sentence: it begins with a word that is none of the notation, and counts nothing.
pub(crate) fn is_prose(lexed: &Lexed<'_>) -> bool {
    const FEWEST_WORDS: usize = 3;
    let cursor = Cursor::new(lexed);
    let is_written =
        cursor.word_at(0).is_some_and(|word| word.starts_with(char::is_uppercase) && word.len() > 1);
    let words = lexed.tokens.iter().filter(|token: &&Token| token.is_word()).count();
    is_written
        && !cursor.is_known(0)
        && words >= FEWEST_WORDS
        && !(0..lexed.tokens.len()).any(|ahead| cursor.is_counted_item(ahead))
}

/// Whether the first word of a line is not read behind the block above it, and the line is time spent on something else:
/// `4 x 100`, `Game 10 min`.
pub(crate) fn begins_unread(block: &Block, line: &str) -> bool {
    let first = line.split_whitespace().next().unwrap_or_default().trim_end_matches([',', ':']);
    let is_unread = block.not_read.iter().any(|words| words.split_whitespace().next() == Some(first));
    let is_time = |line: Block| matches!(line.body, Body::Note { lasts_s: Some(_), .. });
    is_unread && Block::parse(line).is_ok_and(is_time)
}
