//! Who is in a group, in the heading above what it does: `Sprints (Ada, Ben)`, `Group A: Ada, Ben and Cyd`.

use std::ops::Range;

use lane_distance::LaneNumber;

use crate::attendance::{is_absence, is_lateness, is_left_early};
use crate::best_time::{BestTime, best_times};
use crate::cursor::Cursor;
use crate::forms::FORMS;
use crate::group_counts;
use crate::group_lanes::without_lanes;
use crate::heading_words::{has_word, is_everybody, names_day, names_part};
use crate::line_words::{self, words};
use crate::names_in_front::names_in_front;
use crate::people::{MOST_WORDS, is_event, is_group_name, is_people, names_people};
use crate::token::Lexed;

/// The names behind that of a group, and what is said of some of them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Roster {
    /// Who runs.
    pub(crate) athletes: Vec<String>,
    /// Who does not.
    pub(crate) absent: Vec<String>,
    /// Whom somebody guides: the athlete, and the guide.
    pub(crate) guides: Vec<(String, String)>,
    /// The lanes of the group, where they stand behind its name.
    pub(crate) lanes: Vec<LaneNumber>,
    /// How many run who are not named: `8 runners`.
    pub(crate) unnamed: usize,
    /// Best times behind names.
    pub(crate) bests: Vec<BestTime>,
    /// What else stands behind a name: the name, and the words.
    pub(crate) remarks: Vec<(String, String)>,
}

/// Small words within a name.
const PARTICLES: [&str; 14] =
    ["de", "da", "di", "du", "del", "van", "von", "der", "den", "ter", "ten", "la", "le", "bin"];

/// The most who run without a name in a group.
const MOST_UNNAMED: usize = 200;

/// The fewest names: one word in brackets may be anything.
pub(crate) const FEWEST: usize = 2;

/// Words in front of what stands in a text of a session and is no group.
const NO_GROUPS: [&str; 25] = [
    "coach",
    "coaches",
    "coaching",
    "timer",
    "timers",
    "timing",
    "helper",
    "helpers",
    "official",
    "officials",
    "bring",
    "kit",
    "venue",
    "where",
    "focus",
    "aim",
    "theme",
    "key",
    "note",
    "notes",
    "thanks",
    "present",
    "cues",
    "remember",
    "equipment",
];

/// Whether a text has groups whose athletes are named, so that others may be called anything.
pub(crate) fn has_rosters<'a>(mut lines: impl Iterator<Item = &'a str>) -> bool {
    lines.any(|line| named_group(line, false).is_some() || names_in_front(line).is_some())
}

/// The name of a group and who is in it, as the line stands above what the group does; given whether other groups are
/// named so.
pub(crate) fn named_group(line: &str, has_others: bool) -> Option<(&str, Roster)> {
    let has_colon = line.ends_with(':');
    let line = without_coaches(line.trim_end_matches(':').trim());
    let (words, lanes) = without_lanes(line);
    let (group, roster) = named(words, has_colon, has_others)?;
    Some((group, Roster { lanes, ..roster }))
}

/// `U13s (12 kids), 2 coaches`: without those who coach them.
fn without_coaches(line: &str) -> &str {
    const COACHES: [&str; 4] = ["coach", "coaches", "helper", "helpers"];
    let is_coaches = |behind: &str| {
        let words = line_words::words(behind);
        matches!(words.as_slice(), [count, coaches] if coaches.is_one(&COACHES)
            && (count.is_number() || count.is_one(&["one", "two", "three", "a"])))
    };
    match line.rsplit_once([',', '-', '–']) {
        Some((group, behind)) if is_coaches(behind) => group.trim_end(),
        _ => line,
    }
}

