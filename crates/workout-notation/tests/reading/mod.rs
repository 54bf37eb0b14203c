//! Everything that is read of a text, in lines.

use std::fmt::Debug;
use std::ops::Range;

use workout_notation::{Block, Body, Details, Gap, Item, Part, Problem, Series, Spanned, Step, Workout};

/// Everything that is read of a text, each line indented: the session, its parts and their blocks, or its problems.
///
/// A block is its canonical form with what stands beside it (`[label]`, `then` the rest after it, `{aside}`,
/// `<not read>`), and under it the words that each of its parts was read from, the rests between its runs (`2:90` is one of
/// the second set), where it begins in the text, and what is in doubt.
pub(crate) fn reading(text: &str) -> String {
    match Workout::parse(text) {
        Ok(workout) => {
            let parts =
                workout.parts.iter().map(|part| format!("{}{}", of_part(part), of_blocks(&part.blocks)));
            format!("{}{}", of_session(&workout), parts.collect::<String>())
        }
        Err(problems) => of_problems(&problems),
    }
}

fn of_problems(problems: &[Problem]) -> String {
    let of =
        |problem: &Problem| format!("  ! {}..{} {}\n", problem.span.start, problem.span.end, problem.message);
    problems.iter().map(of).collect()
}

/// A value and the word in front of it.
fn said(word: &str, value: Option<impl Debug>) -> String {
    value.map(|value| format!(" {word} {value:?}")).unwrap_or_default()
}

fn of_session(workout: &Workout) -> String {
    let Workout { title, date, begins, ends, watches, late, closed_lanes, .. } = workout;
    let late: String = late.iter().map(|late| format!(" late {} {:?}", late.name, late.begins)).collect();
    let closed = (!closed_lanes.is_empty()).then_some(closed_lanes);
    let line = [
        said("title", title.as_ref()),
        said("date", *date),
        said("from", *begins),
        said("to", *ends),
        said("by", watches.as_ref()),
        late,
        said("closed", closed),
    ];
    let line = line.concat();
    if line.is_empty() { line } else { format!(" {line}\n") }
}

fn of_part(part: &Part) -> String {
    let athletes = (!part.athletes.is_empty()).then_some(&part.athletes);
    let line = [
        said("group", part.group.as_ref()),
        said("of", athletes),
        said("from", part.begins),
        said("to", part.ends),
    ];
    let line = line.concat();
    if line.is_empty() { line } else { format!(" {line}\n") }
}

fn of_blocks(blocks: &[Block]) -> String {
    blocks.iter().map(of_block).collect()
}

fn of_block(block: &Block) -> String {
    let label = block.label.as_ref().map(|label| format!("[{label}] ")).unwrap_or_default();
    let rest = block.rest_after.as_ref().map(|rest| format!(" then {} `{}`", rest.seconds, rest.text));
    let asides: String = block.asides.iter().map(|aside| format!(" {{{aside}}}")).collect();
    let not_read: String = block.not_read.iter().map(|words| format!(" <{words}>")).collect();
    let body = match &block.body {
        Body::Runs(series) => {
            let mut spans = Vec::new();
            spans_of_series(series, &mut spans);
            spans.sort_by_key(|span| (span.start, span.end));
            spans.dedup();
            let words: Vec<&str> = spans.into_iter().map(|span| &block.text[span]).collect();
            format!("\n    {}{}", words.join(" · "), of_steps(&block.steps()))
        }
        Body::Note { lasts_s, length, .. } => {
            format!("{}{}", said("lasts", *lasts_s), said("far", length.as_ref()))
        }
    };
    let start = if block.start == 0 { String::new() } else { format!(" @{}", block.start) };
    let doubts: String = block.doubts.iter().map(|doubt| format!("\n    ? {doubt:?}")).collect();
    format!("  {label}{block}{}{asides}{not_read}{body}{start}{doubts}\n", rest.unwrap_or_default())
}

/// The sets of the runs and the times between them, where these are not all alike.
fn of_steps(steps: &[Step<'_>]) -> String {
    let mut listed: Vec<(String, u32)> = Vec::new();
    for step in steps {
        let gap = match step.gap {
            Some(Gap::Rest(seconds)) => format!("{seconds}"),
            Some(Gap::Cycle(seconds)) => format!("every {seconds}"),
            None => "-".to_owned(),
        };
        let step = format!("{}:{gap}", step.set);
        match listed.last_mut() {
            Some((last, count)) if *last == step => *count += 1,
            _ => listed.push((step, 1)),
        }
    }
    // The last run has none behind it.
    if listed.len() <= 2 {
        return String::new();
    }
    let listed =
        listed.into_iter().map(|(step, count)| if count == 1 { step } else { format!("{count}x{step}") });
    format!(" | {}", listed.collect::<Vec<_>>().join(" "))
}

fn spans_of_series(series: &Series, spans: &mut Vec<Range<usize>>) {
    spans_of_details(&series.details, spans);
    for item in &series.items {
        match item {
            Item::Run(run) => {
                spans.push(run.kind.span.clone());
                spans_of_details(&run.details, spans);
            }
            Item::Series(series) => spans_of_series(series, spans),
        }
    }
}

fn spans_of_details(details: &Details, spans: &mut Vec<Range<usize>>) {
    fn of<T>(value: Option<&Spanned<T>>) -> Option<Range<usize>> {
        value.map(|value| value.span.clone())
    }
    let Details { effort, pace, lanes, place, stance, from, to, together, recovery } = details;
    let found = [
        of(effort.as_ref()),
        of(pace.as_ref()),
        of(lanes.as_ref()),
        of(place.as_ref()),
        of(stance.as_ref()),
        of(from.as_ref()),
        of(to.as_ref()),
        of(together.as_ref()),
        of(recovery.kind.as_ref()),
        of(recovery.gap.as_ref()),
        of(recovery.set_rest.as_ref()),
        of(recovery.after.as_ref()),
    ];
    spans.extend(found.into_iter().flatten());
}
