//! A session as it was written.

use workout_notation::SourceText;

use crate::files::file_fault::FileFaults;
use crate::files::session_file::SessionFile;
use crate::files::session_text::SessionText;
use crate::people::lane_closure::LaneClosure;
use crate::people::session::Session;
use crate::people::venue::Venue;
use crate::plan::plan::Plan;
use crate::plan::planner;

/// A session as it was written: as a session file, or as a coach sends it.
///
/// ```
/// use session_plan::{SessionText, Venue, WrittenSession};
/// use workout_notation::SourceText;
///
/// let text = SessionText::read(SourceText::new("workout", "6 x 200 in lane 2"), "Workout")?;
/// let written = WrittenSession::from(text);
/// let venue = Venue::from(lane_distance::Track::built_in("standard").expect("it comes with the crate"));
/// assert_eq!(written.plan(&venue, written.session())?.blocks[0].reps.len(), 6);
/// # Ok::<(), session_plan::FileFaults>(())
/// ```
#[derive(Clone, Debug)]
pub enum WrittenSession {
    /// A session file.
    File(Box<SessionFile>),
    /// A text.
    Text(Box<SessionText>),
}

impl From<SessionFile> for WrittenSession {
    fn from(file: SessionFile) -> Self {
        Self::File(Box::new(file))
    }
}

impl From<SessionText> for WrittenSession {
    fn from(text: SessionText) -> Self {
        Self::Text(Box::new(text))
    }
}

impl WrittenSession {
    /// Whether a text without a name may be a session file: one of its lines begins with a key that only those have.
    ///
    /// ```
    /// use session_plan::WrittenSession;
    /// use workout_notation::SourceText;
    ///
    /// assert!(WrittenSession::may_be_file(&SourceText::new("-", "title: Tuesday\nblocks: [6 x 200]")));
    /// assert!(!WrittenSession::may_be_file(&SourceText::new("-", "Tuesday\n6 x 200")));
    /// ```
    pub fn may_be_file(source: &SourceText) -> bool {
        let has_key = |key: &str| source.text().lines().any(|line| line.starts_with(key));
        has_key("blocks:") || has_key("groups:")
    }

    /// What is run.
    pub const fn session(&self) -> &Session {
        match self {
            Self::File(file) => &file.session,
            Self::Text(text) => &text.session,
        }
    }

    /// What is run, to be changed.
    pub const fn session_mut(&mut self) -> &mut Session {
        match self {
            Self::File(file) => &mut file.session,
            Self::Text(text) => &mut text.session,
        }
    }

    /// The lanes that it says are closed.
    pub fn closed_lanes(&self) -> &[u8] {
        match self {
            Self::File(file) => &file.closed_lanes,
            Self::Text(text) => &text.closed_lanes,
        }
    }

    /// The lanes that it says are closed for a part of the evening.
    pub fn closures(&self) -> &[LaneClosure] {
        match self {
            Self::File(file) => &file.closures,
            Self::Text(text) => &text.closures,
        }
    }

    /// Lays a session out that was made of it.
    ///
    /// # Errors
    ///
    /// [`FileFaults`] with the place of each block in what was written.
    pub fn plan(&self, venue: &Venue, session: &Session) -> Result<Plan, FileFaults> {
        planner::plan(venue, session).map_err(|errors| match self {
            Self::File(file) => file.locate(errors),
            Self::Text(text) => text.locate(errors),
        })
    }
}
