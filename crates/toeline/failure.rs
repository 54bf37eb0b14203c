//! How errors are shown, and which exit status they have.

use std::io::Write;
use std::ops::Range;
use std::process::ExitCode;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use plan_sheet::file_fault_words;
use session_plan::FileFaults;
use workout_notation::{Problems, SourceText};

use crate::shortened::shortened;

/// The most problems of a file that are shown: nobody mends more at a time.
const MOST_SHOWN: usize = 50;

/// The input is wrong: exit status 2. Every other error means that something could not be read or
/// written: exit status 1.
#[derive(Debug)]
pub(crate) struct InputError(anyhow::Error);

impl InputError {
    pub(crate) fn new(error: impl Into<anyhow::Error>) -> Self {
        Self(error.into())
    }
}

impl std::fmt::Display for InputError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for InputError {}

/// An error that has been shown already.
#[derive(Debug)]
pub(crate) struct Shown(pub(crate) anyhow::Error);

impl std::fmt::Display for Shown {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for Shown {}

/// Says on standard error what is wrong, unless that has been done, and gives the exit status.
pub(crate) fn report(error: &anyhow::Error) -> ExitCode {
    let error = match error.downcast_ref::<Shown>() {
        Some(Shown(error)) => error,
        None => {
            show(error);
            error
        }
    };
    ExitCode::from(if error.is::<InputError>() { 2 } else { 1 })
}

/// Says on standard error what is wrong.
pub(crate) fn show(error: &anyhow::Error) {
    let input = error.downcast_ref::<InputError>();
    if let Some(found) = input.and_then(|input| input.0.downcast_ref::<Problems>()) {
        for problem in found.problems.iter().take(MOST_SHOWN) {
            say(&rendered(&found.source, &problem.span, &problem.message, problem.help.as_deref()));
        }
        say_more(found.problems.len().saturating_sub(MOST_SHOWN));
    } else if let Some(found) = input.and_then(|input| input.0.downcast_ref::<FileFaults>()) {
        for fault in &found.faults {
            let (message, help) = file_fault_words(fault);
            say(&rendered(&found.source, &fault.span, &message, help.as_deref()));
        }
        say_more(found.more);
    } else {
        let message = format!("{error:#}");
        let title = Level::ERROR.primary_title(shortened(&message));
        say(&Renderer::styled().render(&[Group::with_title(title)]));
    }
}

/// Shows a notice on standard error; not an error.
pub(crate) fn note(text: &str) {
    say(&Renderer::styled().render(&[Group::with_title(Level::NOTE.primary_title(shortened(text)))]));
}

/// Says how many problems of a file are not shown.
fn say_more(others: usize) {
    if others > 0 {
        let problems = if others == 1 { "problem" } else { "problems" };
        note(&format!("and {others} more {problems} in this file"));
    }
}

fn rendered(source: &SourceText, span: &Range<usize>, message: &str, help: Option<&str>) -> String {
    let annotation = AnnotationKind::Primary.span(span.clone());
    let snippet = Snippet::source(source.text()).path(source.name()).annotation(annotation);
    let mut report = vec![Level::ERROR.primary_title(shortened(message)).element(snippet)];
    if let Some(help) = help {
        report.push(Group::with_title(Level::HELP.secondary_title(shortened(help))));
    }
    Renderer::styled().decor_style(DecorStyle::Ascii).term_width(80).render(&report)
}

fn say(text: &str) {
    // Where standard error is full or closed, the exit status still says it.
    let _ = writeln!(anstream::stderr(), "{text}");
}
