//! A plan on one screen of a terminal; of an evening what a coach needs while it is run.

use crate::sheet::cone_row::{self, ConeRow};
use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::{cone_ranges, ranges};
use crate::terminal::brief_places::places;
use crate::terminal::go_table::go_table;
use crate::terminal::packed_table::PackedTable;
use crate::terminal::section::{Section, Weight, fitted};
use crate::terminal::table::{WIDTH, heading, item, wrapped};
use crate::words::block_words::{the_other_way, ways};
use crate::words::wave_words::{WHO_GOES_WHEN, goes, who_goes_when_in_waves};
use crate::words::{block_words, capital, caution};

/// The lines of a screen, but for the one on which the next command is typed.
const SCREEN: usize = 23;

/// The lines that the walk takes at least, where it has cones, and those of the line of care.
const LEAST_WALK: usize = 4;
const CARE: usize = 2;

/// One block on one screen, several in as few lines as they need: how it was read, who goes when, where they start and
/// finish, the walk, and a line of care.
pub(crate) fn text(sheet: &Sheet) -> String {
    let care = Section::of_lines(Weight::Must, [caution::IN_A_LINE.to_owned()]).apart();
    let mut sections = vec![Section::of_lines(Weight::Must, title(sheet))];
    let screen = match sheet.blocks.as_slice() {
        [block] => {
            sections.extend(one_block(sheet, block, &sections));
            Some(SCREEN)
        }
        _ => {
            sections.extend(evening(sheet));
            None
        }
    };
    sections.extend([setup(sheet), care]);
    fitted(&sections, screen).join("\n") + "\n"
}

/// What it is, where, and when; what is wrong with it first.
fn title(sheet: &Sheet) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(changed) = &sheet.changed {
        lines.extend(wrapped(changed, WIDTH.into()).into_iter().chain([String::new()]));
    }
    let date = sheet.date.as_ref().map_or_else(String::new, |date| format!(", {date}"));
    let name = match sheet.blocks.as_slice() {
        // Whoever types one block has named it.
        [block] if sheet.title == block.text => block.reading.clone(),
        _ => sheet.title.clone(),
    };
    lines.extend(bold(&format!("{name}{date}")));
    let wind = sheet.wind.as_ref().map(|wind| format!("wind: {wind}"));
    let assumed = Some(caution::MEASURE_LINE.to_owned());
    let facts = [Some(format!("track: {}", sheet.track)), sheet.times.clone(), wind, assumed];
    lines.extend(wrapped(
        &facts.into_iter().flatten().map(|fact| capital(&fact) + ".").collect::<Vec<_>>().join(" "),
        WIDTH.into(),
    ));
    lines.extend(sheet.overrun.iter().map(|line| item("!", line)));
    lines
}

/// A heading of as many lines as it takes.
fn bold(text: &str) -> Vec<String> {
    wrapped(text, WIDTH.into()).iter().map(|line| heading(line)).collect()
}

/// What there is to say of one block below its title.
fn one_block(sheet: &Sheet, block: &SheetBlock, above: &[Section]) -> Vec<Section> {
    let mut lines = Vec::new();
    if sheet.title != block.text {
        lines.extend(bold(&block.reading));
    }
    lines.extend(block.unsure.iter().chain(&block.impossible).map(|line| item("!", line)));
    if block.rows.is_empty() {
        let lasts = block.lasts.as_ref();
        lines.push(lasts.map_or_else(|| "No set place.".to_owned(), |lasts| format!("Lasts {lasts}.")));
    }
    // Whoever runs alone has one row.
    let goes = match block.waves.as_slice() {
        [wave] if !block.has_names() => goes(wave, sheet.begins),
        _ => None,
    };
    let goes = goes.map_or_else(Vec::new, |line| wrapped(&line, WIDTH.into()));
    let of_squad = (block.has_names() || block.has_waves).then(|| table(None, go_table(sheet))).flatten();
    let tables: Vec<Section> = of_squad.into_iter().chain(table(None, places(sheet))).collect();
    let mut sections = vec![Section::of_lines(Weight::Must, lines)];
    // What they share of the screen leaves room for the walk.
    let taken = fitted(above, None).len() + fitted(&sections, None).len() + goes.len() + LEAST_WALK + CARE;
    let (mut left, count) = (SCREEN.saturating_sub(taken), tables.len());
    for (place, table) in tables.into_iter().enumerate() {
        let table = table.at_most(left / (count - place));
        left = left.saturating_sub(fitted(std::slice::from_ref(&table), Some(left)).len());
        sections.push(table);
    }
    let changes = block.changes.iter().map(|line| item("!", line));
    let ways = the_other_way(&block.places).into_iter().chain(ways(block, &block.places));
    let ways = ways.map(|line| item("-", &line));
    let remarks = block.other_remarks.iter().chain(&sheet.notes);
    let details =
        block_words::splits(block).into_iter().chain(block.coach.as_deref().map(block_words::coach));
    sections.extend([
        Section::of_lines(Weight::Run, goes),
        Section::of_lines(Weight::Change, changes.chain(ways)).at_most(left),
        Section::of_lines(Weight::Care, block.cautions.iter().map(|line| item("!", line))),
        Section::of_lines(Weight::Note, remarks.map(|line| item("-", line))),
        Section::of_lines(Weight::Detail, details.map(|line| item("-", &line))),
    ]);
    sections
}

