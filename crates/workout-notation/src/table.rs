//! Sessions in a table with bars: `Sprints | 4 x 150 | 3 min`.

use std::borrow::Cow;

/// The fewest rows of a table.
const FEWEST: usize = 2;

/// A text with a colon behind the first cell of each row and commas behind the others, every word where it was. The head of
/// a table, which has no number, is blank, and so is the rule below it.
pub(crate) fn without_bars(text: &str) -> Cow<'_, str> {
    let cells = |line: &str| line.trim().trim_matches('|').split('|').count();
    let rows: Vec<&str> = text.lines().filter(|line| cells(line) > 1).collect();
    let has_number = |line: &&&str| line.contains(|letter: char| letter.is_ascii_digit());
    let is_table = rows.iter().filter(has_number).count() >= FEWEST
        && rows.windows(2).all(|pair| cells(pair[0]) == cells(pair[1]));
    if !is_table {
        return Cow::Borrowed(text);
    }
    let row = |line: &str| {
        let is_rule = line.chars().all(|sign| "|-: \r\n".contains(sign));
        let is_head =
            rows.first().is_some_and(|first| line.trim_end() == first.trim_end()) && !has_number(&&line);
        let (start, end) = (
            line.find(|sign: char| !"| ".contains(sign)),
            line.trim_end_matches(['|', ' ', '\r', '\n']).len(),
        );
        let mut bars = 0;
        let sign = |(at, letter): (usize, char)| match letter {
            '\n' | '\r' => letter,
            _ if is_rule || is_head => ' ',
            '|' if start.is_none_or(|start| at < start) || at >= end => ' ',
            '|' => {
                bars += 1;
                if bars == 1 { ':' } else { ',' }
            }
            _ => letter,
        };
        line.char_indices().map(sign).collect::<String>()
    };
    text.split_inclusive('\n')
        .map(|line| if cells(line) > 1 { Cow::Owned(row(line)) } else { Cow::Borrowed(line) })
        .collect::<String>()
        .into()
}

#[cfg(test)]
mod tests {
    use super::without_bars;

    #[test]
    fn rows_of_a_table_are_lines() {
        let text = "Tuesday\n| Group | Session | Rec |\n|---|---|---|\n| Sprints | 4 x 150 | 3 min |\n| Middles | 3 x 500 | 2 min |\n";
        let expected = "Tuesday\n                         \n             \n  Sprints : 4 x 150 , 3 min  \n  Middles : 3 x 500 , 2 min  \n";
        assert_eq!(without_bars(text), expected);
        for text in ["Tuesday | 6pm\n4 x 200", "Tue 6pm | lane 1 shut\n4 x 200 | 2 min | easy"] {
            assert_eq!(without_bars(text), text);
        }
    }
}
