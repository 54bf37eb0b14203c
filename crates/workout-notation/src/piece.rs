//! Cutting a line into pieces: blocks, rests between them, and what says more of the block before.

use std::ops::Range;

use crate::clauses::FILLERS;
use crate::cursor::Cursor;
use crate::forms::{Details, Gap, Recovery};
use crate::group_label::{group_label, label_behind};
use crate::roster::is_known;
use crate::token::{Lexed, Token};

/// A piece of a line, by its bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Piece {
    /// A warm-up, drills, or other words.
    Note(Range<usize>),
    /// Runs.
    Runs(Range<usize>),
    /// What says more of the runs before.
    More(Range<usize>),
    /// A time alone.
    Rest(Range<usize>),
    /// What stands before it, so many times in all, and where that is said.
    Repeat(u32, Range<usize>),
}

/// What stands between two pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Cut {
    /// `;`, `//`, a full stop: another block begins behind it, unless it only says more of the runs before.
    Strong,
    /// `,`, `then`, `+`: a further run or clause of the same block, unless it stands beside a warm-up or the like.
    Weak,
}

/// The pieces of a line, in its order; given whether groups are named in the text, which are cut apart.
pub(crate) fn pieces(lexed: &Lexed<'_>, has_groups: bool) -> Vec<Piece> {
    let line = lexed.text;
    let mut pieces: Vec<Piece> = Vec::new();
    let cuts = cuts(lexed, has_groups);
    let last = cuts.len() - 1;
    for (index, (cut, range)) in cuts.iter().enumerate() {
        let range = trimmed(line, range.clone());
        if range.is_empty() {
            continue;
        }
        let part = &lexed.part(range.clone());
        let is_jog_between =
            *cut == Cut::Weak && matches!(pieces.last(), Some(Piece::Runs(_) | Piece::More(_)));
        if is_note(part, is_jog_between) {
            pieces.push(Piece::Note(range));
            continue;
        }
        if *cut == Cut::Weak {
            match pieces.last_mut() {
                Some(Piece::Runs(open) | Piece::More(open)) => open.end = range.end,
                _ => pieces.push(Piece::Runs(range)),
            }
            continue;
        }
        if Cursor::new(part).is_counted_item(0) {
            // What begins with a count says nothing of what stands in front.
            pieces.push(Piece::Runs(range));
            continue;
        }
        if let Some(count) = repeat(part) {
            pieces.push(Piece::Repeat(count, range));
            continue;
        }
        if is_something_else(part) {
            pieces.push(Piece::Note(range));
            continue;
        }
        let said = ClausesAlone::read(part);
        let may_rest = index > 0 && (index < last || has_several_blocks(&pieces)) || index == 0 && last == 0;
        pieces.push(
            if may_rest && !is_of_runs(part) && said.as_ref().is_some_and(|said| said.rest_s().is_some()) {
                Piece::Rest(range)
            } else if says_more(part, said.as_ref(), line, pieces.last()) {
                Piece::More(range)
            } else {
                Piece::Runs(range)
            },
        );
    }
    rest_of_runs(&mut pieces);
    pieces
}

/// `4 x 250. Rest 6 min. Last 50 all out`: behind the only runs of a line a rest is theirs, where no other block follows.
fn rest_of_runs(pieces: &mut [Piece]) {
    let is_more = |piece: &Piece| matches!(piece, Piece::More(_));
    if let [Piece::Runs(_), behind @ ..] = pieces
        && let [Piece::Rest(range), more @ ..] = behind
        && !more.is_empty()
        && more.iter().all(is_more)
    {
        let range = range.clone();
        behind[0] = Piece::More(range);
    }
}

/// Whether a rest is one between runs by its words, and none between blocks: `60s between reps`, `r 2'`.
fn is_of_runs(lexed: &Lexed<'_>) -> bool {
    let cursor = Cursor::new(lexed);
    // `(3 mins)` in a line of its own, below runs
    cursor.has_between() || cursor.is_word(0, &["r"]) || cursor.is_sign(0, '(')
}

