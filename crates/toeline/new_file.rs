//! Files that an answer is written to.

use std::fs::{self, Metadata, OpenOptions};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow, bail};
use plan_sheet::is_own_picture;
use whole_file::{Unfinished, reason, rename_all};

use crate::failure::InputError;
use crate::files_read;
use crate::input::{self, shown};

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
        let cannot = |error| cannot(&file.path, &error);
        whole_file::remove_on_signals().map_err(cannot)?;
        let beside = Unfinished::beside(&place, &file.bytes, old.as_ref()).map_err(cannot)?;
        unfinished.push((beside, place));
    }
    rename_all(unfinished).map_err(|(place, error)| cannot(&place, &error))
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

fn cannot(path: &Path, error: &io::Error) -> anyhow::Error {
    anyhow!("cannot write `{}`: {}", shown(path), reason(error))
}
