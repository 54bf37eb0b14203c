//! Names of groups in front of what they do, in its line: `U13s: 5 x 300`, `Boys 5 x 300, girls 4 x 300`.

use std::ops::Range;

use crate::cursor::Cursor;
use crate::heading_words::{is_everybody, names_day};
use crate::names_in_front::{NamesInFront, names_in_front};
use crate::people::{is_event, is_group_name};
use crate::roster::{FEWEST, Roster, is_known, is_sign as is_letter, may_be_group, unnamed, with_athletes};
use crate::token::Lexed;

/// The most words, numbers and signs of such a name, without the athletes in brackets behind it.
const MOST_TOKENS: usize = 8;

/// The most tokens of the athletes.
const MOST_OF_ATHLETES: usize = 60;

/// The least that is a distance and no part of a name, in metres.
pub(crate) const LEAST_DISTANCE_M: f64 = 30.0;

/// The most seconds or minutes in front of a name that are a rest: `400s` are runners.
const LONGEST_REST: f64 = 100.0;

/// The name of a group in front of what it does.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct GroupLabel {
    /// The name; nothing where it is everybody.
    pub(crate) group: Option<String>,
    /// Who is in it, where that stands in brackets behind the name.
    pub(crate) roster: Roster,
    /// Where it stands, in bytes of its line.
    pub(crate) span: Range<usize>,
    /// Where what the group does begins, in bytes of its line.
    pub(crate) end: usize,
}

/// The name of a group that stands in front of something in a line, so many tokens from its start.
pub(crate) fn group_label(lexed: &Lexed<'_>, at: usize) -> Option<GroupLabel> {
    let tokens = lexed.tokens.get(at..)?;
    // `400 runners: 4 x 300`
    let begins_with_number = tokens.first()?.is_number();
    if !begins_with_number && !tokens[0].is_word() {
        return None;
    }
    let mut cursor = Cursor::new(lexed);
    cursor.skip_all(at);
    // `4 x 200, 2 min Boys: 5 x 200`: the time belongs to what stands in front.
    if cursor.is_duration() && cursor.number_at(0).is_some_and(|time| time < LONGEST_REST) {
        return None;
    }
    cursor.go_back(0);
    let start = tokens[0].span.start;
    // `400H: Yara - 3 x 200`
    let may_have_names = !begins_with_number || cursor.hurdles_event_tokens().is_some();
    if may_have_names && let Some(found) = lexed.text.get(start..).and_then(names_in_front) {
        let NamesInFront { group, roster, ends, next } = found;
        let group = Some(group.to_owned());
        return Some(GroupLabel { group, roster, span: start..start + ends, end: start + next });
    }
    let name = |place: usize| lexed.text.get(start..tokens.get(place)?.span.start).map(str::trim);
    let mut is_in_brackets = false;
    for (place, token) in tokens.iter().enumerate().take(MOST_TOKENS + MOST_OF_ATHLETES).skip(1) {
        is_in_brackets = if is_in_brackets { !token.is_sign(')') } else { token.is_sign('(') };
        let ahead = at + place;
        let is_spaced = !cursor.is_glued(ahead) || !cursor.is_glued(ahead + 1);
        let is_clock = cursor.is_number(ahead - 1) && !is_spaced;
        let is_colon = token.is_sign(':') && !is_clock;
        // `Girls, 6 x 60`
        let is_comma = token.is_sign(',')
            && !is_in_brackets
            && cursor.is_counted_item(ahead + 1)
            && name(place).is_some_and(is_group_name);
        let is_sign = is_colon || is_comma || token.is_sign('-') && is_spaced;
        if !is_sign && cursor.is_counted_item(ahead - 1) {
            return None;
        }
        // `800/1500 (Ines, Jo) 3 x 600`
        let is_behind_names = tokens[place - 1].is_sign(')');
        let is_run = (!begins_with_number || is_behind_names) && cursor.is_counted_item(ahead)
            || !cursor.is_glued(ahead)
                && cursor.number_at(ahead).is_some_and(|metres| metres >= LEAST_DISTANCE_M)
                // `Varsity 400: 3 x 350`
                && (!cursor.is_sign(ahead + 1, ':') || cursor.is_glued(ahead + 2))
                // `Women 100H (Kate, Lou): 4 x 5 hurdles`
                && !cursor.hurdles_event_at(ahead).is_some_and(|behind| [':', '-', '('].iter().any(|&sign| cursor.is_sign(behind, sign)))
                && name(place).is_some_and(|name| is_group_name(name) || is_everybody(name))
            || cursor.is_laps(ahead) && name(place).is_some_and(is_everybody);
        if is_sign || is_run {
            let whole = name(place)?;
            let (written, mut roster) = with_athletes(whole, is_colon);
            let is_long =
                tokens[..place].iter().take_while(|token| !token.is_sign('(')).count() >= MOST_TOKENS;
            if is_long || roster.is_empty() && place >= MOST_TOKENS {
                return None;
            }
            let is_all = is_everybody(written)
                && roster.is_empty()
                && (is_sign || !written.eq_ignore_ascii_case("all"));
            let is_event = is_sign && is_event(written);
            // `Middles (Di, Ed): 6 x 400`, `Middles (Di, Ed) 6 x 400`
            let has_names = || {
                (is_colon || is_run)
                    && roster.names().count() >= if is_colon && is_letter(written) { 1 } else { FEWEST }
                    && !roster.names().any(|name| is_known(name) || names_day(name))
            };
            // `Group 1 (fast): 6 x 200`
            let bare = written.split('(').next().unwrap_or_default().trim();
            let is_called =
                is_group_name(written) || is_colon && written.ends_with(')') && is_group_name(bare);
            let is_label = is_all
                || is_event
                || is_called
                // `Middle lane 4: 6 x 800`
                || at == 0 && is_colon && !roster.lanes.is_empty() && may_be_group(written)
                || has_names() && may_be_group(written);
            // What stands behind it is done: alone it is a heading.
            let end = if is_sign { tokens.get(place + 1)?.span.start } else { token.span.start };
            // `U9: 12 kids, 4 x 40`
            let behind = lexed.text.get(end..).unwrap_or_default();
            let counted = behind.find(',').and_then(|comma| Some((unnamed(&behind[..comma])?, comma)));
            let end = match counted.filter(|_| is_colon && !is_all && roster.is_empty()) {
                Some((count, comma)) => {
                    roster.unnamed = count;
                    end + comma + 1 + leading_spaces(&behind[comma + 1..])
                }
                None => end,
            };
            let group = (!is_all).then(|| written.split_whitespace().collect::<Vec<_>>().join(" "));
            return is_label.then(|| GroupLabel { group, roster, span: start..start + whole.len(), end });
        }
        let is_joint = ['\'', '/', '-', '&', '+', '(', ')'].iter().any(|&sign| token.is_sign(sign));
        let is_between_names =
            is_in_brackets && (token.is_sign(',') || token.is_sign('.') || token.is_sign('’'));
        if !token.is_word() && !token.is_number() && !is_joint && !is_between_names {
            return None;
        }
    }
    None
}

