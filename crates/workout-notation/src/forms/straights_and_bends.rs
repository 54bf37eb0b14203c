//! Straights and bends in turn, one of them fast: `4 laps: sprint the straights, jog the bends`.

use crate::block::{Item, Series};
use crate::cursor::{Cursor, Read};
use crate::doubt::Doubt;
use crate::forms::recovery::{Recovery, RecoveryKind};
use crate::forms::run_kind::RunKind;
use crate::forms::{Details, Run};
use crate::last_run::LastRun;
use crate::quantity::LAPS;
use crate::spanned::Spanned;
use crate::track_part::TrackPart;
use crate::vocabulary::Role;

pub(crate) const NOT_IN_TURN: &str = "straights and bends in turn have no distance here";
pub(crate) const NOT_IN_TURN_HELP: &str = "write for example `4 laps: sprint the straights, jog the bends`";

/// A lap that a distance is counted in, in metres.
const LAP_M: f64 = 400.0;

/// How far a distance may be from whole straights and bends, as a part of one: a mile is four laps.
const SLACK: f64 = 0.1;

/// The shortest distance that holds a straight and a bend, in metres.
const LEAST_M: f64 = 200.0;

/// The most words between what is run and how it is divided.
const MOST_BETWEEN: usize = 4;

/// How far ahead the other part is looked for.
const MOST_AHEAD: usize = 12;

/// The most words for how a part is run.
const MOST_WAYS: usize = 3;

/// Words for how a part is run, from the slowest, with the effort that each is for a run.
const WAYS: [(&[&str], &str); 8] = [
    (&["walk", "walking", "walks"], "walking"),
    (&["jog", "jogging", "jogs", "recover", "recovery", "shuffle", "slow"], "jogging"),
    (&["float", "floating", "easy", "relax", "relaxing", "off", "coast", "coasting", "roll"], "easy"),
    (&["steady", "relaxed", "cruise", "cruising", "outs"], "steady"),
    (&["stride", "striding", "strides", "run", "running", "tempo", "brisk", "ins"], "strides"),
    (
        &["fast", "faster", "quick", "hard", "push", "pushing", "work", "surge", "accelerate", "strong"],
        "fast",
    ),
    (&["sprint", "sprinting", "sprints"], "sprint"),
    (&["max", "maximum", "all", "flat", "out"], "flat out"),
];

/// The rank of the slowest way that is no recovery.
const LEAST_FAST: usize = 3;

/// A part of the track, and how it is run.
struct Turn {
    part: TrackPart,
    /// Whether the text names several.
    is_plural: bool,
    /// Whether a word for how it is run stands in front.
    is_led: bool,
    /// Its place in the table of ways, where a word says it.
    rank: Option<usize>,
    /// The effort of a run that is run so.
    effort: Option<Spanned<String>>,
}

/// Straights and bends in turn.
struct InTurn {
    fast: TrackPart,
    is_walk: bool,
    effort: Option<Spanned<String>>,
    /// How often the fast part is run, where a distance or laps say it.
    count: Option<u32>,
    /// Whether the text names several of each part.
    is_plural: bool,
}

