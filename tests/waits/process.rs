//! The whole process, from its start to its end.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

use anyhow::{Context as _, Result, ensure};

use crate::spell::Spell;
use crate::table::{left_out, note, row_of_overhead};
use crate::workout::WORKOUT;

/// The program that was built with this bench.
pub(crate) const PROGRAM: &str = env!("CARGO_BIN_EXE_toeline");

const STARTS: usize = 60;

pub(crate) fn rows() -> Result<()> {
    let folder = tempfile::tempdir()?;
    let Some(empty) = empty_program(folder.path())? else {
        return left_out("starts", "as rustc is missing, which builds the empty program");
    };
    for arguments in [&["lanes"][..], &["plan", WORKOUT]] {
        let (mut ours_s, mut empty_s) = (Vec::new(), Vec::new());
        for _ in 0..STARTS {
            ours_s.push(run_s(PROGRAM, arguments)?);
            empty_s.push(run_s(&empty, &[])?);
        }
        row_of_overhead(
            &format!("toeline {}", arguments.join(" ")),
            [Spell::of(ours_s), Spell::of(empty_s)],
        )?;
    }
    note(&format!(
        "beside: fn main() {{}} by rustc -O, {STARTS} starts of each in turn; the goal is 3 times at most"
    ))
}

/// A program that does nothing; none where there is no compiler.
pub(crate) fn empty_program(folder: &Path) -> Result<Option<PathBuf>> {
    let (source, program) = (folder.join("empty.rs"), folder.join("empty"));
    fs::write(&source, "fn main() {}\n")?;
    let compiler = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let output = match Command::new(compiler).arg("-O").arg(&source).arg("-o").arg(&program).output() {
        Err(_) => return Ok(None),
        Ok(output) => output,
    };
    ensure!(output.status.success(), "the empty program: {}", String::from_utf8_lossy(&output.stderr));
    Ok(Some(program))
}

/// How long a program runs, in seconds.
fn run_s(program: impl AsRef<OsStr>, arguments: &[&str]) -> Result<f64> {
    let mut command = Command::new(&program);
    command.args(arguments).stdin(Stdio::null()).stdout(Stdio::null());
    let begun = Instant::now();
    let status = command.status().with_context(|| format!("{} cannot be run", program.as_ref().display()))?;
    let run_s = begun.elapsed().as_secs_f64();
    ensure!(status.success(), "{} {arguments:?} fails", program.as_ref().display());
    Ok(run_s)
}
