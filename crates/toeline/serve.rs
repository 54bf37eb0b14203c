//! The planner on a page that the program serves.

use anyhow::{Result, anyhow};
use desk_server::{Server, ServerError, Settings};

use crate::failure;
use crate::flags::ServeFlags;
use crate::input::shown;
use crate::output;

/// Serves until a signal ends it.
pub(crate) fn serve(flags: &ServeFlags) -> Result<()> {
    let settings = Settings { host: flags.host.clone(), port: flags.port, sessions: flags.sessions.clone() };
    let server = Server::start(&settings).map_err(|error| match error {
        ServerError::Folder { path, error } => anyhow!("cannot open the folder `{}`: {error}", shown(&path)),
        error => error.into(),
    })?;
    if !server.is_of_this_machine() {
        failure::note("every machine that reaches this address can open the page, and the sessions with it");
    }
    output::line(&format!("Toeline is at http://{}/ until Ctrl-C", server.address()))?;
    Ok(server.run()?)
}
