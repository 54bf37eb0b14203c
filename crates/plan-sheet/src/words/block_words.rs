//! What every view in words says of a block.

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::{SheetRow, SheetSplit};
use crate::words::numbers::{listed, to_cm};

/// Its number, its group and how it was read: `Block 1, sprinters: 4 × 150 m`.
pub(crate) fn title(block: &SheetBlock) -> String {
    let group = block.group.as_ref().map_or_else(String::new, |group| format!(", {group}"));
    format!("Block {}{group}: {}", block.number, block.reading)
}

/// The splits at round distances, once for each distance and target; of a pack that is not of one speed, each
/// athlete's.
pub(crate) fn splits(block: &SheetBlock) -> Vec<String> {
    /// More splits than this are left to other views.
    const MOST: usize = 12;
    let mut lines = Vec::new();
    let mut add = |row: &SheetRow, who: &str, splits: &[SheetSplit]| {
        let times: Vec<String> =
            splits.iter().map(|split| format!("{} {}", split.place, split.time)).collect();
        let line = format!("Splits of {} m{who}: {}", to_cm(row.distance_m), times.join(", "));
        if (1..=MOST).contains(&times.len()) && !lines.contains(&line) {
            lines.push(line);
        }
    };
    block.places.iter().for_each(|row| add(&row.run, "", &row.run.splits));
    for row in &block.rows {
        // Those who have the same target share a line.
        for alike in row.own_times.chunk_by(|a, b| a.target == b.target) {
            let names: Vec<&str> = alike.iter().map(|own| own.athlete.as_str()).collect();
            add(row, &format!(" for {} in {}", listed(&names), alike[0].target), &alike[0].splits);
        }
    }
    lines
}
