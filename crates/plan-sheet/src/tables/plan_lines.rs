//! A plan as plain lines, for places that keep no columns.

use std::borrow::Cow;

use lane_distance::LaneList;

use crate::sheet::cone_row::{self, ConeRow};
use crate::sheet::place_row::PlaceRow;
use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::joined;
use crate::words::athlete::athletes;
use crate::words::{block_words, capital, go_times};

/// How headings are marked, and text kept apart from marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marks {
    /// None: text as it stands.
    Plain,
    /// Those of CommonMark.
    Markdown,
}

impl Marks {
    fn heading(self, text: &str) -> String {
        match self {
            Self::Plain => self.text(text).into_owned(),
            // Readers that need no blank line after a heading do not mind one.
            Self::Markdown => format!("## {}\n", self.text(text)),
        }
    }

    /// A line of text with a list after it.
    fn line_before_list(self, text: &str) -> String {
        match self {
            Self::Plain => text.to_owned(),
            Self::Markdown => format!("{}\n", self.text(text)),
        }
    }

    /// Text in which nothing is taken for a mark.
    pub(crate) fn text(self, text: &str) -> Cow<'_, str> {
        if self == Self::Plain {
            return Cow::Borrowed(text);
        }
        // Space at the beginning would move a mark, or make a listing of the line.
        let text = text.trim_start_matches(|c: char| c.is_whitespace() || c.is_control());
        let mut escaped = String::with_capacity(text.len());
        // A line that begins so begins a list, a heading or a quotation.
        let number = text.trim_start_matches(|c: char| c.is_ascii_digit());
        let number_ends = text.len() - number.len();
        for (at, letter) in text.char_indices() {
            let begins = at == 0 && matches!(letter, '#' | '+' | '-' | '=');
            let is_apart = text[at + letter.len_utf8()..].chars().next().is_none_or(char::is_whitespace);
            let numbers = at > 0 && at == number_ends && matches!(letter, '.' | ')') && is_apart;
            if begins
                || numbers
                || matches!(letter, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '&' | '~' | '|')
            {
                escaped.push('\\');
            }
            // A line of its own would begin anew.
            escaped.push(if letter.is_control() { ' ' } else { letter });
        }
        Cow::Owned(escaped)
    }
}

/// Lines that can be read on a narrow screen in any type: no table, no terminal codes.
pub(crate) fn lines(sheet: &Sheet, marks: Marks) -> String {
    let mut parts: Vec<String> = Vec::new();
    if !sheet.overrun.is_empty() {
        let bullet = if marks == Marks::Markdown { "- !" } else { "!" };
        let lines: Vec<String> =
            sheet.overrun.iter().map(|line| format!("{bullet} {}", marks.text(line))).collect();
        parts.push(lines.join("\n"));
    }
    parts.extend(sheet.wind.as_ref().map(|wind| format!("Wind: {}", marks.text(wind))));
    parts.extend(sheet.blocks.iter().map(|block| block_lines(block, marks)));
    if !sheet.cones.is_empty() {
        parts.push(setup_lines(sheet, marks));
    }
    parts.extend(sheet.no_cones.map(str::to_owned));
    for (title, lines) in
        [("Please note", &sheet.notes), ("On this track", &sheet.etiquette), ("Take care", &sheet.cautions)]
    {
        if !lines.is_empty() {
            let lines: Vec<String> = lines.iter().map(|line| format!("- {}", marks.text(line))).collect();
            parts.push(format!("{}\n{}", marks.heading(title), lines.join("\n")));
        }
    }
    parts.join("\n\n")
}

fn setup_lines(sheet: &Sheet, marks: Marks) -> String {
    let mut text = marks.heading(sheet.walk_title);
    for cones in cone_row::cone_groups(&sheet.cones) {
        let ConeRow { place, steps, serves, .. } = &cones[0];
        let steps = steps.as_ref().map_or_else(String::new, |steps| format!(", {steps} steps"));
        text += &format!(
            "\n- {}, {}: {}{steps}; {}",
            cone_row::labels(cones),
            LaneList(&cone_row::lanes(cones)),
            marks.text(place),
            marks.text(serves)
        );
    }
    let stride = sheet.stride.as_ref().map_or_else(String::new, |stride| format!(" {stride}"));
    format!("{text}\n\n{}{stride}", sheet.walk)
}

fn block_lines(block: &SheetBlock, marks: Marks) -> String {
    let mut lines = vec![marks.heading(&block_words::title(block))];
    let when = block.when.as_ref().map(|when| format!("{}.", capital(when)));
    let facts: Vec<&str> = when.iter().chain(&block.total).map(String::as_str).collect();
    if !facts.is_empty() {
        lines.push(marks.line_before_list(&facts.join(" ")));
    }
    let bullet = if marks == Marks::Markdown { "- !" } else { "!" };
    lines.extend(
        block.unsure.iter().chain(&block.impossible).map(|line| format!("{bullet} {}", marks.text(line))),
    );
    for PlaceRow { reps, lanes, run, .. } in block.places_and_times() {
        let start = match &run.fast_from {
            Some(fast_from) => {
                format!("stand {}, fast from {}", marks.text(&run.stand), marks.text(fast_from))
            }
            None => format!("start {}", marks.text(&run.start)),
        };
        let mut line = format!(
            "- {} {}, {} m in {}: {start}, finish {}",
            if reps.len() == 1 { "run" } else { "runs" },
            joined(&reps),
            run.metres,
            LaneList(&lanes),
            marks.text(&run.finish)
        );
        if let Some(run_in) = run.run_in.as_ref().filter(|_| run.fast_from.is_none()) {
            line += &format!(", run-in {}", marks.text(run_in));
        }
        // A squad's times are its athletes', and stand with them.
        if !block.has_names() {
            line += &run.target_time().map_or_else(String::new, |target| format!(", in {target}"));
            line += &run.rest.map_or_else(String::new, |rest| format!(", then rest {rest}"));
        }
        lines.push(line);
    }
    lines.extend(block.on_the_way.iter().map(|line| format!("- {}", marks.text(line))));
    lines.extend(go_times::of_block(block).iter().map(|line| format!("- {line}")));
    lines.extend(athletes(block).iter().map(|line| format!("- {}", marks.text(line))));
    lines.extend(block.coach.as_ref().map(|coach| format!("- Coach: {}", marks.text(coach))));
    let remarks = block.remarks.iter().chain(&block.cautions);
    lines.extend(remarks.map(|line| format!("{bullet} {}", marks.text(line))));
    lines.join("\n").trim_end().to_owned()
}
