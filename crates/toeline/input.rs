//! Files that are read.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use anyhow::{Context, Result, anyhow, bail};
use lane_distance::Track;
use plan_sheet::late_fault_words;
use session_plan::{FileFaultKind, LateFault, Limit, SessionFile, SessionText, TrackName, Venue, YamlText};
use workout_notation::{SourceText, visible_line};

use crate::failure::InputError;
use crate::files_read;
use crate::flags::Common;

/// The largest session or track file that is read, in bytes.
const LARGEST_FILE: u64 = Limit::FileBytes.most() as u64;

/// The largest text of a session that is read, in bytes.
const LARGEST_TEXT: u64 = Limit::TextBytes.most() as u64;

/// The name of a file or a folder, for people to read.
pub(crate) fn shown(path: &Path) -> String {
    visible_line(&path.to_string_lossy()).into_owned()
}

/// Whether an argument is the name of a YAML file.
pub(crate) fn is_file_name(argument: &str) -> bool {
    let ending = Path::new(argument).extension();
    ending.is_some_and(|ending| ending.eq_ignore_ascii_case("yaml") || ending.eq_ignore_ascii_case("yml"))
}

/// The venue that the flags ask for, for an answer that knows no time of day.
pub(crate) fn venue(common: &Common) -> Result<Venue> {
    if let Some(closure) = common.closures().first() {
        let lanes: Vec<String> = closure.lanes.iter().map(u8::to_string).collect();
        bail!(InputError::new(anyhow!(
            "--closed: this answer knows no time of day; write --closed {}",
            lanes.join(",")
        )));
    }
    closed_venue(common)
}

/// The venue that the flags ask for, with the lanes closed that are closed all the time.
pub(crate) fn closed_venue(common: &Common) -> Result<Venue> {
    close(open_venue(common)?, &common.closed())
}

/// The same with every lane open that the track has open.
pub(crate) fn open_venue(common: &Common) -> Result<Venue> {
    named_venue(common.track.as_deref().unwrap_or("standard"))
}

/// Takes the hazards of a session file to be in use.
pub(crate) fn begin_hazards(file: &mut SessionFile, venue: &Venue) -> Result<()> {
    let hazards = file.hazards.clone();
    let begun = file.session.begin_hazards(venue, &hazards);
    Ok(begun.map_err(|fault| InputError::new(file.fault_at("hazards", FileFaultKind::Late(fault))))?)
}

/// The venue of a session file: the one that the flags ask for, else its own, with the lanes closed that the file
/// closes. What the file is to run in those moves to open ones.
pub(crate) fn own_venue(file: &mut SessionFile, path: &Path, common: &Common) -> Result<Venue> {
    let venue = match (&common.track, &file.track) {
        (Some(name), _) => named_venue(name)?,
        (None, None) => named_venue("standard")?,
        (None, Some(TrackName::BuiltIn(name))) => named_venue(name)?,
        (None, Some(TrackName::File(name))) => {
            let folder = path.parent().unwrap_or(Path::new(""));
            let beside = folder.join(name);
            if !is_file_name(name) || !beside.is_file() {
                let kind = FileFaultKind::NoTrack { name: name.clone(), path: shown(&beside) };
                bail!(InputError::new(file.fault_at("track", kind)));
            }
            read_venue(&beside)?
        }
    };
    let closed = file.session.without_lanes(venue, &file.closed_lanes);
    let wrong = |fault| InputError::new(file.fault_at("closed_lanes", FileFaultKind::Late(fault)));
    Ok(closed.map_err(wrong)?)
}

/// The venue of a text, without the lanes that the text says are closed.
pub(crate) fn venue_of_text(text: &mut SessionText, venue: Venue) -> Result<Venue> {
    let closed = text.session.without_lanes(venue, &text.closed_lanes);
    Ok(closed.map_err(|fault| InputError::new(anyhow!("{}", late_fault_words(&fault))))?)
}