impl Cursor<'_> {
    /// Whether straights and bends in turn come next.
    pub(crate) fn is_straights_and_bends(&mut self) -> bool {
        if !self.roles.has(Role::PART) {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let asides = self.asides.len();
        let is_here = !matches!(self.turns_of_track(), Ok(None));
        self.problems.truncate(problems);
        self.asides.truncate(asides);
        self.go_back(before);
        is_here
    }

    /// Where `straights` stand in a text that has `bends` as well.
    pub(crate) fn straights_beside_bends(&mut self) -> Option<std::ops::Range<usize>> {
        if !self.roles.has(Role::PART) {
            return None;
        }
        let (mut straights, mut has_bends) = (None, false);
        let begins = self.place();
        while !self.is_at_end() {
            if self.is_word(0, &["straights"]) {
                straights = straights.or(Some(self.here()));
            }
            has_bends |= self.is_word(0, &["bends", "curves", "turns"]);
            self.skip();
        }
        self.go_back(begins);
        straights.filter(|_| has_bends)
    }

    /// `20 min, sprint the straights, jog the bends`: what is run by time has no places.
    pub(crate) fn leave_straights_and_bends(&mut self) -> bool {
        if !self.roles.has(Role::PART) {
            return false;
        }
        let begins = self.place();
        if !matches!(self.last_run, Some(LastRun::Timed(_))) || !matches!(self.turns_of_track(), Ok(Some(_)))
        {
            self.go_back(begins);
            return false;
        }
        let span = self.since(begins);
        self.leave(span);
        self.has_parts = true;
        true
    }

    /// Reads straights and bends in turn as runs over one of them, with the other for their recovery.
    pub(crate) fn straights_and_bends(&mut self, details: &mut Details) -> Read<Option<Item>> {
        if !self.roles.has(Role::PART) {
            return Ok(None);
        }
        let begins = self.place();
        let is_behind_bracket = self.is_behind('(');
        let Some(mut turns) = self.turns_of_track()? else { return Ok(None) };
        let span = self.since(begins);
        let close = usize::from(is_behind_bracket && self.is_sign(0, ')'));
        let count_behind = self.number_at(close + 1).filter(|_| self.is_times(close));
        if turns.count.is_none() && self.sets == 0 && count_behind.is_none() {
            return Err(self.problem(span, NOT_IN_TURN, NOT_IN_TURN_HELP));
        }
        // `(straights hard, bends easy) x 4`: all straights and all bends of a lap.
        if turns.count.is_none() && turns.is_plural && (is_behind_bracket || count_behind.is_some()) {
            turns.count = Some(2);
            self.doubts.push(Doubt::LapsOrParts { part: turns.fast });
        }
        self.last_run = Some(LastRun::Part(turns.fast));
        self.has_parts = true;
        details.effort = turns.effort;
        let other = turns.fast.other();
        let kind = if turns.is_walk { RecoveryKind::WalkPart(other) } else { RecoveryKind::JogPart(other) };
        details.recovery.kind = Some(Spanned::new(kind, span.clone()));
        let run = Run { kind: Spanned::new(RunKind::Part(turns.fast), span), details: Details::default() };
        let run = Item::Run(Box::new(run));
        Ok(Some(match turns.count {
            None => run,
            Some(count) => {
                Item::Series(Box::new(Series { count, items: vec![run], details: std::mem::take(details) }))
            }
        }))
    }

    /// `whole bend steady jog straight`: the word belongs to the run in front, and not to the jog.
    pub(crate) fn is_effort_before_other_part(&self) -> bool {
        matches!(self.last_run, Some(LastRun::Part(_)))
            && !self.is_behind(',')
            && self.is_effort_word(0)
            && self.rank_at(0).is_some_and(|rank| rank >= LEAST_FAST)
            && self.rank_at(1).is_some_and(|rank| rank < LEAST_FAST)
            && self.turn_tokens(1).is_some()
    }

    /// `bends easy`, `jog the bend` behind runs over straights: what is done on the other part.
    pub(crate) fn other_part(&mut self, recovery: &mut Recovery) -> bool {
        let Some(LastRun::Part(part)) = self.last_run else { return false };
        if self.is_effort_before_other_part() {
            return false;
        }
        // `whole straight on the bend` says where.
        if self.is_word(0, &["on"]) && !self.is_behind(',') {
            return false;
        }
        let begins = self.place();
        let turn = self.turn_of_track().filter(|turn| turn.part == part.other());
        let Some(turn) = turn.filter(|turn| turn.rank.is_some_and(|rank| rank <= LEAST_FAST)) else {
            self.go_back(begins);
            return false;
        };
        let other = part.other();
        let kind =
            if turn.rank == Some(0) { RecoveryKind::WalkPart(other) } else { RecoveryKind::JogPart(other) };
        recovery.kind = Some(Spanned::new(kind, self.since(begins)));
        self.behind_way(recovery, begins).is_ok()
    }

    /// Nothing is read where they do not come next.
    fn turns_of_track(&mut self) -> Read<Option<InTurn>> {
        let begins = self.place();
        let total = self.total_in_front();
        let is_laps = total.as_ref().is_some_and(|total| self.text[total.span.clone()].contains(['p', 'P']));
        let is_in_brackets = total.is_some() && self.sign('(');
        let is_whole = self.is_word(0, &["whole", "entire"]);
        let first = self.turn_of_track();
        let second = first.as_ref().and_then(|first| {
            let before = self.place();
            // `whole straight + whole bend` are two runs.
            let is_plus = self.is_sign(0, '+');
            let is_joined = self.joint();
            // `straight on the bend`, `whole straight + whole bend` are not in turn.
            let second = self.turn_of_track().filter(|second| {
                let is_in_turn = is_joined && first.is_plural && second.is_plural;
                second.part != first.part
                    && (is_joined && !is_plus || !is_whole)
                    && (is_in_turn || first.rank.or(second.rank).is_some())
            });
            if second.is_none() {
                self.go_back(before);
            }
            second
        });
        let turns = match (first, second) {
            (Some(first), Some(second)) => in_turn(first, second),
            (Some(first), None) if total.is_some() => self.one_of_two(first, is_laps),
            _ => None,
        };
        let Some(mut turns) = turns.filter(|_| !is_in_brackets || self.sign(')')) else {
            self.go_back(begins);
            return Ok(None);
        };
        let total = match total {
            Some(total) => Some(total),
            None => self.total_behind(),
        };
        if let Some(total) = total {
            let parts = *total * 2.0;
            if parts < 1.0 || (parts - parts.round()).abs() > SLACK {
                let message =
                    format!("`{}` is not a whole number of straights", &self.text[total.span.clone()]);
                return Err(self.problem(total.span, message, NOT_IN_TURN_HELP));
            }
            turns.count = Some(parts.round() as u32);
            self.asides.push(total.span);
        }
        Ok(Some(turns))
    }

    /// `4 laps sprinting the straights`, `4 laps: straights at 800 pace, bends easy`: the other part is named later, if
    /// at all.
    fn one_of_two(&self, turn: Turn, is_laps: bool) -> Option<InTurn> {
        let Turn { part, is_plural, is_led, rank, effort } = turn;
        let is_end = |ahead: &usize| ['+', '(', ')'].iter().any(|&sign| self.is_sign(*ahead, sign));
        let is_other = |ahead: usize| {
            self.track_part_at(ahead).is_some_and(|named| named != part) && self.is_several(ahead)
        };
        let is_named_later = || is_plural && (0..MOST_AHEAD).take_while(|ahead| !is_end(ahead)).any(is_other);
        // `800 on the bend`, `1 mile on the straight hard` are where a run is.
        if !(is_named_later() || is_laps && is_plural && rank.is_some()) {
            return None;
        }
        Some(match rank {
            Some(rank) if rank < LEAST_FAST && is_led => {
                InTurn { fast: part.other(), is_walk: rank == 0, effort: None, count: None, is_plural }
            }
            _ => InTurn { fast: part, is_walk: false, effort, count: None, is_plural },
        })
    }

    /// `4 laps:`, `1600 with`: how many laps.
    fn total_in_front(&mut self) -> Option<Spanned<f64>> {
        let before = self.place();
        self.word(&["run", "do", "complete"]);
        let Some(total) = self.total() else {
            self.go_back(before);
            return None;
        };
        let mut words = 0;
        while words < MOST_BETWEEN
            && (self.sign(':') || self.sign(',') || self.sign('-') || self.joining_words())
        {
            words += 1;
        }
        if self.turn_tokens(usize::from(self.is_sign(0, '('))).is_none() {
            self.go_back(before);
            return None;
        }
        Some(total)
    }

    fn joining_words(&mut self) -> bool {
        const WORDS: [&str; 9] =
            ["of", "as", "with", "w", "doing", "where", "you", "alternating", "alternate"];
        self.turn_tokens(0).is_none() && (self.word(&WORDS) || self.word(&["run", "running", "in", "on"]))
    }

    /// `x 8 laps`, `for 4 laps`, `, 4 laps`: how many laps.
    fn total_behind(&mut self) -> Option<Spanned<f64>> {
        let before = self.place();
        while self.sign(',') || self.sign('-') || self.sign('(') {}
        let is_in_brackets = self.is_behind('(');
        if self.is_times(0) {
            self.skip();
        } else {
            self.word(&["for", "over"]);
        }
        let total = self.total().filter(|_| !self.is_times(0));
        let is_closed = !is_in_brackets || self.sign(')');
        if total.is_none() || !is_closed {
            self.go_back(before);
            return None;
        }
        total
    }

    /// `4 laps`, `1600`, `a mile`: how many laps.
    fn total(&mut self) -> Option<Spanned<f64>> {
        let begins = self.place();
        if self.is_laps(0) || self.is_word(0, &LAPS[..1]) {
            let laps = self.number().map_or(1.0, |(laps, _)| laps);
            self.skip();
            return Some(Spanned::new(laps, self.since(begins)));
        }
        let is_distance = self.metres_tokens(0).is_some() || self.is_word(0, &["mile"]);
        let is_count = self.is_times(1) || self.is_count_word(1);
        let distance = if is_distance && !is_count { self.metres() } else { None };
        let Some((metres, span)) = distance.filter(|(metres, _)| *metres >= LEAST_M) else {
            self.go_back(begins);
            return None;
        };
        Some(Spanned::new(metres / LAP_M, span))
    }

    /// Steps over what joins two turns, and says whether anything does.
    fn joint(&mut self) -> bool {
        let begins = self.place();
        while [',', ';', '/', '+', '-', '.'].iter().any(|&sign| self.sign(sign))
            || self.word(&["and", "then", "but", "with", "w"])
        {}
        self.place() > begins
    }

    /// How many tokens stand in front of a part of the track, `ahead` of the next one, where only words do that say how
    /// it is run.
    fn turn_tokens(&self, ahead: usize) -> Option<usize> {
        let mut at = ahead;
        while at < ahead + MOST_WAYS && self.rank_at(at).is_some() {
            at += 1;
        }
        while self.is_word(
            at,
            &["the", "on", "in", "down", "round", "around", "along", "each", "every", "out", "whole"],
        ) {
            at += 1;
        }
        self.track_part_at(at).map(|_| at - ahead)
    }

    /// `sprint the straights`, `straights fast`, `the bends`
    fn turn_of_track(&mut self) -> Option<Turn> {
        let begins = self.place();
        let before = self.turn_tokens(0)?;
        let mut way = self.way(before);
        let is_led = way.is_some();
        self.skip_all(before);
        let mut span = self.since(begins);
        let part = self.track_part_at(0)?;
        let is_plural = self.is_several(0);
        self.skip();
        self.word(&["are"]);
        let behind = self.place();
        let mut ways = (0..MOST_WAYS)
            // `jog 200`, `walk back`: the word belongs to what follows.
            .take_while(|&ahead| {
                self.rank_at(ahead).is_some()
                    && !self.is_number(ahead + 1)
                    && !self.is_word(ahead + 1, &["back", "exactly"])
            })
            .count();
        // `straights sprint bends jog`, `straights sprint jog bends`: the last word may belong to the next part.
        if self.turn_tokens(0).is_some()
            && (ways < 2 || self.rank_at(0).is_some_and(|rank| rank < LEAST_FAST))
        {
            ways = if !is_led && self.rank_at(ways + 1).is_some() { ways } else { 0 };
        } else if self.turn_tokens(0).is_some() {
            ways -= 1;
        }
        if ways > 0 {
            // `run the bends hard`
            way = self.way(ways);
            self.skip_all(ways);
            span = self.since(behind);
        }
        self.word(&["pace", "speed", "effort"]);
        let (rank, effort) = way.unzip();
        let effort = effort.map(|effort| Spanned::new(effort, span));
        Some(Turn { part, is_plural, is_led, rank, effort })
    }

    /// Whether the word that stands `ahead` is of several.
    fn is_several(&self, ahead: usize) -> bool {
        self.word_at(ahead).is_some_and(|word| word.ends_with(['s', 'S']))
    }

    /// Of so many words that come next the one that is fastest, but a jog or a walk if one of them is that: its place in
    /// the table of ways, and the effort of a run that is run so.
    fn way(&self, words: usize) -> Option<(usize, String)> {
        let of_word = |ahead: usize| {
            let rank = self.rank_at(ahead)?;
            let is_effort = self.is_effort_word(ahead);
            let own = self.word_at(ahead).filter(|_| is_effort).map(str::to_lowercase);
            Some((rank, own.unwrap_or_else(|| WAYS[rank].1.to_owned())))
        };
        let ways: Vec<(usize, String)> = (0..words).filter_map(of_word).collect();
        // `steady jog`, `easy walk`
        let on_foot = ways.iter().find(|(rank, _)| *rank < 2).cloned();
        on_foot.or_else(|| ways.into_iter().max_by_key(|(rank, _)| *rank))
    }

    /// The place in the table of ways of the word that stands `ahead`.
    fn rank_at(&self, ahead: usize) -> Option<usize> {
        WAYS.iter().position(|(words, _)| self.is_word(ahead, words))
    }
}

/// Which of two parts is the fast one; nothing where they are run alike.
fn in_turn(first: Turn, second: Turn) -> Option<InTurn> {
    let is_first = match (first.rank, second.rank) {
        (Some(first), Some(second)) if first == second => return None,
        (Some(first), Some(second)) => first > second,
        (Some(rank), None) => rank >= LEAST_FAST,
        // `4 x bend, steady straights`
        (None, Some(rank)) => rank <= LEAST_FAST,
        // Without a word it is the straights that are fast.
        (None, None) => first.part == TrackPart::Straight,
    };
    let (fast, easy) = if is_first { (first, second) } else { (second, first) };
    let is_plural = fast.is_plural && easy.is_plural;
    Some(InTurn {
        fast: fast.part,
        is_walk: easy.rank == Some(0),
        effort: fast.effort,
        count: None,
        is_plural,
    })
}
