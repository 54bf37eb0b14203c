//! The lines of words beside a lane unrolled.

use super::ribbon::Ribbon;
use crate::drawing::lettering::Type;

/// What a strip says of a place on the way, in one line or several.
#[derive(Clone)]
pub(super) struct Row {
    pub(super) from_start_m: f64,
    pub(super) lines: Vec<String>,
    pub(super) kind: RowKind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum RowKind {
    /// Where the run starts or finishes.
    End,
    Paint,
    /// Where a strip is cut and goes on in another part.
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
    let mut places: Vec<(f64, String)> = Vec::new();
    for passed in &ribbon.passed {
        let words = passed.mark.look_for();
        match places.last_mut() {
            Some((at_m, known)) if (passed.from_start_m - *at_m).abs() < 0.005 => {
                *known += &format!("; {words}")
            }
            _ => places.push((passed.from_start_m, words)),
        }
    }
    let row = |(from_start_m, words): (f64, String), kind: RowKind| Row {
        from_start_m,
        lines: Type { bold: kind == RowKind::End, ..letters }.wrapped(&words, width),
        kind,
    };
    let mut rows = vec![row((0.0, format!("start: {}", ribbon.start)), RowKind::End)];
    rows.extend(places.into_iter().map(|place| row(place, RowKind::Paint)));
    rows.push(row((ribbon.shown_m, format!("finish: {}", ribbon.finish)), RowKind::End));
    rows
}
