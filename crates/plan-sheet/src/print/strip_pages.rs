//! Strips on pages, two side by side.

use serde::Serialize;

/// A picture of a map, or a strip or a part of one that is cut.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct PrintedPicture {
    /// What it shows.
    pub(crate) words: String,
    /// Where it is.
    pub(crate) picture: String,
    /// How high it is, in millimetres.
    pub(crate) height_mm: f64,
}

/// What a page of strips holds: strips that are cut, their parts side by side; below them two columns.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct StripPage {
    rows: Vec<[PrintedPicture; 2]>,
    columns: [Vec<PrintedPicture>; 2],
}

/// How far strips keep from each other, one above the other.
pub(crate) const GAP_MM: f64 = 5.0;

impl StripPage {
    /// Puts strips, each in its parts, on pages with some height of room: each on the first page that still
    /// has room for it, so that they keep about the order of the session.
    pub(crate) fn all(strips: Vec<Vec<PrintedPicture>>, room_mm: f64) -> Vec<Self> {
        let mut pages: Vec<Self> = Vec::new();
        for parts in strips {
            let mut parts = parts.into_iter();
            while let Some(first) = parts.next() {
                match parts.next() {
                    Some(second) => Self::put_row([first, second], room_mm, &mut pages),
                    None => Self::put(first, room_mm, &mut pages),
                }
            }
        }
        pages
    }

    fn put_row(row: [PrintedPicture; 2], room_mm: f64, pages: &mut Vec<Self>) {
        let height_mm = row[0].height_mm.max(row[1].height_mm);
        let has_room = |page: &&mut Self| {
            let column_mm = page.column_mm(0).max(page.column_mm(1));
            page.rows_mm() + column_mm + GAP_MM + height_mm <= room_mm
        };
        match pages.iter_mut().find(has_room) {
            Some(page) => page.rows.push(row),
            None => pages.push(Self { rows: vec![row], ..Self::default() }),
        }
    }

    fn put(strip: PrintedPicture, room_mm: f64, pages: &mut Vec<Self>) {
        for page in pages.iter_mut() {
            for column in 0..2 {
                let taken_mm = page.rows_mm() + page.column_mm(column);
                if taken_mm + GAP_MM + strip.height_mm <= room_mm {
                    page.columns[column].push(strip);
                    return;
                }
            }
        }
        pages.push(Self { columns: [vec![strip], Vec::new()], ..Self::default() });
    }

    /// How high its rows are, with what keeps them from what is below.
    fn rows_mm(&self) -> f64 {
        self.rows.iter().map(|[a, b]| a.height_mm.max(b.height_mm) + GAP_MM).sum()
    }

    fn column_mm(&self, column: usize) -> f64 {
        self.columns[column].iter().map(|strip| strip.height_mm + GAP_MM).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strip(height_mm: f64) -> Vec<PrintedPicture> {
        vec![PrintedPicture { words: String::new(), picture: String::new(), height_mm }]
    }

    fn heights(column: &[PrintedPicture]) -> Vec<f64> {
        column.iter().map(|strip| strip.height_mm).collect()
    }

    #[test]
    fn low_strips_fill_the_room_that_high_ones_leave() {
        let pages = StripPage::all([120.0, 150.0, 160.0, 70.0, 230.0].map(strip).to_vec(), 240.0);
        let columns: Vec<[Vec<f64>; 2]> =
            pages.iter().map(|page| [heights(&page.columns[0]), heights(&page.columns[1])]).collect();
        let expected = [[vec![120.0, 70.0], vec![150.0]], [vec![160.0], vec![230.0]]];
        assert_eq!(columns, expected);
    }

    #[test]
    fn the_parts_of_a_strip_lie_side_by_side_on_one_page() {
        let cut = || [strip(130.0), strip(125.0)].concat();
        let pages = StripPage::all(vec![strip(100.0), cut(), cut(), [cut(), strip(90.0)].concat()], 240.0);
        let rows: Vec<usize> = pages.iter().map(|page| page.rows.len()).collect();
        assert_eq!(rows, [1, 1, 1]);
        assert_eq!(heights(&pages[0].columns[1]), [90.0]);
    }
}
