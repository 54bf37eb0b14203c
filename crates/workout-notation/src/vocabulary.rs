//! The words and signs of the notation, which are looked up once for each token.

use crate::unit::Unit;

/// What a word or a sign may begin, as a set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Role(u8);

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

/// All words and signs of the notation, by their first byte.
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
        let Some(bucket) = word.bytes().next().and_then(|first| self.0.get_mut(usize::from(first))) else {
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
        let bucket = word.first().and_then(|first| self.0.get(usize::from(*first)));
        let found = bucket.and_then(|bucket| bucket.iter().find(|(known, _)| *known == word));
        found.map_or_else(Entry::default, |(_, entry)| *entry)
    }
}
