//! Times that stand like runs of a list, and are the rest of what stands before.

use crate::block::Item;
use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::forms::{Details, Gap, RunKind};
use crate::listed::{Listed, run_in};
use crate::spanned::Spanned;

/// A time alone at the end of a list that is longer than this is a run, in seconds.
const LONGEST_LAST_S: f64 = 180.0;

/// An easy time behind repetitions that is longer than this is a run, in seconds.
const LONGEST_EASY_S: f64 = 480.0;

/// Words for a time that is rather a rest than a run.
const EASY: [&str; 5] = ["easy", "relaxed", "float", "jogging", "walking"];

impl Cursor<'_> {
    /// Whether a run by time is the rest of the item before, which then has it: `8 x 100, then 5 min, then 4 x 60`,
    /// `3 x 150, 6 min relaxed`, `10 x 1 min hard / 1 min easy`.
    pub(crate) fn rest_in_list(&mut self, last: &mut Listed, listed: &Listed, is_behind_plus: bool) -> bool {
        let Some((seconds, span)) = self.time_alone(listed) else { return false };
        let Some(before) = run_in(&last.item) else { return false };
        let has_rest = last.details.recovery.gap.is_some() || before.details.recovery.gap.is_some();
        let easy = listed.details.effort.as_deref();
        let is_easy = easy.is_some_and(|easy| EASY.contains(&easy.as_str()));
        if easy.is_some() && (!is_easy || is_behind_plus || has_rest || !last.is_counted) {
            return false;
        }
        let is_timed = matches!(before.kind.value, RunKind::Timed { .. });
        let own = last.details.effort.as_deref().or(before.details.effort.as_deref());
        let is_hard = own.is_some_and(|own| !EASY.contains(&own.as_str()));
        if is_timed && !(is_easy && is_hard) {
            return false;
        }
        let goes_on = self.goes_on_with_item();
        if !is_timed && is_easy && seconds > LONGEST_EASY_S
            || easy.is_none() && !goes_on && (seconds > LONGEST_LAST_S || has_rest)
        {
            return false;
        }
        if !is_timed {
            self.doubts.push(Doubt::RestOrRun { seconds });
        }
        if easy.is_none() && goes_on && last.is_counted {
            last.details.recovery.after = Some(Spanned::new(seconds, span));
        } else {
            last.details.recovery.gap = Some(Spanned::new(Gap::Rest(seconds), span));
        }
        true
    }

    /// The time of a run of which nothing is said but how easy it is, where no word calls it a run.
    fn time_alone(&self, listed: &Listed) -> Option<(f64, std::ops::Range<usize>)> {
        let Item::Run(run) = &listed.item else { return None };
        let RunKind::Timed { seconds } = run.kind.value else { return None };
        let written = self.text[run.kind.span.clone()].to_lowercase();
        let is_alone = run.details == Details::default()
            && Details { effort: None, ..listed.details.clone() } == Details::default()
            && !listed.is_counted
            && !written.contains("run");
        is_alone.then(|| (seconds, run.kind.span.clone()))
    }
}
