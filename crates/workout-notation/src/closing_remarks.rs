//! What a text says to its readers behind everything that is done: `See you there`, `Bring spikes`.

use crate::block::{Block, Body};
use crate::line_words::words;
use crate::workout::Workout;

/// Words of somebody who speaks to others, which no name of an exercise has.
#[rustfmt::skip]
const SPOKEN: [&str; 36] = [
    "you", "your", "me", "my", "us", "we", "i", "please", "pls", "remember", "bring", "thanks", "thank", "text", "see", "enjoy",
    "questions", "weather", "wear", "message", "don", "dont", "let", "ps", "xx", "cheers", "hope", "looking", "everyone", "sorry",
    "good", "great", "meet", "nb", "reminder", "ask",
];

/// Words in front of such a remark, with a colon.
const LABELS: [&str; 6] = ["note", "notes", "nb", "reminder", "ps", "remember"];

/// Whether a block is a remark and nothing that is done.
fn is_remark(block: &Block) -> bool {
    let Body::Note { words: said, lasts_s: None, length: None } = &block.body else { return false };
    // A number may be of something that is done, in its heading too.
    let heading = block.label.as_deref().unwrap_or_default();
    let has_number = [said, heading].iter().any(|text| text.contains(|letter: char| letter.is_ascii_digit()));
    block.doubts.is_empty()
        && !has_number
        && words(said).iter().any(|word| word.is_one(&SPOKEN) || word.is_one(&LABELS[..2]))
}

/// A remark without the word for one in front of it.
fn bare(text: &str) -> &str {
    let behind = |(label, rest): (&str, &'_ str)| {
        LABELS.iter().any(|known| label.trim().eq_ignore_ascii_case(known)).then_some(rest.len())
    };
    let length = text.split_once(':').and_then(behind).unwrap_or(text.len());
    text[text.len() - length..].trim()
}

impl Workout {
    /// Takes the remarks behind everything that is done out of what is done; nobody does them, and no time passes.
    pub(crate) fn take_out_remarks(&mut self) {
        let mut taken = Vec::new();
        while self.blocks().nth(1).is_some()
            && let Some(part) = self.parts.last_mut()
        {
            match part.blocks.pop_if(|block| is_remark(block)) {
                Some(block) => taken.push(bare(&block.text).to_owned()),
                None if part.blocks.is_empty() && part.athletes.is_empty() => _ = self.parts.pop(),
                None => break,
            }
        }
        self.notes.extend(taken.into_iter().rev().filter(|note| !note.is_empty()));
    }
}
