//! How many are in each of several groups, where a line says that and nothing else: `Reds (8), Blues (8)`, `U9 x 12, U11 x 10`.

use crate::line_words::words;
use crate::people::is_group_name;

/// The most in one of them.
const MOST: usize = 200;

/// The groups of a line, and how many are in each.
pub(crate) fn group_counts(line: &str) -> Option<Vec<(String, usize)>> {
    let line = line.trim().trim_end_matches(['.', '!', ':']);
    let parts = line.split([',', ';', '&', '+']).flat_map(|part| part.split(" and "));
    let groups: Vec<(String, usize)> = parts
        .map(|part| counted(part).map(|(name, count)| (name.to_owned(), count)))
        .collect::<Option<_>>()?;
    (groups.len() > 1).then_some(groups)
}

/// `Reds (8)`, `U9 x 12`
pub(crate) fn counted(part: &str) -> Option<(&str, usize)> {
    let part = part.trim();
    let words = words(part);
    let (name_ends, count) = match words.as_slice() {
        [.., open, count, close] if open.text == "(" && close.text == ")" => (open.range.start, count),
        [.., cross, count] if cross.is_one(&["x", "×"]) => (cross.range.start, count),
        _ => return None,
    };
    let name = part[..name_ends].trim();
    let count: usize = count.text.parse().ok().filter(|count| (1..=MOST).contains(count))?;
    // `Girls 4 x 200` are runs.
    let is_count =
        name.split_whitespace().last().is_some_and(|last| last.bytes().all(|byte| byte.is_ascii_digit()));
    (!is_count && is_group_name(name)).then_some((name, count))
}

#[cfg(test)]
mod tests {
    use super::group_counts;

    #[test]
    fn a_line_says_how_many_are_in_each_group() {
        let found = |line: &str| {
            group_counts(line).map(|groups| groups.into_iter().map(|(_, count)| count).collect())
        };
        for (line, counts) in [
            ("Reds (8), Blues (8), Yellows (7)", vec![8, 8, 7]),
            ("U9 x 12, U11 x 10", vec![12, 10]),
            ("Girls (5) and boys (6)", vec![5, 6]),
        ] {
            assert_eq!(found(line), Some(counts), "{line}");
        }
        for line in
            ["Reds (8)", "Girls 4 x 200, boys 5 x 200", "U9 x 12, 4 x 40", "Sprints (Ada, Ben), Reds (8)"]
        {
            assert_eq!(found(line), None::<Vec<usize>>, "{line}");
        }
    }
}
