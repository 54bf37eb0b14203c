//! Files that are being written under another name, and what becomes of them when a signal ends the program.

use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use tempfile::NamedTempFile;

/// The names of all unfinished files. Whoever makes or renames one holds the lock meanwhile, so that a signal finds
/// each file either in the list or not there.
static NAMES: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// A file under a name of its own, which only its owner can read. It is removed unless it is renamed.
pub(crate) struct Unfinished(NamedTempFile);

impl Unfinished {
    /// A new file in a folder.
    pub(crate) fn in_folder(folder: &Path) -> io::Result<Self> {
        remove_on_signals()?;
        let mut names = names();
        let file = tempfile::Builder::new().prefix(".toeline-").tempfile_in(folder)?;
        names.push(file.path().to_owned());
        Ok(Self(file))
    }

    pub(crate) fn file(&mut self) -> &mut File {
        self.0.as_file_mut()
    }
}

/// Gives files the names that they are to have, one right after the other: a signal waits until all have theirs.
///
/// # Errors
///
/// The name of the file that could not be renamed, and why. Those before it have theirs.
pub(crate) fn rename_all(files: Vec<(Unfinished, PathBuf)>) -> Result<(), (PathBuf, io::Error)> {
    let mut names = names();
    for (Unfinished(file), place) in files {
        if let Err(error) = file.persist(&place) {
            return Err((place, error.error));
        }
    }
    names.clear();
    Ok(())
}

fn names() -> MutexGuard<'static, Vec<PathBuf>> {
    NAMES.lock().unwrap_or_else(PoisonError::into_inner)
}

/// From the first unfinished file on, a thread waits for the signals that ask a program to end.
#[cfg(unix)]
fn remove_on_signals() -> io::Result<()> {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;

    static WAITS: Mutex<bool> = Mutex::new(false);
    let mut waits = WAITS.lock().unwrap_or_else(PoisonError::into_inner);
    if *waits {
        return Ok(());
    }
    let mut signals = Signals::new([SIGINT, SIGTERM])?;
    std::thread::Builder::new().spawn(move || {
        for signal in signals.forever() {
            // Held until the program has ended: no file is made or renamed any more.
            let names = names();
            for name in names.iter() {
                // It may have its own name by now.
                let _ = std::fs::remove_file(name);
            }
            // Ends the program as the signal would have; it fails for signals that do not exist only.
            let _ = emulate_default_handler(signal);
        }
    })?;
    *waits = true;
    Ok(())
}

#[cfg(not(unix))]
fn remove_on_signals() -> io::Result<()> {
    Ok(())
}
