//! Session files.

use chrono::NaiveTime;
use lane_distance::Key;
use workout_notation::SourceText;

use crate::files::document::Document;
use crate::files::file_fault::{FileFaultKind, FileFaults};
use crate::files::reader::Reader;
use crate::files::spec::closure_spec::ClosureSpec;
use crate::files::spec::session_spec::SessionSpec;
use crate::files::text_places::TextPlaces;
use crate::files::yaml_text::YamlText;
use crate::people::lane_closure::LaneClosure;
use crate::people::session::Session;
use crate::people::since::Since;
use crate::plan::fault::PlanError;

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
/// let file = SessionFile::read(SourceText::new("tuesday.yaml", text))?;
/// assert_eq!(file.session.blocks[1].count(), 6);
/// assert_eq!(file.session.groups[0].athletes[1].name, "Ben");
/// assert_eq!(file.closed_lanes, [1]);
/// # Ok::<(), session_plan::FileFaults>(())
/// ```
#[derive(Clone, Debug)]
pub struct SessionFile {
    /// The text.
    pub source: SourceText,
    document: Document,
    places: TextPlaces,
    /// What is run.
    pub session: Session,
    /// The track that it is run on, if the file names one.
    pub track: Option<TrackName>,
    /// Lanes closed for this session, on top of those that the track closes.
    pub closed_lanes: Vec<u8>,
    /// Lanes that are closed for a part of the evening, for [`Session::close_for`].
    pub closures: Vec<LaneClosure>,
    /// Hazards of the track that have come into use, for [`Session::begin_hazards`].
    pub hazards: Vec<(String, Option<NaiveTime>)>,
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
    /// [`FileFaults`] with the place of everything that is wrong, in every block.
    pub fn read(source: SourceText) -> Result<Self, FileFaults> {
        Self::from_yaml(YamlText::read(source))
    }

    /// Reads a session file from its YAML.
    ///
    /// # Errors
    ///
    /// The same.
    pub fn from_yaml(yaml: YamlText) -> Result<Self, FileFaults> {
        let (source, document) = yaml.into_document()?;
        let reader = Reader::new(&document, &[]);
        let spec = reader.read::<SessionSpec>(&[]);
        let (mut faults, others, unsure) = reader.into_faults();
        let Some(spec) = spec else { return Err(FileFaults::new(source, faults).and_more(others)) };
        // What is too much is not looked at any further.
        let too_much = spec.too_much();
        if !too_much.is_empty() {
            faults.extend(too_much.into_iter().map(|fault| document.fault(fault)));
            return Err(FileFaults::new(source, faults).and_more(others));
        }
        let (session, places, more) = spec.session();
        // What stands in for a value that could not be read has no faults of its own.
        let more = more.into_iter().filter(|(at, _)| !unsure.holds(at));
        faults.extend(more.map(|fault| document.fault_in(source.text(), fault)));
        if !faults.is_empty() {
            return Err(FileFaults::new(source, faults).and_more(others));
        }
        let hazards = spec.hazards.into_iter().map(|(name, Since(from))| (name, from)).collect();
        let closures = spec.lane_closures.into_iter().map(ClosureSpec::closure).collect();
        let (track, closed_lanes) = (spec.track.map(TrackName::new), spec.closed_lanes);
        Ok(Self { source, document, places, session, track, closed_lanes, closures, hazards })
    }

    /// Gives the faults of blocks that cannot be laid out their place in the file.
    pub fn locate(&self, errors: Vec<PlanError>) -> FileFaults {
        let faults = errors.into_iter().map(|error| {
            let (at, start) = self.places.of(error.at);
            let mut fault = error.fault;
            fault.span = fault.span.start + start..fault.span.end + start;
            self.document.fault_in(self.source.text(), (at, FileFaultKind::Plan(Box::new(fault))))
        });
        FileFaults::new(self.source.clone(), faults.collect())
    }

    /// A fault of the value under a key of the file, found outside it.
    pub fn fault_at(&self, key: &str, kind: FileFaultKind) -> FileFaults {
        FileFaults::new(self.source.clone(), vec![self.document.fault((vec![Key::from(key)], kind))])
    }
}
