//! Whole sessions as text.

use workout_notation::{Block, SourceText, Workout};

use crate::files::file_fault::{FileFault, FileFaultKind, FileFaults};
use crate::files::text_places::starts;
use crate::people::session::Session;
use crate::people::shares::Shares;
use crate::plan::fault::PlanError;

/// A session as a coach sends it: its text, what it describes, and where.
///
/// ```
/// use session_plan::SessionText;
/// use workout_notation::SourceText;
///
/// let source = SourceText { name: "notes.txt".into(), text: "6 x 200 in lane 2, 90 s rest".into() };
/// let text = SessionText::read(source, "notes")?;
/// assert_eq!((text.session.title.as_str(), text.session.blocks[0].count()), ("notes", 6));
/// # Ok::<(), session_plan::FileFaults>(())
/// ```
#[derive(Clone, Debug)]
pub struct SessionText {
    /// The text.
    pub source: SourceText,
    /// What is run.
    pub session: Session,
    shares: Shares,
    /// Where each block of the text begins, in bytes.
    starts: Vec<usize>,
}

impl SessionText {
    /// Reads a text; where it has no title, it gets another.
    ///
    /// # Errors
    ///
    /// [`FileFaults`] with the place of everything that is wrong.
    pub fn read(source: SourceText, title: &str) -> Result<Self, FileFaults> {
        let workout = Workout::parse(&source.text).map_err(|problems| {
            let fault = |problem: workout_notation::Problem| FileFault {
                span: problem.span.clone(),
                at: Vec::new(),
                kind: FileFaultKind::Notation(problem),
            };
            FileFaults::new(source.clone(), problems.into_iter().map(fault).collect())
        })?;
        let shares = Shares::of(&workout);
        let blocks: Vec<Block> = workout.blocks().cloned().collect();
        let starts = starts(&source.text, &blocks);
        Ok(Self { source, session: Session::of_workout(title, workout), shares, starts })
    }

    /// Gives the faults of blocks that cannot be laid out their place in the text.
    pub fn locate(&self, errors: Vec<PlanError>) -> FileFaults {
        let faults = errors.into_iter().map(|PlanError { at, fault }| {
            let place = self.shares.list(at.group).get(at.block);
            let start = place.and_then(|place| self.starts.get(*place)).copied().unwrap_or(0);
            let span = start + fault.span.start..start + fault.span.end;
            FileFault { span, at: Vec::new(), kind: FileFaultKind::Plan(Box::new(fault)) }
        });
        // What everybody does is each group's, but stands in the text once: each fault is kept once.
        FileFaults::new(self.source.clone(), faults.collect())
    }
}
