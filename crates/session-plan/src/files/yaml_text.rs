//! The text of a session or track file, read as YAML once.

use workout_notation::SourceText;

use crate::files::document::Document;
use crate::files::file_fault::{FileFault, FileFaults};
use crate::files::yaml_value::YamlValue;

/// The text of a session or track file, read as YAML once: what kind of file it is and what it says come from the same
/// reading.
///
/// ```
/// use session_plan::{FileKind, SessionFile, YamlText};
/// use workout_notation::SourceText;
///
/// let yaml = YamlText::read(SourceText::new("tuesday.yaml", "title: Tuesday\nblocks: [6 x 200]"));
/// assert_eq!(FileKind::of(&yaml), Some(FileKind::Session));
/// assert_eq!(SessionFile::from_yaml(yaml)?.session.title, "Tuesday");
/// # Ok::<(), session_plan::FileFaults>(())
/// ```
#[derive(Clone, Debug)]
pub struct YamlText {
    /// The text.
    pub source: SourceText,
    pub(crate) document: Result<Document, Vec<FileFault>>,
}

impl YamlText {
    /// Reads a text. One that is not YAML is kept with its faults, for whoever asks what it says.
    pub fn read(source: SourceText) -> Self {
        let document = Document::read(source.text());
        Self { source, document }
    }

    /// What it says; nothing where it cannot be read, where a key is written twice, and where one is neither a text nor
    /// a number.
    pub fn value(&self) -> Option<YamlValue> {
        let document = self.document.as_ref().ok().filter(|document| document.repeated.is_empty())?;
        YamlValue::of(&document.root)
    }

    /// The text and its values.
    ///
    /// # Errors
    ///
    /// What keeps it from being read.
    pub(crate) fn into_document(self) -> Result<(SourceText, Document), FileFaults> {
        match self.document {
            Ok(document) => Ok((self.source, document)),
            Err(faults) => Err(FileFaults::new(self.source, faults)),
        }
    }
}