/// The same of words without lanes behind them.
fn named(words: &str, has_colon: bool, has_others: bool) -> Option<(&str, Roster)> {
    if let Some((group, roster)) = in_brackets(words, has_colon || has_others) {
        let begins_with_digit = |word: &str| word.starts_with(|letter: char| letter.is_ascii_digit());
        let is_else = group.split_whitespace().any(begins_with_digit)
            || names_part(group) && !names_people(group) && !is_training(group)
            || names_day(group)
            || is_note(group);
        let is_squad = || {
            let is_short =
                group.split_whitespace().count() <= MOST_WORDS && !group.contains([',', ';', ':', '.']);
            let is_called = are_events(group) || is_short && names_people(group);
            is_called && roster.names().count() >= FEWEST && !roster.names().any(|name| is_known(name))
        };
        let is_group = !is_else
            || is_group_name(group) && !has_count(group)
            || has_colon && is_sign(group)
            || is_squad();
        return is_group.then_some((group, roster));
    }
    if let Some(found) = counted(words) {
        return Some(found);
    }
    let (group, names) = behind_sign(words)?;
    if names_in_front(words).is_some() {
        return None;
    }
    // `Distance: Cy`
    let fewest = if has_others && is_group_name(group) { 1 } else { FEWEST };
    let roster = Roster::read(names, fewest)?;
    // `Sprints: Blocks, Strides`
    let known = names.split([',', ';', '&']).filter(|name| is_known(name.trim())).count();
    let are_names = 2 * known < roster.names().count() || roster.unnamed > 0;
    let is_heading = has_others || has_colon && roster.names().count() > 2 || roster.unnamed > 0;
    let is_called =
        is_group_name(group) || is_sign(group) || is_training(group) || has_others && is_event(group);
    let is_group = is_called || is_heading && known == 0 && may_be_group(group);
    (is_group && !is_everybody(group) && !has_count(group) && are_names).then_some((group, roster))
}

/// `Juniors, 9 of them`, `Juniors x 9`: how many are in a group behind its name.
fn counted(words: &str) -> Option<(&str, Roster)> {
    let behind_comma = || words.rsplit_once(',').and_then(|(group, behind)| Some((group, unnamed(behind)?)));
    let (group, unnamed) = behind_comma().or_else(|| group_counts::counted(words))?;
    let group = group.trim();
    (is_group_name(group) && !group.contains([',', ';', ':']) && !is_everybody(group))
        .then(|| (group, Roster { unnamed, ..Roster::default() }))
}

/// `100/200`, `800-1500m`: events whose runners are a group.
fn are_events(group: &str) -> bool {
    let group = group.trim_end_matches(['m', 's']);
    let events: Vec<&str> = group.split(['/', '-', '+']).map(str::trim).collect();
    let is_event = |event: &&str| event.parse::<u32>().is_ok_and(|metres| (60..=10_000).contains(&metres));
    events.len() > 1 && events.iter().all(is_event)
}

/// Whether words may be the name of a group where athletes stand behind them: `Middles`.
pub(crate) fn may_be_group(group: &str) -> bool {
    let words: Vec<&str> = group.split_whitespace().collect();
    words.len() <= MOST_WORDS
        && words.iter().all(|word| !word.contains([':', ';', ',', '@', '(']))
        && !has_count(group)
        && !has_word(group, &NO_GROUPS)
        && (!names_part(group) || is_training(group))
        && !names_day(group)
        && !is_known(group)
}

/// Whether a part of a session is what those do who are named behind it: `Speed (Ada, Ben)`.
fn is_training(group: &str) -> bool {
    ["speed", "tempo", "conditioning"].iter().any(|training| group.eq_ignore_ascii_case(training))
}

/// The name of a group and who is in it, from words that may be one: those in brackets behind it.
/// Where a colon follows, one name is enough.
pub(crate) fn with_athletes(words: &str, has_colon: bool) -> (&str, Roster) {
    let (words, lanes) = without_lanes(words);
    let (group, roster) = in_brackets(words, has_colon).unwrap_or((words, Roster::default()));
    (group, Roster { lanes, ..roster })
}

/// What stands in front of the last brackets, and the names in them: given whether one is enough for a group.
fn in_brackets(words: &str, may_be_one: bool) -> Option<(&str, Roster)> {
    let inner = words.strip_suffix(')')?;
    let mut depth = 1;
    let open = inner.char_indices().rev().find(|&(_, letter)| {
        depth += match letter {
            ')' => 1,
            '(' => -1,
            _ => 0,
        };
        depth == 0
    });
    let (group, names) = inner.split_at(open?.0);
    let group = group.trim();
    // `Seniors (8)`
    let count = names[1..].trim().parse().ok().filter(|count| (2..=MOST_UNNAMED).contains(count));
    if let Some(unnamed) = count.filter(|_| is_group_name(group)) {
        return Some((group, Roster { unnamed, ..Roster::default() }));
    }
    // `A (Ada):`
    let fewest = if may_be_one && (is_group_name(group) || is_sign(group)) { 1 } else { FEWEST };
    (!group.is_empty()).then_some((group, Roster::read(&names[1..], fewest)?))
}

