//! Why a file cannot be written.

use std::io::{self, ErrorKind};

/// Why a file cannot be written, for someone who does not know the system's words.
pub fn reason(error: &io::Error) -> String {
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
