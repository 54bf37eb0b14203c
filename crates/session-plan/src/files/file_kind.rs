//! What kind of file a text is.

use crate::files::yaml_text::YamlText;
use lane_distance::Key;

/// What kind of file a text is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FileKind {
    /// A session file.
    #[default]
    Session,
    /// A track file.
    Track,
}

impl FileKind {
    /// The kind of a text, by the keys that only one kind has; nothing where it has none of them, as a
    /// file for another program.
    ///
    /// ```
    /// use session_plan::{FileKind, YamlText};
    /// use workout_notation::SourceText;
    ///
    /// let kind = |text: &str| FileKind::of(&YamlText::read(SourceText::new("x.yaml", text)));
    /// assert_eq!(kind("title: Tuesday\nblocks: []"), Some(FileKind::Session));
    /// assert_eq!(kind("name: Wrenbeck\npath: []"), Some(FileKind::Track));
    /// assert_eq!(kind("shopping: [bread, milk]"), None);
    /// ```
    pub fn of(yaml: &YamlText) -> Option<Self> {
        const TRACK: [&str; 5] = ["path", "lane_width", "lanes", "home_straight", "inner_edge"];
        const SESSION: [&str; 2] = ["blocks", "title"];
        let has = |names: &[&str]| match &yaml.document {
            Ok(document) => names.iter().any(|name| document.root.get(&Key::from(*name)).is_some()),
            // It is not YAML: the keys at the beginning of a line are enough.
            Err(_) => names
                .iter()
                .any(|name| yaml.source.text().lines().any(|line| line.starts_with(&format!("{name}:")))),
        };
        match (has(&TRACK), has(&SESSION)) {
            (true, false) => Some(Self::Track),
            (_, true) => Some(Self::Session),
            (false, false) => None,
        }
    }
}