/// Whether there are several blocks among pieces.
fn has_several_blocks(pieces: &[Piece]) -> bool {
    pieces.iter().filter(|piece| !matches!(piece, Piece::More(_))).count() > 1
}

/// Where a line may be cut, with what stands in front of each part.
fn cuts(lexed: &Lexed<'_>, has_groups: bool) -> Vec<(Cut, Range<usize>)> {
    let line = lexed.text;
    let tokens = &lexed.tokens;
    let is_sign = |at: usize, sign: char| tokens.get(at).is_some_and(|token| token.is_sign(sign));
    let is_number = |at: usize| tokens.get(at).is_some_and(Token::is_number);
    let word = |at: usize| match tokens.get(at) {
        Some(token) if token.is_word() => &line[token.span.clone()],
        _ => "",
    };
    // A word of its own with a colon in front of repetitions.
    let is_label_at = |at: usize| {
        word(at).len() > 2
            && is_sign(at + 1, ':')
            && is_number(at + 2)
            && is_sign(at + 3, 'x') | word(at + 3).eq_ignore_ascii_case("x")
    };
    let has_strokes = has_strokes(lexed);
    let mut parts = Vec::new();
    // Within a name of a group no other begins.
    let mut known = group_label(lexed, 0).filter(|_| has_groups).map_or(1, |label| label.end);
    let (mut depth, mut start, mut cut) = (0_u32, 0, Cut::Strong);
    let mut at = 0;
    while at < tokens.len() {
        if is_sign(at, '(') {
            depth += 1;
        } else if is_sign(at, ')') {
            depth = depth.saturating_sub(1);
        }
        let may_begin = has_groups && depth == 0 && tokens[at].span.start >= known;
        let label = if may_begin { label_behind(lexed, at) } else { None };
        known = label.as_ref().map_or(known, |(_, label)| label.end);
        let found = if depth > 0 {
            None
        } else if let Some((joint, _)) = label {
            // `boys 5 x 300, girls 4 x 300`, `Girls: 4 x 200 Boys: 5 x 200`
            Some((Cut::Strong, joint))
        } else if is_sign(at, ';') {
            Some((Cut::Strong, 1))
        } else if is_sign(at, '/') && is_sign(at + 1, '/') {
            Some((Cut::Strong, 2))
        } else if has_strokes
            && is_sign(at, '/')
            && is_spaced(line, tokens, at)
            && is_spaced(line, tokens, at + 1)
        {
            Some((Cut::Strong, 1))
        } else if is_sign(at, '.') && !is_number(at + 1)
            || is_sign(at, '.') && is_spaced(line, tokens, at + 1)
        {
            // `rec. 90s`: an abbreviation is no end of a sentence.
            let is_short = at > 0
                && ["rec", "min", "sec", "mins", "secs", "approx", "no", "r"]
                    .contains(&word(at - 1).to_lowercase().as_str());
            let is_capital = word(at + 1).starts_with(char::is_uppercase);
            let is_counted =
                is_number(at + 1) && (is_sign(at + 2, 'x') || word(at + 2).eq_ignore_ascii_case("x"));
            // `3 min. 300 in 48`
            let is_target = is_number(at + 1)
                && (is_sign(at + 2, '@')
                    || ["in", "at"].iter().any(|in_| word(at + 2).eq_ignore_ascii_case(in_)));
            (!is_short || is_capital || is_counted || is_target).then_some((Cut::Strong, 1))
        } else if is_sign(at, ',') && is_label_at(at + 1) {
            // `Seniors: 5 x 300, juniors: 4 x 300`
            Some((Cut::Strong, 1))
        } else if is_sign(at, ',')
            && ["group", "squad", "pack"].iter().any(|group| word(at + 1).eq_ignore_ascii_case(group))
            && (is_sign(at + 3, '-') || is_sign(at + 3, ':'))
        {
            // `Group 1 - 5 x 1k, Group 2 - 4 x 1k`
            Some((Cut::Strong, 1))
        } else if is_sign(at, ',') && (!is_number(at + 1) || is_spaced(line, tokens, at + 1))
            || is_sign(at, '+')
            || word(at).eq_ignore_ascii_case("then")
        {
            Some((Cut::Weak, 1))
        } else if word(at).eq_ignore_ascii_case("followed") && word(at + 1).eq_ignore_ascii_case("by") {
            Some((Cut::Weak, 2))
        } else if word(at + 1).eq_ignore_ascii_case("with")
            && LAST_OR_FIRST.iter().any(|known| word(at).eq_ignore_ascii_case(known))
        {
            // `finish with 2 x 150`, `finishing with a 300`
            let has_article =
                ["a", "an", "the"].iter().any(|article| word(at + 2).eq_ignore_ascii_case(article));
            Some((Cut::Strong, 2 + usize::from(has_article)))
        } else {
            None
        };
        if let Some((next, length)) = found {
            // Of two cuts with nothing between them the stronger one counts: `; then`.
            let is_blank = line[start..tokens[at].span.start].trim().is_empty();
            let next = if is_blank && cut == Cut::Strong && start > 0 { Cut::Strong } else { next };
            parts.push((cut, start..tokens[at].span.start));
            start = if length == 0 { tokens[at].span.start } else { tokens[at + length - 1].span.end };
            // Where nothing parts them, the next part begins with this token.
            at += length.max(1);
            cut = next;
        } else {
            at += 1;
        }
    }
    parts.push((cut, start..line.len()));
    parts
}

