//! Session files.

use lane_distance::Key;

use crate::files::fault::Fault;
use crate::files::form::{self, Typed};
use crate::files::places::Places;
use crate::files::session_spec::SessionSpec;
use crate::files::yaml::Yaml;
use crate::people::session::Session;
use crate::plan::planner::PlanError;
use workout_notation::{Problem, Problems, SourceText};

/// A session file: its text, what it describes, and where.
///
/// ```
/// use session_plan::SessionFile;
/// use workout_notation::SourceText;
///
/// let text = "
/// title: Tuesday
/// date: 2027-04-13
/// hours: 18:00-19:30
/// track: standard-6
/// closed_lanes: [1]
/// bests: { 400: 56.2, 800: 2:08 }
/// groups:
///   - name: sprinters
///     athletes: [Ada, { name: Ben, bests: { 400: 54.9 } }]
/// blocks:
///   - warm-up 15 min
///   - 6 x 200 in lane 2 @ 800 pace rest 3min
/// ";
/// let file = SessionFile::read(SourceText { name: "tuesday.yaml".into(), text: text.into() })?;
/// assert_eq!(file.session.blocks[1].count(), 6);
/// assert_eq!(file.session.groups[0].athletes[1].name, "Ben");
/// assert_eq!(file.closed_lanes, [1]);
/// # Ok::<(), workout_notation::Problems>(())
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
        let (session, faults, in_blocks) = spec.session();
        // What stands in for a value that could not be read has no faults of its own.
        let is_meant = |fault: &Fault| {
            let Some(Key::Name(name)) = fault.at.first() else { return false };
            problems.iter().any(|problem| problem.help == Some(format!("did you mean `{name}`?")))
        };
        let is_known = |fault: &Fault| unsure.holds(&fault.at) || is_meant(fault);
        let faults = faults.into_iter().filter(|fault| !is_known(fault)).collect();
        problems.extend(yaml.locate(faults).problems);
        let in_blocks = in_blocks.into_iter().filter(|(at, ..)| !unsure.holds(at));
        problems.extend(in_blocks.map(|(at, text, problem)| in_file(&source, &at, &text, problem)));
        if !problems.is_empty() {
            return Err(Problems::new(source, problems));
        }
        let (track, closed_lanes) = (spec.track.map(TrackName::new), spec.closed_lanes);
        Ok(Self { source, session, track, closed_lanes })
    }

    /// Gives the problems of a plan their place in the file.
    pub fn locate(&self, errors: Vec<PlanError>) -> Problems {
        let problems = errors.into_iter().map(|error| {
            let (at, blocks) = match error.group {
                None => (vec![Key::from("blocks")], Some(&self.session.blocks)),
                Some(group) => (
                    vec![Key::from("groups"), Key::from(group), Key::from("blocks")],
                    self.session.groups.get(group).and_then(|group| group.blocks.as_ref()),
                ),
            };
            let text =
                blocks.and_then(|blocks| blocks.get(error.block)).map_or("", |block| block.text.as_str());
            in_file(&self.source, &[at.as_slice(), &[Key::from(error.block)]].concat(), text, error.problem)
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
fn in_file(source: &SourceText, at: &[Key], text: &str, problem: Problem) -> Problem {
    let span = Places::of(&source.text).value(at);
    let written = &source.text[span.start..];
    let quote = usize::from(written.starts_with(['"', '\'']));
    if written[quote..].starts_with(text) {
        problem.shifted(span.start + quote)
    } else {
        Problem { span, ..problem }
    }
}
