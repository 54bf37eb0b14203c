//! The sessions of a page and their blocks.

use std::sync::Arc;

use lane_distance::Track;
use session_plan::Plan;

use super::block::PageBlock;
use super::kept_key::kept_key;
use super::old_key::old_key;
use super::run::Run;
use super::stages::stages;
use crate::drawing::ink::number;
use crate::map::map_picture::phone_map;
use crate::map::run_picture::TrackPicture;
use crate::sheet::sheet::Sheet;
use crate::sheet::spans::lane_ranges;
use crate::strip::strip::{Strip, strips};
use crate::strip::strip_part::Stretch;

/// Pictures of lanes that take more bytes are left to the printed sheet: a phone is to open the page at once.
const MOST_OF_STRIPS: usize = 400_000;

/// The most letters of a line above the button, on a narrow phone.
const MOST_IN_A_LINE: usize = 36;

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
    /// The track with its spots, as SVG.
    pub(super) map: String,
    /// The track alone, for its first screen.
    pub(super) track_picture: TrackPicture,
    pub(super) ground: Arc<Track>,
    /// Its lanes unrolled, unless they would take too much.
    pub(super) strips: Vec<Strip>,
    /// Whether they would.
    pub(super) has_too_many_strips: bool,
    pub(super) blocks: Vec<PageBlock>,
    /// Whether one athlete alone runs it, who rests from the finish.
    pub(super) is_alone: bool,
}

impl PageSession {
    pub(super) fn of(number: usize, plan: &Plan) -> Self {
        let sheet = Sheet::of(plan);
        let mut blocks: Vec<PageBlock> = sheet.blocks.iter().map(PageBlock::of).collect();
        for (stage, block) in stages(&blocks).into_iter().zip(&mut blocks) {
            block.stage = stage;
        }
        let strips = strips(plan, Stretch::NearEnds).concat();
        let has_too_many_strips = strips.iter().map(|strip| strip.svg.len()).sum::<usize>() > MOST_OF_STRIPS;
        Self {
            number,
            key: kept_key(plan),
            old_key: old_key(plan),
            day: plan.date.map(|date| date.to_string()),
            track: plan.track.name.clone(),
            map: phone_map(plan, &format!("s{number}")),
            track_picture: TrackPicture::of(plan),
            ground: plan.track.ground.clone(),
            strips: if has_too_many_strips { Vec::new() } else { strips },
            has_too_many_strips,
            is_alone: is_alone(&blocks),
            blocks,
            sheet,
        }
    }

    /// The name of the file for its saved times, without the ending.
    pub(super) fn file_name(&self) -> String {
        let title = self.sheet.title.to_lowercase();
        let words = title.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        let name = words.take(8).collect::<Vec<_>>().join("-");
        if name.is_empty() { "times".to_owned() } else { format!("times-{name}") }
    }

    /// What stands beside the block at the head of the screen: the lanes that are closed, else the track.
    pub(super) fn beside(&self) -> String {
        match self.ground.closed_lanes() {
            [] => self.track.clone(),
            closed => format!("{} closed", lane_ranges(closed)),
        }
    }

    /// What is said before any time was taken: what changed, and what is done before the first run.
    pub(super) fn opening(&self) -> Option<String> {
        let before = self.blocks.iter().take_while(|block| block.runs.is_empty());
        let before: Vec<&str> = before.map(|block| block.sheet.reading.as_str()).collect();
        let has_runs = before.len() < self.blocks.len();
        let first = (has_runs && !before.is_empty()).then(|| format!("First: {}.", before.join("; ")));
        let said: Vec<String> = self.sheet.changed.iter().cloned().chain(first).collect();
        (!said.is_empty()).then(|| said.join(" "))
    }

    /// Whether that takes more than one line.
    pub(super) fn has_long_opening(&self) -> bool {
        self.opening().is_some_and(|words| words.chars().count() > MOST_IN_A_LINE)
    }

    /// How high its track is on the first screen, beside a width of 360.
    pub(super) fn picture_height(&self) -> String {
        number(self.track_picture.height)
    }

    /// How many runs it has.
    pub(super) fn run_count(&self) -> usize {
        self.blocks.iter().map(|block| block.runs.len()).sum()
    }
}

/// Whether every run has one box, and no two people run.
fn is_alone(blocks: &[PageBlock]) -> bool {
    let boxes = || blocks.iter().flat_map(|block| &block.runs).map(Run::boxes);
    let mut names: Vec<String> = boxes().flatten().map(|one| one.written).collect();
    names.dedup();
    names.len() < 2 && boxes().all(|boxes| boxes.len() == 1)
}
