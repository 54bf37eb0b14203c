//! Answers that are written.

use std::io::Write;
use std::path::Path;

use anstream::adapter::strip_str;
use anyhow::{Context, Result, anyhow, bail};
use plan_sheet::{Calendar, CsvTable, View, message};
use session_plan::Plan;

use crate::failure::{self, InputError};
use crate::flags::{Color, Common, Format, PrintFlags};
use crate::paper;
use crate::whole_file::replace;

/// Chooses for the whole run whether colour is used.
pub(crate) fn choose_color(color: Color) {
    match color {
        Color::Auto => anstream::ColorChoice::Auto,
        Color::Always => anstream::ColorChoice::Always,
        Color::Never => anstream::ColorChoice::Never,
    }
    .write_global();
}

/// Writes answers to standard output or to the file that was asked for. Several answers are written
/// one after the other; as JSON they make a list.
pub(crate) fn write<V: View>(views: &[V], common: &Common) -> Result<()> {
    match &common.out {
        Some(path) => {
            let format = format_of(path)?;
            if common.format.is_some_and(|asked| asked != format) {
                bail!(two_views(path));
            }
            let text = rendered(views, format)?;
            match format {
                // It has no terminal codes, and may be long.
                Format::Json => replace(path, text.as_bytes()),
                Format::Text | Format::Csv => replace(path, strip_str(&text).to_string().as_bytes()),
            }
        }
        None => print(&rendered(views, common.format.unwrap_or(Format::Text))?),
    }
}

/// Writes plans as the view that the ending of `--out` picks, else as another view of them.
pub(crate) fn write_plans<V: View>(
    plans: &[Plan],
    views: &[V],
    print: PrintFlags,
    common: &Common,
) -> Result<()> {
    let view = common.out.as_ref().and_then(|path| Some((path, PlanView::of(path)?)));
    let Some((path, view)) = view else { return write(views, common) };
    if common.format.is_some() {
        bail!(two_views(path));
    }
    match view {
        PlanView::Pdf => paper::write_pdf(plans, print, path),
        PlanView::Pictures => paper::write_pictures(plans, print, path),
        PlanView::Page => replace(path, plan_sheet::page(plans)?.as_bytes()),
        PlanView::Map => replace(path, plan_sheet::map_svg(one(plans, path)?).as_bytes()),
        PlanView::Calendar => replace(path, calendar(plans)?.as_bytes()),
        PlanView::Message => replace(path, message(plans).as_bytes()),
    }
}

/// A view that only plans have, by the ending that picks it.
#[derive(Clone, Copy, Debug)]
enum PlanView {
    Calendar,
    Map,
    Message,
    Page,
    Pdf,
    Pictures,
}

impl PlanView {
    const ALL: [(&str, Self); 6] = [
        ("pdf", Self::Pdf),
        ("png", Self::Pictures),
        ("html", Self::Page),
        ("svg", Self::Map),
        ("ics", Self::Calendar),
        ("md", Self::Message),
    ];

    fn of(path: &Path) -> Option<Self> {
        Self::ALL.into_iter().find(|(ending, _)| has_ending(path, ending)).map(|(_, view)| view)
    }
}

/// The only plan, for a view that holds one.
fn one<'a>(plans: &'a [Plan], path: &Path) -> Result<&'a Plan> {
    match plans {
        [plan] => Ok(plan),
        plans => bail!(InputError::new(anyhow!(
            "`{}` holds one session, and there are {}; write one session at a time",
            path.display(),
            plans.len()
        ))),
    }
}

fn calendar(plans: &[Plan]) -> Result<String> {
    let calendar = Calendar::of(plans, chrono::Utc::now());
    let left_out = calendar.left_out.iter().map(|title| format!("`{title}`")).collect::<Vec<_>>().join(", ");
    let remedy = "write for example `date: 2027-04-13` in its session file";
    if calendar.is_empty() {
        bail!(InputError::new(anyhow!("a calendar needs dates, and {left_out} has none; {remedy}")));
    }
    if !left_out.is_empty() {
        failure::note(&format!("left out of the calendar, having no date: {left_out}; {remedy}"));
    }
    Ok(calendar.text())
}

/// Writes a line to standard output.
pub(crate) fn line(text: &str) -> Result<()> {
    print(&format!("{text}\n"))
}

fn two_views(path: &Path) -> InputError {
    InputError::new(anyhow!(
        "`--format` and the ending of `{}` ask for different views; leave out `--format`",
        path.display()
    ))
}

fn has_ending(path: &Path, wanted: &str) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(wanted))
}

pub(crate) fn print(text: &str) -> Result<()> {
    let mut out = anstream::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    match written {
        // Whoever reads has read enough.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        written => written.context("cannot write to standard output"),
    }
}

fn rendered<V: View>(views: &[V], format: Format) -> Result<String> {
    Ok(match (format, views) {
        (Format::Text, views) => views.iter().map(View::text).collect::<Vec<_>>().join("\n"),
        (Format::Csv, views) => CsvTable::joined(views.iter().map(View::csv)),
        (Format::Json, [view]) => view.json()?,
        (Format::Json, views) => serde_json::to_string_pretty(views)? + "\n",
    })
}

fn format_of(path: &Path) -> Result<Format> {
    let formats = [("txt", Format::Text), ("json", Format::Json), ("csv", Format::Csv)];
    if let Some((_, format)) = formats.into_iter().find(|(ending, _)| has_ending(path, ending)) {
        return Ok(format);
    }
    let name = path.display();
    let plans_only = PlanView::ALL.map(|(ending, _)| format!(".{ending}")).join(", ");
    bail!(InputError::new(if PlanView::of(path).is_some() {
        anyhow!(
            "`{name}` would show a plan, and this answer has none; write a name that ends in .txt, .json or .csv"
        )
    } else {
        anyhow!(
            "the ending of `{name}` picks no view; write a name that ends in .txt, .json or .csv, or for plans in {plans_only}"
        )
    }))
}
