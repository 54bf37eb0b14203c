//! The planner's page as a folder of files.

use std::path::Path;

use anyhow::{Context, Result, anyhow, bail};
use plan_desk::Carrier;

use crate::failure::InputError;
use crate::input::shown;
use crate::new_file::{self, Name, NewFile};
use crate::output;

mod engine {
    include!(concat!(env!("OUT_DIR"), "/engine.rs"));
}

/// The file by which a folder that was written earlier is known.
const KNOWN_BY: &str = "toeline.webmanifest";

/// Writes the page to a folder, which any web server can hold.
pub(crate) fn publish(folder: &Path) -> Result<()> {
    let name = shown(folder);
    let Some(engine) = engine::ENGINE else {
        bail!(InputError::new(anyhow!(
            "this toeline was built without the planner for a browser; in its source folder run \
             `crates/offline-planner/build`, then build toeline again"
        )));
    };
    if !may_be_written(folder).with_context(|| format!("cannot read `{name}`"))? {
        bail!(InputError::new(anyhow!(
            "`{name}` holds other files; write the name of a new or an empty folder"
        )));
    }
    std::fs::create_dir_all(folder).with_context(|| format!("cannot make the folder `{name}`"))?;
    let files = plan_desk::page_files(Carrier::Worker(engine)).map_err(|error| anyhow!(error))?;
    let new = files.into_iter().map(|file| NewFile {
        path: folder.join(if file.path.is_empty() { "index.html" } else { file.path }),
        bytes: file.bytes.into_owned(),
        name: Name::Given,
    });
    let new: Vec<NewFile> = new.collect();
    new_file::write(&new)?;
    output::line(&format!("{name}: {} files; put the folder on any web server", new.len()))
}

/// Whether a folder is not there, is empty, or was written by this program.
fn may_be_written(folder: &Path) -> std::io::Result<bool> {
    match std::fs::read_dir(folder) {
        Ok(mut entries) => Ok(entries.next().is_none() || folder.join(KNOWN_BY).is_file()),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(true),
        Err(error) => Err(error),
    }
}
