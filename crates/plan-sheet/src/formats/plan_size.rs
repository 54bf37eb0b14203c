//! How large plans are on a page.

use session_plan::{Limit, Plan};

use crate::formats::rendered::RenderError;

/// Letters that fit on a line of a note.
const LETTERS_OF_A_LINE: usize = 100;

/// Letters of the names that fit beside a run.
const LETTERS_OF_A_NAME: usize = 40;

/// Refuses plans that would take far more pages than anybody prints, before the time is spent on them.
///
/// # Errors
///
/// Where they take more lines than the limit.
pub(crate) fn check_size(plans: &[Plan], ending: &'static str, limit: Limit) -> Result<(), RenderError> {
    let (lines, most) = (plans.iter().map(lines).sum::<usize>(), limit.most());
    if lines > most { Err(RenderError::TooLong { ending, lines, most }) } else { Ok(()) }
}

/// About how many lines a plan takes: one for each run of each athlete, more where names are long, and its notes.
fn lines(plan: &Plan) -> usize {
    let runs = plan.blocks.iter().flat_map(|block| &block.reps);
    let of_runs = runs.map(|run| 1 + run.athletes.iter().map(String::len).sum::<usize>() / LETTERS_OF_A_NAME);
    let of_notes = plan.notes.iter().map(|note| 1 + note.len() / LETTERS_OF_A_LINE);
    plan.blocks.len() + of_runs.sum::<usize>() + of_notes.sum::<usize>()
}
