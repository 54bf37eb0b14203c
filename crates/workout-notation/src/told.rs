//! Lines that are not run but told.

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
