//! Words or signs that follow one another, and tables of them.

/// Words or signs that follow one another; for each of them, how it may be written, in small letters.
pub(crate) type Phrase = &'static [&'static [&'static str]];

/// Several phrases, with the first letters of all of them: almost every word is known by its own to begin none.
#[derive(Clone, Copy)]
pub(crate) struct Phrases {
    all: &'static [Phrase],
    firsts: u32,
}

impl Phrases {
    /// No phrase.
    pub(crate) const NONE: Self = Self::new(&[]);

    /// A table of phrases, each of a word at least; a longer one stands before those that it begins with.
    pub(crate) const fn new(all: &'static [Phrase]) -> Self {
        let (mut firsts, mut phrase) = (0, 0);
        while phrase < all.len() {
            let (words, mut word) = (all[phrase][0], 0);
            while word < words.len() {
                firsts |= bit(words[word].as_bytes()[0]);
                word += 1;
            }
            phrase += 1;
        }
        Self { all, firsts }
    }

    /// Whether one of the phrases may begin with a word or a sign, by its first byte.
    pub(crate) const fn may_begin_with(self, first: u8) -> bool {
        self.firsts & bit(first) != 0
    }

    /// The phrases, in their order.
    pub(crate) fn iter(self) -> impl Iterator<Item = Phrase> {
        self.all.iter().copied()
    }
}

/// The bit of a byte among those of all first letters, which several bytes may share.
const fn bit(byte: u8) -> u32 {
    1 << (byte & 31)
}
