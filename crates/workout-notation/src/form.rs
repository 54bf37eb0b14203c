//! What each form of the notation says about itself.

use std::sync::LazyLock;

use crate::number_word::number_words;
use crate::vocabulary::{Role, Vocabulary};

/// A form of the notation as coaches look it up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotationForm {
    /// Workouts that show the form: each can be read as it stands.
    pub examples: &'static [&'static str],
    /// What the form means.
    pub meaning: &'static str,
}

/// Words or signs that follow one another; for each of them, how it may be written, in small letters.
pub(crate) type Phrase = &'static [&'static [&'static str]];

/// A form of the notation: how it is recognised and explained.
pub(crate) struct Form {
    /// How it begins where it does not begin with a number.
    pub begins: &'static [Phrase],
    /// Its words that somebody may misspell.
    pub words: &'static [&'static str],
    /// Its rows in [`notation`](crate::notation).
    pub rows: &'static [NotationForm],
}

/// All forms, by where they may stand.
pub(crate) struct Forms {
    /// How runs are counted and listed.
    pub lists: &'static [&'static Form],
    /// Kinds of run, which begin with their names.
    pub runs: &'static [&'static Form],
    /// Clauses, which say something about a run.
    pub clauses: &'static [&'static Form],
    /// Words for how hard a run is.
    pub efforts: &'static [Phrase],
    /// Words for a straight or a bend.
    pub parts: [&'static [&'static str]; 2],
    /// What is not a run.
    pub notes: &'static [&'static Form],
    /// What says of lanes in front of it that they are closed, and what of lanes behind it.
    pub closures: [&'static [Phrase]; 2],
    /// The words of all of them.
    pub vocabulary: LazyLock<Vocabulary>,
}

impl Forms {
    /// All forms, in the order in which to learn them.
    pub(crate) fn all(&self) -> impl Iterator<Item = &'static Form> + use<> {
        [self.lists, self.runs, self.clauses, self.notes].into_iter().flatten().copied()
    }

    /// The words of all forms that somebody may misspell.
    pub(crate) fn words(&self) -> impl Iterator<Item = &'static str> {
        self.all().flat_map(|form| form.words).copied()
    }

    /// Puts the words of all forms in one place.
    pub(crate) fn to_vocabulary(&self) -> Vocabulary {
        let of = |forms: &'static [&'static Form]| forms.iter().flat_map(|form| form.begins);
        let firsts = |phrase: &'static Phrase| phrase.first().copied().into_iter().flatten().copied();
        let is_whole = |phrase: &&'static Phrase| phrase.len() == 1;
        let mut vocabulary = Vocabulary::new();
        vocabulary.add_all(of(self.runs).flat_map(firsts), Role::RUN);
        vocabulary.add_all(of(self.clauses).flat_map(firsts), Role::CLAUSE);
        vocabulary.add_all(of(self.clauses).filter(is_whole).flat_map(firsts), Role::CLAUSE_ALONE);
        vocabulary.add_all(self.efforts.iter().flat_map(firsts), Role::EFFORT);
        vocabulary.add_all(self.words(), Role::KNOWN);
        vocabulary.add_all(number_words(), Role::NUMBER);
        // `off` and `out` begin other things as well.
        let [closed, keep_out] = self.closures;
        let lasts = |phrase: &'static Phrase| phrase.last().copied().into_iter().flatten().copied();
        vocabulary
            .add_all(closed.iter().flat_map(lasts).chain(keep_out.iter().flat_map(firsts)), Role::CLOSES);
        vocabulary.add_all(self.parts.into_iter().flatten().copied(), Role::PART);
        vocabulary
    }
}

/// One row in [`notation`](crate::notation).
pub(crate) const fn row(examples: &'static [&'static str], meaning: &'static str) -> NotationForm {
    NotationForm { examples, meaning }
}
