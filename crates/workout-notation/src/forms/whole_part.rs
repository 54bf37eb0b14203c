//! A straight or a bend as a run of its own, as long as the track makes it: `8 x straight`, `6 x bend`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::run_kind::{RunForm, RunKind};
use crate::phrases::Phrases;
use crate::track_part::TrackPart;

/// A count in front of straights or bends is below this.
const MOST: f64 = 60.0;

const STRAIGHTS: &[&str] = &["straight", "straights", "straightaway", "straightaways"];
const BENDS: &[&str] = &["bend", "bends", "curve", "curves", "turn", "turns"];
/// All names of straights and bends.
pub(crate) const NAMES: [&[&str]; 2] = [STRAIGHTS, BENDS];
const WHOLE: &[&str] = &["whole", "entire"];

pub(crate) const PART: RunForm = RunForm {
    form: Form {
        // Without a count or `whole` they say where a run is.
        begins: Phrases::new(&[&[WHOLE, STRAIGHTS], &[WHOLE, BENDS]]),
        words: &["straights", "bends"],
        rows: &[row(
            &[
                "4 laps: sprint the straights, jog the bends",
                "8 x straight, jog bends",
                "6 x bend, walk back",
            ],
            "from one end of a straight or a bend to the other",
        )],
    },
    is_counted: |cursor| {
        let the = usize::from(cursor.is_word(1, &["the"]));
        cursor.number_at(0).is_some_and(|count| count < MOST) && cursor.track_part_at(1 + the).is_some()
    },
    named: |cursor| {
        let words = usize::from(cursor.is_word(0, &["the"]) || cursor.is_word(0, WHOLE));
        let is_whole = cursor.is_word(0, WHOLE);
        let part = cursor.track_part_at(words).filter(|_| cursor.sets > 0 || is_whole);
        if part.is_some() {
            cursor.skip_all(words + 1);
            cursor.has_parts = true;
        }
        Ok(part.map(RunKind::Part))
    },
    behind: |_, _| Ok(None),
};

impl Cursor<'_> {
    /// The part of the track that is named `ahead`.
    pub(crate) fn track_part_at(&self, ahead: usize) -> Option<TrackPart> {
        if self.is_word(ahead, STRAIGHTS) {
            return Some(TrackPart::Straight);
        }
        self.is_word(ahead, BENDS).then_some(TrackPart::Bend)
    }
}
