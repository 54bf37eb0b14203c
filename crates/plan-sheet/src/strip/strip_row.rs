//! The lines of words beside a lane unrolled.

use super::ribbon::{Ribbon, SAME_PLACE_M};
use super::strip_part::Part;
use crate::drawing::lettering::Type;
use crate::words::numbers::to_cm;

/// What a strip says of a place on the way, in one line or several.
#[derive(Clone)]
pub(super) struct Row {
    pub(super) from_start_m: f64,
    pub(super) lines: Vec<String>,
    pub(super) kind: RowKind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum RowKind {
    /// Where the run starts or finishes, or its run-in begins.
    End,
    Paint,
    /// Where the incoming runner is when the outgoing one sets off.
    CheckMark,
    /// Where the rest is left out.
    Cut,
}

impl Row {
    /// How far it is from the start; nothing where no one need find the place.
    pub(super) fn metres(&self) -> Option<String> {
        (self.kind != RowKind::Cut).then(|| format!("{:.2}", self.from_start_m))
    }
}

/// What is passed, in order, from start to finish, in lines of a width; paint at one place shares a row.
pub(super) fn rows(ribbon: &Ribbon<'_>, letters: Type, width: f64) -> Vec<Row> {
    let mut places: Vec<(f64, RowKind, String)> = Vec::new();
    for passed in &ribbon.passed {
        let words = passed.mark.look_for();
        match places.last_mut() {
            Some((at_m, _, known)) if (passed.from_start_m - *at_m).abs() < SAME_PLACE_M => {
                *known += &format!("; {words}")
            }
            _ => places.push((passed.from_start_m, RowKind::Paint, words)),
        }
    }
    let mut marks: Vec<(f64, Vec<String>)> = Vec::new();
    for mark in &ribbon.check_marks {
        let lane = if ribbon.has_lanes() { format!(" (lane {})", mark.lane) } else { String::new() };
        let whose = format!("{}{lane}", mark.handing);
        match marks.iter_mut().find(|(at_m, _)| (*at_m - mark.from_start_m).abs() < SAME_PLACE_M) {
            Some((_, known)) => known.push(whose),
            None => marks.push((mark.from_start_m, vec![whose])),
        }
    }
    let mark = |(at_m, whose): (f64, Vec<String>)| {
        (at_m, RowKind::CheckMark, format!("check mark: {}", whose.join(", ")))
    };
    places.extend(marks.into_iter().map(mark));
    let start = |at_m: f64, words: &str| (at_m, RowKind::End, format!("{words}: {}", ribbon.start));
    match &ribbon.run_in {
        None => places.push(start(0.0, "start")),
        Some(run_in) => {
            let words = if run_in.is_of_baton { "run-in" } else { "stand" };
            places.push((0.0, RowKind::End, format!("{words}: {}", run_in.place)));
            places.push(start(run_in.metres, if run_in.is_of_baton { "outgoing" } else { "fast part" }));
        }
    }
    places.push((ribbon.shown_m, RowKind::End, format!("finish: {}", ribbon.finish)));
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let row = |(from_start_m, kind, words): (f64, RowKind, String)| Row {
        from_start_m,
        lines: Type { bold: kind == RowKind::End, ..letters }.wrapped(&words, width),
        kind,
    };
    places.into_iter().map(row).collect()
}

/// The rows of a part, with one where the rest is left out, in lines of a width.
pub(super) fn rows_of(part: Part, rows: &[Row], letters: Type, width: f64) -> Vec<Row> {
    let cut = |from_start_m: f64| Row {
        from_start_m,
        lines: letters.wrapped(&format!("{} m left out", to_cm(part.left_out_m)), width),
        kind: RowKind::Cut,
    };
    let before = (!part.is_first()).then(|| cut(part.ends_m.0));
    let after = (!part.is_last()).then(|| cut(part.ends_m.1));
    let own = rows.iter().filter(|row| part.holds(row.from_start_m)).cloned();
    before.into_iter().chain(own).chain(after).collect()
}