/// `10 min easy / drills / 5 x 1000 (2 min)`: whether strokes part what is done in a line, of which one is a warm-up or the
/// like.
fn has_strokes(lexed: &Lexed<'_>) -> bool {
    const STROKE: &str = " / ";
    let line = lexed.text;
    let mut start = 0;
    line.contains(STROKE)
        && line.split(STROKE).any(|part| {
            let range = trimmed(line, start..start + part.len());
            start += part.len() + STROKE.len();
            let part = lexed.part(range);
            let mut cursor = Cursor::new(&part);
            cursor.jog_tokens(0).is_none() && cursor.is_note_alone()
        })
}

/// Whether white space stands in front of a token.
fn is_spaced(line: &str, tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return true };
    line[..token.span.start].ends_with(char::is_whitespace)
}

/// Words in front of `with` and of what is done first or last.
const LAST_OR_FIRST: [&str; 10] = [
    "start",
    "starting",
    "begin",
    "beginning",
    "finish",
    "finishing",
    "end",
    "ending",
    "conclude",
    "concluding",
];

/// Where people jog to between two parts of an evening.
const ELSEWHERE: [&str; 11] =
    ["track", "hill", "hills", "park", "field", "gym", "stadium", "clubhouse", "woods", "trail", "grass"];

/// Whether a part of a line is a warm-up or the like, by its first words.
fn is_note(lexed: &Lexed<'_>, is_behind_runs: bool) -> bool {
    let mut cursor = Cursor::new(lexed);
    // `15 mins jog to track`
    let leads_on = (1..lexed.tokens.len()).any(|ahead| {
        let the = ahead + 1 + usize::from(cursor.is_word(ahead + 1, &["the"]));
        cursor.is_word(ahead, &["to"]) && cursor.is_word(the, &ELSEWHERE)
    });
    if leads_on && (cursor.is_duration_at(0) || cursor.is_word(0, &["jog", "walk", "run", "easy"])) {
        return true;
    }
    // Behind runs, a jog is what is done between them.
    cursor.is_note_alone() && !(is_behind_runs && cursor.is_easy_jog())
}

/// `bulldog 10 min`: a name that nobody knows, and how long it takes.
fn is_something_else(lexed: &Lexed<'_>) -> bool {
    const MOST_WORDS: usize = 3;
    let words = lexed.tokens.iter().take_while(|token| token.is_word()).count();
    let cursor = Cursor::new(lexed);
    let is_time = || {
        let has_unit = cursor.seconds_in(words + 1).is_some_and(|unit_s| unit_s >= 60.0);
        cursor.is_number(words) && has_unit && lexed.tokens.len() == words + 2
    };
    let is_name = |at: usize| {
        let word = &lexed.text[lexed.tokens[at].span.clone()];
        // `relay game`
        let is_relay = word.eq_ignore_ascii_case("relay") && at + 1 < words;
        let says_nothing = FILLERS.iter().any(|filler| word.eq_ignore_ascii_case(filler));
        let is_game = at > 0 && ["game", "games"].iter().any(|game| word.eq_ignore_ascii_case(game));
        is_relay || is_game || !says_nothing && !is_known(word)
    };
    (1..=MOST_WORDS).contains(&words) && is_time() && (0..words).all(is_name)
}

