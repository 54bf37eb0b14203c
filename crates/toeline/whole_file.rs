//! Files that are whole or not there.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow, bail};
use plan_sheet::is_own_picture;

use crate::failure::InputError;
use crate::files_read;
use crate::input::{self, shown};
use crate::unfinished::{Unfinished, rename_all};

/// A file to write.
pub(crate) struct NewFile {
    pub(crate) path: PathBuf,
    pub(crate) bytes: Vec<u8>,
    pub(crate) name: Name,
}

/// Where the name of a file comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Name {
    /// The user wrote it: the file there is replaced, and a link is followed.
    Given,
    /// This program made it for a further page: only a picture of its own is replaced.
    Numbered,
    /// The same where any file may be replaced.
    NumberedOverAny,
}

/// Writes files beside their places, and renames them once all are written: the old ones stay whole until then.
///
/// # Errors
///
/// What could not be written, and why. A file that is refused, or that finds no room, leaves all old ones as they
/// were.
pub(crate) fn write(files: &[NewFile]) -> Result<()> {
    let places = files.iter().map(NewFile::place).collect::<Result<Vec<_>>>()?;
    let mut unfinished = Vec::new();
    for (file, (place, old)) in files.iter().zip(places) {
        let beside = beside(&place, &file.bytes, old.as_ref()).map_err(|error| cannot(&file.path, &error))?;
        unfinished.push((beside, place));
    }
    let folders: Vec<PathBuf> = unfinished.iter().map(|(_, place)| folder(place).to_owned()).collect();
    rename_all(unfinished).map_err(|(place, error)| cannot(&place, &error))?;
    for folder in folders {
        // So that the new names, too, outlast a power cut; not every file system can.
        let _ = File::open(folder).and_then(|folder| folder.sync_all());
    }
    Ok(())
}

impl NewFile {
    /// Where it is to lie, and the file that lies there.
    fn place(&self) -> Result<(PathBuf, Option<Metadata>)> {
        let old = match fs::metadata(&self.path) {
            Ok(old) => Some(old),
            Err(error) if error.kind() == ErrorKind::NotFound => None,
            Err(error) => return Err(cannot(&self.path, &error)),
        };
        let name = shown(&self.path);
        if let Some(old) = &old {
            if old.is_dir() {
                return Err(cannot(&self.path, &ErrorKind::IsADirectory.into()));
            }
            if !old.is_file() {
                bail!(InputError::new(anyhow!(
                    "`{name}` is a pipe or a device, not a file; leave out `--out` and redirect standard output"
                )));
            }
            if files_read::contains(&self.path, old) {
                bail!(InputError::new(anyhow!(
                    "`{name}` is a file that this command reads; write to another"
                )));
            }
        }
        let is_link = fs::symlink_metadata(&self.path).is_ok_and(|found| found.is_symlink());
        if self.name == Name::Numbered && (is_link || old.is_some() && !self.is_own()?) {
            let what = if is_link { "is a link" } else { "was not written by toeline" };
            bail!(InputError::new(anyhow!(
                "`{name}` {what}, and a further page would replace it; write to another name, or add `--overwrite`"
            )));
        }
        if old.is_some() && !(is_link && self.name == Name::NumberedOverAny) {
            // Renaming would not ask whether the file itself may be written.
            OpenOptions::new().write(true).open(&self.path).map_err(|error| cannot(&self.path, &error))?;
        }
        let place = if is_link && self.name == Name::Given {
            linked(&self.path).map_err(|error| cannot(&self.path, &error))?
        } else {
            self.path.clone()
        };
        Ok((place, old))
    }

    /// Whether the file that lies there is a picture of this program.
    fn is_own(&self) -> Result<bool> {
        let start = input::start_of(&self.path).map_err(|error| cannot(&self.path, &error))?;
        Ok(is_own_picture(&start))
    }
}

/// A file with everything in it, beside the place that it is to have.
fn beside(place: &Path, bytes: &[u8], old: Option<&Metadata>) -> io::Result<Unfinished> {
    let mut beside = Unfinished::in_folder(folder(place))?;
    let file = beside.file();
    file.write_all(bytes)?;
    match old {
        Some(old) => {
            keep_owner(file, old)?;
            file.set_permissions(old.permissions())?;
        }
        None => set_default_mode(file)?,
    }
    file.sync_all()?;
    Ok(beside)
}

fn folder(place: &Path) -> &Path {
    place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Where the file lies that a link means: renaming would put a file in place of the link.
fn linked(path: &Path) -> io::Result<PathBuf> {
    match fs::canonicalize(path) {
        // A link to a file that is not there yet: its folder may be.
        Err(error) if error.kind() == ErrorKind::NotFound => {
            let next = fs::read_link(path)?;
            Ok(path.parent().unwrap_or(Path::new(".")).join(next))
        }
        found => found,
    }
}

/// Gives a file the owner and the group of the file that it replaces.
#[cfg(unix)]
fn keep_owner(file: &File, old: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, fchown};

    let new = file.metadata()?;
    let user = (new.uid() != old.uid()).then(|| old.uid());
    let group = (new.gid() != old.gid()).then(|| old.gid());
    if user.is_none() && group.is_none() {
        return Ok(());
    }
    fchown(file, user, group).map_err(|error| match error.kind() {
        ErrorKind::PermissionDenied => {
            io::Error::other("it belongs to somebody else, and would be yours; name another file")
        }
        _ => error,
    })
}

#[cfg(not(unix))]
fn keep_owner(_: &File, _: &Metadata) -> io::Result<()> {
    Ok(())
}

/// Opens a file to everybody whom the system lets in, as any new file.
#[cfg(unix)]
fn set_default_mode(file: &File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;

    use rustix::fs::Mode;
    use rustix::process::umask;

    // It can be read only by setting it. Nothing else in this process makes files meanwhile.
    let kept_back = umask(Mode::empty());
    umask(kept_back);
    file.set_permissions(fs::Permissions::from_mode(0o666 & !kept_back.bits()))
}

#[cfg(not(unix))]
fn set_default_mode(_: &File) -> io::Result<()> {
    Ok(())
}

fn cannot(path: &Path, error: &io::Error) -> anyhow::Error {
    anyhow!("cannot write `{}`: {}", shown(path), reason(error))
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
        _ => error.to_string(),
    }
}
