//! Parts of a view that must fit a screen, of which the less important give way.

use crate::terminal::packed_table::PackedTable;

/// What a part of a view gives way to. Those above stay where there is no room for all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Weight {
    /// It stands whatever happens.
    Must,
    /// What is run, when, and where.
    Run,
    /// What changes how it is run.
    Change,
    /// Where the cones stand.
    Walk,
    /// What it comes by.
    Care,
    /// What else there is to know.
    Note,
    /// What a coach or a watch wants to know.
    Detail,
}

/// A part of a view.
pub(crate) struct Section {
    weight: Weight,
    /// Whether an empty line stands above it.
    is_apart: bool,
    /// What a table is called, and the names of its columns.
    title: Option<String>,
    header: Vec<String>,
    /// The lines of each row.
    rows: Vec<Vec<String>>,
    /// What stands below them.
    below: Vec<String>,
    /// The most lines that it takes of a screen.
    most: usize,
}

impl Section {
    /// Lines, each of which can be left out where there is no room.
    pub(crate) fn of_lines(weight: Weight, lines: impl IntoIterator<Item = String>) -> Self {
        let rows = lines.into_iter().map(|text| text.split('\n').map(str::to_owned).collect()).collect();
        Self {
            weight,
            is_apart: false,
            title: None,
            header: Vec::new(),
            rows,
            below: Vec::new(),
            most: usize::MAX,
        }
    }

    /// A table with what it is called and what stands below it.
    pub(crate) fn of_table(
        weight: Weight,
        title: Option<String>,
        table: PackedTable,
        below: Vec<String>,
    ) -> Self {
        let PackedTable { header, rows } = table;
        // A table can be cut within a row, unlike a sentence.
        let rows = rows.into_iter().flatten().map(|line| vec![line]).collect();
        Self { weight, is_apart: true, title, header, rows, below, most: usize::MAX }
    }

    /// With an empty line above it.
    pub(crate) fn apart(self) -> Self {
        Self { is_apart: true, ..self }
    }

    /// With so many lines at most, where a screen is short.
    pub(crate) fn at_most(self, most: usize) -> Self {
        Self { most, ..self }
    }

    fn is_table(&self) -> bool {
        !self.header.is_empty()
    }

    /// Its lines, in so many where a number is given.
    fn lines(&self, room: Option<usize>) -> Vec<String> {
        if self.rows.is_empty() {
            return Vec::new();
        }
        let room = room.filter(|_| self.weight != Weight::Must);
        let shown = room.map_or(self.rows.len(), |room| self.rows_in(room));
        if shown == 0 && !self.is_table() {
            return Vec::new();
        }
        let apart = self.is_apart.then(String::new);
        let header = self.header.iter().filter(|_| shown > 0);
        let more = (shown < self.rows.len() && self.is_table()).then(|| "… more: --full".to_owned());
        let rows = self.rows[..shown].iter().flatten();
        (apart.iter().chain(&self.title).chain(header))
            .chain(rows)
            .chain(&more)
            .chain(&self.below)
            .cloned()
            .collect()
    }

    /// How many of its rows fit with all that stands around them; that rows of a table are left out takes a line.
    fn rows_in(&self, room: usize) -> usize {
        let around =
            usize::from(self.is_apart) + self.title.iter().count() + self.header.len() + self.below.len();
        let room = room.min(self.most).saturating_sub(around);
        if self.rows.iter().map(Vec::len).sum::<usize>() <= room {
            return self.rows.len();
        }
        let heights = self.rows.iter().scan(usize::from(self.is_table()), |sum, row| {
            *sum += row.len();
            Some(*sum)
        });
        heights.take_while(|&height| height <= room).count()
    }
}

/// Sections one below the other: in so many lines where a number is given, the weightiest first.
pub(crate) fn fitted(sections: &[Section], mut room: Option<usize>) -> Vec<String> {
    let mut order: Vec<usize> = (0..sections.len()).collect();
    order.sort_by_key(|&place| sections[place].weight);
    let mut lines: Vec<Vec<String>> = vec![Vec::new(); sections.len()];
    for place in order {
        lines[place] = sections[place].lines(room);
        room = room.map(|room| room.saturating_sub(lines[place].len()));
    }
    lines.concat()
}
