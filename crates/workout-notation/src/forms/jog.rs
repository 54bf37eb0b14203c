//! Reading what is done between runs: `rest 90s`, `jog 200`, `walk back`, `standing`, `changing ends`.

use crate::cursor::{Cursor, Read};
use crate::form::Phrase;
use crate::forms::recovery::{KIND, RESTS, Recovery, RecoveryKind};
use crate::spanned::Spanned;

const HELP: &str = "write for example `jog 200`, `walk back` or `changing ends`";
const FULL: [&str; 3] = ["full", "complete", "sufficient"];
const SLOW: [&str; 5] = ["easy", "slow", "slowly", "light", "gentle"];

/// The furthest from a run to the next, in metres.
const FURTHEST_M: f64 = 10_000.0;

/// Reads a clause about what is done between runs if one comes next, and says whether it does.
pub(crate) fn read(cursor: &mut Cursor<'_>, recovery: &mut Recovery) -> bool {
    const KINDS: [&str; 8] =
        ["jog", "walk", "walkback", "jogback", "stand", "standing", "change", "changing"];
    let begins = cursor.place();
    let read = if cursor.is_duration_gap() {
        cursor.rests(recovery, begins, false)
    } else if cursor.is_word(0, RESTS) || cursor.is_word(0, &FULL) && cursor.is_word(1, RESTS) {
        cursor.rest(recovery, begins)
    } else if cursor.is_word(0, &["on"]) && cursor.is_number(1)
        || cursor.is_word(0, &["go", "going"]) && cursor.is_word(1, &["every"])
    {
        cursor.skip();
        cursor.word(&["every"]);
        cursor.cycle(recovery, begins)
    } else if cursor.word(&["off", "every"]) {
        cursor.cycle(recovery, begins)
    } else if cursor.is_word(0, &["between"]) {
        cursor.between(recovery, begins)
    } else if cursor.is_distance_jog() || cursor.is_word(0, &KINDS) || cursor.jog_tokens(0) == Some(2) {
        cursor.jog(recovery, begins)
    } else {
        return false;
    };
    if read.is_err() {
        cursor.skip_to_clause();
    }
    true
}

impl Cursor<'_> {
    /// `jog`, `slow walk`: how many tokens, where such words stand `ahead`.
    pub(crate) fn jog_tokens(&self, ahead: usize) -> Option<usize> {
        let slow = usize::from(self.is_word(ahead, &SLOW));
        self.is_word(ahead + slow, &["jog", "walk", "jogging", "walking"]).then_some(slow + 1)
    }

    /// Whether a distance comes next, and how to cover it after it: `200 jog`, `100m easy walk`.
    pub(crate) fn is_distance_jog(&self) -> bool {
        let Some(distance) = self.metres_tokens(0) else { return false };
        let Some(jog) = self.jog_tokens(distance) else { return false };
        // In `400, 200 jog 100` the number belongs to the run before.
        !self.is_number(distance + jog) && !self.is_word(distance + jog, &["back", "exactly"])
    }

    /// What `rest` begins: a duration, how to get to the next start, `between sets 5min`, or `full`.
    fn rest(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        let is_capital = self.written() == Some("R");
        if self.word(&FULL) {
            self.word(RESTS);
            return Ok(());
        }
        self.skip();
        if self.is_word(0, RESTS) && !self.is_sign(1, '=') {
            self.skip();
        }
        if self.is_sign(0, ':') || self.is_sign(0, '=') || self.is_word(0, &["of", "is"]) {
            self.skip();
        }
        if self.is_word(0, &["standing"]) && self.is_number(1) {
            recovery.kind = Some(Spanned::new(RecoveryKind::Stand, self.here()));
            self.skip();
        }
        if self.word(&FULL[..2]) {
            self.word(RESTS);
            Ok(())
        } else if self.is_distance_jog() || self.jog_tokens(0).is_some() {
            self.jog(recovery, begins)
        } else if self.between_sets() || is_capital && recovery.gap.is_some() {
            self.set_rest(recovery, begins)
        } else {
            let is_for_runs = self.between_runs();
            self.rests(recovery, begins, is_for_runs)
        }
    }

    /// How the runners get to the next start: `jog 200`, `jog exactly 200`, `200 jog`, `walk back`, `walk 100`,
    /// `standing`, `changing ends`.
    fn jog(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        const BACK: &[Phrase] = &[
            &[&["walk", "jog"], &["back"]],
            &[&["walk", "jog"], &["-"], &["back"]],
            &[&["walkback", "jogback"]],
        ];
        if self.jog_tokens(0) == Some(2) {
            self.skip();
        }
        let kind = if self.one_of(BACK) {
            RecoveryKind::WalkBack
        } else if self.one_of(&[&[&["changing", "change"], &["ends"]]]) {
            RecoveryKind::ChangeEnds
        } else if self.word(&["stand", "standing"]) {
            RecoveryKind::Stand
        } else {
            let is_distance_first = self.is_distance_jog();
            let mut is_jog = self.word(&["jog"]);
            let is_word_first = is_jog || self.word(&["walk"]);
            if is_word_first && self.is_duration() {
                // A jog for a time leads back to the start.
                return self.rests(recovery, begins, false);
            }
            let is_exact = is_word_first && self.word(&["exactly"]);
            let metres = if is_distance_first || is_word_first { self.metres() } else { None };
            let Some((metres, span)) = metres else {
                let what = if is_exact { "a distance" } else { "a distance or `back`" };
                return Err(self.expected(what, HELP));
            };
            if is_distance_first {
                self.word(&SLOW);
                is_jog = self.is_word(0, &["jog", "jogging"]);
                self.skip();
            }
            if metres <= 0.0 || metres > FURTHEST_M {
                let message = format!("`{}` is out of range for a recovery", &self.text[span.clone()]);
                self.problem(span, message, format!("write from 1 m to {FURTHEST_M} m"));
                return Ok(());
            }
            match (is_jog, is_exact) {
                (true, false) => RecoveryKind::Jog(metres),
                (true, true) => RecoveryKind::JogExactly(metres),
                (false, false) => RecoveryKind::Walk(metres),
                (false, true) => RecoveryKind::WalkExactly(metres),
            }
        };
        self.set(&mut recovery.kind, Spanned::new(kind, self.since(begins)), begins, KIND);
        self.rest_behind();
        self.between_runs();
        // `jog 200 in 90s`, `walk back 2min`, `walk back, 2min`: how long it may take.
        if self.is_sign(0, ',') && self.is_duration_alone_at(1) {
            self.skip();
        }
        let is_timed = self.is_word(0, &["in"]) && self.is_number(1);
        if is_timed {
            self.skip();
        }
        if is_timed || self.is_duration() && !self.is_duration_gap() {
            return self.rests(recovery, begins, false);
        }
        Ok(())
    }
}
