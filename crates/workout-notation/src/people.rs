//! Words for who trains.

use crate::cursor::Cursor;
use crate::heading_words::{has_word, names_day, names_part};
use crate::line_words::words;

/// The most words of the name of a group.
pub(crate) const MOST_WORDS: usize = 3;

/// Words for who trains.
#[rustfmt::skip]
pub(crate) const PEOPLE: [&str; 54] = [
    "sprinters", "milers", "hurdlers", "walkers", "jumpers", "throwers", "steeplers", "steeplechasers", "vaulters",
    "multis", "juniors", "seniors", "masters", "veterans",
    "vets", "beginners", "improvers", "boys", "girls", "men", "women", "ladies", "lads", "novices", "minors", "youths",
    "adults", "intermediates", "advanced", "newcomers", "kids", "minis", "cadets",
    "youngsters", "teens", "teenagers", "elite", "elites", "academy", "development", "paras", "varsity", "jv",
    "freshmen", "frosh", "sophomores", "lasses", "middles", "reds", "blues", "greens", "yellows", "oranges", "purples",
];

/// Words for a group that may mean something else as well.
#[rustfmt::skip]
pub(crate) const GROUPS: [&str; 14] = [
    "sprints", "distance", "endurance", "group", "squad", "wheelchair", "runners", "athletes", "grp", "gp", "team",
    "pack", "lot", "heat",
];

/// Words for an event, which name a group where others are named.
const EVENTS: [&str; 7] = ["hurdles", "jumps", "throws", "steeplechase", "walks", "relay", "relays"];

/// Words that name a group alone.
const CALLED: [&str; 10] = [
    "sprint",
    "endur",
    "middle",
    "flat",
    "steeple",
    "sprint hurdles",
    "long hurdles",
    "short hurdles",
    "high hurdles",
    "hurdle sprints",
];

/// Words in front of the number of an age.
pub(crate) const AGES: [&str; 6] = ["u", "under", "over", "y", "yr", "year"];

/// Whether a group is called by its event.
pub(crate) fn is_event(group: &str) -> bool {
    EVENTS.iter().any(|event| group.eq_ignore_ascii_case(event))
}

/// Whether a word says who trains.
pub(crate) fn is_people(word: &str) -> bool {
    PEOPLE.iter().any(|people| word.eq_ignore_ascii_case(people))
}

/// Whether the last of several words says who trains: `speed group` is no part of the session.
pub(crate) fn names_people(name: &str) -> bool {
    let of_people = ["group", "squad", "runners", "athletes"];
    let last = name.split_whitespace().next_back().unwrap_or_default();
    name.contains(' ') && (is_people(last) || of_people.iter().any(|word| last.eq_ignore_ascii_case(word)))
}

/// Whether the number so many tokens ahead is the age behind a word for it: `Under 13s`, `Year 9`.
pub(crate) fn is_age(cursor: &Cursor<'_>, ahead: usize) -> bool {
    let is_small = cursor.number_at(ahead).is_some_and(|age| (5.0..100.0).contains(&age));
    is_small && ahead > 0 && cursor.is_word(ahead - 1, &AGES)
}

/// Whether words are the name of a group: a few, one of which says who trains, and none a part of the session or a day.
pub(crate) fn is_group_name(name: &str) -> bool {
    let is_counted = |word: &&str| word.contains(char::is_alphanumeric) && !word.eq_ignore_ascii_case("and");
    let words = name.split_whitespace().filter(is_counted);
    let is_short = words.count() <= MOST_WORDS;
    is_short
        && (has_word(name, &PEOPLE)
            || has_word(name, &GROUPS)
            || CALLED.iter().any(|called| name.eq_ignore_ascii_case(called))
            || has_age(name)
            || are_ones(name)
            || is_short_sign(name))
        && (!names_part(name) || names_people(name))
        && !names_day(name)
}

/// `G1`, `M45`, `W55+`: a letter of a group, or of masters, with its number.
fn is_short_sign(name: &str) -> bool {
    let name = name.trim_end_matches(['s', '+']);
    let Some((letter, number)) = name.split_at_checked(1) else { return false };
    let Ok(number) = number.parse::<u8>() else { return false };
    match letter {
        "G" | "g" => (1..10).contains(&number),
        "M" | "W" | "F" => number >= 35 && number % 5 == 0,
        _ => false,
    }
}

/// `Young ones`, `the little ones`.
fn are_ones(name: &str) -> bool {
    const SIZES: [&str; 8] = ["young", "younger", "little", "older", "small", "smaller", "big", "bigger"];
    let words: Vec<&str> = name.split_whitespace().collect();
    let words = words.strip_prefix(&["the"]).unwrap_or(&words);
    matches!(words, [size, ones] if ones.eq_ignore_ascii_case("ones")
        && SIZES.iter().any(|known| size.eq_ignore_ascii_case(known)))
}

/// `U13s`, `under 15`, `Year 9`.
fn has_age(name: &str) -> bool {
    let words = words(name);
    let is_sign = |text: &str| text == "-";
    words.iter().enumerate().any(|(place, word)| {
        let age = words[place + 1..].iter().find(|next| !is_sign(next.text));
        AGES.iter().any(|before| word.is(before))
            && age.is_some_and(|age| {
                // `13s`, `13`
                let age = age.text.strip_suffix('s').unwrap_or(age.text);
                (1..=2).contains(&age.len()) && age.bytes().all(|byte| byte.is_ascii_digit())
            })
    })
}
