//! What somebody does with a baton, in words.

use crate::sheet::sheet_row::{SheetBaton, SheetRow};
use crate::sheet::spans::joined;

/// Whom somebody brings the baton in some exchanges, and from whom they take it, with their check mark: `Reps 1, 3: from
/// Ada; check mark 7.8 m back, 26 feet (cone 6), a start`.
pub(crate) fn batons(rows: &[SheetRow], athlete: &str) -> Vec<String> {
    let mut lines: Vec<(String, Vec<u32>)> = Vec::new();
    for row in rows {
        let Some(baton) = &row.baton else { continue };
        let words = baton_words(baton, athlete);
        match lines.iter_mut().find(|(known, _)| *known == words) {
            Some((_, reps)) => reps.push(row.rep),
            None => lines.push((words, vec![row.rep])),
        }
    }
    let line = |(words, reps): (String, Vec<u32>)| {
        let noun = if reps.len() == 1 { "Rep" } else { "Reps" };
        format!("{noun} {}: {words}", joined(&reps))
    };
    lines.into_iter().map(line).collect()
}

fn baton_words(baton: &SheetBaton, athlete: &str) -> String {
    let SheetBaton { incoming, outgoing, check_mark, cone, .. } = baton;
    if incoming == athlete {
        return format!("to {outgoing}, from the run-in.");
    }
    let cone = cone.map_or_else(String::new, |cone| format!(" (cone {cone})"));
    format!("from {incoming}, wait at the start; {}{cone}, a start: tune it.", check_mark.to_lowercase())
}
