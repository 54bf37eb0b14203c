//! YAML texts whose faults have a place.

use std::ops::Range;

use lane_distance::{Fault, Key};
use saphyr::{LoadableYamlNode, MarkedYaml, Marker, YamlData};
use serde::de::DeserializeOwned;

use crate::problem::{Problem, Problems, SourceText};

/// The largest file that is read, in bytes.
pub const LARGEST_FILE: u64 = 1024 * 1024;

/// Reads a value from YAML text.
pub(crate) fn read<T: DeserializeOwned>(source: &SourceText) -> Result<T, Problems> {
    serde_yaml::from_str(&source.text).map_err(|error| {
        let at = error.location().map_or(0, |location| location.index()).min(source.text.len());
        let message = sentence(&error.to_string());
        let problem = Problem::new(word_at(&source.text, at), message.clone());
        let problem = match nearest_known(&message) {
            Some(near) => problem.with_help(format!("did you mean `{near}`?")),
            None => problem,
        };
        Problems::new(source.clone(), vec![problem])
    })
}

/// Gives faults of a value their place in the text that it was read from.
pub(crate) fn locate(source: &SourceText, faults: Vec<Fault>) -> Problems {
    let places = Places::of(source);
    let problems = faults
        .into_iter()
        .map(|fault| Problem { span: places.span(&fault.at), message: fault.message, help: fault.help })
        .collect();
    Problems::new(source.clone(), problems)
}

/// Where each value of a YAML text stands.
pub(crate) struct Places<'a> {
    text: &'a str,
    line_starts: Vec<usize>,
    root: Option<MarkedYaml<'a>>,
}

impl<'a> Places<'a> {
    pub(crate) fn of(source: &'a SourceText) -> Self {
        let text = source.text.as_str();
        let root = MarkedYaml::load_from_str(text).ok().and_then(|documents| documents.into_iter().next());
        let newlines = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        Self { text, line_starts: std::iter::once(0).chain(newlines).collect(), root }
    }

    /// The bytes of the value that keys lead to, or of the last value on the way that exists.
    pub(crate) fn span(&self, keys: &[Key]) -> Range<usize> {
        let Some(mut node) = self.root.as_ref() else { return 0..0 };
        for key in keys {
            let next = match (key, &node.data) {
                (Key::Name(name), YamlData::Mapping(mapping)) => mapping
                    .iter()
                    .find(|(key, _)| key.data.as_str() == Some(name.as_str()))
                    .map(|(_, value)| value),
                (Key::Index(index), YamlData::Sequence(items)) => items.get(*index),
                _ => None,
            };
            match next {
                Some(next) => node = next,
                None => break,
            }
        }
        let start = self.byte(node.span.start);
        let line_ends = self.text[start..].find('\n').map_or(self.text.len(), |newline| start + newline);
        let end = self.byte(node.span.end).clamp(start, line_ends);
        start..start + self.text[start..end].trim_end().len()
    }

    /// The byte that a marker means: its line counts from 1, its column in characters from 0.
    fn byte(&self, marker: Marker) -> usize {
        let Some(&line) = self.line_starts.get(marker.line().saturating_sub(1)) else {
            return self.text.len();
        };
        self.text[line..].char_indices().nth(marker.col()).map_or(self.text.len(), |(at, _)| line + at)
    }
}

/// The reader's messages name the place in their own way; it is said once, by line and column.
fn sentence(message: &str) -> String {
    let end = message.rfind(" at line ").unwrap_or(message.len());
    message[..end].to_owned()
}

/// The bytes of the word that begins at a place.
fn word_at(text: &str, at: usize) -> Range<usize> {
    let at = (at..=text.len()).find(|&at| text.is_char_boundary(at)).unwrap_or(text.len());
    let length = text[at..].find(|c: char| c.is_whitespace() || c == ':').unwrap_or(text.len() - at);
    at..at + length
}

/// For "unknown field `a`, expected one of `b`, `c`": the expected name most like the wrong one.
fn nearest_known(message: &str) -> Option<&str> {
    let mut quoted = message.split('`').skip(1).step_by(2);
    let wrong = message.starts_with("unknown").then(|| quoted.next()).flatten()?;
    quoted
        .map(|known| (strsim::jaro_winkler(wrong, known), known))
        .filter(|(likeness, _)| *likeness > 0.7)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, known)| known)
}
