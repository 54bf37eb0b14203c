//! The most memory that the program holds at a time, as Linux counts it.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use anyhow::{Context as _, Result, ensure};

use crate::demonstration::path;
use crate::evening::evening;
use crate::process::{PROGRAM, empty_program};
use crate::spell::figures;
use crate::table::{left_out, note, say};
use crate::workout::WORKOUT;

/// It is read so often; what is taken in the last moment before the end goes unseen.
const LOOK: Duration = Duration::from_micros(100);

/// So many runs are seen at least once before they end, of so many tries.
const RUNS: usize = 5;
const TRIES: usize = 100;

pub(crate) fn rows() -> Result<()> {
    say(&format!("\nPeak memory\n{}", "-".repeat(100)))?;
    if !Path::new("/proc/self/status").is_file() {
        return left_out("peak memory", "as this system does not tell it (Linux does)");
    }
    let folder = tempfile::tempdir()?;
    if let Some(empty) = empty_program(folder.path())? {
        row("an empty program", || Ok(Command::new(&empty)))?;
    }
    row("toeline plan, the workout", || {
        let mut command = Command::new(PROGRAM);
        command.args(["plan", WORKOUT]);
        Ok(command)
    })?;
    if cfg!(feature = "pdf") {
        let session = folder.path().join("evening.yaml");
        fs::write(&session, evening(40).text())?;
        let club = path("saturday-club-evening");
        for (what, session) in [
            ("the club evening as PDF", Path::new(&club)),
            ("40 athletes x 12 blocks as PDF", session.as_path()),
        ] {
            row(what, || {
                let out = folder.path().join("sheet.pdf");
                if out.exists() {
                    fs::remove_file(&out)?;
                }
                let mut command = Command::new(PROGRAM);
                command.arg("plan").arg(session).arg("--out").arg(out);
                Ok(command)
            })?;
        }
    }
    note(&format!("VmHWM, the most of {RUNS} runs"))
}

fn row(what: &str, command: impl Fn() -> Result<Command>) -> Result<()> {
    let mut seen_kb = Vec::new();
    for _ in 0..TRIES {
        if seen_kb.len() < RUNS {
            seen_kb.extend(peak_kb(&mut command()?)?);
        }
    }
    let most_kb =
        seen_kb.into_iter().max().with_context(|| format!("{what}: it ends too soon to be seen"))?;
    say(&format!("{what:<38} {:>22} MB", figures(f64::from(most_kb) * 1024.0 / 1e6)))
}

/// The most memory of a program until it ends, in kB (of 1024 bytes, as Linux has it); nothing where it ended first.
fn peak_kb(command: &mut Command) -> Result<Option<u32>> {
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn()?;
    let status = format!("/proc/{}/status", child.id());
    let mut most_kb = None;
    loop {
        let seen = fs::read_to_string(&status).unwrap_or_default();
        most_kb = most_kb.max(high_water_kb(&seen));
        if let Some(ended) = child.try_wait()? {
            ensure!(ended.success(), "{command:?} fails");
            return Ok(most_kb);
        }
        thread::sleep(LOOK);
    }
}

/// The line `VmHWM:     1234 kB` of a status.
fn high_water_kb(status: &str) -> Option<u32> {
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().strip_suffix(" kB")?.parse().ok()
}
