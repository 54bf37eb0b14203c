//! Session files.

use std::fmt;

use chrono::NaiveDate;
use lane_distance::Key;
use serde::de::{self, Deserialize, Deserializer, Visitor};

use crate::form::{self, Typed};
use crate::hours::Hours;
use crate::notation::Block;
use crate::places::Places;
use crate::planner::PlanError;
use crate::problem::{Problem, Problems, SourceText};
use crate::session::Session;
use crate::yaml::Yaml;

/// A session file: its text, what it describes, and where.
///
/// ```
/// use session_plan::{SessionFile, SourceText};
///
/// let text = "
/// title: Tuesday
/// date: 2027-04-13
/// track: standard-6
/// closed_lanes: [1]
/// blocks:
///   - 6 x 200 in lane 2 rest 3min
/// ";
/// let file = SessionFile::read(SourceText { name: "tuesday.yaml".into(), text: text.into() })?;
/// assert_eq!(file.session.blocks[0].count, 6);
/// assert_eq!(file.closed_lanes, [1]);
/// # Ok::<(), session_plan::Problems>(())
/// ```
#[derive(Clone, Debug)]
pub struct SessionFile {
    /// The text.
    pub source: SourceText,
    /// What is run.
    pub session: Session,
    /// The track that it is run on, if the file names one.
    pub track: Option<TrackName>,
    /// Lanes that are closed for this session, besides those closed on the track.
    pub closed_lanes: Vec<u8>,
}

/// What a session file calls its track.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TrackName {
    /// A built-in track.
    BuiltIn(String),
    /// A track file, by its path from the folder of the session file.
    File(String),
}

impl TrackName {
    /// A name that a built-in track has is that track; every other name is a file's.
    pub fn new(name: impl Into<String>) -> Self {
        let name = name.into();
        if lane_distance::Track::built_in_names().any(|known| known == name) {
            Self::BuiltIn(name)
        } else {
            Self::File(name)
        }
    }
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct SessionSpec {
    title: String,
    #[serde(default)]
    date: Option<NaiveDate>,
    #[serde(default)]
    hours: Option<Hours>,
    #[serde(default)]
    track: Option<String>,
    #[serde(default)]
    closed_lanes: Vec<u8>,
    blocks: Vec<BlockText>,
}

/// The text of a block; a number alone is a distance, and YAML does not call that text.
struct BlockText(String);

impl<'de> Deserialize<'de> for BlockText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader;

        impl Visitor<'_> for Reader {
            type Value = BlockText;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a string")
            }

            fn visit_u64<E: de::Error>(self, value: u64) -> Result<BlockText, E> {
                Ok(BlockText(value.to_string()))
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<BlockText, E> {
                Ok(BlockText(value.to_string()))
            }

            fn visit_str<E: de::Error>(self, value: &str) -> Result<BlockText, E> {
                Ok(BlockText(value.to_owned()))
            }
        }

        deserializer.deserialize_any(Reader)
    }
}

impl SessionFile {
    /// Reads a session file.
    ///
    /// # Errors
    ///
    /// [`Problems`] with the place of everything that is wrong, in every block.
    pub fn read(source: SourceText) -> Result<Self, Problems> {
        let mut yaml = Yaml::read(&source)?;
        let Typed { value: spec, faults, unsure } = form::typed::<SessionSpec>(&mut yaml.value, &[]);
        let mut problems = yaml.locate(faults).problems;
        let Some(spec) = spec else { return Err(Problems::new(source, problems)) };
        let mut blocks = Vec::new();
        if spec.blocks.is_empty() && !unsure.holds(&[Key::from("blocks")]) {
            let span = Places::of(&source.text).value(&[Key::from("blocks")]);
            problems.push(
                Problem::new(span, "the session has no blocks")
                    .with_help("write for example `- 6 x 200 in lane 2`"),
            );
        }
        for (index, BlockText(text)) in spec.blocks.iter().enumerate() {
            // What stands in for a block that is no text has no faults of its own.
            if unsure.holds(&[Key::from("blocks"), Key::from(index)]) {
                continue;
            }
            match Block::parse(text) {
                Ok(block) => blocks.push(block),
                Err(wrong) => {
                    problems.extend(wrong.into_iter().map(|problem| in_file(&source, index, text, problem)))
                }
            }
        }
        if !problems.is_empty() {
            return Err(Problems::new(source, problems));
        }
        let session = Session { title: spec.title, date: spec.date, hours: spec.hours, blocks };
        let track = spec.track.map(TrackName::new);
        Ok(Self { session, track, closed_lanes: spec.closed_lanes, source })
    }

    /// Gives the problems of a plan their place in the file.
    pub fn locate(&self, errors: Vec<PlanError>) -> Problems {
        let problems = errors.into_iter().map(|error| {
            let text = self.session.blocks.get(error.block).map_or("", |block| block.text.as_str());
            in_file(&self.source, error.block, text, error.problem)
        });
        Problems::new(self.source.clone(), problems.collect())
    }

    /// The place of a value of the file, for a problem found outside it.
    pub fn problem_at(&self, key: &str, message: impl Into<String>) -> Problems {
        let span = Places::of(&self.source.text).value(&[Key::from(key)]);
        Problems::new(self.source.clone(), vec![Problem::new(span, message)])
    }
}

/// A problem of a block's text, moved to the place of that text in the file. A text that the file
/// writes in another way (folded, or with escapes) is marked as a whole.
fn in_file(source: &SourceText, block: usize, text: &str, problem: Problem) -> Problem {
    let span = Places::of(&source.text).value(&[Key::from("blocks"), Key::from(block)]);
    let written = &source.text[span.start..];
    let quote = usize::from(written.starts_with(['"', '\'']));
    if written[quote..].starts_with(text) {
        problem.shifted(span.start + quote)
    } else {
        Problem { span, ..problem }
    }
}
