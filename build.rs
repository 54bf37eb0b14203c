//! Takes the planner for a browser into the program, where it has been built (`crates/offline-planner/build`), and links
//! the program so that it starts soon.

use std::path::Path;
use std::{env, fs, io};

/// Where it is built.
const BUILT: &str = "crates/offline-planner/built";

fn main() -> io::Result<()> {
    // The tables of typesetting hold some 100,000 addresses. In a program that can be loaded anywhere each of them is
    // put right at every start, which takes longer than all the rest of it.
    let is = |key: &str, value: &str| env::var(key).is_ok_and(|found| found == value);
    if is("PROFILE", "release") && is("CARGO_CFG_TARGET_OS", "linux") && is("CARGO_CFG_TARGET_ENV", "gnu") {
        println!("cargo::rustc-link-arg-bin=toeline=-no-pie");
    }
    println!("cargo::rerun-if-changed=build.rs");
    // The folder above it is always there; what does not exist would count as changed.
    println!("cargo::rerun-if-changed=crates/offline-planner");
    let root = env::var("CARGO_MANIFEST_DIR").map_err(io::Error::other)?;
    let built = Path::new(&root).join(BUILT);
    let (script, wasm) = (built.join("planner.js"), built.join("planner.wasm"));
    let engine = if script.is_file() && wasm.is_file() {
        let engine = "plan_desk::Engine { script: include_str!({script:?}), wasm: include_bytes!({wasm:?}) }";
        let engine =
            engine.replace("{script:?}", &format!("{script:?}")).replace("{wasm:?}", &format!("{wasm:?}"));
        format!("Some({engine})")
    } else {
        "None".to_owned()
    };
    let out = env::var("OUT_DIR").map_err(io::Error::other)?;
    let text = format!("pub(crate) static ENGINE: Option<plan_desk::Engine<'static>> = {engine};\n");
    fs::write(Path::new(&out).join("engine.rs"), text)
}
