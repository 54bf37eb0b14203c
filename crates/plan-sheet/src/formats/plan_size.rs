//! How large plans are on a page.

use std::collections::BTreeSet;

use session_plan::{Limit, Plan, PlanBlock};

use crate::formats::rendered::RenderError;

/// Letters that fit on a line of a note.
const LETTERS_OF_A_LINE: usize = 100;

/// Letters of the names that fit beside a run.
const LETTERS_OF_A_NAME: usize = 40;

/// Lines on cards that take as long as one of a plan, measured: they hold less, and stand in more columns.
const CARD_LINES_OF_A_LINE: usize = 2;

/// Lines of a card that say whose it is, and what to take care of.
const LINES_OF_A_CARD: usize = 4;

/// Lines of a card above the runs of a block.
const LINES_OF_A_HEADING: usize = 2;

/// Refuses plans that would take far more pages than anybody prints, with the cards of their athletes where there are
/// some, before the time is spent on them.
///
/// # Errors
///
/// Where they take more lines than the limit.
pub(crate) fn check_size(
    plans: &[Plan],
    has_cards: bool,
    ending: &'static str,
    limit: Limit,
) -> Result<(), RenderError> {
    let of_plans: usize = plans.iter().map(lines).sum();
    let of_cards: usize =
        if has_cards { plans.iter().map(lines_of_cards).sum() } else { 0 } / CARD_LINES_OF_A_LINE;
    let (lines, most) = (of_plans + of_cards, limit.most());
    let or = match limit {
        _ if of_plans <= most => "or no cards",
        Limit::PicturedLines => "or a .pdf file",
        _ => "or a .txt file",
    };
    if lines > most { Err(RenderError::TooLong { ending, lines, most, or }) } else { Ok(()) }
}

/// About how many lines a plan takes: one for each run of each athlete, more where names are long, and its notes.
fn lines(plan: &Plan) -> usize {
    let runs = plan.blocks.iter().flat_map(|block| &block.reps);
    let of_runs = runs.map(|run| 1 + run.athletes.iter().map(String::len).sum::<usize>() / LETTERS_OF_A_NAME);
    let of_notes = plan.notes.iter().map(|note| 1 + note.len() / LETTERS_OF_A_LINE);
    plan.blocks.len() + of_runs.sum::<usize>() + of_notes.sum::<usize>()
}

/// About how many lines the cards of a plan take: one for each run of each athlete, and the words above them.
fn lines_of_cards(plan: &Plan) -> usize {
    let of_blocks =
        plan.blocks.chunks(1).map(|block| runs_of_athletes(block) + LINES_OF_A_HEADING * athletes(block));
    of_blocks.sum::<usize>() + LINES_OF_A_CARD * athletes(&plan.blocks)
}

/// The runs of blocks, each counted for everybody in it.
fn runs_of_athletes(blocks: &[PlanBlock]) -> usize {
    blocks.iter().flat_map(|block| &block.reps).map(|run| run.athletes.len()).sum()
}

/// How many athletes run in blocks.
fn athletes(blocks: &[PlanBlock]) -> usize {
    let runs = blocks.iter().flat_map(|block| &block.reps);
    runs.flat_map(|run| &run.athletes).collect::<BTreeSet<_>>().len()
}
