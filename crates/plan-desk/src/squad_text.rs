//! Who runs, as copied from a spreadsheet.

use std::ops::Range;

use session_plan::{AgeGroup, Athlete, Bests, Group, Limit, Session};
use workout_notation::SourceText;

use crate::problem::{Field, Problem, Problems};

/// What the heading of a column of names is called.
const NAMES: [&str; 5] = ["name", "names", "athlete", "athletes", "runner"];

/// What the heading of a column of groups is called.
const GROUPS: [&str; 3] = ["group", "squad", "team"];

/// What the heading of a column of ages is called.
const AGES: [&str; 3] = ["age", "age group", "class"];

/// The group of those for whom none is given.
const SQUAD: &str = "squad";

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Column {
    Name,
    Group,
    Age,
    /// Bests over a distance, in metres.
    Best(f64),
    /// Bests, each with its distance.
    AnyBest,
    /// What nobody knows; that has been said.
    Unknown,
}

/// A cell and its bytes in the text.
#[derive(Clone, Copy, Debug)]
struct Cell<'a> {
    text: &'a str,
    start: usize,
}

impl Cell<'_> {
    const fn span(&self) -> Range<usize> {
        self.start..self.start + self.text.len()
    }

    fn is_one_of(&self, words: &[&str]) -> bool {
        words.iter().any(|word| self.text.eq_ignore_ascii_case(word))
    }
}

/// Adds those of a text to a session. Each line is an athlete: a name, then bests such as `200 28.9`. A first line with
/// the headings `name`, `group`, `age` and distances says what the columns hold; a line that ends in a colon begins a group.
pub(crate) fn add_squad(session: &mut Session, text: &str) -> Result<(), Problems> {
    if text.trim().is_empty() {
        return Ok(());
    }
    let source = SourceText::new("squad", text);
    if source.text().len() > Limit::TextBytes.most() {
        let message = format!("the squad is too long: at most {} bytes", Limit::TextBytes.most());
        return Err(Problem::new(Field::Squad, message).into());
    }
    let mut reader = Reader { source: &source, columns: None, group: None, told: Vec::new() };
    let mut start = 0;
    for line in source.text().split_inclusive('\n') {
        reader.line(session, line.trim_end_matches('\n'), start);
        start += line.len();
    }
    let count: usize = session.groups.iter().map(|group| group.athletes.len()).sum();
    if count > Limit::Athletes.most() {
        let message = format!("{count} athletes are too many: at most {}", Limit::Athletes.most());
        return Err(Problem::new(Field::Squad, message).into());
    }
    if reader.told.is_empty() { Ok(()) } else { Err(Problems { told: reader.told, more: 0 }) }
}

struct Reader<'a> {
    source: &'a SourceText,
    /// What the columns hold, where the text says it.
    columns: Option<Vec<Column>>,
    /// The group that the lines belong to, where the text says it.
    group: Option<String>,
    told: Vec<Problem>,
}

