//! How hard a run is: `easy`, `fast and relaxed`, `tempo pace`, `flat out`, `time trial`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::phrases::Phrases;
use crate::spanned::Spanned;
use crate::vocabulary::Role;

const NAME: &str = "effort";

#[rustfmt::skip]
const EFFORTS: &[&str] = &[
    "easy", "steady", "hard", "fast", "quick", "relaxed", "tempo", "threshold", "float", "controlled",
    "smooth", "brisk", "moderate", "strong", "sprint", "sprints", "sprinting", "strides", "progressive",
    "accelerating", "building", "cruise", "fartlek", "max", "maximum", "maximal", "submaximal", "extensive",
    "intensive", "aerobic", "quickly", "strongly", "comfortable", "comfortably", "tt",
    "jogging", "walking",
];

/// Names of a pace that no best can be asked for.
const PACES: &[&str] = &["hmp", "mp", "lt", "cv", "vvo2", "vo2max", "xc"];

/// Paces in words, which stand before `pace`.
const NAMED: &[&str] = &[
    "race",
    "goal",
    "target",
    "date",
    "marathon",
    "lactate",
    "interval",
    "rep",
    "repetition",
    "recovery",
    "conversational",
    "current",
    "event",
    "cv",
    "hm",
    "mp",
    "hmp",
    "lt",
    "vo2",
    "t",
    "i",
    "r",
    "e",
    "m",
];
const PACE: &[&str] = &["pace", "effort"];

const BEGINS: Phrases = Phrases::new(&[
    &[&["half"], &["marathon"], PACE],
    &[&["half"], &["marathon"]],
    &[&["current", "goal", "target"], &["race"], PACE],
    &[NAMED, PACE],
    &[PACES],
    &[EFFORTS],
    &[&["flat", "all"], &["out"]],
    &[&["time"], &["trial"]],
]);

/// Letters for a pace, as some coaches write them.
const LETTERS: &[&str] = &["T", "R", "I", "E", "M"];

/// Words that may follow an effort and add nothing to it.
const RUNNING: [&str; 6] = ["pace", "effort", "run", "running", "runs", "speed"];

pub(crate) const EFFORT: Clause<String> = Clause {
    form: Form {
        begins: BEGINS,
        words: EFFORTS,
        rows: &[row(&["4 x 200 easy", "1000 steady", "300 hard"], "an effort")],
    },
    name: NAME,
    read: |cursor, value| {
        let signs = usize::from(cursor.is_sign(0, '@') || cursor.is_word(0, &["at"]));
        // `easy jog 200` is an easy jog, and not an easy run.
        let is_here = cursor.is_effort(signs) || cursor.is_pace_letter(signs);
        let is_of_jog = cursor.is_jog_alone() && cursor.jog_tokens(0).is_some_and(|jog| jog > 1);
        if !is_here || signs == 0 && is_of_jog && !cursor.is_effort_before_other_part() {
            return false;
        }
        (0..signs).for_each(|_| cursor.skip());
        let begins = cursor.place();
        let words = cursor.effort();
        cursor.set(value, words, begins, NAME);
        cursor.slower_by();
        true
    },
    print: |effort, f| {
        // `200 M` would be 200 m, `800 m pace` as well, and `50s R` a rest.
        let is_like_a_unit =
            effort.split(' ').next().is_some_and(|word| word == "R" || word.eq_ignore_ascii_case("m"));
        f.write_str(if is_like_a_unit { "@ " } else { "" })?;
        f.write_str(effort)
    },
    is_printed_last: |effort| effort.ends_with("easy"),
    is_of_last_run: |_, is_alike| !is_alike,
};

/// What stands before a run and what stands behind it, as one.
pub(crate) fn joined(
    before: Option<Spanned<String>>,
    after: Option<Spanned<String>>,
) -> Option<Spanned<String>> {
    match (before, after) {
        (Some(before), Some(after)) => {
            let span = before.span.start..after.span.end;
            Some(Spanned::new(format!("{} {}", before.value, after.value), span))
        }
        (before, after) => before.or(after),
    }
}

impl Cursor<'_> {
    /// Whether a word for how hard a run is stands `ahead`.
    pub(crate) fn is_effort(&self, ahead: usize) -> bool {
        self.begins(ahead, Role::EFFORT) && self.is_one_of(ahead, BEGINS)
    }

    /// Whether a word that is an effort by itself stands `ahead`.
    pub(crate) fn is_effort_word(&self, ahead: usize) -> bool {
        self.is_word(ahead, EFFORTS)
    }

    /// Whether the letter of a pace stands `ahead`: a capital with nothing behind it that would be its value.
    pub(crate) fn is_pace_letter(&self, ahead: usize) -> bool {
        // `R jog`: that letter is the rest as well, unless it is `@ R jog`.
        let is_rest = !(ahead == 1 && self.is_sign(0, '@'))
            && self.is_word(ahead, &["r"])
            && self.is_word(ahead + 1, &["between", "jog", "walk"]);
        self.word_at(ahead).is_some_and(|word| LETTERS.contains(&word))
            && !self.is_number(ahead + 1)
            && ![':', '='].iter().any(|&sign| self.is_sign(ahead + 1, sign))
            && !is_rest
    }

    pub(crate) fn effort(&mut self) -> Spanned<String> {
        let begins = self.place();
        let mut words = self.effort_word();
        loop {
            let joined = usize::from(self.is_word(0, &["and", "but"]) || self.is_sign(0, '+'));
            if !self.is_effort(joined) && !self.is_pace_letter(joined) {
                break;
            }
            (0..joined).for_each(|_| self.skip());
            words = format!("{words} {}", self.effort_word());
        }
        self.word(&RUNNING);
        Spanned::new(words, self.since(begins))
    }

    /// One word, or one phrase, for how hard a run is.
    pub(crate) fn effort_word(&mut self) -> String {
        let begins = self.place();
        let count = self.phrase_at(0, BEGINS).map_or(1, |phrase| phrase.len());
        let words: Vec<_> = (0..count).filter_map(|ahead| self.word_at(ahead)).collect();
        let letter = words.iter().any(|word| LETTERS.contains(word)) && words.len() == 1;
        let words = if letter { words.join(" ") } else { words.join(" ").to_lowercase() };
        self.go_back(begins + count);
        words
    }
}
