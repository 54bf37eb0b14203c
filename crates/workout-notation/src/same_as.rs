//! A group that does what another does: `same as Group 1`, `as the seniors but 4 reps`, `same`.

use crate::block::{Block, Body, Item};
use crate::line_words::{Word, words};
use crate::lines::Line;
use crate::problem::Problem;
use crate::session_reader::SessionReader;

/// What words say of a group that does what another does.
#[derive(Debug, PartialEq, Eq)]
struct SameAs<'a> {
    /// The name of the other, as it is written; nothing where it is the one above.
    group: Option<&'a str>,
    /// How many repetitions this one does, where it is not as many.
    count: Option<u32>,
}

/// Words for the group above.
const ABOVE: [&str; 5] = ["above", "before", "them", "others", "everyone"];

/// Words in front of how many repetitions a group does.
const BUT: [&str; 5] = ["but", "with", "only", "just", "except"];

/// Words for repetitions.
const REPS: [&str; 6] = ["rep", "reps", "runs", "x", "times", "of"];

impl<'a> SameAs<'a> {
    /// Reads a text that says so and nothing else.
    fn read(text: &'a str) -> Option<Self> {
        let text = text.trim_end_matches(['.', ' ']);
        let words = words(text);
        let is = |at: usize, asked: &[&str]| words.get(at).is_some_and(|word: &Word<'_>| word.is_one(asked));
        let mut at = 0;
        let is_same = is(0, &["same", "ditto"]) || is(0, &["the"]) && is(1, &["same"]);
        if is_same {
            at += 1 + usize::from(is(0, &["the"]));
            at += usize::from(is(at, &["session", "set", "workout"]));
        }
        let is_as = is(at, &["as"]);
        if !is_same && !is_as {
            return None;
        }
        at += usize::from(is_as);
        at += usize::from(is_as && is(at, &["the"]));
        let end = (at..words.len())
            .find(|&at| words[at].is_one(&BUT) || [",", "(", "-"].contains(&words[at].text))
            .unwrap_or(words.len());
        let group = (is_as && end > at).then(|| &text[words[at].range.start..words[end - 1].range.end]);
        if is_as && group.is_none() || !is_as && end > at {
            return None;
        }
        let group = group.filter(|group| !ABOVE.iter().any(|above| group.eq_ignore_ascii_case(above)));
        at = end;
        while at < words.len() && (words[at].is_one(&BUT) || [",", "(", "-"].contains(&words[at].text)) {
            at += 1;
        }
        let count = words.get(at).filter(|word| word.is_number()).and_then(|word| word.text.parse().ok());
        at += usize::from(count.is_some());
        while count.is_some() && (is(at, &REPS) || is(at, &[")", "only"])) {
            at += 1;
        }
        (at == words.len()).then_some(Self { group, count })
    }
}

impl SessionReader<'_> {
    /// Reads words that say what another group does as what that does; gives whether they do.
    pub(crate) fn same_as(&mut self, line: &Line<'_>) -> bool {
        let text = line.lexed.text;
        let Some(SameAs { group, count }) = SameAs::read(text) else { return false };
        let Some((own, before)) = self.workout.parts.split_last_mut() else { return false };
        if own.group.is_none() {
            return false;
        }
        let span = line.start..line.start + text.len();
        let is_asked = |name: &str| group.is_none_or(|group| is_called(name, group));
        let other = before.iter().rev().find(|part| {
            part.group.as_deref().is_some_and(is_asked) && part.blocks.iter().any(|block| block.count() > 0)
        });
        let Some(other) = other else {
            let message = match group {
                Some(group) => format!("nothing above is done by `{group}`"),
                None => "nothing is done above by another group".to_owned(),
            };
            let help = "write what this group does, or the name of a group above it";
            self.problems.push(Problem::new(span, message).with_help(help));
            return true;
        };
        let mut blocks = other.blocks.clone();
        if let Some(count) = count {
            let runs: Vec<usize> = (0..blocks.len()).filter(|&at| blocks[at].count() > 0).collect();
            let again = match runs.as_slice() {
                [only] => with_count(&blocks[*only], count).map(|again| (*only, again)),
                _ => None,
            };
            let Some((only, again)) = again else {
                let help = "write what this group does in its own line";
                let problem = Problem::new(span, format!("which runs are done {count} times is not said"));
                self.problems.push(problem.with_help(help));
                return true;
            };
            blocks[only] = again;
        }
        own.blocks.extend(blocks.into_iter().map(|block| Block { start: line.start, ..block }));
        true
    }
}

/// Whether a group has this name, or is called so in short: `Group 1`, `gp1`, `the seniors`.
fn is_called(name: &str, asked: &str) -> bool {
    let bare = |name: &str| {
        let words = words(name);
        let is_kind = |word: &&Word<'_>| !word.is_one(&["group", "gp", "grp", "the"]);
        let bare: String = words.iter().filter(is_kind).map(|word| word.text.to_lowercase()).collect();
        bare.trim_end_matches('s').to_owned()
    };
    !bare(name).is_empty() && bare(name) == bare(asked)
}

/// A block with another count of its repetitions, where it is one run that is repeated.
fn with_count(block: &Block, count: u32) -> Option<Block> {
    let Body::Runs(series) = &block.body else { return None };
    let mut series = series.clone();
    let repeated = match series.items.as_mut_slice() {
        [Item::Series(only)] if series.count == 1 => only,
        _ => &mut series,
    };
    if repeated.count < 2 || count == 0 {
        return None;
    }
    repeated.count = count;
    // Read again, each word of it has its place in the text.
    let again = Block::parse(&Block { body: Body::Runs(series), ..block.clone() }.to_string()).ok()?;
    Some(Block { label: block.label.clone(), rest_after: block.rest_after.clone(), ..again })
}
