//! Completions and manual pages, made from the flags.

use anyhow::{Result, anyhow, bail};
use clap::CommandFactory;

use crate::failure::InputError;
use crate::flags::Flags;

/// The completions of a shell.
pub(crate) fn completions(shell: clap_complete::Shell) -> String {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Flags::command(), "toeline", &mut text);
    String::from_utf8_lossy(&text).into_owned()
}

/// The manual page of the program or of one of its commands.
pub(crate) fn page(name: Option<&str>) -> Result<String> {
    let mut program = Flags::command();
    program.build();
    let command = match name {
        None => &program,
        Some(name) => match program.find_subcommand(name) {
            Some(command) => command,
            None => {
                let known =
                    program.get_subcommands().map(clap::Command::get_name).collect::<Vec<_>>().join(", ");
                bail!(InputError::new(anyhow!("there is no command `{name}`; write one of {known}")))
            }
        },
    };
    let mut text = Vec::new();
    let version = concat!("toeline ", env!("CARGO_PKG_VERSION"));
    clap_mangen::Man::new(command.clone()).source(version).render(&mut text)?;
    Ok(String::from_utf8_lossy(&text).into_owned())
}