/// How many bytes of white space stand in front.
fn leading_spaces(text: &str) -> usize {
    text.len() - text.trim_start().len()
}

/// The group that a token of a line begins behind another, and the tokens that join it to that: none behind a run, where its
/// name is one word for people with a colon.
pub(crate) fn label_behind(lexed: &Lexed<'_>, at: usize) -> Option<(usize, GroupLabel)> {
    let joint = joint_tokens(lexed, at);
    if joint > 0 {
        return Some((joint, group_label(lexed, at + joint)?));
    }
    let colon = lexed.tokens.get(at + 1).filter(|colon| colon.is_sign(':'))?;
    let name = lexed.text.get(lexed.tokens[at].span.start..colon.span.start)?;
    let is_behind_run = at > 1 && lexed.tokens.get(at - 1).is_some_and(|before| !before.is_sign('('));
    (is_behind_run && is_group_name(name)).then(|| group_label(lexed, at)).flatten().map(|label| (0, label))
}

/// How many tokens stand between two parts of a line at a place, where the name of a group may follow them.
fn joint_tokens(lexed: &Lexed<'_>, at: usize) -> usize {
    let is_sign = |at: usize, signs: &[char]| {
        lexed.tokens.get(at).is_some_and(|token| signs.iter().any(|&sign| token.is_sign(sign)))
    };
    let is_and = |at: usize| {
        let word = lexed.tokens.get(at).and_then(|token| lexed.small.get(token.span.clone()));
        word.is_some_and(|word| word == b"and")
    };
    let signs = usize::from(is_sign(at, &[',', ';', '/', '.', '-', '+']));
    let signs = if is_sign(at, &['/']) && is_sign(at + 1, &['/']) { 2 } else { signs };
    signs + usize::from(is_and(at + signs))
}
