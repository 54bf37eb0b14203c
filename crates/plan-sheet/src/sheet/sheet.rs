//! A plan as the sheets print it: every value in words.

use std::sync::Arc;

use chrono::NaiveTime;
use lane_distance::Track;
use serde::Serialize;
use session_plan::Plan;

use crate::sheet::cone_row::ConeRow;
use crate::sheet::sheet_block::SheetBlock;
use crate::words::{caution, change, day, house_rule, occasion, overrun, walk_words, warning};

/// A plan as the printed sheet and the page show it: every value in words, so that both say the same.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Sheet {
    /// What the session is called.
    pub(crate) title: String,
    /// The day, in words.
    pub(crate) date: Option<String>,
    /// When it is, or how long it lasts.
    pub(crate) times: Option<String>,
    /// What the track is called, and what is closed there.
    pub(crate) track: String,
    /// What has changed since the session was written.
    pub(crate) changed: Option<String>,
    /// That it ends after the booking, then what would bring it in.
    pub(crate) overrun: Vec<String>,
    /// The wind.
    pub(crate) wind: Option<String>,
    /// The blocks, in the order they are run.
    pub(crate) blocks: Vec<SheetBlock>,
    /// The map in words, for readers who cannot see it.
    pub(crate) map_words: String,
    /// What the walk is called that sets the cones out.
    pub(crate) walk_title: &'static str,
    /// How far and how long the walk is.
    pub(crate) walk: String,
    /// The length of a step, where cones are given in steps.
    pub(crate) stride: Option<String>,
    /// Every cone, in the order of the walk.
    pub(crate) cones: Vec<ConeRow>,
    /// That there is none, where runs need none.
    pub(crate) no_cones: Option<&'static str>,
    /// The track, for pictures.
    #[serde(skip)]
    pub(crate) ground: Arc<Track>,
    /// When it begins, if the time of day is known.
    #[serde(skip)]
    pub(crate) begins: Option<NaiveTime>,
    /// What the coach or the plan has to say.
    pub(crate) notes: Vec<String>,
    /// How people behave on this track.
    pub(crate) etiquette: Vec<String>,
    /// What to take care of.
    pub(crate) cautions: Vec<String>,
    /// The same in short, for what is carried on the track.
    pub(crate) short_cautions: String,
}

impl Sheet {
    /// A plan in words.
    pub(crate) fn of(plan: &Plan) -> Self {
        let blocks: Vec<SheetBlock> =
            (1..).zip(&plan.blocks).map(|(number, block)| SheetBlock::of(plan, number, block)).collect();
        let track = occasion::track(plan);
        Self {
            map_words: map_words(&track, !plan.setup.is_empty()),
            title: plan.title.clone(),
            date: plan.date.map(|date| day::beside(&plan.title, date)),
            times: occasion::times(plan),
            track,
            changed: change::changed(plan),
            overrun: overrun::lines(plan),
            wind: plan.wind.as_ref().map(crate::words::wind::wind_words),
            walk_title: walk_words::TITLE,
            walk: walk_words::walk(&plan.walk),
            cones: plan.setup.iter().map(|item| ConeRow::of(plan, item)).collect(),
            no_cones: walk_words::no_cones(plan),
            stride: walk_words::stride(plan),
            ground: plan.track.ground.clone(),
            begins: plan.begins,
            blocks,
            notes: warning::notes(plan),
            etiquette: house_rule::etiquette(&plan.rules),
            cautions: caution::all(&plan.cautions),
            short_cautions: caution::in_short(&plan.track.closed_lanes),
        }
    }
}

impl Sheet {
    /// Date, times, track with its closed lanes, wind.
    pub(crate) fn facts(&self) -> Vec<String> {
        let wind = self.wind.as_ref().map(|wind| format!("Wind: {wind}"));
        [self.date.clone(), self.times.clone(), Some(self.track.clone()), wind]
            .into_iter()
            .flatten()
            .collect()
    }
}

fn map_words(track: &str, has_cones: bool) -> String {
    let cones = if has_cones {
        ", with numbered flags where the cones stand; the list of the walk says each place in words"
    } else {
        ""
    };
    format!("Map of the track ({track}) from above{cones}.")
}
