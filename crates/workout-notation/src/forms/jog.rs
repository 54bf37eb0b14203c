//! Reading what is done between runs: `rest 90s`, `jog 200`, `walk back`, `standing`, `changing ends`.

use crate::cursor::{Cursor, Read, Reported};
use crate::forms::as_long::EQUAL;
use crate::forms::recovery::{Gap, KIND, REST, Recovery, RecoveryKind};
use crate::last_run::LastRun;
use crate::phrases::Phrases;
use crate::quantity::LAPS;
use crate::rest_words::RESTS;
use crate::spanned::Spanned;
use crate::vocabulary::Role;

/// Words behind `standing` that make it an exercise.
const JUMPS: [&str; 7] = ["long", "triple", "jump", "jumps", "throw", "throws", "hop"];

const HELP: &str = "write for example `jog 200`, `walk back` or `changing ends`";
const FULL: [&str; 5] = ["full", "complete", "sufficient", "total", "adequate"];
pub(crate) const SLOW: [&str; 7] = ["easy", "slow", "slowly", "light", "gentle", "recovery", "rec"];
pub(crate) const ON_FOOT: [&str; 9] =
    ["jog", "walk", "jogging", "walking", "shuffle", "jogs", "walks", "trot", "footing"];
pub(crate) const JOGS: [&str; 6] = ["jog", "jogging", "shuffle", "jogs", "trot", "footing"];

/// Numbers without a unit that are seconds of rest where several stand in a row.
const SECONDS: std::ops::RangeInclusive<f64> = 10.0..=300.0;

/// A distance alone behind `rest` is a jog from here on, in metres: less is rather minutes.
const LEAST_JOG_M: f64 = 30.0;

/// The furthest from a run to the next, in metres.
pub(crate) const FURTHEST_M: f64 = 10_000.0;

/// A lap of which nobody knows the lane, in metres: one that is jogged or walked between two runs ends where the next run
/// starts anyway.
pub(crate) const LAP_M: f64 = 400.0;

const BACK: Phrases = Phrases::new(&[
    &[&["walk", "jog", "walking", "jogging"], &["back", "backs"]],
    &[&["walk", "jog"], &["-"], &["back", "backs"]],
    &[&["walkback", "jogback", "wb", "wbr", "jbr"]],
    &[&["w"], &["/"], &["b", "back"]],
    &[&["walk"], &["/"], &["jog"], &["back"]],
    &[&["jog"], &["/"], &["walk"], &["back"]],
]);

/// Reads a clause about what is done between runs if one comes next, and says whether it does.
pub(crate) fn read(cursor: &mut Cursor<'_>, recovery: &mut Recovery) -> bool {
    const KINDS: [&str; 4] = ["stand", "standing", "change", "changing"];
    let begins = cursor.place();
    if recovery.gap.is_some() && cursor.jog_afterwards() {
        return true;
    }
    let read = if cursor.ratio(begins) || cursor.equal(begins) {
        Ok(())
    } else if cursor.is_duration_gap() {
        cursor.rests(recovery, begins, false)
    } else if (cursor.is_word(0, RESTS) || cursor.is_rest_key()) && !cursor.is_pace_letter(0)
        || cursor.is_word(0, &FULL) && cursor.is_word(1, RESTS)
    {
        cursor.rest(recovery, begins)
    } else if cursor.is_word(0, &["on"])
        && (cursor.is_number(1) || cursor.is_word(1, &["a", "the"]) && cursor.is_duration_at(2))
        || cursor.is_word(0, &["go", "going"]) && cursor.is_word(1, &["every"])
    {
        cursor.skip();
        cursor.word(&["every", "a", "the"]);
        cursor.cycle(recovery, begins, false)
    } else if cursor.is_word(0, &["off"]) && !cursor.is_word(1, &["the", "blocks"]) {
        cursor.skip();
        cursor.word(&["a"]);
        if cursor.is_distance_jog() {
            cursor.jog(recovery, begins)
        } else {
            cursor.cycle(recovery, begins, true)
        }
    } else if let Some(words) = cursor.every_minute_tokens() {
        cursor.skip_all(words);
        let gap = Spanned::new(Gap::Cycle(60.0), cursor.since(begins));
        cursor.set(&mut recovery.gap, gap, begins, REST);
        Ok(())
    } else if cursor.is_word(0, &["every", "cycle"])
        && !cursor.is_word(2, &["st", "nd", "rd", "th"])
        && (cursor.is_number(1) || cursor.is_sign(1, ':') || cursor.is_word(1, &["of"]))
    {
        cursor.skip();
        if cursor.is_sign(0, ':') || cursor.is_word(0, &["of"]) {
            cursor.skip();
        }
        cursor.cycle(recovery, begins, false)
    } else if let Some(tokens) = cursor.distance_back_tokens() {
        let is_jog = (0..tokens).any(|ahead| cursor.is_word(ahead, &JOGS));
        cursor.skip_all(tokens);
        cursor.keep(begins);
        let kind = if is_jog { RecoveryKind::JogBack } else { RecoveryKind::WalkBack };
        let back = Spanned::new(kind, cursor.since(begins));
        cursor.set(&mut recovery.kind, back, begins, KIND);
        cursor.behind_way(recovery, begins)
    } else if cursor.between_tokens(0).is_some() {
        cursor.between(recovery, begins)
    } else if cursor.is_distance_jog()
        || cursor.is_one_of(0, BACK)
        || cursor.is_word(0, &KINDS)
        || cursor.is_jog_alone()
    {
        cursor.jog(recovery, begins)
    } else {
        return false;
    };
    recovery.settle_jog();
    if read.is_err() {
        cursor.skip_to_clause();
    }
    true
}

