//! Answers that are written.

use std::io::Write;
use std::path::Path;

use anstream::adapter::strip_str;
use anyhow::{Context, Result, anyhow, bail};
use plan_sheet::View;

use crate::failure::InputError;
use crate::flags::{Color, Common, Format};

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
                bail!(InputError::new(anyhow!(
                    "`--format` and the ending of `{}` ask for different views; leave out `--format`",
                    path.display()
                )));
            }
            let text = rendered(views, format)?;
            replace(path, strip_str(&text).to_string().as_bytes())
        }
        None => print(&rendered(views, common.format.unwrap_or(Format::Text))?),
    }
}

/// Writes a line to standard output.
pub(crate) fn line(text: &str) -> Result<()> {
    print(&format!("{text}\n"))
}

fn print(text: &str) -> Result<()> {
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
        (Format::Json, [view]) => view.json()?,
        (Format::Json, views) => serde_json::to_string_pretty(views)? + "\n",
    })
}

fn format_of(path: &Path) -> Result<Format> {
    match path.extension().map(|ending| ending.to_ascii_lowercase()) {
        Some(ending) if ending == "txt" => Ok(Format::Text),
        Some(ending) if ending == "json" => Ok(Format::Json),
        _ => bail!(InputError::new(anyhow!(
            "the ending of `{}` picks no view; write a name that ends in .txt or .json",
            path.display()
        ))),
    }
}

/// Writes a file beside its place and renames it, so that the old one stays whole until the new one
/// is.
fn replace(path: &Path, bytes: &[u8]) -> Result<()> {
    let cannot = || format!("cannot write `{}`", path.display());
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut beside =
        tempfile::NamedTempFile::new_in(folder).map_err(without_own_path).with_context(cannot)?;
    beside.write_all(bytes).with_context(cannot)?;
    beside.as_file().sync_all().with_context(cannot)?;
    beside.persist(path).map_err(|error| error.error).with_context(cannot)?;
    Ok(())
}

/// The name of the file beside means nothing to the reader of the message.
fn without_own_path(error: std::io::Error) -> std::io::Error {
    error.kind().into()
}
