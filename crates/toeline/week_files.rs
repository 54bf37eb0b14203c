//! The sessions of a week, out of files and folders.

use std::path::{Path, PathBuf};
use std::vec;

use anyhow::{Context, Error, Result, anyhow, bail};
use session_plan::{FileKind, YamlText};

use crate::failure::{self, InputError};
use crate::given::Given;
use crate::input::{self, is_file_name, shown};

/// The most files that are named as left out.
const MOST_NAMED: usize = 20;

/// The sessions of some paths: each itself, or all session files of a folder and of its sub-folders, in the order of
/// their names. They are read one by one, as they are asked for. What is no session is left out, and named at the end.
pub(crate) struct WeekFiles {
    files: vec::IntoIter<File>,
    /// Whether there was a session in each folder that was given.
    folders: Vec<(PathBuf, bool)>,
    /// Whether there was a session at all.
    is_any: bool,
    left_out: Vec<LeftOut>,
}

/// A file of a week that has not been read.
struct File {
    path: PathBuf,
    /// The number of its folder; nothing where the file itself was named.
    folder: Option<usize>,
}

/// A file that is not one of the sessions.
enum LeftOut {
    /// A track file that was named.
    Track(PathBuf),
    /// Something else, with the reason why it cannot be a session.
    Other(Error),
}

impl WeekFiles {
    /// Finds the files of some paths.
    ///
    /// # Errors
    ///
    /// A path that is not there or cannot be read.
    pub(crate) fn new(paths: &[PathBuf]) -> Result<Self> {
        let (mut files, mut folders, mut left_out) = (Vec::new(), Vec::new(), Vec::new());
        for path in paths {
            if path.is_dir() {
                add_files_of(path, folders.len(), &mut files, &mut left_out)?;
                folders.push((path.clone(), false));
            } else {
                files.push(File { path: path.clone(), folder: None });
            }
        }
        Ok(Self { files: files.into_iter(), folders, is_any: false, left_out })
    }

    /// The next session, or why it cannot be read.
    pub(crate) fn next(&mut self) -> Option<Result<Given>> {
        loop {
            let File { path, folder } = self.files.next()?;
            let read = match folder {
                Some(_) => read_found(&path),
                None => read_named(&path),
            };
            match read {
                Ok(Ok(given)) => {
                    self.note_session(folder);
                    return Some(Ok(given));
                }
                Ok(Err(left_out)) => self.left_out.extend(left_out),
                Err(error) => {
                    self.note_session(folder);
                    return Some(Err(error));
                }
            }
        }
    }

    fn note_session(&mut self, folder: Option<usize>) {
        self.is_any = true;
        if let Some(folder) = folder {
            self.folders[folder].1 = true;
        }
    }

    /// Names what was left out.
    ///
    /// # Errors
    ///
    /// A folder without a session, or nothing but files that are none.
    pub(crate) fn note_left_out(self) -> Result<()> {
        if let ([], false, [first, ..]) = (self.folders.as_slice(), self.is_any, self.left_out.as_slice()) {
            match first {
                LeftOut::Track(path) => bail!(InputError::new(anyhow!(
                    "`{}` is a track file; write the names of session files, or of their folder",
                    shown(path)
                ))),
                LeftOut::Other(error) => bail!(InputError::new(anyhow!("{error:#}"))),
            }
        }
        for file in self.left_out.iter().take(MOST_NAMED) {
            failure::note(&match file {
                LeftOut::Track(path) => format!("left out `{}`, a track file", shown(path)),
                LeftOut::Other(error) => format!("left out: {error:#}"),
            });
        }
        if self.left_out.len() > MOST_NAMED {
            failure::note(&format!("left out {} more files", self.left_out.len() - MOST_NAMED));
        }
        match self.folders.iter().find(|(_, is_any)| !is_any) {
            Some((folder, _)) => bail!(InputError::new(anyhow!(
                "there is no session file in `{}`; a session file ends in .yaml or .yml and has a `title`",
                shown(folder)
            ))),
            None => Ok(()),
        }
    }
}

/// Reads a file that was named. Whoever named it means a session, so that its faults are errors; but a pattern of the
/// shell brings other files in.
fn read_named(path: &Path) -> Result<Result<Given, Option<LeftOut>>> {
    let source = match input::source(path) {
        Err(error) if error.is::<InputError>() => return Ok(Err(Some(LeftOut::Other(error)))),
        source => source?,
    };
    let yaml = YamlText::read(source);
    if FileKind::of(&yaml) == Some(FileKind::Track) {
        return Ok(Err(Some(LeftOut::Track(path.to_owned()))));
    }
    match is_file_name(&path.to_string_lossy()) {
        true => Given::of_yaml(yaml, path).map(Ok),
        false => Given::text(yaml.source, path).map(Ok),
    }
}

/// Reads a file of a folder. A track lies beside its sessions and is not worth a word.
fn read_found(path: &Path) -> Result<Result<Given, Option<LeftOut>>> {
    let other = |error| Ok(Err(Some(LeftOut::Other(error))));
    if path.to_str().is_none() {
        return other(anyhow!("the name of `{}` is not UTF-8; rename it", shown(path)));
    }
    let yaml = match input::source(path) {
        Ok(source) => YamlText::read(source),
        Err(error) => return other(error),
    };
    match FileKind::of(&yaml) {
        Some(FileKind::Session) => Given::of_yaml(yaml, path).map(Ok),
        Some(FileKind::Track) => Ok(Err(None)),
        None => other(anyhow!("`{}` is neither a session nor a track file", shown(path))),
    }
}

/// Adds the YAML files of a folder and of its sub-folders, but for hidden ones.
fn add_files_of(
    folder: &Path,
    number: usize,
    files: &mut Vec<File>,
    left_out: &mut Vec<LeftOut>,
) -> Result<()> {
    let cannot = || format!("cannot read `{}`", shown(folder));
    let entries = std::fs::read_dir(folder).with_context(cannot)?;
    let mut entries = entries.collect::<std::io::Result<Vec<_>>>().with_context(cannot)?;
    entries.sort_by_key(std::fs::DirEntry::file_name);
    for entry in entries {
        let path = entry.path();
        let is_hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
        // A link to a folder is not followed: it might lead round in a circle.
        match entry.file_type() {
            Ok(kind) if kind.is_dir() && is_hidden => {
                left_out.push(LeftOut::Other(anyhow!("`{}` is a hidden folder", shown(&path))));
            }
            Ok(kind) if kind.is_dir() => {
                if let Err(error) = add_files_of(&path, number, files, left_out) {
                    left_out.push(LeftOut::Other(error));
                }
            }
            _ if is_file_name(&path.to_string_lossy()) => files.push(File { path, folder: Some(number) }),
            _ => {}
        }
    }
    Ok(())
}
