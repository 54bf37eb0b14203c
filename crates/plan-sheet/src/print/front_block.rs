//! A block as the first page says it.

use serde::Serialize;

use crate::print::front_place::{FrontPlace, front_places};
use crate::print::front_wave::FrontWave;
use crate::print::time_boxes::TimeBoxes;
use crate::sheet::sheet_block::SheetBlock;
use crate::words::block_words;

/// A block on the first page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct FrontBlock {
    number: usize,
    reading: String,
    /// Who does it, and when it is.
    facts: String,
    /// What to read before it is run.
    alerts: Vec<String>,
    places: Vec<FrontPlace>,
    /// Where all of its runs finish, if that is said once.
    finish: Option<String>,
    waves: Vec<FrontWave>,
    /// The boxes for the times, where they do not take pages of their own.
    boxes: Option<TimeBoxes>,
    /// What else there is to say of it.
    lines: Vec<String>,
}

impl FrontBlock {
    /// A block of one who trains alone: the boxes for the times stand with its places.
    pub(crate) fn of_one(block: &SheetBlock) -> Self {
        let mut lines = block_words::splits(block);
        lines.extend(block_words::beside(block));
        Self { boxes: TimeBoxes::of(block), lines, ..Self::new(block) }
    }

    /// A block of a squad: who goes when and in which lane.
    pub(crate) fn of_squad(block: &SheetBlock) -> Self {
        let waves = block.waves.iter().map(|wave| FrontWave::of(block, wave)).collect();
        Self { waves, ..Self::new(block) }
    }

    fn new(block: &SheetBlock) -> Self {
        let (places, finish) = front_places(block);
        // How long a block without runs lasts, its reading says.
        let facts: Vec<&str> = block.group.iter().chain(&block.when).map(String::as_str).collect();
        Self {
            number: block.number,
            reading: block.reading.clone(),
            facts: facts.join(" · "),
            alerts: block.impossible.iter().chain(&block.unsure).cloned().collect(),
            places,
            finish,
            waves: Vec::new(),
            boxes: None,
            lines: Vec::new(),
        }
    }
}