/// What stands in front of the first colon or free dash, and what behind it.
fn behind_sign(words: &str) -> Option<(&str, &str)> {
    let signs = [": ", " - ", " – ", " — "];
    let (at, sign) = signs.iter().filter_map(|sign| Some((words.find(sign)?, *sign))).min()?;
    Some((words[..at].trim(), words[at + sign.len()..].trim()))
}

/// Whether a group has only a letter or a digit for its name: `A`, `2`.
pub(crate) fn is_sign(group: &str) -> bool {
    let mut letters = group.chars();
    matches!((letters.next(), letters.next()), (Some(sign), None) if sign.is_ascii_uppercase() || sign.is_ascii_digit())
}

/// Whether a count stands in words: `Seniors 6 x 200`.
pub(crate) fn has_count(words: &str) -> bool {
    let lexed = Lexed::new(words, &FORMS);
    let cursor = Cursor::new(&lexed);
    (0..lexed.tokens.len()).any(|ahead| cursor.is_number(ahead) && cursor.is_times(ahead + 1))
}

/// Whether words are a warm-up, drills or the like.
fn is_note(words: &str) -> bool {
    Cursor::new(&Lexed::new(words, &FORMS)).is_note_alone()
}

/// Whether what could be a name is a word of the notation.
pub(crate) fn is_known(name: &str) -> bool {
    // An effort, and somebody's name.
    if name.eq_ignore_ascii_case("max") {
        return false;
    }
    let lexed = Lexed::new(name, &FORMS);
    let mut cursor = Cursor::new(&lexed);
    names_part(name)
        || cursor.is_clause(0)
        || cursor.is_effort(0)
        || cursor.is_run_name(0)
        || cursor.is_note_alone()
}

impl Roster {
    /// Reads names with commas, `&` or `and` between them; nothing where one of them is none, or there are too few.
    pub(crate) fn read(names: &str, fewest: usize) -> Option<Self> {
        if let Some(unnamed) = unnamed(names) {
            return Some(Self { unnamed, ..Self::default() });
        }
        let mut roster = Self::default();
        let mut entries = entries(names);
        // `Kit Lou Max Ned`: nobody has so many names.
        if entries.len() == 1 {
            entries = spaced(names).unwrap_or(entries);
        }
        for entry in entries {
            // `Di, Em, Fi +2`
            if let Some(more) = more(names[entry.clone()].trim()).filter(|_| !roster.is_empty()) {
                roster.unnamed += more;
                continue;
            }
            let Entry { name, words } = Entry::read(&names[entry])?;
            if let Some(guide) = guide_in(&words) {
                roster.guides.push((name.clone(), guide.to_owned()));
                roster.athletes.push(name);
            } else if words.eq_ignore_ascii_case("guide")
                && let Some(athlete) = roster.athletes.last()
            {
                // `Niamh + Rob guide`
                roster.guides.push((athlete.clone(), name));
            } else if words.is_empty() {
                roster.athletes.push(name);
            } else if is_absence(&words) {
                roster.absent.push(name);
            } else if let Some(times) = best_times(&words) {
                roster.bests.extend(BestTime::all_of(&name, times));
                roster.athletes.push(name);
            } else {
                roster.athletes.push(name.clone());
                roster.remarks.push((name, words));
            }
        }
        (roster.athletes.len() + roster.absent.len() >= fewest).then_some(roster)
    }

    /// All who are named.
    pub(crate) fn names(&self) -> impl Iterator<Item = &String> {
        self.athletes.iter().chain(&self.absent)
    }

    /// Whether nobody is named.
    pub(crate) fn is_empty(&self) -> bool {
        self.athletes.is_empty() && self.absent.is_empty() && self.unnamed == 0
    }
}

/// `with guide Rob`, `guided by Rob`, `T11, runs with guide Rob`: the name of a guide.
pub(crate) fn guide_in(words: &str) -> Option<&str> {
    let all = line_words::words(words);
    let guide = all.iter().position(|word| word.is_one(&["guide", "guided"]))?;
    let by = guide + 1 + usize::from(all.get(guide + 1).is_some_and(|word| word.is("by")));
    let name = all.get(by).filter(|name| name.text.starts_with(char::is_uppercase))?;
    // What stands in front says no number that would be lost: `T11, runs with guide Rob`.
    let is_told = all[..guide].iter().all(|word| !word.text.parse::<f64>().is_ok_and(|number| number < 10.0));
    (is_told && all.len() - by <= 2).then(|| words[name.range.start..].trim())
}

