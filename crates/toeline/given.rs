//! Sessions as they are given: a session file, a text, or a workout on the command line.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow, bail};
use plan_sheet::late_fault_words;
use session_plan::{
    FileFaultKind, FileKind, LaneClosure, Plan, Session, SessionFile, SessionText, Venue, WrittenSession,
    YamlText,
};
use workout_notation::{SourceText, Workout};

use crate::failure::InputError;
use crate::flags::Common;
use crate::input;

/// What stands for standard input.
const STANDARD_INPUT: &str = "-";

/// The endings of texts; a file of another name is one as well if it is there.
const TEXTS: [&str; 3] = ["txt", "text", "md"];

/// A session as it is given.
pub(crate) struct Given {
    written: WrittenSession,
    form: Form,
}

/// In which form a session is given.
enum Form {
    /// A session file, and where it lies.
    File(PathBuf),
    /// A text, out of a file or standard input.
    Text,
    /// A workout on the command line: a closed lane that it names is its own mistake, also where it closes it.
    Typed,
}

impl Given {
    /// Reads what an argument means: a file by its name, `-` for standard input, else a workout.
    pub(crate) fn read(argument: &str) -> Result<Self> {
        let path = Path::new(argument);
        if argument == STANDARD_INPUT {
            let source = input::standard_input()?;
            if !WrittenSession::may_be_file(&source) {
                return Self::text(source, path);
            }
            let yaml = YamlText::read(source);
            match FileKind::of(&yaml) {
                Some(FileKind::Session) => Self::of_yaml(yaml, path),
                Some(FileKind::Track) | None => Self::text(yaml.source, path),
            }
        } else if input::is_file_name(argument) || is_text(path) || path.is_file() {
            Self::of_file(path)
        } else if is_like_file(argument) {
            bail!("there is no file `{}` here; a workout is written like `6 x 200`", input::shown(path))
        } else {
            let source = SourceText::new("workout", argument);
            let title = source.text().split_whitespace().collect::<Vec<_>>().join(" ");
            Self::of_text(source, &title, Form::Typed)
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
        Ok(Self { written: file.into(), form: Form::File(path.to_owned()) })
    }

    /// The text of a file, or of standard input.
    pub(crate) fn text(source: SourceText, path: &Path) -> Result<Self> {
        input::check_text(&source)?;
        let stem = path.file_stem().filter(|stem| *stem != STANDARD_INPUT);
        let title = stem.map_or("Workout".to_owned(), |stem| input::shown(Path::new(stem)));
        Self::of_text(source, &title, Form::Text)
    }

    fn of_text(source: SourceText, title: &str, form: Form) -> Result<Self> {
        let text = SessionText::read(source, title).map_err(InputError::new)?;
        Ok(Self { written: text.into(), form })
    }

    /// Where it lies, if it is a session file.
    pub(crate) fn file_path(&self) -> Option<&Path> {
        match &self.form {
            Form::File(path) => Some(path),
            Form::Text | Form::Typed => None,
        }
    }

    pub(crate) const fn session(&self) -> &Session {
        self.written.session()
    }

    /// The lanes that a text says are closed.
    pub(crate) fn closed_lanes(&self) -> &[u8] {
        self.written.closed_lanes()
    }

    pub(crate) const fn session_mut(&mut self) -> &mut Session {
        self.written.session_mut()
    }

    /// The venue that the flags ask for, else its own.
    pub(crate) fn venue(&mut self, common: &Common) -> Result<Venue> {
        match (&mut self.written, &self.form) {
            (WrittenSession::File(file), form) => {
                let path = if let Form::File(path) = form { path.as_path() } else { Path::new("") };
                input::own_venue(file, path, common)
            }
            (WrittenSession::Text(text), Form::Typed) => {
                input::without_closed(input::closed_venue(common)?, &text.closed_lanes)
            }
            (WrittenSession::Text(text), _) => input::venue_of_text(text, input::open_venue(common)?),
        }
    }

    /// The lanes that it says are closed for a part of the evening.
    pub(crate) fn closures(&self) -> &[LaneClosure] {
        self.written.closures()
    }

    /// Takes the hazards that it names to be in use, and closes the lanes that it closes for a part of the evening.
    pub(crate) fn begin(&mut self, venue: &Venue) -> Result<()> {
        let closures = self.closures().to_vec();
        let closed = self.session_mut().close_for(venue, &closures);
        closed.map_err(|fault| match &self.written {
            WrittenSession::File(file) => {
                InputError::new(file.fault_at("lane_closures", FileFaultKind::Late(fault)))
            }
            WrittenSession::Text(_) => InputError::new(anyhow!("{}", late_fault_words(&fault))),
        })?;
        match &mut self.written {
            WrittenSession::File(file) => input::begin_hazards(file, venue),
            WrittenSession::Text(_) => Ok(()),
        }
    }

    /// The lanes of the flags that what is to be run in them moves away from.
    pub(crate) fn closed_late(&self, common: &Common) -> Vec<u8> {
        match &self.form {
            Form::File(_) | Form::Text => common.closed(),
            Form::Typed => Vec::new(),
        }
    }

    /// Lays a session out that was made of it.
    pub(crate) fn plan(&self, venue: &Venue, session: &Session) -> Result<Plan> {
        let plan = self.written.plan(venue, session).map_err(InputError::new)?;
        session.check_lanes(venue.track()).map_err(InputError::new)?;
        Ok(plan)
    }
}

/// A workout of several arguments, as it is written without quotes: `6 x 200 in lane 2`. Nothing where one of them is a file, or
/// has spaces of its own, or they are no workout together.
pub(crate) fn unquoted(arguments: &[String]) -> Option<String> {
    let is_part = |argument: &String| {
        !argument.contains(char::is_whitespace)
            && argument != STANDARD_INPUT
            && !input::is_file_name(argument)
            && !Path::new(argument).exists()
            && !is_like_file(argument)
    };
    let whole = arguments.join(" ");
    let is_one = arguments.len() > 1 && arguments.iter().all(is_part) && Workout::parse(&whole).is_ok();
    is_one.then_some(whole)
}

/// Whether an argument looks like the name of a file and like no workout: `tuesday.yamll`, `week/tuesday`.
fn is_like_file(argument: &str) -> bool {
    let path = Path::new(argument);
    let is_name = argument.starts_with(char::is_alphabetic) || argument.starts_with(['.', '/', '~', '_']);
    let is_letters = |ending: &str| {
        (2..=5).contains(&ending.len()) && ending.bytes().all(|byte| byte.is_ascii_alphanumeric())
    };
    let has_ending = path.extension().and_then(std::ffi::OsStr::to_str).is_some_and(is_letters);
    is_name
        && !argument.contains(char::is_whitespace)
        && (has_ending || argument.contains('/') && !argument.contains(char::is_numeric))
}

fn is_text(path: &Path) -> bool {
    let ending = path.extension();
    ending.is_some_and(|ending| TEXTS.iter().any(|text| ending.eq_ignore_ascii_case(text)))
}
