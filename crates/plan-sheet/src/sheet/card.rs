//! What one athlete needs to know, to be cut out and carried.

use serde::Serialize;

use crate::sheet::place_row::{Alike, PlaceRow, place_rows};
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;

/// What one athlete needs to know.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Card {
    /// The athlete.
    pub(crate) athlete: String,
    /// The group that the athlete trains with.
    pub(crate) group: Option<String>,
    /// The athlete's runs, in order.
    pub(crate) runs: Vec<CardRun>,
}

/// Runs of one block that an athlete does.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct CardRun {
    /// The number of the block.
    pub(crate) block: usize,
    /// The block as it was written.
    pub(crate) text: String,
    /// Its runs.
    pub(crate) rows: Vec<SheetRow>,
    /// Where they start and finish, each place said once.
    pub(crate) places: Vec<PlaceRow>,
}

/// One card for each athlete, in the order in which they first run.
pub(crate) fn cards(blocks: &[SheetBlock]) -> Vec<Card> {
    let mut cards: Vec<Card> = Vec::new();
    for block in blocks {
        for row in &block.rows {
            for athlete in &row.athletes {
                let index = cards.iter().position(|card| card.athlete == *athlete).unwrap_or_else(|| {
                    cards.push(Card {
                        athlete: athlete.clone(),
                        group: block.group.clone(),
                        runs: Vec::new(),
                    });
                    cards.len() - 1
                });
                let runs = &mut cards[index].runs;
                match runs.last_mut() {
                    Some(run) if run.block == block.number => run.rows.push(row.clone()),
                    _ => runs.push(CardRun {
                        block: block.number,
                        text: block.text.clone(),
                        rows: vec![row.clone()],
                        places: Vec::new(),
                    }),
                }
            }
        }
    }
    for run in cards.iter_mut().flat_map(|card| &mut card.runs) {
        run.places = place_rows(&run.rows, Alike::Aims);
    }
    cards
}
