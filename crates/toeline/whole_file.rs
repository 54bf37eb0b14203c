//! A file that is whole or not there.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow};

use crate::input;

/// Writes a file beside its place and renames it, so that the old one stays whole until the new one
/// is. A link is followed; a pipe or a device is written to directly.
///
/// # Errors
///
/// What could not be written, and why. The old file is then as it was.
pub(crate) fn replace(path: &Path, bytes: &[u8]) -> Result<()> {
    written(path, bytes)
        .map_err(|error| anyhow!(reason(&error)))
        .with_context(|| format!("cannot write `{}`", input::shown(path)))
}

fn written(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let old = match fs::metadata(path) {
        Ok(old) => Some(old),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(error) => return Err(error),
    };
    if let Some(old) = &old {
        if old.is_dir() {
            return Err(ErrorKind::IsADirectory.into());
        }
        // Renaming would not ask whether the file itself may be written.
        let mut place = OpenOptions::new().write(true).open(path)?;
        if !old.is_file() {
            place.write_all(bytes)?;
            return place.flush();
        }
    }
    let place = target(path)?;
    let folder = place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut beside = new_file().tempfile_in(folder)?;
    beside.write_all(bytes)?;
    if let Some(old) = old {
        beside.as_file().set_permissions(old.permissions())?;
    }
    beside.as_file().sync_all()?;
    beside.persist(&place).map_err(|error| error.error)?;
    // So that the new name, too, outlasts a power cut; not every file system can.
    File::open(folder).and_then(|folder| folder.sync_all()).or(Ok(()))
}

/// Where the file lies that a name means: renaming would put a file in place of a link.
fn target(path: &Path) -> io::Result<PathBuf> {
    let is_link = fs::symlink_metadata(path).is_ok_and(|found| found.file_type().is_symlink());
    if !is_link {
        return Ok(path.to_owned());
    }
    match fs::canonicalize(path) {
        // A link to a file that is not there yet: its folder may be.
        Err(error) if error.kind() == ErrorKind::NotFound => {
            let next = fs::read_link(path)?;
            Ok(path.parent().unwrap_or(Path::new(".")).join(next))
        }
        found => found,
    }
}

/// Open for everybody whom the system lets in, as any new file: a file beside is else its owner's
/// alone.
fn new_file() -> tempfile::Builder<'static, 'static> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".toeline-");
    #[cfg(unix)]
    builder.permissions(<std::fs::Permissions as std::os::unix::fs::PermissionsExt>::from_mode(0o666));
    builder
}

/// Why a file cannot be written, for someone who does not know the system's words.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "its folder does not exist; create it, or name another".to_owned(),
        ErrorKind::PermissionDenied => "you may not write there; name another folder".to_owned(),
        ErrorKind::ReadOnlyFilesystem => "the disk is read-only; name a folder on another disk".to_owned(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            "the disk is full; free some space, or name a folder on another disk".to_owned()
        }
        ErrorKind::IsADirectory => "it is a folder; name a file in it".to_owned(),
        ErrorKind::NotADirectory => "a part of its path is a file, not a folder".to_owned(),
        ErrorKind::FileTooLarge => "the file would be larger than the system allows".to_owned(),
        kind => kind.to_string(),
    }
}
