//! The folder of session files that a server opens and saves, and nothing outside it.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::UNIX_EPOCH;

use headers::{ETag, IfMatch};
use schemars::JsonSchema;
use serde::Serialize;
use thiserror::Error;
use whole_file::Unfinished;

use crate::body::MOST_BYTES;
use crate::version;

/// What the names of sessions end in.
const ENDINGS: [&str; 3] = ["yaml", "yml", "txt"];

/// The longest name that file systems have.
const LONGEST_NAME: usize = 255;

/// What a name is, as a pattern of JSON Schema.
pub(crate) const NAME_PATTERN: &str =
    r"^[^./\\\u0000-\u001f\u007f-\u009f][^/\\\u0000-\u001f\u007f-\u009f]*\.([yY][aA]?[mM][lL]|[tT][xX][tT])$";

/// A folder. Only files that lie in it are opened: none of its subfolders, none that is hidden, and none by a link.
#[derive(Debug)]
pub(crate) struct SessionFolder {
    path: PathBuf,
    /// Held from the look at a file until it is replaced.
    saving: Mutex<()>,
}

/// A session in the folder.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
pub(crate) struct SessionEntry {
    /// The name of its file.
    pub(crate) name: String,
    /// How many bytes it has.
    pub(crate) bytes: u64,
    /// When it was changed, in seconds since 1970-01-01 UTC; nothing where that is not known.
    pub(crate) changed_s: Option<u64>,
}

/// What is in the folder.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub(crate) struct SessionList {
    /// Its sessions, by name.
    pub(crate) sessions: Vec<SessionEntry>,
}

/// What whoever saves a file knows of it.
#[derive(Clone, Debug)]
pub(crate) enum Known {
    /// That it is not there.
    Nothing,
    /// Its version.
    Version(IfMatch),
}

/// Why a file cannot be opened or saved.
#[derive(Debug, Error)]
pub(crate) enum FolderFault {
    /// Its name could lead out of the folder, or is none of a session.
    #[error("not a name of a session; write for example `tuesday.yaml` or `notes.txt`")]
    NotAName,
    /// It is not there.
    #[error("there is no such session")]
    Missing,
    /// A link, a folder, a pipe, or a device has its name.
    #[error("what has this name is a link, a folder or a device; only files are opened and saved")]
    NotAFile,
    /// It is larger than what can be sent back.
    #[error("the file is too large: at most {MOST_BYTES} bytes")]
    TooLarge,
    /// It holds something else than text.
    #[error("the file is not UTF-8 text")]
    NotText,
    /// It is not the version that was known. The version that is there, if there is one.
    #[error("the session has changed since it was opened; open it again, or save under another name")]
    Changed(Option<ETag>),
    /// The system does not let it be read or written.
    #[error("{0}")]
    System(io::Error),
}

impl From<io::Error> for FolderFault {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            ErrorKind::NotFound => Self::Missing,
            _ => Self::System(error),
        }
    }
}

impl SessionFolder {
    /// The folder at a path.
    pub(crate) fn open(path: &Path) -> io::Result<Self> {
        let path = fs::canonicalize(path)?;
        // That it is a folder which can be read shows before anybody asks.
        fs::read_dir(&path)?;
        Ok(Self { path, saving: Mutex::new(()) })
    }

    /// Its sessions, by name.
    pub(crate) fn list(&self) -> Result<SessionList, FolderFault> {
        let entry = |entry: io::Result<fs::DirEntry>| {
            let entry = entry.ok()?;
            let name = entry.file_name().into_string().ok().filter(|name| is_name(name))?;
            // That of a link itself, not of what it leads to.
            let found = entry.metadata().ok().filter(Metadata::is_file)?;
            let changed = found.modified().ok().and_then(|changed| changed.duration_since(UNIX_EPOCH).ok());
            Some(SessionEntry { name, bytes: found.len(), changed_s: changed.map(|since| since.as_secs()) })
        };
        let mut sessions: Vec<SessionEntry> = fs::read_dir(&self.path)?.filter_map(entry).collect();
        sessions.sort();
        Ok(SessionList { sessions })
    }

    /// The text of a session, and its version.
    pub(crate) fn read(&self, name: &str) -> Result<(String, ETag), FolderFault> {
        let (_, bytes) = read(&self.place(name)?)?;
        let version = version::strong(&bytes);
        let text = String::from_utf8(bytes).map_err(|_| FolderFault::NotText)?;
        Ok((text, version))
    }

