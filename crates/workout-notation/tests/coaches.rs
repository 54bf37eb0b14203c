//! Every line of `coaches.txt` is read as it says: blocks in their canonical form, labels, what is kept beside them, and
//! what is not read.

mod table;

use workout_notation::{Block, Workout};

const TABLE: &str = include_str!("coaches.txt");

/// The fewest lines that the table must hold.
const FEWEST: usize = 180;

/// A block as the table has it: `[label] block then rest {aside} <not read>`.
fn told(block: &Block) -> String {
    let label = block.label.as_ref().map(|label| format!("[{label}] ")).unwrap_or_default();
    let rest = block.rest_after.as_ref().map(|rest| format!(" then {} s", rest.seconds)).unwrap_or_default();
    let asides: String = block.asides.iter().map(|aside| format!(" {{{aside}}}")).collect();
    let not_read: String = block.not_read.iter().map(|words| format!(" <{words}>")).collect();
    format!("{label}{block}{rest}{asides}{not_read}")
}

fn read(text: &str) -> String {
    match Workout::parse(text) {
        Ok(workout) => workout.blocks().map(told).collect::<Vec<_>>().join("; "),
        Err(problems) => format!("refused: {}", problems[0].message),
    }
}

#[test]
fn every_line_is_read_as_the_table_says() {
    table::check(TABLE, FEWEST, read);
}

#[test]
fn every_block_of_the_table_is_read_again_as_it_prints() {
    let texts = TABLE.lines().filter_map(|line| Some(line.split_once(" => ")?.0));
    let blocks = texts.filter_map(|text| Workout::parse(text).ok()).flat_map(Workout::into_blocks);
    let changed = |block: Block| {
        let again = Block::parse(&block.to_string());
        (again.as_ref() != Ok(&block)).then(|| format!("{} => {block}", block.text))
    };
    let changed: Vec<String> = blocks.filter_map(changed).collect();
    assert!(changed.is_empty(), "\n{}", changed.join("\n"));
}

#[test]
fn no_line_is_twice_in_the_table() {
    let mut texts: Vec<&str> = TABLE.lines().filter_map(|line| Some(line.split_once(" => ")?.0)).collect();
    let count = texts.len();
    texts.sort_unstable();
    texts.dedup();
    assert_eq!(texts.len(), count);
}
