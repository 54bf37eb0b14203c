//! A week in front of its sessions, as a message.

use session_plan::Week;

use crate::sheet::week_sheet::{WeekRow, WeekSheet};
use crate::tables::plan_lines::Marks;

/// How many signs the longest bar takes, and how wide the names before the bars are.
const BAR: u64 = 24;
const NAME: usize = 16;

/// What stands for the metres in each band of pace, the slowest first; the last has no target.
const SIGNS: [char; 5] = ['░', '▒', '▓', '█', '·'];

/// The sessions of a week line by line, and their metres by day and pace as bars.
pub(crate) fn week_message(week: &Week) -> String {
    let marks = Marks::Markdown;
    let sheet = WeekSheet::of(week);
    let lines: Vec<String> = sheet.rows.iter().map(|row| line(row, marks)).collect();
    let chart = chart(&sheet);
    // Names may have signs that would end the chart.
    let longest = chart.split(|sign| sign != '`').map(str::len).max().unwrap_or(0);
    let fence = "`".repeat(longest.max(2) + 1);
    format!(
        "# {}\n\n{}\n\n{}\n\n## {}\n\n{fence}\n{chart}\n{fence}\n\n{}\n",
        sheet.title,
        marks.text(&sheet.facts),
        lines.join("\n"),
        sheet.by_pace,
        sheet.cuts
    )
}

fn line(row: &WeekRow, marks: Marks) -> String {
    let when = row.hours.as_ref().map_or_else(String::new, |hours| format!(", {hours}"));
    let runs = if row.runs.is_empty() { String::new() } else { format!(": {}", marks.text(&row.runs)) };
    format!("- {}{when}, {}{runs}; {} m", row.day, marks.text(&row.who), row.metres)
}

/// A bar for each session of each group.
fn chart(sheet: &WeekSheet) -> String {
    let most = sheet.sessions().map(|row| row.metres).max().unwrap_or(0).max(1);
    let rows = sheet.sessions().map(|row| {
        let name: String = row.who.chars().filter(|letter| !letter.is_control()).take(NAME).collect();
        // Each sign ends where its metres end, so that rounding does not add up.
        let (mut metres, mut signs) = (0, String::new());
        for (band_m, sign) in row.bands_m.iter().zip(SIGNS) {
            let before = metres * BAR / most;
            metres += band_m;
            signs.extend((before..metres * BAR / most).map(|_| sign));
        }
        format!("{:<10} {name:<NAME$} {:>6} {signs}", row.day, row.metres).trim_end().to_owned()
    });
    let legend = SIGNS.iter().zip(&sheet.bands).map(|(sign, band)| format!("{sign} {band}"));
    let legend = legend.collect::<Vec<_>>().join("   ");
    rows.chain([String::new(), legend]).collect::<Vec<_>>().join("\n")
}
