//! The sessions of a page and their blocks.

use session_plan::Plan;

use super::kept_key::kept_key;
use super::old_key::old_key;
use super::run::{Run, runs};
use crate::map::map_picture::maps;
use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::strip::strip::{Strip, strips};
use crate::strip::strip_part::Stretch;

/// A session of a page.
pub(super) struct PageSession {
    /// Its place among the sessions of the page, from 1.
    pub(super) number: usize,
    /// The key of its times on the phone.
    pub(super) key: String,
    /// The key that earlier pages used.
    pub(super) old_key: String,
    pub(super) sheet: Sheet,
    /// Its date, as `2027-04-13`.
    pub(super) day: Option<String>,
    /// The name of its track.
    pub(super) track: String,
    /// The track with its spots, as SVG: one for a wide screen and paper, one for a phone.
    pub(super) maps: (String, String),
    /// Its lanes unrolled.
    pub(super) strips: Vec<Strip>,
    pub(super) blocks: Vec<PageBlock>,
}

/// A block of a page.
pub(super) struct PageBlock {
    pub(super) sheet: SheetBlock,
    pub(super) runs: Vec<Run>,
}

impl PageSession {
    pub(super) fn of(number: usize, plan: &Plan) -> Self {
        let sheet = Sheet::of(plan);
        Self {
            number,
            key: kept_key(plan),
            old_key: old_key(plan),
            day: plan.date.map(|date| date.to_string()),
            track: plan.track.name.clone(),
            maps: maps(plan, &format!("s{number}")),
            strips: strips(plan, Stretch::Whole).concat(),
            blocks: sheet.blocks.iter().map(PageBlock::of).collect(),
            sheet,
        }
    }

    /// Date, times, track with its closed lanes, wind.
    pub(super) fn facts(&self) -> Vec<String> {
        let sheet = &self.sheet;
        let wind = sheet.wind.as_ref().map(|wind| format!("Wind: {wind}"));
        [sheet.date.clone(), sheet.times.clone(), Some(sheet.track.clone()), wind]
            .into_iter()
            .flatten()
            .collect()
    }

    /// The name of the file for its saved times, without the ending.
    pub(super) fn file_name(&self) -> String {
        let title = self.sheet.title.to_lowercase();
        let words = title.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        let name = words.take(8).collect::<Vec<_>>().join("-");
        if name.is_empty() { "times".to_owned() } else { format!("times-{name}") }
    }
}

impl PageBlock {
    fn of(block: &SheetBlock) -> Self {
        Self { sheet: block.clone(), runs: runs(block) }
    }

    /// Whether any run has a target, or a rest of its own in a lane.
    pub(super) fn has_target(&self) -> bool {
        self.runs.iter().any(|run| {
            run.lanes
                .iter()
                .any(|lane| lane.row.target.is_some() || (run.rest.is_none() && lane.row.rest.is_some()))
        })
    }

    /// The number of columns beside those of the whole run.
    pub(super) fn columns(&self) -> u8 {
        if self.has_target() { 6 } else { 5 }
    }
}
