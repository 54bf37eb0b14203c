//! Files that are being written under another name, and what becomes of them when a signal ends the program.

use std::fs::{File, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use tempfile::NamedTempFile;

use crate::mode;

/// The names of all unfinished files. Whoever makes or renames one holds the lock meanwhile, so that a signal finds
/// each file either in the list or not there.
static NAMES: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// A file under a name of its own, beside the place that it is to have. Only its owner can read it until everything is
/// in it; it is removed unless it is renamed.
#[derive(Debug)]
pub struct Unfinished {
    file: NamedTempFile,
    listed: Listed,
}

/// A name in the list of unfinished files, until it is dropped.
#[derive(Debug)]
struct Listed(PathBuf);

impl Drop for Listed {
    fn drop(&mut self) {
        names().retain(|name| *name != self.0);
    }
}

impl Unfinished {
    /// A file with everything in it, on the disk, with the owner and the mode of the old file that it is to replace.
    ///
    /// # Errors
    ///
    /// Why it cannot be written; nothing is left of it then.
    pub fn beside(place: &Path, bytes: &[u8], old: Option<&Metadata>) -> io::Result<Self> {
        let mut beside = Self::in_folder(folder(place))?;
        let file = beside.file.as_file_mut();
        file.write_all(bytes)?;
        match old {
            Some(old) => mode::keep(file, old)?,
            None => mode::set_default(file)?,
        }
        file.sync_all()?;
        Ok(beside)
    }

    fn in_folder(folder: &Path) -> io::Result<Self> {
        let mut names = names();
        let file = tempfile::Builder::new().prefix(".toeline-").tempfile_in(folder)?;
        let name = file.path().to_owned();
        names.push(name.clone());
        Ok(Self { file, listed: Listed(name) })
    }
}

fn folder(place: &Path) -> &Path {
    place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Gives files the names that they are to have, one right after the other: a signal waits until all have theirs.
///
/// # Errors
///
/// The name of the file that could not be renamed, and why. Those before it have theirs.
pub fn rename_all(files: Vec<(Unfinished, PathBuf)>) -> Result<(), (PathBuf, io::Error)> {
    let folders: Vec<PathBuf> = files.iter().map(|(_, place)| folder(place).to_owned()).collect();
    // They leave the list once the lock is free again.
    let mut listed = Vec::new();
    let mut unnamed = Vec::new();
    for (Unfinished { file, listed: name }, place) in files {
        listed.push(name);
        unnamed.push((file, place));
    }
    {
        let _names = names();
        for (file, place) in unnamed {
            if let Err(error) = file.persist(&place) {
                return Err((place, error.error));
            }
        }
    }
    drop(listed);
    folders.iter().for_each(|folder| sync(folder));
    Ok(())
}

/// Gives a file a name that nothing has yet.
///
/// # Errors
///
/// Why it cannot have the name; [`io::ErrorKind::AlreadyExists`] where something has it by now.
pub fn name_new(Unfinished { file, listed }: Unfinished, place: &Path) -> io::Result<()> {
    {
        let _names = names();
        file.persist_noclobber(place).map_err(|error| error.error)?;
    }
    drop(listed);
    sync(folder(place));
    Ok(())
}

/// So that new names, too, outlast a power cut; not every file system can.
fn sync(folder: &Path) {
    let _ = File::open(folder).and_then(|folder| folder.sync_all());
}

fn names() -> MutexGuard<'static, Vec<PathBuf>> {
    NAMES.lock().unwrap_or_else(PoisonError::into_inner)
}

/// From now on a thread waits for the signals that ask a program to end: it removes what is unfinished, and then ends
/// the program as the signal would have. For programs that do nothing of their own at these signals.
///
/// # Errors
///
/// Why the system does not let it wait.
#[cfg(unix)]
pub fn remove_on_signals() -> io::Result<()> {
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

/// Unfinished files are removed where the system has signals for it.
///
/// # Errors
///
/// None.
#[cfg(not(unix))]
pub fn remove_on_signals() -> io::Result<()> {
    Ok(())
}
