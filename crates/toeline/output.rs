//! Answers that are written.

use std::io::Write;
use std::path::{Path, PathBuf};

use anstream::adapter::StripBytes;
use anyhow::{Context, Result, anyhow, bail};
use plan_sheet::{Extras, Format, RenderSettings, Rendered, View};
use session_plan::Plan;

use crate::failure::{self, InputError};
use crate::flags::{Color, Common, Extra, PrintFlags};
use crate::input::shown;
use crate::new_file::{self, Name, NewFile};

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
pub(crate) fn write<V: View>(answers: &[V], common: &Common) -> Result<()> {
    write_about(answers, None, PrintFlags::default(), &[], common)
}

/// The same for answers about plans, which have more kinds of file.
pub(crate) fn write_about<V: View>(
    answers: &[V],
    plans: Option<&[Plan]>,
    print: PrintFlags,
    with: &[Extra],
    common: &Common,
) -> Result<()> {
    let mut extras = Extras::default();
    with.iter().for_each(|extra| extra.add_to(&mut extras));
    let settings = RenderSettings { paper: print.paper.into(), extras, now: chrono::Utc::now() };
    let rendered = |format: &Format| {
        format.render(answers, plans, &settings).map_err(|error| match error.is_of_input() {
            true => InputError::new(error).into(),
            false => anyhow::Error::from(error),
        })
    };
    match &common.out {
        Some(path) => {
            let format = format_of(path)?;
            if common.format.is_some_and(|asked| asked.ending != format.ending) {
                bail!(InputError::new(anyhow!(
                    "`--format` and the ending of `{}` disagree; leave out `--format`",
                    shown(path)
                )));
            }
            if !with.is_empty() && !format.is_on_paper() {
                bail!(only_on_paper(&format!("`{}`", shown(path))));
            }
            write_files(rendered(format)?, format, path, print.overwrite)
        }
        None => {
            if !with.is_empty() {
                bail!(only_on_paper("standard output"));
            }
            let text = Format::named("text");
            let Some(format) = common.format.or(text) else { return Ok(()) };
            let rendered = rendered(format)?;
            print_bytes(&rendered.files.concat())
        }
    }
}

fn only_on_paper(given: &str) -> InputError {
    let error = "adds pages to a .pdf or .png sheet, not to";
    InputError::new(anyhow!("`--with` {error} {given}; write for example `--out plan.pdf`"))
}

fn format_of(path: &Path) -> Result<&'static Format> {
    let ending = path.extension().unwrap_or_default().to_string_lossy();
    Format::with_ending(&ending).ok_or_else(|| {
        let error = anyhow!(
            "`{}` is an unknown kind of file; write a name that ends in {}",
            shown(path),
            plan_sheet::known_endings()
        );
        InputError::new(error).into()
    })
}

/// Writes files that are made of one answer: the first takes the name, the others the name with their number.
fn write_files(rendered: Rendered, format: &Format, path: &Path, overwrite: bool) -> Result<()> {
    rendered.notes.iter().for_each(|note| failure::note(note));
    let pages = rendered.files.len();
    let file = |(number, bytes): (usize, Vec<u8>)| NewFile {
        path: page_path(path, number),
        bytes: match format.has_terminal_codes() {
            true => StripBytes::new().strip_next(&bytes).collect::<Vec<_>>().concat(),
            false => bytes,
        },
        name: match (number, overwrite) {
            (1, _) => Name::Given,
            (_, false) => Name::Numbered,
            (_, true) => Name::NumberedOverAny,
        },
    };
    new_file::write(&(1..).zip(rendered.files).map(file).collect::<Vec<_>>())?;
    // We delete no file of the user; but a page of an earlier plan must not be taken for one of this.
    let next = page_path(path, pages + 1);
    if format.has_pages() && next.exists() {
        failure::note(&format!(
            "`{}` belongs to another plan and was left alone: this plan has {pages} {}",
            shown(&next),
            if pages == 1 { "page" } else { "pages" }
        ));
    }
    Ok(())
}

/// The name of a page: `plan.png`, `plan-2.png`, …
fn page_path(path: &Path, number: usize) -> PathBuf {
    if number == 1 {
        return path.to_owned();
    }
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(format!("-{number}."));
    name.push(path.extension().unwrap_or_default());
    path.with_file_name(name)
}

/// Writes a line to standard output.
pub(crate) fn line(text: &str) -> Result<()> {
    print(&format!("{text}\n"))
}

/// Writes text to standard output.
pub(crate) fn print(text: &str) -> Result<()> {
    print_bytes(text.as_bytes())
}

fn print_bytes(bytes: &[u8]) -> Result<()> {
    let mut out = anstream::stdout().lock();
    let written = out.write_all(bytes).and_then(|()| out.flush());
    match written {
        // Whoever reads has read enough.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        written => written.context("cannot write to standard output"),
    }
}
