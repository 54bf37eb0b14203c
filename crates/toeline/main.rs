//! The `toeline` command: it reads what it is given, asks the libraries and writes the answer.

mod commands;
mod failure;
mod files_read;
mod flags;
mod given;
mod input;
mod late_changes;
mod manual;
mod new_file;
mod output;
mod publish;
#[cfg(feature = "serve")]
mod serve;
mod shortened;
mod week_files;

use std::process::ExitCode;

fn main() -> ExitCode {
    let flags = flags::Flags::read();
    output::choose_color(flags.command.common().map_or(flags::Color::Auto, |common| common.color));
    match commands::run(&flags.command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => failure::report(&error),
    }
}
