//! What is wrong with a request, and where.

use std::ops::Range;

use lane_distance::Key;
use plan_sheet::{file_fault_words, late_fault_words};
use schemars::JsonSchema;
use serde::Serialize;
use session_plan::{FileFaults, LateFault};
use workout_notation::SourceText;

/// A part of a request.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Field {
    /// The text of the evening.
    Text,
    /// The track.
    Track,
    /// The lanes that are closed.
    Closed,
    /// Who runs.
    Squad,
    /// The places that were chosen.
    Choices,
    /// When it starts.
    Start,
    /// The groups that come late.
    Late,
    /// Who is absent.
    Without,
    /// Who does fewer repetitions.
    Reps,
    /// What is in use.
    Hazards,
    /// The wind.
    Wind,
    /// The blocks that are left out.
    Skip,
    /// What is asked for besides.
    Request,
}

/// Something that is wrong with a request.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Problem {
    /// The part of the request that it is about.
    pub field: Field,
    /// What is wrong.
    pub message: String,
    /// What to write instead, where that is known.
    pub help: Option<String>,
    /// Where in the text of that part, if it has one.
    pub place: Option<TextPlace>,
    /// The keys that lead to the value in a session or track file, joined by full stops.
    pub key: Option<String>,
    /// The track file that a session names and the request does not have.
    pub needs_track: Option<String>,
}

/// A place in a text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TextPlace {
    /// The line, from 1.
    pub line: usize,
    /// The column of the first letter, from 1.
    pub column: usize,
    /// Where it begins in the text, in UTF-16 code units as scripts count.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// What stands before it in its line.
    pub before: String,
    /// The words that it is about; empty at the end of a line.
    pub words: String,
    /// What stands behind it in its line.
    pub after: String,
}

impl TextPlace {
    /// The place of some bytes of a text.
    fn of(text: &str, span: &Range<usize>) -> Self {
        let start = text.floor_char_boundary(span.start.min(text.len()));
        let end = text.floor_char_boundary(span.end.clamp(start, text.len()));
        let line_start = text[..start].rfind('\n').map_or(0, |end| end + 1);
        let line_end = text[start..].find('\n').map_or(text.len(), |length| start + length);
        let end = end.min(line_end);
        let units = |part: &str| part.encode_utf16().count();
        Self {
            line: text[..start].matches('\n').count() + 1,
            column: text[line_start..start].chars().count() + 1,
            from: units(&text[..start]),
            to: units(&text[..end]),
            before: text[line_start..start].to_owned(),
            words: text[start..end].to_owned(),
            after: text[end..line_end].to_owned(),
        }
    }
}

impl Problem {
    /// A problem that has no place in a text.
    pub(crate) fn new(field: Field, message: impl Into<String>) -> Self {
        Self {
            field,
            message: in_quotes(&message.into()),
            help: None,
            place: None,
            key: None,
            needs_track: None,
        }
    }

    /// A late change that cannot be made.
    pub(crate) fn late(field: Field, fault: &LateFault) -> Self {
        Self::new(field, late_fault_words(fault))
    }

    /// A problem at some bytes of a text.
    pub(crate) fn in_text(
        field: Field,
        source: &SourceText,
        span: &Range<usize>,
        (message, help): (String, Option<String>),
    ) -> Self {
        let place = Some(TextPlace::of(source.text(), span));
        let help = help.map(|help| in_quotes(&help));
        Self { field, message: in_quotes(&message), help, place, key: None, needs_track: None }
    }
}

/// A sentence with quotation marks where a terminal has backticks.
fn in_quotes(sentence: &str) -> String {
    let mut quotes = ['“', '”'].into_iter().cycle();
    sentence
        .chars()
        .map(|letter| if letter == '`' { quotes.next().unwrap_or(letter) } else { letter })
        .collect()
}

/// Everything that is wrong with one part of a request.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Problems {
    pub(crate) told: Vec<Problem>,
    /// How many more there are.
    pub(crate) more: usize,
}

impl Problems {
    /// The faults of a session or track file, or of a text.
    pub(crate) fn of_file(field: Field, faults: &FileFaults) -> Self {
        let told = faults.faults.iter().map(|fault| {
            let keys: Vec<String> = fault.at.iter().map(key_words).collect();
            let key = (!keys.is_empty()).then(|| keys.join("."));
            Problem { key, ..Problem::in_text(field, &faults.source, &fault.span, file_fault_words(fault)) }
        });
        Self { told: told.collect(), more: faults.more }
    }
}

fn key_words(key: &Key) -> String {
    match key {
        Key::Name(name) => name.clone(),
        Key::Index(index) => index.to_string(),
    }
}

impl From<Problem> for Problems {
    fn from(problem: Problem) -> Self {
        Self { told: vec![problem], more: 0 }
    }
}

/// Why a request is refused: problem details (RFC 9457).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Refusal {
    /// What is wrong, in a few words.
    pub title: &'static str,
    /// The status (RFC 9110).
    pub status: u16,
    /// What is wrong with this request, and what to write instead.
    pub detail: String,
    /// Everything that is wrong, where it has places.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub problems: Vec<Problem>,
}

impl Refusal {
    /// The request is not of the form that its operation needs.
    pub(crate) fn malformed(error: &serde_json::Error) -> Self {
        Self::new(400, "Not a valid request", error.to_string())
    }

    /// There is no such operation.
    pub(crate) fn unknown(operation: &str) -> Self {
        let detail = format!("there is no operation `{}`", workout_notation::visible_line(operation));
        Self::new(404, "Not found", detail)
    }

    /// What is asked for cannot be done.
    pub(crate) fn wrong(problems: Problems) -> Self {
        let detail = problems.told.first().map_or_else(String::new, |problem| match &problem.help {
            Some(help) => format!("{}; {help}", problem.message),
            None => problem.message.clone(),
        });
        Self { problems: problems.told, ..Self::new(422, "The request has problems", detail) }
    }

    /// A mistake of this program.
    pub(crate) fn mistake(error: &dyn std::fmt::Display) -> Self {
        Self::new(500, "A bug in this program", error.to_string())
    }

    /// A refusal without places: the status, what is wrong in a few words, and what to do instead.
    pub const fn new(status: u16, title: &'static str, detail: String) -> Self {
        Self { title, status, detail, problems: Vec::new() }
    }
}
