//! YAML texts whose faults have a place.

use serde_yaml::Value;

use crate::files::fault::Fault;
use crate::files::form_words::{NO_KEY, without_place};
use crate::files::places::Places;
use workout_notation::{Problem, Problems, SourceText};

/// The largest file that is read, in bytes.
pub const LARGEST_FILE: u64 = 1024 * 1024;

/// A YAML text as values without types.
pub(crate) struct Yaml<'a> {
    source: &'a SourceText,
    places: Places<'a>,
    /// The values. Of a key that is written twice, the first.
    pub(crate) value: Value,
    /// The keys that are written twice.
    repeated: Vec<Problem>,
}

impl<'a> Yaml<'a> {
    /// Reads a text.
    ///
    /// # Errors
    ///
    /// [`Problems`] where it is no YAML, or nested too deep.
    pub(crate) fn read(source: &'a SourceText) -> Result<Self, Problems> {
        let places = Places::of(&source.text);
        if let Some(span) = places.too_deep.clone() {
            let problem = Problem::new(span, "values are nested too deep").with_help("nest them less");
            return Err(Problems::new(source.clone(), vec![problem]));
        }
        let repeated: Vec<Problem> = places
            .repeated()
            .map(|name| {
                let key = &source.text[name.clone()];
                Problem::new(name, format!("the key `{key}` is written twice")).with_help("keep one of them")
            })
            .collect();
        // What is written twice is taken out, so that the rest can be read.
        let read = match repeated.is_empty() {
            true => serde_yaml::from_str(&source.text),
            false => serde_yaml::from_str(&places.without_repeated()),
        };
        match read {
            Ok(Value::Null) => {
                let problem = Problem::new(0..0, "the file is empty");
                Err(Problems::new(source.clone(), vec![problem]))
            }
            Ok(value) => Ok(Self { source, places, value, repeated }),
            Err(error) => {
                let at = error.location().map_or(0, |location| location.index()).min(source.text.len());
                let at = (at..=source.text.len()).find(|&at| source.text.is_char_boundary(at)).unwrap_or(0);
                let mut problems = repeated;
                problems.push(syntax(at, without_place(&error.to_string())));
                Err(Problems::new(source.clone(), problems))
            }
        }
    }

    /// Whether nothing is written twice.
    pub(crate) fn is_sound(&self) -> bool {
        self.repeated.is_empty()
    }

    /// Gives faults of the values their place in the text, beside the keys that are written twice.
    pub(crate) fn locate(&self, faults: Vec<Fault>) -> Problems {
        let mut problems = self.repeated.clone();
        for fault in faults {
            let is_name = fault.message.starts_with(NO_KEY);
            let span = if is_name { self.places.name(&fault.at) } else { self.places.value(&fault.at) };
            let problem = Problem { span, message: fault.message, help: fault.help };
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
        Problems::new(self.source.clone(), problems)
    }
}

/// What keeps a text from being YAML, in words of its own where the reader's say too little.
fn syntax(at: usize, message: &str) -> Problem {
    let at = at..at;
    if message.contains("repetition limit") {
        Problem::new(at, "what stands for other values (`*name`) makes the file too large")
            .with_help("write the values themselves")
    } else if message.contains("unknown anchor") {
        Problem::new(at, "`*` stands for a value that nothing before it has named (`&name`)")
            .with_help("put quotes round it where it is text")
    } else if message.contains("more than one document") {
        Problem::new(at, "the file holds more than one document")
            .with_help("leave out the line `---` and what follows it")
    } else {
        Problem::new(at, format!("this cannot be read as YAML: {message}"))
            .with_help("look near here for a bracket, a quote, a colon or a space too many or too few")
    }
}