impl Cursor<'_> {
    /// `6 x 300, 3 min; jog 800`: what a semicolon parts from runs that have their rest is done after them, and kept as it
    /// is written.
    fn jog_afterwards(&mut self) -> bool {
        let begins = self.place();
        if !self.is_behind(';') {
            return false;
        }
        let words = self.jog_tokens(0).unwrap_or_default();
        let distance = self.recovery_distance_tokens(words).unwrap_or_default();
        let behind = if words == 0 { self.jog_tokens(distance).unwrap_or_default() } else { 0 };
        if distance == 0 || words + behind == 0 {
            return false;
        }
        self.skip_all(words + distance + behind);
        if !self.is_at_end() {
            self.go_back(begins);
            return false;
        }
        self.keep(begins);
        true
    }

    /// `200 back`: how many tokens.
    pub(crate) fn distance_back_tokens(&self) -> Option<usize> {
        let metres = self.metres_tokens(0)?;
        // `60-30 walk back`: the distance is a run of a list.
        let is_listed =
            self.metres_in(1).is_none() || ['-', '+', ','].iter().any(|&sign| self.is_behind(sign));
        let jog = self.jog_tokens(metres).filter(|_| !is_listed).unwrap_or_default();
        let end = metres + jog;
        let is_place =
            self.is_word(end + 1, &["straight", "stretch", "bend", "to"]) || self.is_number(end + 1);
        (self.is_word(end, &["back"]) && !is_place).then_some(end + 1)
    }

    /// `on the minute`, `go every minute`: how many tokens.
    pub(crate) fn every_minute_tokens(&self) -> Option<usize> {
        let go = usize::from(self.is_word(0, &["go", "going", "leaving"]));
        let is_on = self.is_word(go, &["on"]) && self.is_word(go + 1, &["the"]);
        let words = go + if is_on { 2 } else { 1 };
        let is_here = (is_on || self.is_word(go, &["every"])) && self.is_word(words, &["minute", "min"]);
        is_here.then_some(words + 1)
    }

    /// `jog`, `slow walk`, `walk/jog`, `recovery jog`: how many tokens, where such words stand `ahead`.
    pub(crate) fn jog_tokens(&self, ahead: usize) -> Option<usize> {
        if !self.begins(ahead, Role::ON_FOOT) {
            return None;
        }
        let slow = usize::from(self.is_word(ahead, &SLOW));
        if !self.is_word(ahead + slow, &ON_FOOT) {
            return None;
        }
        let words = slow + 1;
        let is_either = self.is_sign(ahead + words, '/') || self.is_sign(ahead + words, '-');
        if is_either && self.is_word(ahead + words + 1, &ON_FOOT) {
            return Some(words + 2);
        }
        let is_or = self.is_word(ahead + words, &["or"]) && self.is_word(ahead + words + 1, &ON_FOOT);
        Some(if is_or { words + 2 } else { words })
    }

    /// Whether `jog` or `easy walk` comes next; `jogging` is how a run is run.
    pub(crate) fn is_jog_alone(&self) -> bool {
        self.jog_tokens(0).is_some_and(|jog| !self.is_word(jog - 1, &["jogging", "walking"]))
    }

    /// How many tokens the distance of a recovery has where it stands `ahead`: metres, or a lap.
    fn recovery_distance_tokens(&self, ahead: usize) -> Option<usize> {
        if self.is_laps(ahead) {
            return Some(2);
        }
        if self.is_word(ahead, &["half"]) {
            let article = usize::from(self.is_word(ahead + 1, &["a"]));
            return self.is_word(ahead + 1 + article, &LAPS[..1]).then_some(2 + article);
        }
        if self.is_word(ahead, &LAPS[..1]) {
            return Some(1);
        }
        self.metres_tokens(ahead)
    }

    /// Whether a distance comes next, and how to cover it after it: `200 jog`, `100m easy walk`, `full lap walk`.
    pub(crate) fn is_distance_jog(&self) -> bool {
        let full = usize::from(self.is_word(0, &["full", "a", "one"]) && self.is_word(1, &LAPS[..1]));
        let Some(distance) = self.recovery_distance_tokens(full) else { return false };
        let at = full + distance;
        if self.is_word(at, &["float", "floats", "recovery", "rec"])
            && !self.is_number(at + 1)
            && !self.is_sign(at + 1, ':')
        {
            return true;
        }
        let Some(jog) = self.jog_tokens(at) else { return false };
        // In `400, 200 jog 100` the number belongs to the run before, and in `200/100 walk same distance` the distance is a run.
        !self.is_one_of(at + jog, EQUAL)
            && !self.is_number(at + jog)
            && !self.is_word(at + jog, &["back", "exactly"])
    }

    /// `r:`, `rec =`, `p:`: a letter that stands for the rest.
    fn is_rest_key(&self) -> bool {
        self.is_word(0, &["p"]) && (self.is_sign(1, ':') || self.is_sign(1, '=') || self.is_duration_at(1))
    }

    /// What `rest` begins: a duration, how to get to the next start, `between sets 5min`, or `full`.
    fn rest(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        let is_capital = self.written() == Some("R");
        if self.word(&FULL) {
            self.word(RESTS);
            self.between_runs();
            // As long as it takes: nothing to plan, but to be told.
            self.keep(begins);
            return Ok(());
        }
        self.skip();
        if self.is_word(0, RESTS) && !self.is_sign(1, '=') {
            self.skip();
        }
        // `r'=2`, `r' 90`
        if self.is_sign(0, '\'') && self.is_glued(0) {
            self.skip();
        }
        if self.is_sign(0, ':') || self.is_sign(0, '=') || self.is_word(0, &["of", "is", "for"]) {
            self.skip();
        }
        self.word(&["a", "the"]);
        let before = self.place();
        if self.equal(begins) {
            return Ok(());
        }
        self.go_back(before);
        if self.equal_rest(begins) {
            return Ok(());
        }
        self.go_back(before);
        if self.is_sign(0, '-') && self.is_number(1) && !self.is_glued(1) {
            self.skip();
        }
        if self.is_word(0, &["standing"]) && self.is_number(1) {
            recovery.kind = Some(Spanned::new(RecoveryKind::Stand, self.here()));
            self.skip();
        }
        // `R=200j`
        if self.is_number(0) && self.is_word(1, &["j"]) && self.is_glued(1) {
            let (metres, span) = self.number().ok_or(Reported)?;
            self.skip();
            self.set(&mut recovery.kind, Spanned::new(RecoveryKind::Jog(metres), span), begins, KIND);
            return Ok(());
        }
        if self.word(&FULL[..2]) {
            self.word(RESTS);
            self.keep(begins);
            Ok(())
        } else if self.is_one_of(0, BACK) || self.is_distance_jog() || self.jog_tokens(0).is_some() {
            self.jog(recovery, begins)
        } else if self.metres_tokens(0) == Some(2)
            && self.number_at(0).is_some_and(|metres| metres >= LEAST_JOG_M)
        {
            // `rec: 200m`, `p = 200m`: how far is said, and no word how.
            let (metres, span) = self.metres().ok_or(Reported)?;
            self.jog_behind();
            self.set(&mut recovery.kind, Spanned::new(RecoveryKind::Jog(metres), span), begins, KIND);
            self.behind_way(recovery, begins)
        } else if self.between_sets() || is_capital && recovery.gap.is_some() {
            self.set_rest(recovery, begins)
        } else if self.bare_list_of_minutes() || self.bare_list_of_seconds() {
            Ok(())
        } else {
            let is_for_runs = self.between_runs();
            self.rests(recovery, begins, is_for_runs)
        }
    }

    /// `reducing rest 90-80-70-60`: seconds between the runs, three or more, each shorter than the one before or each
    /// longer.
    fn bare_list_of_seconds(&mut self) -> bool {
        let mut seconds = Vec::new();
        while let Some(number) = self.number_at(2 * seconds.len()).filter(|number| SECONDS.contains(number)) {
            seconds.push(number);
            let sign = 2 * seconds.len() - 1;
            let is_joined = ['-', '/', ','].iter().any(|&joint| self.is_sign(sign, joint));
            if !is_joined || !self.is_number(sign + 1) {
                break;
            }
        }
        let end = (2 * seconds.len()).saturating_sub(1);
        let is_ordered =
            seconds.is_sorted_by(|one, next| one > next) || seconds.is_sorted_by(|one, next| one < next);
        let is_closed = !self.is_number(end) && !self.is_unit(end) && !self.is_times(end);
        if seconds.len() < 3 || !is_ordered || !is_closed || !self.shared.rests.is_empty() {
            return false;
        }
        for place in 0..seconds.len() {
            if let Some((seconds, span)) = self.number() {
                self.shared.rests.push(Spanned::new(seconds, span));
            }
            self.skip_all(usize::from(place + 1 < seconds.len()));
        }
        true
    }

    /// How the runners get to the next start: `jog 200`, `jog exactly 200`, `200 jog`, `walk back`, `walk 100`,
    /// `standing`, `changing ends`.
    pub(crate) fn jog(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        if self.jog_between_sets(begins) {
            return Ok(());
        }
        if self.jog_tokens(0).is_some() && self.is_word(0, &SLOW) {
            self.skip();
        }
        // `jog/walk back` is as slow as a walk.
        let is_jogged =
            self.is_word(0, &JOGS) && !self.is_sign(1, '/') || self.is_word(0, &["jogback", "jbr"]);
        let kind = if self.one_of(BACK) {
            // `walk back x2`: as often as it takes.
            if self.is_times(0) && self.is_number(1) && !self.is_times(2) && self.metres_in(2).is_none() {
                self.skip_all(2);
                self.bind_since(self.place() - 1);
            }
            if is_jogged { RecoveryKind::JogBack } else { RecoveryKind::WalkBack }
        } else if self.one_of(const { Phrases::new(&[&[&["changing", "change"], &["ends"]]]) }) {
            RecoveryKind::ChangeEnds
        } else if !self.is_word(1, &JUMPS) && self.word(&["stand", "standing"]) {
            RecoveryKind::Stand
        } else {
            let is_distance_first = self.is_distance_jog();
            let jog = self.jog_tokens(0);
            let mut is_jog = self.is_word(0, &JOGS);
            let is_word_first = jog.is_some();
            self.skip_all(jog.unwrap_or_default());
            if is_word_first && (self.is_duration() || self.is_time_range(0)) {
                // A jog for a time leads back to the start.
                recovery.jogs = is_jog && recovery.gap.is_none();
                return self.rests(recovery, begins, false);
            }
            if is_word_first && let Some(metres) = self.part_behind_jog() {
                let kind = if is_jog { RecoveryKind::Jog(metres) } else { RecoveryKind::Walk(metres) };
                self.set(&mut recovery.kind, Spanned::new(kind, self.since(begins)), begins, KIND);
                return self.behind_way(recovery, begins);
            }
            let is_exact = is_word_first && self.word(&["exactly"]);
            let distance = if is_distance_first || is_word_first { self.recovery_metres() } else { None };
            let Some((metres, span)) = distance else {
                let what = if is_exact { "a distance" } else { "a distance or `back`" };
                return Err(self.expected(what, HELP));
            };
            if is_distance_first {
                let words = self.jog_tokens(0).unwrap_or(1);
                is_jog = !(0..words).any(|ahead| self.is_word(ahead, &["walk", "walking", "walks"]))
                    || (0..words).any(|ahead| self.is_word(ahead, &JOGS));
                self.skip_all(words);
                // `200m recovery jog`
                self.word(&ON_FOOT);
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
        self.behind_way(recovery, begins)
    }

    /// `400 jog between sets`: how long that takes is not said, so that it is kept as it is written, and is no recovery of
    /// each run.
    fn jog_between_sets(&mut self, begins: usize) -> bool {
        let before = self.place();
        let (mut jogs, mut parts) = (0, 0);
        while parts < 3 {
            parts += 1;
            if let Some(tokens) = self.jog_tokens(0).filter(|_| jogs == 0) {
                self.skip_all(tokens);
                jogs += 1;
                self.word(&["back"]);
            } else {
                self.word(&["a", "one", "full", "the"]);
                let Some(tokens) = self.recovery_distance_tokens(0) else { break };
                self.skip_all(tokens);
            }
        }
        if jogs == 0 || !self.between_sets() {
            self.go_back(before);
            return false;
        }
        self.keep(begins);
        true
    }

    /// Steps over words for a jog behind its distance.
    fn jog_behind(&mut self) {
        let jog = self.jog_tokens(0).filter(|&jog| !self.is_number(jog));
        self.skip_all(jog.unwrap_or_default());
    }

    /// `8 x 100 on the straights, jog the bends`: what is left of half a lap.
    fn part_behind_jog(&mut self) -> Option<f64> {
        let words = (0..3)
            .take_while(|&ahead| self.is_word(ahead, &["the", "on", "round", "around", "down", "along"]))
            .count();
        let Some(LastRun::Metres(metres)) = self.last_run else { return None };
        let is_half = self.track_part_at(words).is_some() && (50.0..=150.0).contains(&metres);
        if !is_half {
            return None;
        }
        self.skip_all(words + 1);
        self.has_parts = true;
        Some(LAP_M / 2.0 - metres)
    }

    /// What stands behind how the runners get to the next start: how long it may take.
    pub(crate) fn behind_way(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        self.rest_behind();
        self.between_runs();
        // `100m walk (in 2min)`
        if self.is_sign(0, '(') && self.is_word(1, &["in"]) && self.is_duration_at(2) {
            self.skip_all(2);
            let timed = self.rests(recovery, begins, false);
            return if self.sign(')') { timed } else { Err(self.expected("`)` behind the time", HELP)) };
        }
        // `jog 200 in 90s`, `walk back 2min`, `walk back, 2min`, `walk back plus 1 min`: how long it may take.
        let is_joined = self.is_sign(0, ',') || self.is_word(0, &["plus"]);
        if is_joined && self.is_duration_alone_at(1) {
            self.skip();
        }
        let is_timed = self.is_word(0, &["in"]) && self.is_number(1);
        if is_timed {
            self.skip();
        }
        if is_timed || (self.is_duration() || self.is_time_range(0)) && !self.is_duration_gap() {
            return self.rests(recovery, begins, false);
        }
        Ok(())
    }

    /// How far a recovery goes on: metres, yards where the run is in yards, or laps.
    fn recovery_metres(&mut self) -> Option<(f64, std::ops::Range<usize>)> {
        let begins = self.place();
        if self.is_word(0, &["half"]) {
            self.skip_all(self.recovery_distance_tokens(0)?);
            return Some((LAP_M / 2.0, self.since(begins)));
        }
        if self.is_word(1, &LAPS) {
            self.word(&["full", "a", "one"]);
        }
        if self.is_laps(0) {
            let (laps, _) = self.number()?;
            self.skip();
            return Some((laps * LAP_M, self.since(begins)));
        }
        if self.word(&LAPS[..1]) {
            return Some((LAP_M, self.since(begins)));
        }
        let is_bare = self.is_number(0) && self.metres_in(1).is_none();
        let (metres, span) = self.metres()?;
        let in_yards = self.is_in_yards && matches!(self.last_run, Some(LastRun::Metres(_)));
        Some((if is_bare && in_yards { metres * 0.9144 } else { metres }, span))
    }
}
