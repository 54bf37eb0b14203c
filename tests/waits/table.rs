//! The printed tables, at most 100 columns wide.

use std::io::Write as _;

use anyhow::Result;

use crate::spell::{Spell, figures};

/// A line on standard output.
pub(crate) fn say(line: &str) -> Result<()> {
    Ok(writeln!(std::io::stdout(), "{line}")?)
}

fn line(cells: [&str; 4]) -> Result<()> {
    let [what, ours, other, ratio] = cells;
    say(format!("{what:<38} {ours:>25} {other:>25} {ratio:>9}").trim_end())
}

/// The head of a table.
pub(crate) fn head(what: &str, [ours, other, ratio]: [&str; 3]) -> Result<()> {
    say("")?;
    line([what, ours, other, ratio])?;
    say(&"-".repeat(100))
}

/// Two that were timed side by side, and how many times as long the second takes as the first.
pub(crate) fn row(what: &str, [ours, other]: [Spell; 2]) -> Result<()> {
    let ratio = figures(other.median_s / ours.median_s);
    line([what, &ours.to_string(), &other.to_string(), &ratio])
}

/// The same, and how many times as long the first takes as the second.
pub(crate) fn row_of_overhead(what: &str, [ours, other]: [Spell; 2]) -> Result<()> {
    let times = figures(ours.median_s / other.median_s);
    line([what, &ours.to_string(), &other.to_string(), &times])
}

/// Something that was timed alone.
pub(crate) fn row_alone(what: &str, ours: Spell) -> Result<()> {
    line([what, &ours.to_string(), "", ""])
}

/// What a row compares.
pub(crate) fn note(words: &str) -> Result<()> {
    say(&format!("    {words}"))
}

/// A row that cannot be had on this machine.
pub(crate) fn left_out(what: &str, why: &str) -> Result<()> {
    say(&format!("{what}: left out, {why}"))
}
