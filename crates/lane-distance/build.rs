//! Turns the mark sets and tracks that come with the crate from YAML, which people write, to JSON, so that a program
//! needs no reader of YAML to have them.

use std::error::Error;
use std::path::Path;
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let out = env::var("OUT_DIR")?;
    for folder in ["marks", "tracks"] {
        println!("cargo::rerun-if-changed={folder}");
        for file in fs::read_dir(folder)? {
            let file = file?.path();
            let value: serde_json::Value = serde_yaml::from_str(&fs::read_to_string(&file)?)?;
            let name = file.with_extension("json");
            let name = name.file_name().ok_or("a file of a folder has a name")?;
            let to = Path::new(&out).join(folder);
            fs::create_dir_all(&to)?;
            fs::write(to.join(name), value.to_string())?;
        }
    }
    Ok(())
}