/// The venue without lanes that nothing may be run in.
pub(crate) fn without_closed(venue: Venue, lanes: &[u8]) -> Result<Venue> {
    let closed = venue.with_closed(lanes).map_err(LateFault::Lane);
    Ok(closed.map_err(|fault| InputError::new(anyhow!("{}", late_fault_words(&fault))))?)
}

fn close(venue: Venue, lanes: &[u8]) -> Result<Venue> {
    let closed = venue.with_closed(lanes).map_err(|error| anyhow!("--closed: {error}"));
    Ok(closed.map_err(InputError::new)?)
}

fn named_venue(name: &str) -> Result<Venue> {
    if let Some(track) = Track::built_in(name) {
        return Ok(track.into());
    }
    if is_file_name(name) || Path::new(name).is_file() {
        return read_venue(Path::new(name));
    }
    let name = visible_line(name);
    bail!(InputError::new(anyhow!(
        "there is no built-in track `{name}`; write one of {}, or the name of a track file",
        built_in_names()
    )))
}

fn read_venue(path: &Path) -> Result<Venue> {
    Ok(Venue::from_yaml(YamlText::read(source(path)?)).map_err(InputError::new)?)
}

fn built_in_names() -> String {
    Track::built_in_names().collect::<Vec<_>>().join(", ")
}

/// Reads a session or track file that is not too large.
pub(crate) fn source(path: &Path) -> Result<SourceText> {
    from_file(path, LARGEST_FILE)
}

/// The first bytes of a file.
pub(crate) fn start_of(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut start = Vec::new();
    File::open(path)?.take(100).read_to_end(&mut start)?;
    Ok(start)
}

/// Reads the text of a session that is not too large.
pub(crate) fn text(path: &Path) -> Result<SourceText> {
    from_file(path, LARGEST_TEXT)
}

/// Reads a session from standard input.
pub(crate) fn standard_input() -> Result<SourceText> {
    files_read::add_standard_input();
    from_reader("standard input".to_owned(), std::io::stdin().lock(), 0, LARGEST_FILE)
}

fn from_file(path: &Path, largest: u64) -> Result<SourceText> {
    let name = shown(path);
    let cannot = || format!("cannot read `{name}`");
    // Before it is opened: that alone waits for a pipe to be written to.
    let found = std::fs::metadata(path).with_context(cannot)?;
    if !found.is_file() && !found.is_dir() {
        bail!(InputError::new(anyhow!(
            "`{name}` is a pipe or a device, not a file; write `-` to read standard input"
        )));
    }
    let file = File::open(path).with_context(cannot)?;
    files_read::add(path, &found);
    let length = found.len();
    from_reader(name, file, length, largest)
}

/// Refuses standard input that is too large for the text of a session.
pub(crate) fn check_text(source: &SourceText) -> Result<()> {
    check_size(source.name(), source.text().len() as u64, LARGEST_TEXT)
}

fn check_size(name: &str, length: u64, largest: u64) -> Result<()> {
    if length > largest {
        bail!(InputError::new(anyhow!("`{name}` is too large: at most {largest} bytes")));
    }
    Ok(())
}

/// Reads a text that says how long it is, and may be longer: a pipe, or a device.
fn from_reader(name: String, reader: impl Read, length: u64, largest: u64) -> Result<SourceText> {
    let mut bytes = Vec::new();
    if length <= largest {
        reader.take(largest + 1).read_to_end(&mut bytes).with_context(|| format!("cannot read `{name}`"))?;
    }
    check_size(&name, length.max(bytes.len() as u64), largest)?;
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let before = &error.as_bytes()[..at];
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        let column =
            String::from_utf8_lossy(before).lines().last().map_or(0, |line| line.chars().count()) + 1;
        InputError::new(anyhow!("`{name}` is not UTF-8 text: line {line}, column {column}; save it as UTF-8"))
    })?;
    Ok(SourceText::new(&name, &text))
}