    /// Saves a session if it is still what whoever saves it knows. Its new version.
    pub(crate) fn save(&self, name: &str, text: &str, known: &Known) -> Result<ETag, FolderFault> {
        let place = self.place(name)?;
        let version = version::strong(text.as_bytes());
        let _saving = self.saving.lock().unwrap_or_else(PoisonError::into_inner);
        match known {
            Known::Nothing => {
                match fs::symlink_metadata(&place) {
                    Err(error) if error.kind() == ErrorKind::NotFound => {}
                    Err(error) => return Err(error.into()),
                    Ok(found) if found.is_file() => return Err(changed(&place)),
                    Ok(_) => return Err(FolderFault::NotAFile),
                }
                let file = Unfinished::beside(&place, text.as_bytes(), None)?;
                whole_file::name_new(file, &place).map_err(|error| match error.kind() {
                    ErrorKind::AlreadyExists => changed(&place),
                    _ => error.into(),
                })?;
            }
            Known::Version(known) => {
                let old = self.unchanged(&place, known)?;
                // Renaming would not ask whether the file itself may be written.
                opened(&place, OpenOptions::new().write(true))?;
                let file = Unfinished::beside(&place, text.as_bytes(), Some(&old))?;
                // Another program may have written it meanwhile.
                self.unchanged(&place, known)?;
                whole_file::rename_all(vec![(file, place)]).map_err(|(_, error)| error)?;
            }
        }
        Ok(version)
    }

    /// What the system says of a file whose version is known.
    fn unchanged(&self, place: &Path, known: &IfMatch) -> Result<Metadata, FolderFault> {
        let (found, bytes) = read(place).map_err(|fault| match fault {
            FolderFault::Missing => FolderFault::Changed(None),
            fault => fault,
        })?;
        let version = version::strong(&bytes);
        match known.precondition_passes(&version) {
            true => Ok(found),
            false => Err(FolderFault::Changed(Some(version))),
        }
    }

    fn place(&self, name: &str) -> Result<PathBuf, FolderFault> {
        match is_name(name) {
            true => Ok(self.path.join(name)),
            false => Err(FolderFault::NotAName),
        }
    }
}

/// Whether a name is that of a session in the folder itself, on every system.
fn is_name(name: &str) -> bool {
    let ending = name.rsplit_once('.').map(|(_, ending)| ending);
    ending.is_some_and(|ending| ENDINGS.iter().any(|known| known.eq_ignore_ascii_case(ending)))
        && name.len() <= LONGEST_NAME
        && !name.starts_with('.')
        && !name.contains(|letter: char| matches!(letter, '/' | '\\') || letter.is_control())
        && !(cfg!(windows) && name.contains(':'))
}

/// That a file which should not be there is.
fn changed(place: &Path) -> FolderFault {
    FolderFault::Changed(read(place).ok().map(|(_, bytes)| version::strong(&bytes)))
}

/// What a file holds, and what the system says of it.
fn read(place: &Path) -> Result<(Metadata, Vec<u8>), FolderFault> {
    let file = opened(place, OpenOptions::new().read(true))?;
    let found = file.metadata()?;
    if found.len() > MOST_BYTES as u64 {
        return Err(FolderFault::TooLarge);
    }
    let mut bytes = Vec::new();
    file.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    match bytes.len() > MOST_BYTES {
        true => Err(FolderFault::TooLarge),
        false => Ok((found, bytes)),
    }
}

/// Opens a file that is neither a link nor something that could keep one waiting.
fn opened(place: &Path, options: &mut OpenOptions) -> Result<File, FolderFault> {
    if !fs::symlink_metadata(place)?.is_file() {
        return Err(FolderFault::NotAFile);
    }
    // What has come in its place since then is not followed or waited for either.
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;

        use rustix::fs::OFlags;

        // The flags of the system fit its own integers.
        options.custom_flags((OFlags::NOFOLLOW | OFlags::NONBLOCK).bits().cast_signed());
    }
    let file = options.open(place)?;
    match file.metadata()?.is_file() {
        true => Ok(file),
        false => Err(FolderFault::NotAFile),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_one_part_of_a_path_with_a_known_ending() {
        for name in ["tuesday.yaml", "a b.yml", "Ä..txt", "x.YAML", "week 3, day 2.txt"] {
            assert!(is_name(name), "{name}");
        }
        let long = format!("{}.yaml", "a".repeat(251));
        for name in [
            "",
            ".",
            "..",
            ".yaml",
            ".x.yaml",
            "../x.yaml",
            "/x.yaml",
            "a/x.yaml",
            "a\\x.yaml",
            "x.yaml\0",
            "x\n.yaml",
            "x",
            "x.toml",
            "x.yaml/",
            "yaml",
            &long,
        ] {
            assert!(!is_name(name), "{name:?}");
        }
    }
}
