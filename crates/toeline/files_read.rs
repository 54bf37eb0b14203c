//! Which files the command has read: its answer must replace none of them.

use std::fs::Metadata;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// What has been read so far. It belongs to the whole run: a session names a track, and any of them may be the file
/// that an answer is to be written to.
static READ: Mutex<Vec<FileId>> = Mutex::new(Vec::new());

/// What a file is known by, whatever name or link leads to it.
#[cfg(unix)]
type FileId = (u64, u64);

#[cfg(not(unix))]
type FileId = std::path::PathBuf;

/// Remembers a file that is read.
pub(crate) fn add(path: &Path, found: &Metadata) {
    list().extend(id(path, found));
}

/// Remembers the file that standard input comes from, if it is one.
pub(crate) fn add_standard_input() {
    #[cfg(unix)]
    {
        use std::os::fd::AsFd;

        let input = std::io::stdin().as_fd().try_clone_to_owned().map(std::fs::File::from);
        if let Ok(found) = input.and_then(|input| input.metadata()) {
            add(Path::new("-"), &found);
        }
    }
}

/// Whether a file has been read.
pub(crate) fn contains(path: &Path, found: &Metadata) -> bool {
    let list = list();
    id(path, found).is_some_and(|file| list.contains(&file))
}

#[cfg(unix)]
fn id(_: &Path, found: &Metadata) -> Option<FileId> {
    use std::os::unix::fs::MetadataExt;

    Some((found.dev(), found.ino()))
}

#[cfg(not(unix))]
fn id(path: &Path, _: &Metadata) -> Option<FileId> {
    path.canonicalize().ok()
}

fn list() -> MutexGuard<'static, Vec<FileId>> {
    READ.lock().unwrap_or_else(PoisonError::into_inner)
}
