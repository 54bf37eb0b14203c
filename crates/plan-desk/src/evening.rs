//! An evening: a request, read and laid out.

use plan_sheet::{SessionGround, late_fault_words};
use session_plan::{
    FileFaultKind, FileKind, LateFault, Limit, Plan, Session, SessionFile, SessionText, Venue,
    WrittenSession, YamlText,
};
use workout_notation::SourceText;

use crate::plan_request::{PlaceChoice, PlanRequest};
use crate::problem::{Field, Problem, Problems};
use crate::squad_text::add_squad;

/// What a session is called where its text gives it no title.
const TITLE: &str = "Workout";

/// Reads an evening as it was written.
fn read(text: &str) -> Result<WrittenSession, Problems> {
    let faults = |faults| Problems::of_file(Field::Text, &faults);
    let source = SourceText::new("workout", text);
    let has_title = source.text().starts_with("title:");
    let source = if has_title || WrittenSession::may_be_file(&source) {
        check_size(text, Limit::FileBytes)?;
        let yaml = YamlText::read(source);
        if FileKind::of(&yaml) == Some(FileKind::Session) {
            return SessionFile::from_yaml(yaml).map(WrittenSession::from).map_err(faults);
        }
        yaml.source
    } else {
        source
    };
    check_size(source.text(), Limit::TextBytes)?;
    SessionText::read(source, TITLE).map(WrittenSession::from).map_err(faults)
}

/// A late change that the text itself makes and that cannot be made.
fn own_fault(written: &WrittenSession, key: &str, fault: LateFault) -> Problems {
    match written {
        WrittenSession::File(file) => {
            Problems::of_file(Field::Text, &file.fault_at(key, FileFaultKind::Late(fault)))
        }
        WrittenSession::Text(_) => Problem::new(Field::Text, late_fault_words(&fault)).into(),
    }
}

/// Lays out a session that was made of what was written.
fn laid_out(written: &WrittenSession, venue: &Venue, session: &Session) -> Result<Plan, Problems> {
    written.plan(venue, session).map_err(|faults| Problems::of_file(Field::Text, &faults))
}

fn check_size(text: &str, limit: Limit) -> Result<(), Problems> {
    if text.len() > limit.most() {
        let message = format!("the text is too long: at most {} bytes", limit.most());
        return Err(Problem::new(Field::Text, message).into());
    }
    Ok(())
}

/// An evening that was laid out.
pub(crate) struct Evening {
    /// The venue, with its lanes closed.
    pub(crate) venue: Venue,
    /// Who does what, with all changes.
    pub(crate) session: Session,
    /// What a session file calls the track; nothing for the standard one.
    track: Option<String>,
    /// The lanes that are closed, whoever closed them.
    closed: Vec<u8>,
    /// The plan.
    pub(crate) plan: Plan,
    /// The blocks of the plan that has them all, as they are written.
    pub(crate) blocks: Vec<String>,
}

impl Evening {
    /// Lays out what a request asks for.
    pub(crate) fn of(request: &PlanRequest) -> Result<Self, Problems> {
        let mut written = read(&request.text)?;
        add_squad(written.session_mut(), &request.squad)?;
        let own_track = match &written {
            WrittenSession::File(file) => file.track.clone(),
            WrittenSession::Text(_) => None,
        };
        let track = request.ground.name_in_session(own_track.as_ref());
        let venue = request.ground.venue(own_track.as_ref())?;
        let closed = written.session_mut().without_lanes(venue, &request.ground.closed);
        let venue = closed.map_err(|fault| Problem::late(Field::Closed, &fault))?;
        let own_closed = written.closed_lanes().to_vec();
        let closed = written.session_mut().without_lanes(venue, &own_closed);
        let venue = closed.map_err(|fault| own_fault(&written, "closed_lanes", fault))?;
        let closures = written.closures().to_vec();
        let closed = written.session_mut().close_for(&venue, &closures);
        closed.map_err(|fault| own_fault(&written, "lane_closures", fault))?;
        if let WrittenSession::File(file) = &mut written {
            let hazards = file.hazards.clone();
            let begun = file.session.begin_hazards(&venue, &hazards);
            begun.map_err(|fault| own_fault(&written, "hazards", fault))?;
        }
        request.late.make(written.session_mut(), &venue)?;
        let closed = written.session_mut().close_lanes(&venue, &request.late.closed);
        closed.map_err(|fault| Problem::late(Field::Closed, &fault))?;
        let mut closed = [own_closed, request.ground.closed.clone(), request.late.closed.clone()].concat();
        closed.sort_unstable();
        closed.dedup();
        written
            .session()
            .check_lanes(venue.track())
            .map_err(|error| Problem::new(Field::Text, error.to_string()))?;
        let whole = laid_out(&written, &venue, written.session())?;
        let blocks = whole.blocks.iter().map(|block| block.text().to_owned()).collect();
        let (session, plan) = chosen(&written, &venue, request, whole)?;
        Ok(Self { venue, session, track, closed, plan, blocks })
    }

    /// Where it is run, as a session file says it.
    pub(crate) fn ground(&self) -> SessionGround<'_> {
        SessionGround { track: self.track.as_deref(), closed_lanes: &self.closed, ..SessionGround::default() }
    }
}

/// The session with its chosen places and without the blocks that are left out, and its plan. The blocks of both are
/// numbered as in the plan that has them all.
fn chosen(
    written: &WrittenSession,
    venue: &Venue,
    request: &PlanRequest,
    plan: Plan,
) -> Result<(Session, Plan), Problems> {
    let mut session = written.session().clone();
    if request.choices.is_empty() && request.late.skip.is_empty() {
        return Ok((session, plan));
    }
    for PlaceChoice { block, from, to } in &request.choices {
        let place = block.checked_sub(1).and_then(|place| plan.blocks.get(place)).map(|block| block.at);
        let chosen = place.and_then(|at| session.block_mut(at));
        let Some(chosen) = chosen else {
            let message = format!("there is no block {block} to choose places for");
            return Err(Problem::new(Field::Choices, message).into());
        };
        *chosen = chosen.with_ends(from.as_deref(), to.as_deref());
    }
    let skipped = session.skip_blocks(&plan, &request.late.skip);
    skipped.map_err(|fault| Problem::late(Field::Skip, &fault))?;
    let plan = laid_out(written, venue, &session)?;
    Ok((session, plan))
}
