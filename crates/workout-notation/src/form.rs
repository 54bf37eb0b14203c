//! What each form of the notation says about itself.

use std::sync::LazyLock;

use crate::number_word::number_words;
use crate::phrases::{Phrase, Phrases};
use crate::vocabulary::{Role, Vocabulary};

/// A form of the notation as coaches look it up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotationForm {
    /// Workouts that show the form: each can be read as it stands.
    pub examples: &'static [&'static str],
    /// What the form means.
    pub meaning: &'static str,
}

/// A form of the notation: how it is recognised and explained.
pub(crate) struct Form {
    /// How it begins where it does not begin with a number.
    pub begins: Phrases,
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
    pub efforts: Phrases,
    /// Words for a straight or a bend.
    pub parts: [&'static [&'static str]; 2],
    /// What is not a run.
    pub notes: &'static [&'static Form],
    /// Words that begin what is not a run.
    pub note_names: &'static [&'static str],
    /// How one goes from run to run, and words in front of that.
    pub on_foot: [&'static [&'static str]; 2],
    /// Words for each of several.
    pub each: &'static [&'static str],
    /// Words for who trains, and in front of an age.
    pub groups: [&'static [&'static str]; 3],
    /// What says of lanes in front of it that they are closed, and what of lanes behind it.
    pub closures: [Phrases; 3],
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
        let of = |forms: &'static [&'static Form]| forms.iter().flat_map(|form| form.begins.iter());
        let firsts = |phrase: Phrase| phrase.first().copied().into_iter().flatten().copied();
        let is_whole = |phrase: &Phrase| phrase.len() == 1;
        let mut vocabulary = Vocabulary::new();
        vocabulary.add_all(of(self.runs).flat_map(firsts), Role::RUN);
        vocabulary.add_all(of(self.clauses).flat_map(firsts), Role::CLAUSE);
        vocabulary.add_all(of(self.clauses).filter(is_whole).flat_map(firsts), Role::CLAUSE_ALONE);
        vocabulary.add_all(self.efforts.iter().flat_map(firsts), Role::EFFORT);
        vocabulary.add_all(self.words(), Role::KNOWN);
        vocabulary.add_all(number_words(), Role::NUMBER);
        // `off` and `out` begin other things as well.
        let [closed, keep_out, open] = self.closures;
        let lasts = |phrase: Phrase| phrase.last().copied().into_iter().flatten().copied();
        vocabulary.add_all(
            closed.iter().chain(open.iter()).flat_map(lasts).chain(keep_out.iter().flat_map(firsts)),
            Role::CLOSES,
        );
        vocabulary.add_all(self.parts.into_iter().flatten().copied(), Role::PART);
        vocabulary.add_all(self.groups.into_iter().flatten().copied(), Role::GROUP);
        vocabulary.add_all(self.note_names.iter().copied(), Role::NOTE);
        vocabulary.add_all(self.on_foot.into_iter().flatten().copied(), Role::ON_FOOT);
        vocabulary.add_all(self.each.iter().copied(), Role::EACH);
        vocabulary
    }
}

/// One row in [`notation`](crate::notation).
pub(crate) const fn row(examples: &'static [&'static str], meaning: &'static str) -> NotationForm {
    NotationForm { examples, meaning }
}