/// A table as a section of its own; nothing where nothing stands in it.
fn table(title: Option<&str>, table: PackedTable) -> Option<Section> {
    (!table.rows.is_empty()).then(|| Section::of_table(Weight::Run, title.map(heading), table, Vec::new()))
}

/// What there is to say of several blocks: how each was read, then what several have in common.
fn evening(sheet: &Sheet) -> Vec<Section> {
    let read = |block: &SheetBlock| {
        let doubts = block.unsure.iter().chain(&block.impossible).map(|line| item("!", line));
        // What stands in no table says here when it begins.
        let when = block.when.as_ref().filter(|_| block.rows.is_empty());
        let when = when.map_or_else(String::new, |when| format!(", {when}"));
        let title = block_words::title(block) + &when;
        [wrapped(&title, usize::from(WIDTH) - 2).join("\n  ")].into_iter().chain(doubts).collect::<Vec<_>>()
    };
    let in_waves = sheet.blocks.iter().find(|block| block.waves.len() > 1);
    let title =
        in_waves.map_or_else(|| WHO_GOES_WHEN.to_owned(), |block| who_goes_when_in_waves(block.number));
    let mut sections = vec![Section::of_lines(Weight::Must, sheet.blocks.iter().flat_map(read)).apart()];
    sections.extend(table(Some(&title), go_table(sheet)));
    sections.extend(table(None, places(sheet)));
    let way = |block: &SheetBlock| {
        let ways = the_other_way(&block.places).into_iter().chain(ways(block, &block.places));
        ways.map(|way| block_words::of_blocks(&way, &[block.number])).collect::<Vec<_>>()
    };
    let ways: Vec<String> = sheet.blocks.iter().flat_map(way).collect();
    sections.extend([
        Section::of_lines(Weight::Must, ways.iter().map(|line| item("-", line))).apart(),
        Section::of_lines(Weight::Must, said_of_blocks(sheet).iter().map(|line| item("!", line))).apart(),
        Section::of_lines(Weight::Must, sheet.notes.iter().map(|line| item("-", line))).apart(),
    ]);
    sections
}

/// What changes how blocks are run and what they come by, once for those that have it in common.
fn said_of_blocks(sheet: &Sheet) -> Vec<String> {
    let mut said: Vec<(&String, Vec<usize>)> = Vec::new();
    for block in &sheet.blocks {
        for words in block.changes.iter().chain(&block.cautions) {
            match said.iter_mut().find(|(known, _)| *known == words) {
                Some((_, blocks)) => blocks.push(block.number),
                None => said.push((words, vec![block.number])),
            }
        }
    }
    said.into_iter().map(|(words, blocks)| block_words::of_blocks(words, &blocks)).collect()
}

/// The walk that sets the cones out.
fn setup(sheet: &Sheet) -> Section {
    if sheet.cones.is_empty() {
        return Section::of_lines(Weight::Walk, sheet.no_cones.map(str::to_owned)).apart();
    }
    let row = |cones: &[ConeRow]| {
        let labels = cone_ranges(cones.iter().map(|cone| cone.label));
        let lanes = ranges(cones.iter().map(|cone| cone.lane.get().into()));
        vec![labels, lanes, cones[0].steps.clone().unwrap_or_default(), cones[0].place.clone()]
    };
    let rows: Vec<Vec<String>> = cone_row::cone_groups(&sheet.cones).map(row).collect();
    let walk =
        [Some(sheet.walk.clone()), sheet.stride.clone()].into_iter().flatten().collect::<Vec<_>>().join(" ");
    let table = PackedTable::new(&["Cone", "Lane", "Steps", "Where"], &rows);
    Section::of_table(Weight::Walk, Some(heading(sheet.walk_title)), table, wrapped(&walk, WIDTH.into()))
}
