//! A plan as plain lines, for places that keep no columns.

use std::borrow::Cow;

use crate::words::numbers::clock;
use lane_distance::LaneList;
use session_plan::{Plan, PlanBlock};

use crate::sheet::cone_group::ConeGroup;
use crate::terminal::board::{athletes, is_board};
use crate::terminal::plan_text::{lane_rows, rows, sure};
use crate::words::spot::spot;
use crate::words::target::target;
use crate::words::{caution, coach, cone, house_rule, remark, walk_words, warning};

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
pub(crate) fn lines(plan: &Plan, marks: Marks) -> String {
    let mut parts: Vec<String> =
        (1..).zip(&plan.blocks).map(|(number, block)| block_lines(number, block, marks)).collect();
    if let Some(wind) = &plan.wind {
        parts.insert(0, format!("Wind: {}", marks.text(wind)));
    }
    if !plan.setup.is_empty() {
        parts.push(setup_lines(plan, marks));
    }
    for (title, lines) in [
        ("Please note", warning::notes(plan)),
        ("On this track", house_rule::etiquette(&plan.rules)),
        ("Take care", caution::all(&plan.cautions)),
    ] {
        if !lines.is_empty() {
            let lines: Vec<String> = lines.iter().map(|line| format!("- {}", marks.text(line))).collect();
            parts.push(format!("{}\n{}", marks.heading(title), lines.join("\n")));
        }
    }
    parts.join("\n\n")
}

fn setup_lines(plan: &Plan, marks: Marks) -> String {
    let mut text = marks.heading(walk_words::TITLE);
    for group in ConeGroup::of(plan) {
        let item = group.first;
        let steps = group.steps.as_ref().map_or_else(String::new, |steps| format!(", {steps} steps"));
        text += &format!(
            "\n- {}, {}: {} {}{steps}; {}",
            group.numbers(),
            LaneList(&group.lanes),
            cone::marks(item),
            marks.text(&spot(&item.spot)),
            marks.text(&cone::serves(item))
        );
    }
    text += &format!("\n\n{}", walk_words::told(plan));
    text
}

fn block_lines(number: usize, block: &PlanBlock, marks: Marks) -> String {
    let whom = block.group.as_ref().map_or_else(String::new, |group| format!(", {group}"));
    let mut lines = vec![marks.heading(&format!("Block {number}{whom}: {}", block.text.trim()))];
    // A squad's times are its athletes', and told with them.
    let is_board = is_board(block);
    for row in if is_board { lane_rows(block) } else { rows(block) } {
        let rep = row.first;
        let mut line = format!(
            "- {}, {} m in {}: start {}, finish {}",
            if row.from == row.last { format!("run {}", row.last) } else { format!("runs {}", row.reps()) },
            sure(rep.distance_m, rep.plus_minus_m),
            LaneList(&row.lanes),
            marks.text(&spot(&rep.start)),
            marks.text(&spot(&rep.finish))
        );
        if let Some(run_in) = &rep.run_in {
            line += &format!(", run-in {}", marks.text(&spot(run_in)));
        }
        if !is_board {
            if let Some(target) = target(rep) {
                line += &format!(", in {target}");
            }
            if let Some(rest_s) = rep.rest_s {
                line += &format!(", then rest {}", clock(rest_s));
            }
        }
        lines.push(line);
    }
    if is_board {
        lines.extend(athletes(block).iter().map(|line| format!("- {}", marks.text(line))));
    }
    if let Some(coach) = &block.coach {
        lines.push(format!("- Coach: {}", marks.text(&coach::coach(coach))));
    }
    let bullet = if marks == Marks::Markdown { "- !" } else { "!" };
    let said = block.remarks.iter().map(remark::remark).chain(caution::of_block(block));
    lines.extend(said.map(|line| format!("{bullet} {}", marks.text(&line))));
    lines.join("\n").trim_end().to_owned()
}
