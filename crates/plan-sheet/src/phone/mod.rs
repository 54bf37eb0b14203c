//! Plans as one page, for a phone in the hand and for paper.

mod kept_key;
mod policy;
mod prompts;
mod run;
mod session;

use std::collections::HashMap;

use askama::Template;
use session_plan::Plan;

use session::PageSession;

/// How the page looks.
const STYLE: &str = include_str!("../../templates/page.css");

/// What the page does beyond being read: clocks, countdowns, times that are kept.
const SCRIPT: &str = include_str!("../../templates/page.js");

/// A page that could not be written.
#[derive(Debug, thiserror::Error)]
#[error("the page cannot be written: {0}")]
pub struct PageError(#[from] askama::Error);

/// Plans as one page of HTML that asks nothing of anywhere.
///
/// Everything that there is to read is in the text of the page and is printed. Where scripts run, the
/// page also shows one block at a time, counts down to each go, clocks the runs and keeps their times.
///
/// # Errors
///
/// [`PageError`] where the template refuses a value; no plan has such values.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Session, Venue};
/// use workout_notation::Block;
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let block = Block::parse("200 in lane 2").expect("it is well formed");
/// let plan = session_plan::plan(&venue, &Session::of_block("<b>Ours</b>", block)).expect("lane 2 is open");
/// let page = plan_sheet::page(&[plan])?;
/// assert!(page.contains("on the 200 m start line"));
/// assert!(!page.contains("<b>Ours</b>")); // shown as it was written, and never as an element
/// # Ok::<(), plan_sheet::PageError>(())
/// ```
pub fn page(plans: &[Plan]) -> Result<String, PageError> {
    let mut sessions: Vec<PageSession> =
        (1..).zip(plans).map(|(number, plan)| PageSession::of(number, plan)).collect();
    // A session that is given twice is run twice.
    let mut times_given = HashMap::new();
    for session in &mut sessions {
        let times = times_given.entry(session.key.clone()).or_insert(0);
        *times += 1;
        if *times > 1 {
            session.key += &format!("-{times}");
        }
    }
    let title = match sessions.as_slice() {
        [only] => only.sheet.title.clone(),
        several => format!("{} sessions", several.len()),
    };
    let page = Page { title, policy: policy::of(STYLE, SCRIPT), style: STYLE, script: SCRIPT, sessions };
    Ok(page.render()?)
}

#[derive(Template)]
#[template(path = "page.html")]
struct Page {
    title: String,
    policy: String,
    style: &'static str,
    script: &'static str,
    sessions: Vec<PageSession>,
}

impl Page {
    /// The level of a session's heading; those within are one deeper.
    fn level(&self) -> u8 {
        if self.sessions.len() == 1 { 1 } else { 2 }
    }
}
