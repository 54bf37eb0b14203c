//! When everybody goes, by the clock: a row for each wave of a block, which says when it goes again.

use std::borrow::Cow;

use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::ranges;
use crate::sheet::wave::Wave;
use crate::terminal::packed_table::PackedTable;
use crate::words::wave_words::Train;

/// More groups than this have no column each.
const MOST_COLUMNS: usize = 3;

/// Waves as they stand in the table.
struct Entry<'a> {
    block: &'a SheetBlock,
    /// Those of one group, where several run in them.
    waves: Cow<'a, [Wave]>,
    /// Its place among the groups.
    group: usize,
}

impl Entry<'_> {
    /// When the first of them goes first.
    fn go(&self) -> String {
        self.train().first().goes.first().and_then(|go| go.go.clone()).unwrap_or_default()
    }

    fn go_s(&self) -> f64 {
        self.train().first().goes.first().and_then(|go| go.go_s).unwrap_or_default()
    }

    fn again(&self, sheet: &Sheet) -> String {
        self.train().again(&self.block.waves[0], sheet.begins)
    }

    fn train(&self) -> Train<'_> {
        Train(&self.waves)
    }

    /// All of them in a cell of their group.
    fn cell(&self, sheet: &Sheet) -> String {
        let (number, again) = (self.train().number(self.block.number, self.has_others()), self.again(sheet));
        match self.train().numbered(&number) {
            who if who == number && again.is_empty() => number,
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
        let group = groups.get(entry.group).filter(|_| groups.len() > 1).cloned().unwrap_or_default();
        let block = if sheet.blocks.len() > 1 { entry.block.number.to_string() } else { String::new() };
        let waves = entry.waves.iter().filter(|_| entry.has_others()).map(|wave| wave.wave);
        vec![entry.go(), group, block, ranges(waves), entry.train().who(), entry.again(sheet)]
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
    for group in sheet.blocks.iter().flat_map(|block| &block.rows).flat_map(|row| &row.groups) {
        if !groups.contains(group) {
            groups.push(group.clone());
        }
    }
    groups
}

/// The waves of all blocks of which there is something to say; those in which several groups run, once for each.
fn entries<'a>(sheet: &'a Sheet, groups: &[String]) -> Vec<Entry<'a>> {
    let of_block = |block: &'a SheetBlock| {
        let has_names = block.has_names();
        let is_told =
            move |train: &Train<'_>| has_names || train.first().goes.iter().any(|go| go.go_s.is_some());
        let trains = Train::all(&block.waves).into_iter().filter(is_told);
        trains.flat_map(move |train| of_train(block, &train, groups))
    };
    sheet.blocks.iter().flat_map(of_block).collect()
}

fn of_train<'a>(block: &'a SheetBlock, train: &Train<'a>, groups: &[String]) -> Vec<Entry<'a>> {
    let runs_in = |wave: &Wave, group: &String| {
        block.rows.iter().any(|row| row.wave == wave.wave && row.groups.contains(group))
    };
    let own: Vec<(usize, &String)> =
        (0..).zip(groups).filter(|(_, group)| train.0.iter().any(|wave| runs_in(wave, group))).collect();
    match own.as_slice() {
        [] | [_] => {
            let group = own.first().map_or(0, |(place, _)| *place);
            vec![Entry { block, waves: Cow::Borrowed(train.0), group }]
        }
        own => {
            let entry = |&(place, group): &(usize, &String)| {
                let theirs = train.0.iter().filter(|wave| runs_in(wave, group));
                Entry { block, waves: theirs.map(|wave| wave.of_group(group)).collect(), group: place }
            };
            own.iter().map(entry).collect()
        }
    }
}
