//! A page of paper.

use std::path::PathBuf;
use std::process::Command;

use anyhow::{Result, anyhow, ensure};
use session_plan::Plan;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

use crate::demonstration::{Demonstration, rendered};
use crate::stopwatch::beside;
use crate::table::{left_out, note, row};

/// What sets a message on a page, line by line.
const TEMPLATE: &str = r###"
#set page(paper: "a4", margin: 14mm)
#set text(font: "Open Sans", size: 9pt)
#for line in read("message.md").split("\n") {
  if line.starts-with("# ") { heading(level: 1, line.slice(2)) }
  else if line.starts-with("## ") { heading(level: 2, line.slice(3)) }
  else if line.starts-with("- ") { list.item(line.slice(2)) }
  else { parbreak(); line }
}
"###;

const FONTS: [&[u8]; 2] = [
    include_bytes!("../../crates/plan-sheet/fonts/OpenSans-Regular.ttf"),
    include_bytes!("../../crates/plan-sheet/fonts/OpenSans-Bold.ttf"),
];

pub(crate) fn rows() -> Result<()> {
    const WHAT: &str = "a page of paper: a sprint session";
    if Command::new("pdftotext").arg("-v").output().is_err() {
        return left_out(WHAT, "as pdftotext is missing, which reads both");
    }
    let plan = Demonstration::read("tuesday-sprints")?.plan()?;
    let places = check(&plan, &rendered(&plan, "pdf")?, &list(&plan)?)?;
    row(WHAT, beside(7, || rendered(&plan, "pdf"), || list(&plan)))?;
    note("beside: the plan's message set as a plain list with typst; ours has the map, the boxes for times")?;
    note("and the tags of PDF/UA-1 as well.")?;
    note(&format!("same: all {places} names and marks of the runs' places can be read in both"))
}

/// The message of a plan as a list on pages.
fn list(plan: &Plan) -> Result<Vec<u8>> {
    let world = ListWorld::new(rendered(plan, "md")?);
    let document = typst::compile::<PagedDocument>(&world).output.map_err(|errors| anyhow!("{errors:?}"))?;
    typst::comemo::evict(0);
    typst_pdf::pdf(&document, &PdfOptions::default()).map_err(|errors| anyhow!("{errors:?}"))
}

/// Looks for what names a run's places in the text of both files; how many names and marks there are.
fn check(plan: &Plan, ours: &[u8], list: &[u8]) -> Result<usize> {
    let texts = [("the sheet", text(ours)?), ("the list", text(list)?)];
    let reps = || plan.blocks.iter().flat_map(|block| &block.reps);
    let mut sought: Vec<&str> = reps().flat_map(|rep| &rep.athletes).map(String::as_str).collect();
    sought
        .extend(reps().flat_map(|rep| [&rep.start, &rep.finish]).filter_map(|spot| spot.look_for.as_deref()));
    sought.sort_unstable();
    sought.dedup();
    ensure!(!sought.is_empty(), "the session names nothing");
    for (what, text) in &texts {
        for sought in &sought {
            ensure!(text.contains(sought), "`{sought}` is not in the text of {what}");
        }
    }
    Ok(sought.len())
}

/// The words of a PDF, one space apart.
fn text(pdf: &[u8]) -> Result<String> {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("read.pdf");
    std::fs::write(&file, pdf)?;
    let output = Command::new("pdftotext").arg("-raw").arg(&file).arg("-").output()?;
    ensure!(output.status.success(), "pdftotext: {}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    Ok(text.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// What the typesetter may read: the template, the message and two typefaces.
struct ListWorld {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    template: Source,
    message: Bytes,
}

impl ListWorld {
    fn new(message: Vec<u8>) -> Self {
        let fonts: Vec<Font> = FONTS.into_iter().flat_map(|font| Font::iter(Bytes::new(font))).collect();
        let path = VirtualPath::new("/list.typ").expect("the name is plain");
        let template = RootedPath::new(VirtualRoot::Project, path).intern();
        Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
            template: Source::new(template, TEMPLATE.to_owned()),
            message: Bytes::new(message),
        }
    }
}

impl World for ListWorld {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.template.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main() { Ok(self.template.clone()) } else { Err(FileError::NotSource) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let path = id.get().vpath().get_with_slash();
        if path == "/message.md" {
            Ok(self.message.clone())
        } else {
            Err(FileError::NotFound(PathBuf::from(path)))
        }
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
