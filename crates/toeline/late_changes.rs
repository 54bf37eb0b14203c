//! Late changes that flags make to a session.

use anyhow::{Result, anyhow};
use plan_sheet::late_fault_words;
use session_plan::{LateFault, Plan, Session, Since, TimeOfDay, Venue};

use crate::failure::InputError;
use crate::flags::{Common, LateFlags};

/// Makes the changes of the flags, but for blocks that are left out. A flag wins over the key of a file.
pub(crate) fn make(session: &mut Session, venue: &Venue, late: &LateFlags) -> Result<()> {
    if let Some(TimeOfDay(start)) = late.start {
        session.start_at(start).map_err(wrong("--start"))?;
    }
    let comes: Vec<_> = late.late.iter().map(|(group, TimeOfDay(time))| (group.clone(), *time)).collect();
    session.come_late(&comes).map_err(wrong("--late"))?;
    for name in &late.without {
        session.leave_out(name).map_err(wrong("--without"))?;
    }
    session.do_fewer(&late.reps).map_err(wrong("--reps"))?;
    if let Some(wind) = &late.wind {
        session.turn_wind(wind.clone());
    }
    let hazards: Vec<_> = late.hazard.iter().map(|(name, Since(from))| (name.clone(), *from)).collect();
    session.begin_hazards(venue, &hazards).map_err(wrong("--hazard"))
}

/// Closes lanes for a session whose blocks can move to others.
pub(crate) fn close(session: &mut Session, venue: &Venue, lanes: &[u8], common: &Common) -> Result<()> {
    session.close_lanes(venue, lanes).map_err(wrong("--closed"))?;
    session.close_for(venue, &common.closures()).map_err(wrong("--closed"))
}

/// The plan without the blocks that are left out: their numbers are those of the plan that has them.
pub(crate) fn skip(
    session: &Session,
    late: &LateFlags,
    plan: impl Fn(&Session) -> Result<Plan>,
) -> Result<Plan> {
    let planned = plan(session)?;
    if late.skip.is_empty() {
        return Ok(planned);
    }
    let mut shorter = session.clone();
    shorter.skip_blocks(&planned, &late.skip).map_err(wrong("--skip"))?;
    plan(&shorter)
}

/// The error of a flag that asks for what cannot be.
fn wrong(flag: &'static str) -> impl Fn(LateFault) -> anyhow::Error {
    move |fault| InputError::new(anyhow!("{flag}: {}", late_fault_words(&fault))).into()
}
