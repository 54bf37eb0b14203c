//! What the typesetter may read: the template, the sheets as data, the maps and our typefaces.

use std::collections::HashMap;
use std::path::PathBuf;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use super::fonts;

/// The template, by the names that its parts have for each other; the first is the whole.
const TEMPLATE: [(&str, &str); 10] = [
    ("/sheet.typ", include_str!("../../templates/print/sheet.typ")),
    ("/page.typ", include_str!("../../templates/print/page.typ")),
    ("/words.typ", include_str!("../../templates/print/words.typ")),
    ("/columns.typ", include_str!("../../templates/print/columns.typ")),
    ("/boxes.typ", include_str!("../../templates/print/boxes.typ")),
    ("/front.typ", include_str!("../../templates/print/front.typ")),
    ("/timed.typ", include_str!("../../templates/print/timed.typ")),
    ("/lanes.typ", include_str!("../../templates/print/lanes.typ")),
    ("/week.typ", include_str!("../../templates/print/week.typ")),
    ("/cards.typ", include_str!("../../templates/print/cards.typ")),
];

/// Everything there is while a sheet is set: no file of the machine, no network, no clock.
pub(crate) struct PrintWorld {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    main: FileId,
    sources: HashMap<FileId, Source>,
    files: HashMap<FileId, Bytes>,
}

impl PrintWorld {
    /// A world with files, each by its path from the root.
    pub(crate) fn new(files: impl IntoIterator<Item = (String, Bytes)>) -> Self {
        let fonts: Vec<Font> = [fonts::REGULAR, fonts::BOLD, fonts::FALLBACK]
            .into_iter()
            .flat_map(|typeface| Font::iter(Bytes::new(typeface)))
            .collect();
        Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
            main: file_id(TEMPLATE[0].0),
            sources: TEMPLATE.iter().map(|(path, text)| source(path, text)).collect(),
            files: files.into_iter().map(|(path, bytes)| (file_id(&path), bytes)).collect(),
        }
    }
}

fn file_id(path: &str) -> FileId {
    let path = VirtualPath::new(path).expect("our own names are plain");
    RootedPath::new(VirtualRoot::Project, path).intern()
}

fn source(path: &str, text: &str) -> (FileId, Source) {
    let id = file_id(path);
    (id, Source::new(id, text.to_owned()))
}

impl World for PrintWorld {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources.get(&id).cloned().ok_or(FileError::NotSource)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let path = || PathBuf::from(id.get().vpath().get_with_slash());
        self.files.get(&id).cloned().ok_or_else(|| FileError::NotFound(path()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
