//! Text from outside, without what a terminal, a page or a table would obey.

use std::borrow::Cow;

/// What stands where a character was that cannot be shown.
const SIGN: char = '\u{fffd}';

/// A text in which every character can be seen.
///
/// Control characters (C0, DEL and C1), those that turn the direction of writing, and the separators of lines and
/// paragraphs become `\u{fffd}`; lines end in `\n`, however they ended before. Tabs stay.
///
/// ```
/// use workout_notation::visible;
///
/// assert_eq!(visible("A\u{1b}]0;x\u{7}B"), "A\u{fffd}]0;x\u{fffd}B");
/// assert_eq!(visible("Ada\u{202e}neB"), "Ada\u{fffd}neB");
/// assert_eq!(visible("6 x 200\r\n4 x 60\r"), "6 x 200\n4 x 60\n");
/// ```
pub fn visible(text: &str) -> Cow<'_, str> {
    if !text.contains(is_hidden) {
        return Cow::Borrowed(text);
    }
    let lines = text.replace("\r\n", "\n").replace('\r', "\n");
    Cow::Owned(lines.replace(is_hidden, SIGN.encode_utf8(&mut [0; 4])))
}

/// The same on one line: a tab or the end of a line is a space.
///
/// ```
/// assert_eq!(workout_notation::visible_line("Ada\tBen\r\nCy\u{0}"), "Ada Ben Cy\u{fffd}");
/// ```
pub fn visible_line(text: &str) -> Cow<'_, str> {
    if !text.contains(|letter| is_hidden(letter) || matches!(letter, '\n' | '\t')) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(visible(text).replace(['\n', '\t'], " "))
}

/// Whether a character cannot be seen and changes what stands around it.
fn is_hidden(letter: char) -> bool {
    letter.is_control() && !matches!(letter, '\n' | '\t')
        // What turns the direction of writing (Unicode Standard Annex 9, 2), and ends a line or a paragraph.
        || matches!(letter, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
