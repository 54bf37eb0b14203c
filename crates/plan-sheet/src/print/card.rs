//! What one athlete needs to know, to be cut out and carried.

use serde::Serialize;

use crate::sheet::place_row::{Alike, PlaceRow, place_rows};
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;
use crate::words::batons::batons;

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
    /// The block as it was read.
    pub(crate) reading: String,
    /// Its runs.
    pub(crate) rows: Vec<SheetRow>,
    /// Where they start and finish, each place said once.
    pub(crate) places: Vec<PlaceRow>,
    /// Whom the athlete brings a baton, and from whom they take it.
    pub(crate) batons: Vec<String>,
}

/// One card for each athlete, in the order in which they first run.
pub(crate) fn cards(blocks: &[SheetBlock]) -> Vec<Card> {
    let mut cards: Vec<Card> = Vec::new();
    for block in blocks {
        let members = |row: &'_ SheetRow| {
            row.members.iter().cloned().zip(row.member_groups.clone()).collect::<Vec<_>>()
        };
        for (athlete, group) in block.rows.iter().flat_map(members) {
            if cards.iter().all(|card| card.athlete != athlete) {
                let runs = blocks.iter().filter_map(|block| CardRun::of(block, &athlete)).collect();
                cards.push(Card { athlete, group, runs });
            }
        }
    }
    cards
}

impl CardRun {
    /// What an athlete does in a block, if anything.
    fn of(block: &SheetBlock, athlete: &String) -> Option<Self> {
        let rows = block.rows.iter().filter(|row| row.members.contains(athlete));
        let rows: Vec<SheetRow> = rows.cloned().collect();
        (!rows.is_empty()).then(|| Self {
            block: block.number,
            reading: block.reading.clone(),
            places: place_rows(&in_few_lanes(&rows), Alike::Aims),
            batons: batons(&rows, athlete),
            rows,
        })
    }
}

/// The rows with those of the same places and cones in the first of their lanes: the lane of each stands in the table.
fn in_few_lanes(rows: &[SheetRow]) -> Vec<SheetRow> {
    let cones = |row: &SheetRow| (row.start_cone, row.stand_cone, row.finish_cone, row.run_in_cone);
    let first_lane = |row: &SheetRow| {
        let alike = |other: &&SheetRow| other.has_places_of(row) && cones(other) == cones(row);
        rows.iter().find(alike).map_or(row.lane, |first| first.lane)
    };
    rows.iter().map(|row| SheetRow { lane: first_lane(row), ..row.clone() }).collect()
}
