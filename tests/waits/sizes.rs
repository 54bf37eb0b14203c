//! How large what is built is.

use std::fs;

use anyhow::Result;
use miniz_oxide::deflate::compress_to_vec;

use crate::demonstration::{Demonstration, rendered};
use crate::offline::built;
use crate::process::PROGRAM;
use crate::table::{left_out, note, say};

/// The level of compression: the most that gzip has.
const LEVEL: u8 = 9;

/// What gzip puts around the compressed bytes (RFC 1952).
const FRAME_BYTES: usize = 18;

pub(crate) fn rows() -> Result<()> {
    say(&format!("\n{:<38} {:>25} {:>25}\n{}", "Sizes", "bytes", "with gzip", "-".repeat(100)))?;
    row("the program", &fs::read(PROGRAM)?)?;
    match built() {
        Some([script, wasm]) => {
            row("the planner for a browser, WebAssembly", &fs::read(wasm)?)?;
            row("  and its script", &fs::read(script)?)?;
        }
        None => left_out("the planner for a browser", "as crates/offline-planner/build was not run")?,
    }
    let plan = Demonstration::read("tuesday-sprints")?.plan()?;
    row("the phone page, a sprint session", &rendered(&plan, "html")?)?;
    if cfg!(feature = "pdf") {
        row("the same on paper, PDF", &rendered(&plan, "pdf")?)?;
    }
    note(&format!("gzip: deflate at level {LEVEL}, by miniz_oxide"))
}

fn row(what: &str, bytes: &[u8]) -> Result<()> {
    let packed = compress_to_vec(bytes, LEVEL).len() + FRAME_BYTES;
    say(&format!("{what:<38} {:>25} {packed:>25}", bytes.len()))
}
