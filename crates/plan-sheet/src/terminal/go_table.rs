//! When everybody goes, by the clock: a row for each wave of a block, which says when it goes again.

use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::ranges;
use crate::sheet::wave::Wave;
use crate::terminal::packed_table::PackedTable;
use crate::words::wave_words::Train;

/// More groups than this have no column each.
const MOST_COLUMNS: usize = 3;

/// Waves as they stand in the table.
struct Entry<'a> {
    block: &'a SheetBlock,
    train: Train<'a>,
    /// The places of theirs among the groups.
    groups: Vec<usize>,
}

impl Entry<'_> {
    /// When the first of them goes first.
    fn go(&self) -> String {
        self.train.first().goes.first().and_then(|go| go.go.clone()).unwrap_or_default()
    }

    fn go_s(&self) -> f64 {
        self.train.first().goes.first().and_then(|go| go.go_s).unwrap_or_default()
    }

    fn again(&self, sheet: &Sheet) -> String {
        self.train.again(&self.block.waves[0], sheet.begins)
    }

    /// All of them in a cell of their group, or those of one group.
    fn cell(&self, sheet: &Sheet, group: &str) -> String {
        let (number, again) = (self.train.number(self.block.number, self.has_others()), self.again(sheet));
        let own: Vec<Wave> = self.train.0.iter().map(|wave| wave.of_group(group)).collect();
        match Train(&own).numbered(&number) {
            who if who == number => format!("{number}: {again}"),
            who => format!("{who}\n{again}"),
        }
    }

    /// Whether their block has several waves.
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
        let own: Vec<&str> = entry.groups.iter().map(|&place| groups[place].as_str()).collect();
        let group = match own.len() {
            _ if groups.len() < 2 => String::new(),
            all if all == groups.len() => "all".to_owned(),
            _ => own.join(", "),
        };
        let block = if sheet.blocks.len() > 1 { entry.block.number.to_string() } else { String::new() };
        let waves = entry.train.0.iter().filter(|_| entry.has_others()).map(|wave| wave.wave);
        vec![entry.go(), group, block, ranges(waves), entry.train.who(), entry.again(sheet)]
    };
    let rows: Vec<Vec<String>> = entries.iter().map(row).collect();
    PackedTable::new(&["Go", "Group", "Block", "Wave", "Who", "Again"], &rows)
}

/// A column for each group; waves that go at the same moment share a row.
fn side_by_side(sheet: &Sheet, groups: &[String], entries: &[Entry<'_>]) -> PackedTable {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for entry in entries {
        let go = entry.go();
        let is_free = |row: &&mut Vec<String>| {
            row[0] == go && entry.groups.iter().all(|&group| row[group + 1].is_empty())
        };
        if rows.last_mut().filter(is_free).is_none() {
            let mut row = vec![String::new(); groups.len() + 1];
            row[0] = go;
            rows.push(row);
        }
        let Some(row) = rows.last_mut() else { continue };
        entry.groups.iter().for_each(|&group| row[group + 1] = entry.cell(sheet, &groups[group]));
    }
    let header: Vec<&str> = ["Go"].into_iter().chain(groups.iter().map(String::as_str)).collect();
    PackedTable::new(&header, &rows)
}

/// The groups that run, in the order of their blocks.
fn groups(sheet: &Sheet) -> Vec<String> {
    let mut groups: Vec<String> = Vec::new();
    for group in sheet.blocks.iter().flat_map(|block| &block.rows).flat_map(|row| &row.groups) {
        if !groups.contains(group) {
            groups.push(group.clone());
        }
    }
    groups
}

/// The waves of all blocks of which there is something to say.
fn entries<'a>(sheet: &'a Sheet, groups: &[String]) -> Vec<Entry<'a>> {
    let of_block = |block: &'a SheetBlock| {
        let has_names = block.has_names();
        let is_told =
            move |train: &Train<'_>| has_names || train.first().goes.iter().any(|go| go.go_s.is_some());
        let trains = Train::all(&block.waves).into_iter().filter(is_told);
        trains.map(move |train| {
            let of_train = |row: &&SheetRow| row.wave == train.first().wave;
            let own = block.rows.iter().filter(of_train).flat_map(|row| &row.groups);
            let mut places: Vec<usize> =
                own.filter_map(|group| groups.iter().position(|known| known == group)).collect();
            places.sort_unstable();
            places.dedup();
            Entry { block, groups: places, train }
        })
    };
    sheet.blocks.iter().flat_map(of_block).collect()
}
