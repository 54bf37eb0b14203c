//! The kinds of file that an answer can be written as: the one table of them.

use session_plan::Plan;

use crate::answers::view::View;
use crate::formats::planned::Planned;
use crate::formats::rendered::{RenderError, RenderSettings, Rendered};
use crate::json::lines::in_lines;
use crate::tables::csv_table::CsvTable;
use crate::{map, phone, print, tables};

/// A kind of file. Help, dispatch, errors and the table of the reference are made from these rows: a new view is
/// a file that renders it and a row of [`FORMATS`].
///
/// ```
/// use lane_distance::Track;
/// use plan_sheet::{Format, RenderSettings};
/// use session_plan::{SessionFile, Venue};
/// use workout_notation::SourceText;
///
/// let text = "{ title: Tuesday, date: 2027-04-13, hours: 18:00-19:30, blocks: [6 x 200] }";
/// let file = SessionFile::read(SourceText::new("tuesday.yaml", text))?;
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let plans = [session_plan::plan(&venue, &file.session).expect("it can be laid out")];
/// let calendar = Format::with_ending("ics").expect("there is such a kind");
/// let rendered = calendar.render(&plans, Some(&plans), &RenderSettings::default())?;
/// let calendar = String::from_utf8_lossy(&rendered.files[0]);
/// assert!(calendar.contains("DTSTART:20270413T180000\r\n"));
/// assert!(calendar.contains("DTSTAMP:19700101T000000Z\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Format {
    /// The ending of its files, in small letters.
    pub ending: &'static str,
    /// What `--format` calls it; nothing where it is only written to files.
    pub name: Option<&'static str>,
    /// What it is, in a few words.
    pub what: &'static str,
    /// Its media type (RFC 6838), with the character set where that has to be said.
    pub media_type: &'static str,
    renderer: Renderer,
}

/// Every kind of file, in the order in which help and reference list them.
pub static FORMATS: &[Format] = &[
    Format {
        ending: "txt",
        name: Some("text"),
        what: "tables for people",
        media_type: "text/plain; charset=utf-8",
        renderer: Renderer::Text,
    },
    Format {
        ending: "json",
        name: Some("json"),
        what: "one JSON value for programs",
        media_type: "application/json",
        renderer: Renderer::Json,
    },
    Format {
        ending: "csv",
        name: Some("csv"),
        what: "a row for each run, choice, lane or mark, for spreadsheets",
        media_type: "text/csv; charset=utf-8",
        renderer: Renderer::Csv,
    },
    Format {
        ending: "pdf",
        name: None,
        what: "printed sheets",
        media_type: "application/pdf",
        renderer: Renderer::Paper(print::pdf),
    },
    Format {
        ending: "png",
        name: None,
        what: "the printed sheets as pictures, one for each page",
        media_type: "image/png",
        renderer: Renderer::Pages(print::pictures),
    },
    Format {
        ending: "html",
        name: None,
        what: "a page for the phone",
        media_type: "text/html; charset=utf-8",
        renderer: Renderer::Plans(|planned, _| Ok(phone::page(&planned)?.into())),
    },
    Format {
        ending: "md",
        name: None,
        what: "a message",
        media_type: "text/markdown; charset=utf-8",
        renderer: Renderer::Plans(|planned, _| Ok(tables::message::message(planned).into())),
    },
    Format {
        ending: "ics",
        name: None,
        what: "a calendar",
        media_type: "text/calendar; charset=utf-8",
        renderer: Renderer::Plans(tables::calendar::calendar),
    },
    Format {
        ending: "svg",
        name: None,
        what: "a map, the cones and the lanes unrolled",
        media_type: "image/svg+xml",
        renderer: Renderer::OnePlan(|plan| map::map_picture::map_svg(plan).into()),
    },
];

