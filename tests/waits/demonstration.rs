//! Sessions of the demonstration, planned as the program plans them.

use std::fs;

use anyhow::{Context as _, Result, anyhow};
use plan_sheet::{Format, RenderSettings};
use session_plan::{Plan, SessionFile, Venue};
use workout_notation::SourceText;

/// The file of a session of Wrenbeck.
pub(crate) fn path(name: &str) -> String {
    format!("{}/sessions/wrenbeck/{name}.yaml", env!("CARGO_MANIFEST_DIR"))
}

fn source(name: &str) -> Result<SourceText> {
    let path = path(name);
    let text = fs::read_to_string(&path).with_context(|| format!("{path} cannot be read"))?;
    Ok(SourceText::new(&format!("{name}.yaml"), &text))
}

/// A session with the track that it is run on.
pub(crate) struct Demonstration {
    venue: Venue,
    source: SourceText,
}

impl Demonstration {
    pub(crate) fn read(name: &str) -> Result<Self> {
        let venue = Venue::read(&source("track")?).map_err(|faults| anyhow!("track.yaml: {faults}"))?;
        Ok(Self { venue, source: source(name)? })
    }

    /// From the text of the session to its plan.
    pub(crate) fn plan(&self) -> Result<Plan> {
        planned(&self.venue, &self.source)
    }
}

/// From the text of a session file to its plan.
pub(crate) fn planned(venue: &Venue, source: &SourceText) -> Result<Plan> {
    let file = SessionFile::read(source.clone()).map_err(|faults| anyhow!("{faults}"))?;
    let venue = venue.clone().with_closed(&file.closed_lanes)?;
    session_plan::plan(&venue, &file.session).map_err(|faults| anyhow!("{faults:?}"))
}

/// A plan as a kind of file.
pub(crate) fn rendered(plan: &Plan, ending: &str) -> Result<Vec<u8>> {
    let format = Format::with_ending(ending).with_context(|| format!("there is no view .{ending}"))?;
    let plans = std::slice::from_ref(plan);
    let files = format.render(plans, Some(plans), &RenderSettings::default())?.files;
    files.into_iter().next().context("a view is one file")
}
