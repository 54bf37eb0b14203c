//! What is read of many texts, so that a change of it is seen before it is made.
//!
//! `kept.txt` holds what the crate makes of them today. It does not say that this is right: `coaches.txt`, `groups.txt` and
//! `wrong_workouts.txt` were looked at one by one, and say that. Many of these texts are slips, lines that are only half
//! written, or numbers that nobody means.

mod reading;

use reading::reading;

const KEPT: &str = include_str!("kept.txt");

/// The fewest texts that the table must hold.
const FEWEST: usize = 2000;

/// The lines of the table that are texts, in which `\n` ends a line.
fn texts() -> impl Iterator<Item = &'static str> {
    KEPT.lines().filter(|line| !line.is_empty() && !line.starts_with("  ") && !line.starts_with("# "))
}

/// The table with what is read now.
fn read() -> String {
    let of_line = |line: &str| match line {
        "" => "\n".to_owned(),
        _ if line.starts_with("  ") => String::new(),
        _ if line.starts_with("# ") => format!("{line}\n"),
        text => format!("{text}\n{}", reading(&text.replace("\\n", "\n"))),
    };
    KEPT.lines().map(of_line).collect()
}

#[test]
fn every_text_is_read_as_it_was() {
    snapbox::assert_data_eq!(read(), snapbox::file!["kept.txt"].raw());
}

#[test]
fn the_table_holds_enough_texts_and_none_twice() {
    let mut texts: Vec<&str> = texts().collect();
    assert!(texts.len() >= FEWEST, "{} are too few", texts.len());
    texts.sort_unstable();
    let twice = texts.windows(2).find(|pair| pair[0] == pair[1]);
    assert_eq!(twice, None);
}