/// How a kind of file is made.
#[derive(Clone, Copy, Debug)]
enum Renderer {
    Text,
    Json,
    Csv,
    Plans(fn(Planned<'_>, &RenderSettings) -> Result<Rendered, RenderError>),
    /// The same on paper.
    Paper(fn(Planned<'_>, &RenderSettings) -> Result<Rendered, RenderError>),
    /// The same with a file for each page.
    Pages(fn(Planned<'_>, &RenderSettings) -> Result<Rendered, RenderError>),
    OnePlan(fn(&Plan) -> Rendered),
}

impl Format {
    /// The kind of files with an ending, in letters of either case.
    pub fn with_ending(ending: &str) -> Option<&'static Self> {
        FORMATS.iter().find(|format| format.ending.eq_ignore_ascii_case(ending))
    }

    /// The kind that `--format` calls by a name.
    pub fn named(name: &str) -> Option<&'static Self> {
        FORMATS.iter().find(|format| format.name == Some(name))
    }

    /// Which answers can be written as it.
    pub const fn answers(&self) -> &'static str {
        match self.renderer {
            Renderer::Text | Renderer::Json | Renderer::Csv => "any answer",
            Renderer::Plans(_) | Renderer::Paper(_) | Renderer::Pages(_) => "plans and weeks",
            Renderer::OnePlan(_) => "one plan",
        }
    }

    const fn is_of_any_answer(&self) -> bool {
        matches!(self.renderer, Renderer::Text | Renderer::Json | Renderer::Csv)
    }

    /// Whether codes that style a terminal may stand in it, which no file should hold.
    pub const fn has_terminal_codes(&self) -> bool {
        matches!(self.renderer, Renderer::Text | Renderer::Csv)
    }

    /// Whether it is set on the pages of a paper.
    pub const fn is_on_paper(&self) -> bool {
        matches!(self.renderer, Renderer::Paper(_) | Renderer::Pages(_))
    }

    /// Whether it makes a file for each page.
    pub const fn has_pages(&self) -> bool {
        matches!(self.renderer, Renderer::Pages(_))
    }

    /// Answers of one command as this kind of file; `plans` are the plans that they are about.
    ///
    /// # Errors
    ///
    /// Where the answers cannot be written as it: see [`RenderError`].
    pub fn render<V: View>(
        &self,
        answers: &[V],
        plans: Option<&[Plan]>,
        settings: &RenderSettings,
    ) -> Result<Rendered, RenderError> {
        let no_plan = || RenderError::NoPlan { ending: self.ending, instead: answer_endings() };
        let plans = || plans.ok_or_else(no_plan);
        Ok(match (self.renderer, answers) {
            #[cfg(not(feature = "text"))]
            (Renderer::Text, _) => return Err(RenderError::NoText),
            #[cfg(feature = "text")]
            (Renderer::Text, answers) => answers.iter().map(View::text).collect::<Vec<_>>().join("\n").into(),
            (Renderer::Csv, answers) => CsvTable::joined(answers.iter().map(View::csv)).into(),
            (Renderer::Json, [answer]) => answer.json()?.into(),
            (Renderer::Json, answers) => {
                in_lines(&answers.iter().map(View::data).collect::<Vec<_>>())?.into()
            }
            (Renderer::Plans(render) | Renderer::Paper(render) | Renderer::Pages(render), _) => {
                render(Planned { plans: plans()?, week: answers.iter().find_map(View::week) }, settings)?
            }
            (Renderer::OnePlan(render), _) => match plans()? {
                [plan] => render(plan),
                plans => {
                    return Err(RenderError::SeveralPlans { ending: self.ending, plans: plans.len() });
                }
            },
        })
    }
}

/// The endings that any answer can be written with, as `.txt, .json or .csv`.
fn answer_endings() -> String {
    endings(Format::is_of_any_answer)
}

fn endings(is: impl Fn(&Format) -> bool) -> String {
    let mut endings: Vec<String> =
        FORMATS.iter().filter(|format| is(format)).map(|format| format!(".{}", format.ending)).collect();
    let last = endings.pop().unwrap_or_default();
    if endings.is_empty() { last } else { format!("{} or {last}", endings.join(", ")) }
}

/// The endings in a sentence: those of any answer, then those of plans.
///
/// ```
/// assert!(plan_sheet::known_endings().starts_with(".txt, .json or .csv, or for plans in .pdf, "));
/// ```
pub fn known_endings() -> String {
    let plans = endings(|format| !format.is_of_any_answer());
    format!("{}, or for plans in {plans}", answer_endings())
}