/// `repeat`, `repeat x 3`, `and repeat`, `x 2`.
fn repeat(lexed: &Lexed<'_>) -> Option<u32> {
    let mut cursor = Cursor::new(lexed);
    cursor.word(&["and", "then"]);
    let is_times = cursor.is_times(0);
    if !is_times && !cursor.word(&["repeat", "repeated", "again"]) {
        return None;
    }
    if cursor.is_times(0) {
        cursor.skip();
    }
    // A cross alone says nothing.
    if is_times && !cursor.is_number(0) {
        return None;
    }
    let count = cursor.number().map_or(2.0, |(count, _)| count);
    cursor.word(&["times", "sets", "more"]);
    let is_count = cursor.is_at_end() && count.fract() == 0.0 && (2.0..=20.0).contains(&count);
    is_count.then_some(count as u32)
}

/// Whether a part of a line only says more of the runs before it: clauses, words, or a pace of runs of that distance.
fn says_more(lexed: &Lexed<'_>, said: Option<&ClausesAlone>, line: &str, before: Option<&Piece>) -> bool {
    let cursor = Cursor::new(lexed);
    if before.is_some() && !lexed.tokens.iter().any(Token::is_number) {
        return true;
    }
    let is_pace_of = cursor.number_at(0).is_some()
        && cursor.is_word(1, &["s"])
        && cursor.is_glued(1)
        && (cursor.is_sign(2, '@') || cursor.is_word(2, &["in", "at"]));
    if is_pace_of && let Some(Piece::Runs(runs)) = before {
        let digits = cursor.written().unwrap_or_default();
        return line[runs.clone()].contains(digits);
    }
    said.is_some_and(|said| said.details != Details::default() || said.has_asides)
}

/// A text that is only the length of a rest, in seconds.
pub(crate) fn rest_alone(lexed: &Lexed<'_>) -> Option<f64> {
    ClausesAlone::read(lexed)?.rest_s()
}

/// What clauses say that stand without runs.
struct ClausesAlone {
    details: Details,
    has_asides: bool,
    /// Whether words among them were not read.
    has_unread: bool,
}

impl ClausesAlone {
    /// Reads a text that is nothing but clauses, of which the first may be a time alone: the rest.
    fn read(lexed: &Lexed<'_>) -> Option<Self> {
        let mut cursor = Cursor::new(lexed);
        let mut details = Details::default();
        if cursor.is_duration_alone_at(0) {
            let begins = cursor.place();
            cursor.rests(&mut details.recovery, begins, false).ok()?;
        }
        cursor.clauses(&mut details);
        let is_whole = cursor.is_at_end() && cursor.problems.is_empty();
        let is_equal = cursor.shared.equal.is_some();
        let (has_asides, has_unread) = (is_equal || !cursor.asides.is_empty(), !cursor.not_read.is_empty());
        is_whole.then_some(Self { details, has_asides, has_unread })
    }

    /// How long a rest is, in seconds, where they say nothing else.
    fn rest_s(&self) -> Option<f64> {
        let Gap::Rest(seconds) = self.details.recovery.gap.as_deref().copied()? else { return None };
        let gap = self.details.recovery.gap.clone();
        let of_rest = Details { recovery: Recovery { gap, ..Recovery::default() }, ..Details::default() };
        (!self.has_asides && !self.has_unread && self.details == of_rest).then_some(seconds)
    }
}

/// A range of a text without the white space at its ends.
pub(crate) fn trimmed(text: &str, range: Range<usize>) -> Range<usize> {
    let slice = &text[range.clone()];
    let start = range.start + slice.len() - slice.trim_start().len();
    start..(start + slice.trim().len()).max(start)
}
