//! Plans as one page, for a phone in the hand and for paper.

pub(crate) mod block;
mod first_screen;
mod kept_key;
mod key_digest;
mod old_key;
pub(crate) mod page_data;
pub(crate) mod plan_words;
pub(crate) mod policy;
mod prompts;
pub(crate) mod run;
pub(crate) mod run_words;
mod script;
mod session;
mod stages;
pub(crate) mod value_table;
mod week;

use std::collections::HashMap;

use askama::Template;
use session_plan::Limit;

use first_screen::FirstScreen;
use page_data::page_data;
use policy::PagePolicy;
use script::{BEGIN, SCRIPT};
use session::PageSession;
use week::PageWeek;

use crate::formats::plan_size::check_size;
use crate::formats::planned::Planned;
use crate::formats::rendered::RenderError;

/// How the page looks.
const STYLE: &str = include_str!("../../templates/page.css");

/// Plans as one page of HTML that loads nothing else.
///
/// Everything there is to read is in the page and is printed. Where scripts run, the page shows the run that is next,
/// counts down to each go, clocks the runs and keeps their times on the phone.
pub(crate) fn page(planned: &Planned<'_>) -> Result<String, RenderError> {
    let plans = planned.plans;
    check_size(plans, false, "html", Limit::PageLines)?;
    let mut sessions: Vec<PageSession> =
        (1..).zip(plans).map(|(number, plan)| PageSession::of(number, plan)).collect();
    // A session that is given twice is run twice, and each keeps its own times.
    let mut count_by_key = HashMap::new();
    for session in &mut sessions {
        let count = count_by_key.entry(session.key.clone()).or_insert(0);
        *count += 1;
        if *count > 1 {
            session.key += &format!("-{count}");
            session.old_key += &format!("-{count}");
        }
    }
    let title = match sessions.as_slice() {
        [only] => only.sheet.title.clone(),
        several => format!("{} sessions", several.len()),
    };
    let page = Page {
        title,
        policy: page_policy().alone(),
        style: STYLE,
        begin: BEGIN,
        data: page_data(&sessions),
        script: &SCRIPT,
        week: planned.week.map(PageWeek::of),
        sessions,
    };
    // The template refuses no value of a plan.
    page.render().map_err(|error| RenderError::Mistake(error.to_string()))
}

/// What the content security policy of a document has to name so that pages for the phone work in it: all of them have
/// the same style and scripts.
///
/// ```
/// assert!(plan_sheet::page_policy().style.starts_with(" 'sha256-"));
/// ```
pub fn page_policy() -> PagePolicy {
    PagePolicy::of(STYLE, &[BEGIN, &SCRIPT])
}

#[derive(Template)]
#[template(path = "page.html")]
struct Page {
    title: String,
    policy: String,
    style: &'static str,
    begin: &'static str,
    data: String,
    script: &'static str,
    week: Option<PageWeek>,
    sessions: Vec<PageSession>,
}

impl Page {
    /// The screen of a session before a script fills it.
    fn first_screen(&self, session: &PageSession) -> FirstScreen {
        FirstScreen::of(session)
    }

    /// The level of a session's heading; those within are one deeper.
    fn level(&self) -> u8 {
        if self.sessions.len() == 1 { 1 } else { 2 }
    }
}
