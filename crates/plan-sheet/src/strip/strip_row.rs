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
pub(super) fn rows(ribbon: &Ribbon, letters: Type, width: f64) -> Vec<Row> {
    let wrapped = |words: &str, bold: bool| Type { bold, ..letters }.wrapped(words, width);
    let mut rows = vec![Row {
        from_start_m: 0.0,
        lines: wrapped(&format!("start: {}", ribbon.start), true),
        kind: RowKind::End,
    }];
    let mut places: Vec<(f64, String)> = Vec::new();
    for passed in &ribbon.passed {
        let words = match passed.colour.as_str() {
            "white" => passed.name.clone(),
            colour => format!("{} ({colour})", passed.name),
        };
        match places.last_mut() {
            Some((at_m, known)) if (passed.from_start_m - *at_m).abs() < 0.005 => {
                *known += &format!("; {words}")
            }
            _ => places.push((passed.from_start_m, words)),
        }
    }
    rows.extend(places.into_iter().map(|(from_start_m, words)| Row {
        from_start_m,
        lines: wrapped(&words, false),
        kind: RowKind::Paint,
    }));
    let finish = format!("finish: {}", ribbon.finish);
    rows.push(Row { from_start_m: ribbon.shown_m, lines: wrapped(&finish, true), kind: RowKind::End });
    rows
}
