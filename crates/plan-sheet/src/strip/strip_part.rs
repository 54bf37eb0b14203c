//! A lane unrolled in parts, where it is longer than a page.

use super::strip_row::{Row, RowKind};
use crate::drawing::lettering::Type;

/// A stretch of a run, as one part of those that show it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Part {
    /// Where it begins and ends, in metres from the start of the run.
    pub(super) ends_m: (f64, f64),
    /// Its number, from 1, and how many there are.
    pub(super) number: usize,
    pub(super) count: usize,
}

/// Parts that are about as high as each other, cut between two rows.
pub(super) fn cuts(rows: &[Row], count: usize, scale: f64, letters: Type) -> Vec<Part> {
    // What a row takes: its words, or the lane from the row before, whichever is more.
    let takes = |index: usize| {
        let before_m = if index == 0 { 0.0 } else { rows[index - 1].from_start_m };
        let lane = (rows[index].from_start_m - before_m) * scale;
        lane.max(rows[index].lines.len() as f64 * letters.leading())
    };
    let all: f64 = (0..rows.len()).map(takes).sum();
    let mut begins = vec![rows[0].from_start_m];
    let (mut next, mut taken) = (0, 0.0);
    for number in 1..count {
        // Every part has a row.
        let (first, last) = (next + 1, rows.len() - (count - number));
        while next < first || (next < last && taken < all * number as f64 / count as f64) {
            taken += takes(next);
            next += 1;
        }
        begins.push(rows[next - 1].from_start_m.midpoint(rows[next].from_start_m));
    }
    let ends = begins[1..].iter().copied().chain(rows.last().map(|row| row.from_start_m));
    let ends_m = begins.iter().copied().zip(ends);
    (1..).zip(ends_m).map(|(number, ends_m)| Part { ends_m, number, count }).collect()
}

impl Part {
    pub(super) fn holds(&self, from_start_m: f64) -> bool {
        (self.ends_m.0..=self.ends_m.1).contains(&from_start_m)
    }

    pub(super) const fn is_first(self) -> bool {
        self.number == 1
    }

    pub(super) const fn is_last(self) -> bool {
        self.number == self.count
    }

    /// Its rows, with one where it is cut, in lines of a width.
    pub(super) fn rows(&self, rows: &[Row], letters: Type, width: f64) -> Vec<Row> {
        let cut = |from_start_m: f64, words: String| Row {
            from_start_m,
            lines: letters.wrapped(&words, width),
            kind: RowKind::Cut,
        };
        let before =
            (!self.is_first()).then(|| cut(self.ends_m.0, format!("comes from part {}", self.number - 1)));
        let after =
            (!self.is_last()).then(|| cut(self.ends_m.1, format!("goes on in part {}", self.number + 1)));
        let own = rows.iter().filter(|row| self.holds(row.from_start_m)).cloned();
        before.into_iter().chain(own).chain(after).collect()
    }
}
