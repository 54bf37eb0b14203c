//! The program under `strace`, which lets its system calls fail, or sends it a signal at one of them.

use std::process::{Command, Output};

use crate::folder::Folder;
use crate::left_out::{left_out, say};
use crate::run::program;

/// A system call of a run: its name, and which one of that name it is.
pub(crate) struct Call {
    pub(crate) name: String,
    pub(crate) number: usize,
    /// As the log has it, for messages.
    pub(crate) text: String,
}

/// Calls that have to do with files, and those that wait for signals.
const OF_FILES: &str = "%file,%desc,?socketpair,?clone3";

/// The program's system calls that have to do with files, from the first one on that names a file. Nothing where
/// `strace` is missing, which is said.
pub(crate) fn calls_from(folder: &Folder, arguments: &[&str], file: &str) -> Option<Vec<Call>> {
    // Beside the folder: in it, the log would be found.
    let log = Folder::new();
    let trace = format!("trace={OF_FILES}");
    match Command::new("strace").args(["-o", "/dev/null", "true"]).output() {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            left_out("strace");
            return None;
        }
        // Containers may forbid one process to follow another.
        Ok(run) if !run.status.success() => {
            say("the machine lets no process be traced");
            return None;
        }
        run => drop(run.expect("strace can be started")),
    }
    let run = traced(folder, &["-o", &log.at("log"), "-e", &trace], arguments);
    assert!(run.expect("strace can be started").status.success());
    let log = log.read("log");
    let mut numbers = std::collections::HashMap::new();
    let mut is_of_file = false;
    let call = |line: &str| {
        let (name, _) = line.split_once('(')?;
        let number = numbers.entry(name.to_owned()).or_insert(0);
        *number += 1;
        let arguments_end = line.find(" = ").unwrap_or(line.len());
        // Where the program is started its whole command line is an argument.
        is_of_file |= name != "execve" && line[..arguments_end].contains(file);
        (is_of_file && name != "mmap").then(|| Call {
            name: name.to_owned(),
            number: *number,
            text: line.to_owned(),
        })
    };
    Some(log.lines().filter_map(call).collect())
}

impl Call {
    /// Runs the program with something done to this call, such as `error=EIO`.
    pub(crate) fn with(&self, what: &str, folder: &Folder, arguments: &[&str]) -> Output {
        let inject = format!("inject={}:{what}:when={}", self.name, self.number);
        let trace = format!("trace={OF_FILES}");
        let quiet = ["-o", "/dev/null", "-e", &trace, "-e", &inject];
        traced(folder, &quiet, arguments).expect("strace could be started before")
    }
}

fn traced(folder: &Folder, flags: &[&str], arguments: &[&str]) -> std::io::Result<Output> {
    let mut strace = Command::new("strace");
    strace.args(flags).arg(program()).args(arguments).current_dir(folder.path()).env("NO_COLOR", "1").output()
}
