//! The words and signs of the notation, which are looked up once for each token.

use crate::unit::Unit;

/// What a word or a sign may begin, as a set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Role(u16);

impl Role {
    /// The name of a kind of run.
    pub(crate) const RUN: Self = Self(1);
    /// A clause.
    pub(crate) const CLAUSE: Self = Self(2);
    /// A clause, whatever follows.
    pub(crate) const CLAUSE_ALONE: Self = Self(4);
    /// How hard a run is.
    pub(crate) const EFFORT: Self = Self(8);
    /// It is a word of the notation.
    pub(crate) const KNOWN: Self = Self(16);

    /// A straight or a bend.
    pub(crate) const PART: Self = Self(32);

    /// A word for a number.
    pub(crate) const NUMBER: Self = Self(64);

    /// It may say that lanes are closed.
    pub(crate) const CLOSES: Self = Self(128);

    /// It is in names of groups, or in front of an age.
    pub(crate) const GROUP: Self = Self(256);

    /// It names what is not a run.
    pub(crate) const NOTE: Self = Self(512);

    /// It is what is done on foot between runs, or how.
    pub(crate) const ON_FOOT: Self = Self(1024);

    /// It says that something is for each of several.
    pub(crate) const EACH: Self = Self(2048);

    /// This set and another.
    pub(crate) const fn with(self, role: Self) -> Self {
        Self(self.0 | role.0)
    }

    /// Whether the set has this one.
    pub(crate) const fn has(self, role: Self) -> bool {
        self.0 & role.0 != 0
    }
}

/// What the notation knows of a word or a sign.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Entry {
    pub(crate) role: Role,
    pub(crate) unit: Option<Unit>,
}

/// All words and signs of the notation, by their first byte and their length.
pub(crate) struct Vocabulary([Vec<(&'static [u8], Entry)>; 256]);

impl Vocabulary {
    /// A vocabulary of the units alone.
    pub(crate) fn new() -> Self {
        let mut vocabulary = Self([const { Vec::new() }; 256]);
        for (word, unit) in Unit::words() {
            vocabulary.add(word, Role::default(), Some(unit));
        }
        vocabulary
    }

    /// Adds words or signs that have a role.
    pub(crate) fn add_all(&mut self, words: impl IntoIterator<Item = &'static str>, role: Role) {
        for word in words {
            self.add(word, role, None);
        }
    }

    fn add(&mut self, word: &'static str, role: Role, unit: Option<Unit>) {
        let Some(bucket) = bucket_of(word.as_bytes()).and_then(|bucket| self.0.get_mut(bucket)) else {
            return;
        };
        let place = bucket.iter().position(|(known, _)| *known == word.as_bytes()).unwrap_or_else(|| {
            bucket.push((word.as_bytes(), Entry::default()));
            bucket.len() - 1
        });
        let entry = &mut bucket[place].1;
        entry.role.0 |= role.0;
        entry.unit = unit.or(entry.unit);
    }

    /// What is known of a word in small letters, or of a sign.
    pub(crate) fn entry(&self, word: &[u8]) -> Entry {
        let bucket = bucket_of(word).and_then(|bucket| self.0.get(bucket));
        let found = bucket.and_then(|bucket| bucket.iter().find(|(known, _)| *known == word));
        found.map_or_else(Entry::default, |(_, entry)| *entry)
    }
}

/// Which bucket a word lies in.
fn bucket_of(word: &[u8]) -> Option<usize> {
    let first = *word.first()?;
    Some(usize::from(first.wrapping_add((word.len() as u8).wrapping_mul(29))))
}
