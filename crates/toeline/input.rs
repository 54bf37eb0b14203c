//! Files that are read.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, bail};
use lane_distance::Track;
use session_plan::{FileFaultKind, FileKind, LateFault, SessionFile, TrackName, Venue};
use workout_notation::{SourceText, visible_line};

use crate::failure::{self, InputError};
use crate::files_read;
use crate::flags::Common;

/// The largest session or track file that is read, in bytes.
const LARGEST_FILE: u64 = 1024 * 1024;

/// The largest text of a session that is read, in bytes.
const LARGEST_TEXT: u64 = 64 * 1024;

/// The name of a file or a folder, for people to read.
pub(crate) fn shown(path: &Path) -> String {
    visible_line(&path.to_string_lossy()).into_owned()
}

/// Whether an argument is the name of a YAML file.
pub(crate) fn is_file_name(argument: &str) -> bool {
    let ending = Path::new(argument).extension();
    ending.is_some_and(|ending| ending.eq_ignore_ascii_case("yaml") || ending.eq_ignore_ascii_case("yml"))
}

/// The venue that the flags ask for.
pub(crate) fn venue(common: &Common) -> Result<Venue> {
    close(open_venue(common)?, &common.closed)
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
    let (named, others): (Vec<u8>, Vec<u8>) =
        file.closed_lanes.iter().partition(|lane| file.session.names_lane(**lane));
    let closed = venue.with_closed(&others).map_err(LateFault::Lane);
    let closed = closed.and_then(|venue| file.session.close_lanes(&venue, &named).map(|()| venue));
    let wrong = |fault| InputError::new(file.fault_at("closed_lanes", FileFaultKind::Late(fault)));
    Ok(closed.map_err(wrong)?)
}

/// The session files that paths mean: each itself, or all of a folder and of its sub-folders, in the order of
/// their names. A track file beside them, as a pattern of the shell brings it in, is left out with a note.
pub(crate) fn session_paths(paths: &[PathBuf]) -> Result<Vec<PathBuf>> {
    let (mut found, mut tracks) = (Vec::new(), Vec::new());
    for path in paths {
        if !path.is_dir() {
            let is_track = FileKind::of(&source(path)?) == Some(FileKind::Track);
            if is_track { &mut tracks } else { &mut found }.push(path.clone());
            continue;
        }
        let before = found.len();
        add_sessions_of(path, &mut found)?;
        if found.len() == before {
            bail!(InputError::new(anyhow!(
                "there is no session file in `{}`; a session file ends in .yaml or .yml and has a `title`",
                shown(path)
            )));
        }
    }
    for track in tracks {
        let track = shown(&track);
        if found.is_empty() {
            bail!(InputError::new(anyhow!(
                "`{track}` is a track file; write the names of session files, or of their folder"
            )));
        }
        failure::note(&format!("left out `{track}`, a track file"));
    }
    Ok(found)
}

fn add_sessions_of(folder: &Path, found: &mut Vec<PathBuf>) -> Result<()> {
    let cannot = || format!("cannot read `{}`", shown(folder));
    let entries = std::fs::read_dir(folder).with_context(cannot)?;
    let mut entries = entries.collect::<std::io::Result<Vec<_>>>().with_context(cannot)?;
    entries.sort_by_key(std::fs::DirEntry::file_name);
    for entry in entries {
        let path = entry.path();
        // A link to a folder is not followed: it might lead round in a circle.
        if entry.file_type().with_context(cannot)?.is_dir() {
            add_sessions_of(&path, found)?;
        } else if path.is_file()
            && is_file_name(&path.to_string_lossy())
            && FileKind::of(&source(&path)?) == Some(FileKind::Session)
        {
            found.push(path);
        }
    }
    Ok(())
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
    Ok(Venue::read(&source(path)?).map_err(InputError::new)?)
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
