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
mod reference;
#[cfg(feature = "serve")]
mod serve;
mod shortened;
mod week_files;

use std::process::ExitCode;

/// What is said where nothing is asked.
const GREETING: &str = "\
Toeline turns a written workout into places on a real running track.

  toeline plan \"6 x 200 in lane 2\"   where each run starts and finishes
  toeline serve                      the same on a page, in the browser
  toeline notation                   how to write a workout
  toeline --help                     every command
";

fn main() -> ExitCode {
    let flags = flags::Flags::read();
    let common = flags.command.as_ref().and_then(flags::Command::common);
    output::choose_color(common.map_or(flags::Color::Auto, |common| common.color));
    let done = match &flags.command {
        Some(command) => commands::run(command),
        None => output::print(GREETING),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => failure::report(&error),
    }
}
