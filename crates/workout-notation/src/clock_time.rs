//! Times of day in the lines above a session: `6pm start`, `18:00-19:30`, `from 6.30 to 8 pm`.

use std::ops::Range;

use chrono::NaiveTime;

use crate::heading::month;
use crate::heading_words::{DAYS, TITLES, is_everybody};
use crate::line_words::{Word, words};
use crate::people::AGES;

/// Words in front of a time at which something starts.
const START: [&str; 8] = ["start", "starts", "starting", "begin", "begins", "beginning", "from", "time"];

/// Words that may stand beside it.
const BESIDE: [&str; 6] = ["at", "sharp", "prompt", "onwards", "on", ":"];

/// Words for the day on which one reads them.
const THIS_DAY: [&str; 4] = ["tonight", "today", "tomorrow", "evening"];

/// What a line says of when a session begins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Said {
    pub(crate) begins: NaiveTime,
    pub(crate) ends: Option<NaiveTime>,
    /// The bytes that say nothing else. Within a title the words stay where they are.
    pub(crate) range: Option<Range<usize>>,
    /// Whether it is taken for the evening, which is not said.
    pub(crate) is_unsure: bool,
}

/// What a line says of when a session begins.
pub(crate) fn clock_times(line: &str) -> Option<Said> {
    let words = words(line);
    if !words.iter().any(|word| word.is_number() || word.is_one(&["half", "quarter"])) {
        return None;
    }
    let (mut from, mut has_day) = (0, false);
    while from < words.len() {
        let to = (from..words.len()).find(|&at| is_end(&words, at)).unwrap_or(words.len());
        let stands = match () {
            () if has_day => Stands::BehindDay,
            () if from == 0 && to == words.len() => Stands::Alone,
            () => Stands::Anywhere,
        };
        if let Some(Phrase { begins, ends, is_unsure, words: said }) = phrase(&words[from..to], stands) {
            // What stands behind it stays.
            if from + said < to {
                let range = Some(words[from].range.start..words[from + said - 1].range.end);
                return Some(Said { begins, ends, range, is_unsure });
            }
            // With the sign that parts it from the rest.
            let start = from.checked_sub(1).map_or(words[from].range.start, |sign| words[sign].range.start);
            let end = match words.get(to) {
                Some(sign) if from == 0 => sign.range.end,
                _ => words[to - 1].range.end,
            };
            let is_bracket = from > 0 && words[from - 1].text == "(";
            let end = if is_bracket { words.get(to).map_or(end, |sign| sign.range.end) } else { end };
            return Some(Said { begins, ends, range: Some(start..end), is_unsure });
        }
        // `Hi all, see you Tues 20 April, 6.30 at the track`
        let names_day = |words: &[Word<'_>]| words.iter().any(|word| word.is_one(&DAYS));
        has_day |= words.get(from..to).is_some_and(|words| day_words(words).is_some() || names_day(words));
        // `Masters squad Tues 19:00`: what is called by a word for the day stands in front of it.
        let day_at = (from..to).find(|&at| words[at].is_one(&DAYS)).unwrap_or(from);
        let has_number = words[from..day_at].iter().any(Word::is_number) && !words[day_at..to].is_empty();
        let first = if has_number && !is_age_group(&words[from..day_at]) { from } else { day_at };
        // `Tuesday 18:00-19:30`, `Tue 24 Nov 6.30`, `5/5/27 18:30`: the day stays.
        if let Some(day) = words.get(first..to).and_then(day_words) {
            // The month of `15/4` is no hour.
            let is_free = |at: &usize| {
                *at == 0
                    || !["/", "."].contains(&words[at - 1].text)
                        && !words[at - 1].is_one(&["until", "till", "til", "before"])
            };
            let found = (first + day..to)
                .filter(is_free)
                .find_map(|at| Some((at, phrase(&words[at..to], Stands::BehindDay)?)));
            if let Some((at, Phrase { begins, ends, is_unsure, words: said })) = found {
                let is_all = at > first && words[first..at].iter().all(|word| word.is_one(&THIS_DAY));
                let start = if is_all { first } else { at };
                let range = Some(words[start].range.start..words[at + said - 1].range.end);
                return Some(Said { begins, ends, range, is_unsure });
            }
        }
        from = to + 1;
    }
    // `Tuesday 7pm track`: only a half of the day makes sure that it is a time.
    let sure = (0..words.len()).find_map(|at| {
        let (time, _) = time(&words, at)?;
        let half = time.half?;
        let is_free =
            at == 0 || !["-", "–", "to", "until", "till", "til"].iter().any(|to| words[at - 1].is(to));
        is_free.then(|| time.at(Some(half))).flatten()
    });
    sure.map(|begins| Said { begins, ends: None, range: None, is_unsure: false })
}

/// The time of day in front of what is done then: `6:20 - 8 x 300`; whether it is taken for the evening, and where it
/// stands with its dash.
pub(crate) fn time_in_front(line: &str) -> Option<(NaiveTime, bool, Range<usize>)> {
    let words = words(line);
    let first = words.iter().take_while(|word| ["-", "*", "•"].contains(&word.text)).count();
    let (written, next) = time(&words, first)?;
    // `11.30 all: core`
    let behind = line.get(words.get(next)?.range.start..)?;
    let is_of_all = behind.split_once(':').is_some_and(|(all, _)| is_everybody(all.trim()));
    let dash = words.get(next).filter(|dash| is_of_all || ["-", "–", "—"].contains(&dash.text))?;
    // `6:30 pm - 8:00 pm`
    if time(&words, next + 1).is_some_and(|(_, end)| end == words.len()) {
        return None;
    }
    let is_apart = is_of_all
        || dash.range.start > words[next - 1].range.end && words.get(next + 1)?.range.start > dash.range.end;
    let is_time = written.half.is_some() || written.has_colon && !written.is_bare && written.is_no_date();
    let is_of_training = written.half.is_some() || written.is_evening() || (6..22).contains(&written.hour);
    if !is_apart || !(is_time || written.minute.is_some_and(|minute| minute % 5 == 0)) || !is_of_training {
        return None;
    }
    let is_unsure = written.half.is_none() && written.is_evening();
    let begins = written.at(written.half.or(is_unsure.then_some(true)))?;
    let end = if is_of_all { words[next - 1].range.end } else { dash.range.end };
    Some((begins, is_unsure, words[first].range.start..end))
}

/// How many words name the day, or what is done on it, at the front of several: `Tuesday`, `Training`, `5/5/27`,
/// `2027-05-05`.
fn day_words(words: &[Word<'_>]) -> Option<usize> {
    let first = words.first()?;
    if first.is_one(&DAYS) || first.is_one(&THIS_DAY) || first.is_one(&TITLES) || month(first.text).is_some()
    {
        return Some(1);
    }
    let is_date = matches!(words, [_, one, _, other, ..] if one.text == other.text && ["/", "-", "."].contains(&one.text));
    let is_day = words.get(1).is_some_and(|word| month(word.text).is_some());
    let has_numbers = |many: &[usize]| many.iter().all(|&at| words[at].text.parse::<u32>().is_ok());
    if is_date && words.len() > 4 && has_numbers(&[0, 2, 4]) {
        Some(5)
    } else {
        (is_day && has_numbers(&[0])).then_some(2)
    }
}

/// `Under 11s`, `U13s`: a number that is nobody's run.
fn is_age_group(words: &[Word<'_>]) -> bool {
    let numbers = words.iter().enumerate().filter(|(_, word)| word.is_number());
    numbers.into_iter().all(|(at, _)| at > 0 && words[at - 1].is_one(&AGES))
}

/// What a line says of when all begins, where it says that and nothing else, wherever it stands: `we start at 6.15`, `6pm`,
/// `18:00`.
pub(crate) fn start_line(line: &str) -> Option<Said> {
    const IN_FRONT: [&str; 3] = ["we", "all", "please"];
    let words = words(line);
    // `Meet 18:45, first rep 19:10 sharp`
    let first_rep = words.windows(2).position(|pair| {
        pair[0].is("first") && pair[1].is_one(&["rep", "run", "start", "race", "go", "set"])
    });
    let first = match first_rep {
        Some(at) if words[0].is_one(&["meet", "meeting", "be", "first", "arrive"]) => at + 2,
        _ => words.iter().take_while(|word| word.is_one(&IN_FRONT)).count(),
    };
    let said = words.get(first..)?;
    let has_start = first_rep.is_some() || said.first().is_some_and(|word| word.is_one(&START));
    let Phrase { begins, ends, words: count, is_unsure } = phrase(said, Stands::Alone)?;
    let (written, _) = said.iter().position(|word| word.is_number()).and_then(|at| time(said, at))?;
    let is_sure =
        has_start || written.half.is_some() || written.has_colon && written.is_exact() || ends.is_some();
    let is_all = said[count..].iter().all(|word| word.is_one(&BESIDE) || [".", "!"].contains(&word.text));
    (is_sure && is_all && !said.is_empty()).then(|| Said {
        begins,
        ends,
        range: Some(words[0].range.start..words[words.len() - 1].range.end),
        is_unsure,
    })
}

/// Where a time stands in its line.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stands {
    Anywhere,
    /// Behind the day, where it needs fewer signs of being one.
    BehindDay,
    /// With nothing beside it.
    Alone,
}

/// When a session begins and ends, by words that say nothing else.
pub(crate) struct Phrase {
    pub(crate) begins: NaiveTime,
    pub(crate) ends: Option<NaiveTime>,
    /// How many words say so.
    pub(crate) words: usize,
    pub(crate) is_unsure: bool,
}

/// Whether words say where it is, without a number.
fn is_place(words: &[Word<'_>]) -> bool {
    let is_there = words.first().is_some_and(|word| word.is_one(&["at", "in", "@", "with", "for"]));
    is_there && words.iter().all(|word| !word.is_number())
}

/// Whether a sign parts what stands in front of it from what follows.
pub(crate) fn is_end(words: &[Word<'_>], at: usize) -> bool {
    let word = &words[at];
    let is_apart = |sign: &Word<'_>| {
        let before = at.checked_sub(1).map(|at| words[at].range.end);
        let behind = words.get(at + 1).map(|word| word.range.start);
        // `6:30 pm - 8:00 pm`
        let is_behind_time = at.checked_sub(1).is_some_and(|before| {
            number(words, before).is_some() || half_of_day(words.get(before)).is_some()
        });
        // `6pm - 4 x 200`
        let is_count = words.get(at + 2).is_some_and(|times| times.is_one(&["x", "×", "*"]));
        let is_range = is_behind_time && number(words, at + 1).is_some() && !is_count;
        !is_range
            && before.is_some_and(|end| end < sign.range.start)
            && behind.is_some_and(|start| start > sign.range.end)
    };
    [",", ";", "(", ")", "|", "!"].contains(&word.text)
        || ["-", "–", "—"].contains(&word.text) && is_apart(word)
        // The full stop of a sentence stands in no number.
        || word.text == "." && words.get(at + 1).is_none_or(|next| next.range.start > word.range.end)
}

/// When a session begins and ends, where words say that and nothing else.
pub(crate) fn phrase(words: &[Word<'_>], stands: Stands) -> Option<Phrase> {
    let is_behind_day = stands == Stands::BehindDay;
    let is_word =
        |at: usize, list: &[&str]| words.get(at).is_some_and(|word| list.iter().any(|asked| word.is(asked)));
    let mut at = 0;
    let mut is_start = false;
    let begins_at = is_word(at, &["at"]);
    while is_word(at, &START) || is_word(at, &BESIDE) {
        is_start |= is_word(at, &START);
        at += 1;
    }
    let (mut first, next) = time(words, at)?;
    at = next;
    // `6.15 for 6.30`: to be there, and to start.
    if is_word(at, &["for"])
        && let Some((start, next)) = time(words, at + 1)
    {
        is_start = true;
        first = start;
        at = next;
    }
    let mut second = None;
    if is_word(at, &["-", "–", "—", "to", "until", "till", "til"]) {
        let (time, next) = time(words, at + 1)?;
        second = Some(time);
        at = next;
    }
    let behind = at;
    while is_word(at, &START) || is_word(at, &BESIDE) {
        is_start |= is_word(at, &START);
        at += 1;
    }
    let is_said = is_start || begins_at || is_behind_day;
    // `1830` alone is no distance that anybody runs.
    let is_alone =
        stands == Stands::Alone && at == words.len() && first.minute.is_some_and(|minute| minute > 0);
    if first.is_bare && !is_said && !is_alone {
        return None;
    }
    let has_half = first.half.is_some() || second.is_some_and(|time| time.half.is_some());
    let is_exact = first.is_exact() && second.is_none_or(|time| time.is_exact());
    // `Tuesday 18:30 at Wrenbeck`, `Tuesday, 6.30-8pm Wrenbeck`
    let is_range = second.is_some() && (has_half || is_exact);
    let is_place = is_behind_day
        && words.get(behind..).is_some_and(|behind| {
            is_place(behind) || is_range && behind.iter().all(|word| !word.is_number())
        });
    let has_minute = first.minute.is_some() || second.is_some_and(|time| time.minute.is_some());
    let is_no_date = first.is_no_date() || second.is_some_and(Written::is_no_date);
    // `Monday at 7`
    let is_hour = is_behind_day && begins_at && first.half.is_none() && (1..=12).contains(&first.hour);
    // `6.30 - 8` in a line of its own
    let is_span = stands == Stands::Alone && second.is_some() && is_no_date;
    let is_time = has_minute && (is_start || is_no_date && is_said || is_span) || is_hour;
    // `6.30 start !`
    let is_end = words.get(at..).is_none_or(|behind| {
        behind.iter().all(|word| !word.text.starts_with(|letter: char| letter.is_alphanumeric()))
    });
    if !is_end && !is_place || !(has_half || is_exact || is_time) {
        return None;
    }
    // `6.30`: clubs train in the evening.
    let is_unsure = !has_half && first.is_evening();
    let half = |time: Written| time.half.or(is_unsure.then_some(true));
    let ends = match second {
        // `6pm-7.30`
        // `10.30am till 12` ends at noon.
        Some(time) if time.hour == 12 && time.half.is_none() => Some(time.at(Some(true))?),
        Some(time) => Some(time.at(half(time).or(first.half))?),
        None => None,
    };
    // `6-7.30pm`: the first is of the same half, unless it would come after the second.
    let half = half(first).or_else(|| second.and_then(|time| time.half));
    let begins = first.at(half)?;
    let begins = match ends {
        Some(ends) if begins >= ends => first.at(None).filter(|begins| *begins < ends)?,
        _ => begins,
    };
    Some(Phrase { begins, ends, words: if is_place { behind } else { at }, is_unsure })
}

/// A time as it is written.
#[derive(Clone, Copy)]
pub(crate) struct Written {
    hour: u32,
    minute: Option<u32>,
    /// Whether two digits are written for the hour.
    is_full: bool,
    /// Whether a colon stands in it.
    has_colon: bool,
    /// Whether no sign stands in it.
    is_bare: bool,
    /// Whether it is after noon, where that is said.
    pub(crate) half: Option<bool>,
}

impl Written {
    /// Whether it is written with all four digits, of a time at which people train.
    fn is_exact(self) -> bool {
        self.minute.is_some() && self.is_full && self.is_no_date() && (6..23).contains(&self.hour)
    }

    /// Whether it can be no day with its month: `6.30`, `18.00`.
    pub(crate) fn is_no_date(self) -> bool {
        self.has_colon || matches!(self.minute, Some(0 | 15 | 30 | 45))
    }

    /// Whether it is rather in the evening than in the morning, where that is not said.
    fn is_evening(self) -> bool {
        !self.is_full && (1..8).contains(&self.hour)
    }

    /// Whether it is a time with no word in front of it: `6.45`, `7pm`.
    pub(crate) fn is_sure(self) -> bool {
        self.half.is_some() || self.minute.is_some() && self.is_no_date() && !self.is_bare
    }

    pub(crate) fn at(self, is_after_noon: Option<bool>) -> Option<NaiveTime> {
        let hour = match is_after_noon {
            Some(_) if !(1..=12).contains(&self.hour) => self.hour,
            Some(is_after_noon) => self.hour % 12 + if is_after_noon { 12 } else { 0 },
            None => self.hour,
        };
        NaiveTime::from_hms_opt(hour, self.minute.unwrap_or(0), 0)
    }
}

/// A time without a sign in it: `1830`. What may be a year is none.
fn four_digits(word: &Word<'_>) -> Option<Written> {
    let digits = word.text;
    let (hour, minute) = digits.split_at_checked(2).filter(|_| digits.len() == 4)?;
    let (hour, minute) = (hour.parse().ok()?, minute.parse().ok()?);
    let is_time = (6..20).contains(&hour) && minute < 60 && minute % 5 == 0;
    is_time.then_some(Written {
        hour,
        minute: Some(minute),
        is_full: true,
        has_colon: true,
        is_bare: true,
        half: None,
    })
}

fn number(words: &[Word<'_>], at: usize) -> Option<u32> {
    words.get(at).filter(|word| word.text.len() <= 2)?.text.parse().ok()
}

/// Words for the hours of a clock.
const HOURS: [&str; 12] =
    ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// `half six`, `quarter past 6`, `quarter to seven`: the time, and how many words it has.
fn in_words(words: &[Word<'_>]) -> Option<(Written, usize)> {
    let is = |at: usize, asked: &[&str]| words.get(at).is_some_and(|word| word.is_one(asked));
    let (minute, next) = match () {
        () if is(0, &["half"]) => (30, 1 + usize::from(is(1, &["past"]))),
        () if is(0, &["quarter"]) && is(1, &["past"]) => (15, 2),
        () if is(0, &["quarter"]) && is(1, &["to"]) => (45, 2),
        () => return None,
    };
    let word = words.get(next)?;
    let spelt = HOURS.iter().position(|hour| word.is(hour)).map(|at| at as u32 + 1);
    let hour = spelt.or_else(|| number(words, next)).filter(|hour| (1..=12).contains(hour))?;
    // A quarter to one is in the twelfth hour.
    let hour = if minute == 45 { (hour + 10) % 12 + 1 } else { hour };
    let half = half_of_day(words.get(next + 1));
    let written =
        Written { hour, minute: Some(minute), is_full: false, has_colon: true, is_bare: true, half };
    Some((written, next + 1 + usize::from(half.is_some())))
}

/// Whether a word is for after noon, or before it.
fn half_of_day(word: Option<&Word<'_>>) -> Option<bool> {
    match word {
        Some(word) if word.is("pm") => Some(true),
        Some(word) if word.is("am") => Some(false),
        _ => None,
    }
}

/// A time at a place, and the place behind it.
pub(crate) fn time(words: &[Word<'_>], at: usize) -> Option<(Written, usize)> {
    if let Some((written, length)) = words.get(at..).and_then(in_words) {
        return Some((written, at + length));
    }
    if let Some(written) = words.get(at).and_then(four_digits) {
        return Some((written, at + 1));
    }
    let hour = number(words, at).filter(|hour| *hour < 24)?;
    let mut next = at + 1;
    let is_glued = |at: usize| words.get(at).is_some_and(|word| word.range.start == words[at - 1].range.end);
    let is_point =
        |at: usize| words.get(at).is_some_and(|word| [":", ".", "h"].contains(&word.text)) && is_glued(at);
    let mut minute = None;
    if is_point(next)
        && is_glued(next + 1)
        && let Some(found) = number(words, next + 1).filter(|minute| *minute < 60)
        && words[next + 1].text.len() == 2
    {
        minute = Some(found);
        next += 2;
    }
    let half = half_of_day(words.get(next));
    next += usize::from(half.is_some());
    // A longer word or number begins with it: `6 x`, `3:00.5`.
    let is_more = half.is_none()
        && is_glued(next)
        && words[next]
            .text
            .starts_with(|letter: char| letter.is_alphanumeric() || [':', '.'].contains(&letter));
    let is_full = words[at].text.len() == 2;
    let has_colon = minute.is_some() && [":", "h"].contains(&words[at + 1].text);
    (!is_more).then_some((Written { hour, minute, is_full, has_colon, is_bare: false, half }, next))
}
