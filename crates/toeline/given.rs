//! Sessions as they are given: a session file, a text, or a workout on the command line.

use std::path::{Path, PathBuf};

use anyhow::Result;
use session_plan::{FileKind, Plan, PlanError, Session, SessionFile, SessionText, Venue, YamlText};
use workout_notation::SourceText;

use crate::failure::InputError;
use crate::flags::Common;
use crate::input;

/// What stands for standard input.
const STANDARD_INPUT: &str = "-";

/// The endings of texts; a file of another name is one as well if it is there.
const TEXTS: [&str; 3] = ["txt", "text", "md"];

/// A session as it is given.
pub(crate) enum Given {
    /// A session file, and where it lies.
    File(Box<SessionFile>, PathBuf),
    /// A text, out of a file or standard input.
    Text(SessionText),
    /// A workout on the command line: a closed lane that it names is its own mistake, also where it closes it.
    Typed(SessionText),
}

impl Given {
    /// Reads what an argument means: a file by its name, `-` for standard input, else a workout.
    pub(crate) fn read(argument: &str) -> Result<Self> {
        let path = Path::new(argument);
        if argument == STANDARD_INPUT {
            let source = input::standard_input()?;
            if !has_keys_of_session(&source) {
                return Self::text(source, path);
            }
            let yaml = YamlText::read(source);
            match FileKind::of(&yaml) {
                Some(FileKind::Session) => Self::of_yaml(yaml, path),
                Some(FileKind::Track) | None => Self::text(yaml.source, path),
            }
        } else if input::is_file_name(argument) || is_text(path) || path.is_file() {
            Self::of_file(path)
        } else {
            let source = SourceText::new("workout", argument);
            let title = source.text().split_whitespace().collect::<Vec<_>>().join(" ");
            Ok(Self::Typed(text(source, &title)?))
        }
    }

    /// Reads a file: one that ends in .yaml or .yml as a session file, every other one as text.
    pub(crate) fn of_file(path: &Path) -> Result<Self> {
        if input::is_file_name(&path.to_string_lossy()) {
            return Self::of_yaml(YamlText::read(input::source(path)?), path);
        }
        Self::text(input::text(path)?, path)
    }

    /// A session file.
    pub(crate) fn of_yaml(yaml: YamlText, path: &Path) -> Result<Self> {
        let file = SessionFile::from_yaml(yaml).map_err(InputError::new)?;
        Ok(Self::File(Box::new(file), path.to_owned()))
    }

    /// The text of a file, or of standard input.
    pub(crate) fn text(source: SourceText, path: &Path) -> Result<Self> {
        input::check_text(&source)?;
        let stem = path.file_stem().filter(|stem| *stem != STANDARD_INPUT);
        let title = stem.map_or("Workout".to_owned(), |stem| input::shown(Path::new(stem)));
        Ok(Self::Text(text(source, &title)?))
    }

    pub(crate) const fn session(&self) -> &Session {
        match self {
            Self::File(file, _) => &file.session,
            Self::Text(text) | Self::Typed(text) => &text.session,
        }
    }

    /// The lanes that a text says are closed.
    pub(crate) fn closed_lanes(&self) -> &[u8] {
        match self {
            Self::File(file, _) => &file.closed_lanes,
            Self::Text(text) | Self::Typed(text) => &text.closed_lanes,
        }
    }

    pub(crate) const fn session_mut(&mut self) -> &mut Session {
        match self {
            Self::File(file, _) => &mut file.session,
            Self::Text(text) | Self::Typed(text) => &mut text.session,
        }
    }

    /// The venue that the flags ask for, else its own.
    pub(crate) fn venue(&mut self, common: &Common) -> Result<Venue> {
        match self {
            Self::File(file, path) => input::own_venue(file, path, common),
            Self::Text(text) => input::venue_of_text(text, input::open_venue(common)?),
            Self::Typed(text) => input::without_closed(input::venue(common)?, &text.closed_lanes),
        }
    }

    /// Takes the hazards that it names to be in use.
    pub(crate) fn begin_hazards(&mut self, venue: &Venue) -> Result<()> {
        match self {
            Self::File(file, _) => input::begin_hazards(file, venue),
            Self::Text(_) | Self::Typed(_) => Ok(()),
        }
    }

    /// The lanes of the flags that what is to be run in them moves away from.
    pub(crate) fn closed_late(&self, common: &Common) -> Vec<u8> {
        match self {
            Self::File(..) | Self::Text(_) => common.closed(),
            Self::Typed(_) => Vec::new(),
        }
    }

    /// Lays a session out that was made of it.
    pub(crate) fn plan(&self, venue: &Venue, session: &Session) -> Result<Plan> {
        let located = |errors: Vec<PlanError>| match self {
            Self::File(file, _) => file.locate(errors),
            Self::Text(text) | Self::Typed(text) => text.locate(errors),
        };
        let plan = session_plan::plan(venue, session).map_err(|errors| InputError::new(located(errors)))?;
        session.check_lanes(venue.track()).map_err(InputError::new)?;
        Ok(plan)
    }
}

fn text(source: SourceText, title: &str) -> Result<SessionText> {
    Ok(SessionText::read(source, title).map_err(InputError::new)?)
}

fn is_text(path: &Path) -> bool {
    let ending = path.extension();
    ending.is_some_and(|ending| TEXTS.iter().any(|text| ending.eq_ignore_ascii_case(text)))
}

/// Whether a text without a name may be a session file.
fn has_keys_of_session(source: &SourceText) -> bool {
    let has_key = |key: &str| source.text().lines().any(|line| line.starts_with(key));
    has_key("blocks:") || has_key("groups:")
}
