//! Files that are whole or not there: written under another name beside their places, and renamed.
//!
//! ```
//! use whole_file::Unfinished;
//!
//! let folder = tempfile::tempdir()?;
//! let place = folder.path().join("tuesday.yaml");
//! let file = Unfinished::beside(&place, b"blocks: [6 x 200]\n", None)?;
//! assert!(!place.exists());
//! whole_file::rename_all(vec![(file, place.clone())]).map_err(|(_, error)| error)?;
//! assert_eq!(std::fs::read(&place)?, b"blocks: [6 x 200]\n");
//! # Ok::<(), std::io::Error>(())
//! ```

mod mode;
mod reason;
mod unfinished;

pub use reason::reason;
pub use unfinished::{Unfinished, name_new, remove_on_signals, rename_all};
