//! Whole sessions as text.

use workout_notation::{Problem, SourceText, Workout};

use crate::files::file_fault::{FileFault, FileFaultKind, FileFaults};
use crate::people::lane_closure::LaneClosure;
use crate::people::session::Session;
use crate::people::shares::Shares;
use crate::plan::fault::PlanError;

/// A session as a coach sends it: its text, what it describes, and where.
///
/// ```
/// use session_plan::SessionText;
/// use workout_notation::SourceText;
///
/// let source = SourceText::new("notes.txt", "6 x 200 in lane 2, 90 s rest");
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
    /// Lanes that the text says are closed.
    pub closed_lanes: Vec<u8>,
    /// Lanes that it says are closed for a part of the evening.
    pub closures: Vec<LaneClosure>,
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
        let source = source.without_tabs();
        let workout = Workout::parse(source.text()).map_err(|problems| {
            let fault = |problem: Problem| FileFault {
                span: problem.span.clone(),
                at: Vec::new(),
                kind: FileFaultKind::Notation(problem),
            };
            FileFaults::new(source.clone(), problems.into_iter().map(fault).collect())
        })?;
        let shares = Shares::of(&workout);
        let starts = workout.blocks().map(|block| block.start).collect();
        let closed_lanes = workout.closed_lanes.iter().map(|lane| lane.get()).collect();
        let closures = workout.closures.iter().map(LaneClosure::from).collect();
        let session = Session::of_workout(title, workout);
        Ok(Self { source, session, closed_lanes, closures, shares, starts })
    }

    /// Gives the faults of blocks that cannot be laid out their place in the text.
    pub fn locate(&self, errors: Vec<PlanError>) -> FileFaults {
        let faults = errors.into_iter().map(|PlanError { at, fault }| {
            let place = self.shares.place(at.group, at.block);
            let start = place.and_then(|place| self.starts.get(place)).copied().unwrap_or(0);
            // A block whose text stands in several lines is another text than theirs.
            let within = |byte: usize| self.source.text().floor_char_boundary(start + byte);
            let span = within(fault.span.start)..within(fault.span.end);
            FileFault { span, at: Vec::new(), kind: FileFaultKind::Plan(Box::new(fault)) }
        });
        // What stands between two groups is each group's, but stands in the text once: each fault is kept once.
        FileFaults::new(self.source.clone(), faults.collect())
    }
}
