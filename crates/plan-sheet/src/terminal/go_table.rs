//! When everybody goes, by the clock: a row for each wave of a block, which says when it goes again.

use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::wave::Wave;
use crate::terminal::packed_table::PackedTable;
use crate::words::wave_words::{again, later, names, wave_number, who};

/// More groups than this have no column each.
const MOST_COLUMNS: usize = 3;

/// A wave as it stands in the table.
struct Entry<'a> {
    block: &'a SheetBlock,
    wave: &'a Wave,
    /// Its place among the groups.
    group: usize,
}

impl Entry<'_> {
    /// When it goes first.
    fn go(&self) -> String {
        self.wave.goes.first().and_then(|go| go.go.clone()).unwrap_or_default()
    }

    fn go_s(&self) -> f64 {
        self.wave.goes.first().and_then(|go| go.go_s).unwrap_or_default()
    }

    /// How long after the first of its block it goes each time.
    fn later(&self) -> Option<String> {
        later(self.wave, &self.block.waves[0])
    }

    /// All of it in a cell of its group.
    fn cell(&self, sheet: &Sheet) -> String {
        let later = self.later();
        let again = if later.is_some() { None } else { again(self.wave, sheet.begins) };
        let later = later.map_or_else(String::new, |later| format!(", {later}"));
        let number = wave_number(self.block.number, self.has_others().then_some(self.wave.wave));
        format!("{number}{later}: {}\n{}", names(self.wave), again.unwrap_or_default())
    }

    /// Whether its block has other waves.
    fn has_others(&self) -> bool {
        self.block.waves.len() > 1
    }
}

/// When the waves of a session go, by the clock: side by side for each of a few groups.
pub(crate) fn go_table(sheet: &Sheet) -> PackedTable {
    let groups = groups(sheet);
    let mut entries = entries(sheet, &groups);
    entries.sort_by(|a, b| a.go_s().total_cmp(&b.go_s()));
    if (2..=MOST_COLUMNS).contains(&groups.len()) {
        return side_by_side(sheet, &groups, &entries);
    }
    let row = |entry: &Entry<'_>| {
        let group = groups.get(entry.group).filter(|_| groups.len() > 1).cloned().unwrap_or_default();
        let block = if sheet.blocks.len() > 1 { entry.block.number.to_string() } else { String::new() };
        let wave = if entry.has_others() { entry.wave.wave.to_string() } else { String::new() };
        let each_time = entry.later().map(|later| format!("each time {later}"));
        let again = each_time.or_else(|| again(entry.wave, sheet.begins)).unwrap_or_default();
        vec![entry.go(), group, block, wave, who(entry.wave), again]
    };
    let rows: Vec<Vec<String>> = entries.iter().map(row).collect();
    PackedTable::new(&["Go", "Group", "Block", "Wave", "Who", "Again"], &rows)
}

/// A column for each group; waves that go at the same moment share a row.
fn side_by_side(sheet: &Sheet, groups: &[String], entries: &[Entry<'_>]) -> PackedTable {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for entry in entries {
        let (go, cell, column) = (entry.go(), entry.cell(sheet), entry.group + 1);
        match rows.last_mut().filter(|row| row[0] == go && row[column].is_empty()) {
            Some(row) => row[column] = cell,
            None => {
                let mut row = vec![String::new(); groups.len() + 1];
                (row[0], row[column]) = (go, cell);
                rows.push(row);
            }
        }
    }
    let header: Vec<&str> = ["Go"].into_iter().chain(groups.iter().map(String::as_str)).collect();
    PackedTable::new(&header, &rows)
}

/// The groups that run, in the order of their blocks.
fn groups(sheet: &Sheet) -> Vec<String> {
    let mut groups: Vec<String> = Vec::new();
    for group in sheet.blocks.iter().flat_map(|block| &block.rows).filter_map(|row| row.group.as_ref()) {
        if !groups.contains(group) {
            groups.push(group.clone());
        }
    }
    groups
}

/// The waves of all blocks of which there is something to say.
fn entries<'a>(sheet: &'a Sheet, groups: &[String]) -> Vec<Entry<'a>> {
    let of_block = |block: &'a SheetBlock| {
        let is_told = |wave: &&Wave| block.has_names() || wave.goes.iter().any(|go| go.go_s.is_some());
        block.waves.iter().filter(is_told).map(move |wave| {
            let group =
                block.rows.iter().find(|row| row.wave == wave.wave).and_then(|row| row.group.as_ref());
            let place = groups.iter().position(|known| Some(known) == group);
            Entry { block, wave, group: place.unwrap_or_default() }
        })
    };
    sheet.blocks.iter().flat_map(of_block).collect()
}
