//! What need not be in a program as it is written: of the typefaces how wide their letters are, as a table, and the scripts
//! of the phone's page without their comments.

use std::collections::BTreeMap;
use std::error::Error;
use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

use ttf_parser::Face;

/// The name of each table and the file that it is made from.
const TYPEFACES: [(&str, &str); 3] = [
    ("REGULAR", "fonts/OpenSans-Regular.ttf"),
    ("BOLD", "fonts/OpenSans-Bold.ttf"),
    ("FALLBACK", "fonts/DejaVuSans.ttf"),
];

/// The first of the signs (arrows of mathematics, boxes, dingbats) that lie behind the alphabets of Europe and the Near
/// East: of those only the wide ones stand in a table.
const FIRST_SIGN: u32 = 0x2200;

fn main() -> Result<(), Box<dyn Error>> {
    let mut tables = String::new();
    for (name, file) in TYPEFACES {
        println!("cargo::rerun-if-changed={file}");
        let bytes = fs::read(file)?;
        let face = Face::parse(&bytes, 0)?;
        writeln!(
            tables,
            "/// Made from `{file}`.\npub(super) static {name}: Advances = Advances {{ per_em: {}, runs: &[",
            face.units_per_em()
        )?;
        for (first, widths) in runs(&widths(&face)) {
            writeln!(tables, "({first}, &{widths:?}),")?;
        }
        tables += "] };\n";
    }
    let folder = env::var("OUT_DIR")?;
    fs::write(Path::new(&folder).join("advances.rs"), tables)?;
    write_scripts(&Path::new(&folder).join("page"))
}

/// Writes the scripts of the phone's page to a folder, without the lines that are comments.
fn write_scripts(folder: &Path) -> Result<(), Box<dyn Error>> {
    const SCRIPTS: &str = "templates/page";
    println!("cargo::rerun-if-changed={SCRIPTS}");
    fs::create_dir_all(folder)?;
    for entry in fs::read_dir(SCRIPTS)? {
        let path = entry?.path();
        let Some(name) = path.file_name() else { continue };
        let script = fs::read_to_string(&path)?;
        let lines = script.split_inclusive('\n').filter(|line| !line.trim_start().starts_with("//"));
        fs::write(folder.join(name), lines.collect::<String>())?;
    }
    Ok(())
}

/// The width of each letter that a typeface has, by its code.
fn widths(face: &Face<'_>) -> BTreeMap<u32, u16> {
    let mut codes = Vec::new();
    for subtable in face.tables().cmap.iter().flat_map(|cmap| cmap.subtables) {
        subtable.codepoints(|code| codes.push(code));
    }
    let width = |code| face.glyph_hor_advance(face.glyph_index(char::from_u32(code)?)?);
    // Signs behind all alphabets are as wide as the type is high where no table has them.
    let is_kept = |code: u32, width: u16| code < FIRST_SIGN || width > face.units_per_em();
    let widths = codes.into_iter().filter_map(|code| Some((code, width(code)?)));
    widths.filter(|(code, width)| is_kept(*code, *width)).collect()
}

/// The letters whose codes follow one another, with the code of the first.
fn runs(widths: &BTreeMap<u32, u16>) -> Vec<(u32, Vec<u16>)> {
    let mut runs: Vec<(u32, Vec<u16>)> = Vec::new();
    for (&code, &width) in widths {
        match runs.last_mut() {
            Some((first, run)) if *first as usize + run.len() == code as usize => run.push(width),
            _ => runs.push((code, vec![width])),
        }
    }
    runs
}
