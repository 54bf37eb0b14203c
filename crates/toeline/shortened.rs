//! Messages that stay short, however long the names are that they quote.

use std::borrow::Cow;

/// The longest message, in characters.
const LONGEST: usize = 1_000;

/// The longest quotation, in characters.
const LONGEST_QUOTED: usize = 80;

/// What stands for what is left out.
const LEFT_OUT: &str = " […] ";

/// A message in which long quotations have lost their middle, and so has the whole if it is still too long.
pub(crate) fn shortened(message: &str) -> Cow<'_, str> {
    if message.len() <= LONGEST_QUOTED {
        return Cow::Borrowed(message);
    }
    // What stands between the first and the second backtick is quoted, between the third and the fourth, and so on.
    let parts: Vec<Cow<'_, str>> = (message.split('`').enumerate())
        .map(
            |(number, part)| {
                if number % 2 == 1 { without_middle(part, LONGEST_QUOTED) } else { Cow::Borrowed(part) }
            },
        )
        .collect();
    Cow::Owned(without_middle(&parts.join("`"), LONGEST).into_owned())
}

/// A text of at most so many characters, and a sign for those that are left out.
fn without_middle(text: &str, most: usize) -> Cow<'_, str> {
    let letters = text.chars().count();
    if letters <= most {
        return Cow::Borrowed(text);
    }
    let kept = most - LEFT_OUT.chars().count();
    let start: String = text.chars().take(kept - kept / 4).collect();
    let end: String = text.chars().skip(letters - kept / 4).collect();
    Cow::Owned(format!("{start}{LEFT_OUT}{end}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_long_is_cut_and_both_ends_stay() {
        let name = |letters: usize| format!("A{}Z", "é".repeat(letters - 2));
        let cut = |message: &str| shortened(message).into_owned();
        for letters in [2, 80] {
            let message = format!("there is no `{}` on the track", name(letters));
            assert_eq!(cut(&message), message);
        }
        let long = cut(&format!("there is no `{}` on the track", name(1_000)));
        assert!(long.starts_with("there is no `Aé") && long.ends_with("éZ` on the track"), "{long}");
        assert_eq!(long.chars().count(), "there is no `` on the track".len() + LONGEST_QUOTED);
        assert_eq!(cut(&name(10_000)).chars().count(), LONGEST);
    }
}