impl Reader<'_> {
    fn problem(&mut self, span: &Range<usize>, message: String, help: &str) {
        let words = (message, Some(help.to_owned()));
        self.told.push(Problem::in_text(Field::Squad, self.source, span, words));
    }

    fn line(&mut self, session: &mut Session, line: &str, start: usize) {
        let cells = cells(line, start);
        let Some(first) = cells.first().copied() else { return };
        if let ([only], Some(group)) = (cells.as_slice(), first.text.strip_suffix(':'))
            && !only.text.contains(char::is_numeric)
        {
            self.group = Some(group.trim().to_owned());
        } else if self.columns.is_none() && first.is_one_of(&NAMES) {
            self.columns = Some(self.headings(&cells));
        } else if self.columns.is_none()
            && cells.len() > 1
            && cells.iter().all(|cell| !cell.text.contains(char::is_numeric))
        {
            // Names alone, in one line.
            for cell in cells {
                self.athlete(session, &[cell]);
            }
        } else {
            self.athlete(session, &cells);
        }
    }

    fn headings(&mut self, cells: &[Cell<'_>]) -> Vec<Column> {
        let column = |cell: &Cell<'_>| {
            if cell.is_one_of(&NAMES) {
                Column::Name
            } else if cell.is_one_of(&GROUPS) {
                Column::Group
            } else if cell.is_one_of(&AGES) {
                Column::Age
            } else {
                workout_notation::race_distance(cell.text).map_or(Column::Unknown, Column::Best)
            }
        };
        let columns: Vec<Column> = cells.iter().map(column).collect();
        for (cell, column) in cells.iter().zip(&columns) {
            if *column == Column::Unknown && !cell.text.is_empty() {
                let message = format!("`{}` is not a heading that is known", cell.text);
                self.problem(
                    &cell.span(),
                    message,
                    "write `name`, `group`, `age`, or a distance such as `200`",
                );
            }
        }
        columns
    }

    fn athlete(&mut self, session: &mut Session, cells: &[Cell<'_>]) {
        let columns = self.columns.clone();
        let column = |place: usize| match &columns {
            Some(columns) => columns.get(place).copied().unwrap_or(Column::AnyBest),
            None if place == 0 => Column::Name,
            None => Column::AnyBest,
        };
        let (mut athlete, mut bests) = (Athlete::default(), Vec::new());
        let mut group = self.group.clone();
        let mut named = None;
        for (place, cell) in cells.iter().enumerate().filter(|(_, cell)| !cell.text.is_empty()) {
            match column(place) {
                Column::Name => {
                    athlete.name = cell.text.to_owned();
                    named = Some(*cell);
                }
                Column::Group => group = Some(cell.text.to_owned()),
                Column::Age => match cell.text.parse::<AgeGroup>() {
                    Ok(age) => athlete.age = Some(age),
                    Err(_) => self.problem(
                        &cell.span(),
                        format!("`{}` is not an age group", cell.text),
                        "write one of `U11`, `U13`, `U15`, `U17`, `U20`, `senior`, or for example `M50`",
                    ),
                },
                Column::Best(metres) => bests.extend(self.best(metres, *cell)),
                Column::AnyBest => bests.extend(self.best_with_distance(*cell)),
                Column::Unknown => {}
            }
        }
        let Some(name) = named else {
            let at = cells.first().map_or(0..0, Cell::span);
            self.problem(
                &at,
                "this line has no name".to_owned(),
                "write the name in front, for example `Ada, 200 28.9`",
            );
            return;
        };
        athlete.bests = Bests::new(bests, session.bests.exponent);
        let known = session.groups.iter().flat_map(|group| &group.athletes);
        if known.into_iter().any(|known| known.name.eq_ignore_ascii_case(&athlete.name)) {
            let message = format!("two athletes are called `{}`", athlete.name);
            self.problem(&name.span(), message, "add an initial to one of the names");
            return;
        }
        if name.text.chars().count() > Limit::NameLetters.most() {
            let message = format!("a name is too long: at most {} letters", Limit::NameLetters.most());
            self.problem(&name.span(), message, "make it shorter");
            return;
        }
        self.join(session, athlete, group, &name.span());
    }

    /// Puts an athlete into their group.
    fn join(&mut self, session: &mut Session, athlete: Athlete, group: Option<String>, at: &Range<usize>) {
        let name = match (group, session.groups.as_slice()) {
            (Some(name), _) => name,
            (None, []) => SQUAD.to_owned(),
            (None, [only]) => only.name.clone(),
            (None, several) => {
                let names: Vec<String> = several.iter().map(|group| format!("`{}`", group.name)).collect();
                let message = format!("nothing says in which group {} is", athlete.name);
                let help = format!(
                    "add a line such as `{}:` above the names, or a column `group`; the groups are {}",
                    several[0].name,
                    names.join(", ")
                );
                self.problem(at, message, &help);
                return;
            }
        };
        let is_it = |group: &Group| group.name.to_lowercase() == name.to_lowercase();
        match session.groups.iter().position(is_it) {
            Some(place) => session.groups[place].athletes.push(athlete),
            None if session.groups.len() >= Limit::Groups.most() => {
                let message = format!("too many groups: at most {}", Limit::Groups.most());
                self.problem(at, message, "put some of them together");
            }
            None => {
                let bests = Bests::new(Vec::new(), session.bests.exponent);
                session.groups.push(Group { name, athletes: vec![athlete], bests, ..Group::default() });
            }
        }
    }

    /// A best in the column of a distance.
    fn best(&mut self, metres: f64, cell: Cell<'_>) -> Option<(f64, f64)> {
        match workout_notation::seconds(cell.text) {
            Ok(seconds) => Some((metres, seconds)),
            Err(_) => {
                let message = format!("`{}` is not a time", cell.text);
                self.problem(&cell.span(), message, "write for example `28.9` or `2:20.5`");
                None
            }
        }
    }

    /// A best that is written with its distance.
    fn best_with_distance(&mut self, cell: Cell<'_>) -> Option<(f64, f64)> {
        // `200 28.9`, `200: 28.9`, `200 = 28.9`
        let (distance, time) = cell.text.rsplit_once(' ').unwrap_or_default();
        let distance = distance.trim_end_matches([' ', ':', '=']);
        let metres = workout_notation::race_distance(distance).ok();
        match metres.zip(workout_notation::seconds(time).ok()) {
            Some(best) => Some(best),
            None => {
                let message = format!("`{}` has no distance with its time", cell.text);
                let help = "write for example `200 28.9`, or a first line with headings: `name, 200, 800`";
                self.problem(&cell.span(), message, help);
                None
            }
        }
    }
}

/// The cells of a line: between tabs where it has one, else semicolons, else commas.
fn cells(line: &str, start: usize) -> Vec<Cell<'_>> {
    if line.trim().is_empty() {
        return Vec::new();
    }
    let between = ['\t', ';', ','].into_iter().find(|sign| line.contains(*sign)).unwrap_or(',');
    let mut from = start;
    let cell = |text: &'_ str, from: usize| {
        let inner = text.trim_start();
        (from + text.len() - inner.len(), inner.trim_end().len())
    };
    let mut cells = Vec::new();
    for part in line.split(between) {
        let (at, length) = cell(part, from);
        cells.push(Cell { text: &line[at - start..at - start + length], start: at });
        from += part.len() + between.len_utf8();
    }
    cells
}
