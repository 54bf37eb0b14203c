//! Tables of texts and what each is read as, with an arrow between them.

/// Holds a table of at least so many rows to what a function makes of its texts.
pub(crate) fn check(table: &str, fewest: usize, read: impl Fn(&str) -> String) {
    let rows: Vec<(&str, &str)> = table
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .map(|line| line.split_once(" => ").expect("an arrow stands in each line"))
        .collect();
    assert!(rows.len() >= fewest, "{} are too few", rows.len());
    let wrong = |&(text, expected): &(&str, &str)| {
        let found = read(text);
        (found != expected).then(|| format!("{text} => {found}\n    not {expected}"))
    };
    let wrong: Vec<String> = rows.iter().filter_map(wrong).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}