/// `2`, `2 more`, `others`: how many more run who are not named; nobody knows how many others are.
fn more(words: &str) -> Option<usize> {
    const OTHERS: [&str; 4] = ["others", "etc", "etc.", "co"];
    if OTHERS.iter().any(|others| words.eq_ignore_ascii_case(others)) {
        return Some(0);
    }
    let number = words.strip_suffix(" more").or_else(|| words.strip_suffix(" others")).unwrap_or(words);
    number.parse().ok().filter(|count| (1..=MOST_UNNAMED).contains(count))
}

/// `8 runners`, `12 of them`: how many run who are not named.
pub(crate) fn unnamed(words: &str) -> Option<usize> {
    const OTHERS: [&str; 10] =
        ["runners", "athletes", "children", "people", "here", "tonight", "today", "in", "of", "them"];
    let mut words = words.split_whitespace();
    let count = words.next()?.parse().ok().filter(|count| (1..=MOST_UNNAMED).contains(count))?;
    let behind: Vec<&str> = words.collect();
    let is_who = |word: &&str| is_people(word) || OTHERS.iter().any(|other| word.eq_ignore_ascii_case(other));
    (!behind.is_empty() && behind.len() <= 2 && behind.iter().all(is_who)).then_some(count)
}

/// Where each of three names or more stands, where nothing but spaces is between them.
fn spaced(names: &str) -> Option<Vec<Range<usize>>> {
    let is_name = |word: &str| {
        word.starts_with(char::is_uppercase)
            && word.chars().all(|letter| letter.is_alphabetic() || letter == '-')
    };
    let words = words(names);
    let are_names = words.len() > 2 && words.iter().all(|word| is_name(word.text));
    are_names.then(|| words.into_iter().map(|word| word.range).collect())
}

/// Where each name with what is said of it stands among several.
fn entries(names: &str) -> Vec<Range<usize>> {
    let (mut found, mut start, mut depth) = (Vec::new(), 0, 0_i32);
    for (at, letter) in names.char_indices() {
        depth += match letter {
            '(' => 1,
            ')' => -1,
            _ => 0,
        };
        if depth > 0 {
            continue;
        }
        let joint = match letter {
            ',' | ';' | '&' | '+' => letter.len_utf8(),
            ' ' if names[at..].starts_with(" and ") => " and ".len(),
            _ => continue,
        };
        // `Ada, Ben, and Cyd`
        if at < start || joint == 1 && names[at + 1..].starts_with(" and ") {
            continue;
        }
        found.push(start..at);
        start = at + joint;
    }
    found.push(start..names.len());
    found
}

/// A name, and what is said of it.
struct Entry {
    name: String,
    words: String,
}

impl Entry {
    /// `Ada`, `Ben (late)`, `Cyd - out`, `Dot from 7pm`.
    fn read(entry: &str) -> Option<Self> {
        let entry = entry.trim().trim_start_matches(',').trim();
        // `Di?`
        let (entry, is_unsure) = match entry.strip_suffix('?') {
            Some(name) => (name.trim_end(), true),
            None => (entry, false),
        };
        let mut end = 0;
        let mut words = 0;
        for word in entry.split_whitespace() {
            let is_name = word.chars().all(|letter| letter.is_alphabetic() || "'’.-".contains(letter))
                && (word.starts_with(char::is_uppercase) || words > 0 && PARTICLES.contains(&word));
            words += usize::from(word.starts_with(char::is_uppercase));
            if !is_name || words > MOST_WORDS {
                break;
            }
            end = entry[end..].find(word).map_or(end, |at| end + at + word.len());
        }
        let (name, behind) = entry.split_at(end);
        let behind = behind.trim();
        let said = behind.trim_matches(|letter: char| " -–—:()".contains(letter));
        let is_apart = behind.starts_with(['(', '-', '–', '—', ':']);
        // `Di 31`, `Ed 100 1:59`: what it is nobody knows, and it is asked for.
        let is_number =
            !said.is_empty() && said.bytes().all(|byte| byte.is_ascii_digit() || b".: ".contains(&byte));
        let is_guide = guide_in(said).is_some() || said.eq_ignore_ascii_case("guide");
        let is_said = is_apart
            || is_number
            || is_guide
            || is_absence(said)
            || is_lateness(said)
            || is_left_early(said)
            || best_times(said).is_some();
        let said = if is_unsure && said.is_empty() { "?" } else { said };
        (words > 0 && (said.is_empty() || is_said || is_unsure))
            .then(|| Self { name: name.to_owned(), words: said.to_owned() })
    }
}
