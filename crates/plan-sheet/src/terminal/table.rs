//! How tables and headings look on a terminal.

use comfy_table::presets::UTF8_HORIZONTAL_ONLY;
use comfy_table::{CellAlignment, ContentArrangement, Table};

/// The width that every terminal view fits.
pub(crate) const WIDTH: u16 = 80;

/// A table with a header; columns whose numbers are given in `right` are set to the right.
pub(crate) fn table(header: &[&str], right: &[usize], rows: impl IntoIterator<Item = Vec<String>>) -> String {
    let mut table = Table::new();
    let mut style = UTF8_HORIZONTAL_ONLY;
    style.row_separator = comfy_table::LineStyle::none();
    table
        .load_style(style)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(WIDTH)
        .set_header(header.to_vec());
    for row in rows {
        table.add_row(row);
    }
    for &column in right {
        if let Some(column) = table.column_mut(column) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    table.trim_fmt()
}

/// A column: whether it is shown, its name, and how a row fills it.
pub(crate) type Column<'a, R> = (bool, &'a str, &'a dyn Fn(&R) -> String);

/// A table of the columns that are shown; the one that is named in `right` is set to the right.
pub(crate) fn columns<R>(rows: &[R], right: &str, columns: &[Column<'_, R>]) -> String {
    let shown: Vec<&Column<'_, R>> = columns.iter().filter(|(is_shown, ..)| *is_shown).collect();
    let header: Vec<&str> = shown.iter().map(|(_, name, _)| *name).collect();
    let right: Vec<usize> = header.iter().position(|name| *name == right).into_iter().collect();
    table(&header, &right, rows.iter().map(|row| shown.iter().map(|(.., cell)| cell(row)).collect()))
}

/// Lines under a heading, each an item; nothing where there are none.
pub(crate) fn list(title: &str, lines: &[String]) -> Option<String> {
    let items: Vec<String> = lines.iter().map(|line| item("-", line)).collect();
    (!items.is_empty()).then(|| format!("{}\n{}", heading(title), items.join("\n")))
}

/// A heading, bold where the terminal can.
pub(crate) fn heading(text: &str) -> String {
    let bold = anstyle::Style::new().bold();
    format!("{bold}{text}{bold:#}")
}

/// Text with a mark in front, broken at spaces so that it fits, the later lines indented.
pub(crate) fn item(mark: &str, text: &str) -> String {
    let indent = mark.chars().count() + 1;
    let lines = wrapped(text, usize::from(WIDTH) - indent);
    format!("{mark} {}", lines.join(&format!("\n{}", " ".repeat(indent))))
}

/// Text broken at spaces so that no line is longer than `width` characters, and within a word that is.
pub(crate) fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace().flat_map(|word| pieces(word, width)) {
        let last = lines
            .last_mut()
            .filter(|line| line.is_empty() || line.chars().count() + 1 + word.chars().count() <= width);
        match last {
            Some(line) if line.is_empty() => line.push_str(word),
            Some(line) => {
                line.push(' ');
                line.push_str(word);
            }
            None => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A word in pieces of so many characters at most.
fn pieces(word: &str, width: usize) -> Vec<&str> {
    let mut pieces = Vec::new();
    let mut rest = word;
    while let Some((at, _)) = rest.char_indices().nth(width.max(1)) {
        let (piece, behind) = rest.split_at(at);
        pieces.push(piece);
        rest = behind;
    }
    pieces.push(rest);
    pieces
}

#[cfg(test)]
mod tests {
    use super::wrapped;

    #[test]
    fn text_is_broken_at_spaces_and_within_long_words() {
        assert_eq!(wrapped("one lap of the track", 8), ["one lap", "of the", "track"]);
        assert_eq!(wrapped("to Ännchenhausen", 6), ["to", "Ännche", "nhause", "n"]);
        assert_eq!(wrapped("", 6), [""]);
    }
}
