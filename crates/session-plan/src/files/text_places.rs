//! Where the blocks of a session stand in the texts of its file.

use lane_distance::Key;
use workout_notation::Block;

use crate::plan::block_at::BlockAt;

/// Where the blocks of a session stand in the texts of its file: a text may hold several.
#[derive(Clone, Debug, Default)]
pub(crate) struct TextPlaces(Vec<TextPlace>);

#[derive(Clone, Debug)]
struct TextPlace {
    group: Option<usize>,
    /// The keys that lead to its text.
    keys: Vec<Key>,
    /// Where it begins in its text, in bytes.
    start: usize,
}

impl TextPlaces {
    /// Adds the blocks of a text, the next of their list.
    pub(crate) fn add(&mut self, group: Option<usize>, keys: &[Key], blocks: &[Block]) {
        let place = |block: &Block| TextPlace { group, keys: keys.to_vec(), start: block.start };
        self.0.extend(blocks.iter().map(place));
    }

    /// The keys of the text in which a block stands, and where in it the block begins.
    pub(crate) fn of(&self, at: BlockAt) -> (Vec<Key>, usize) {
        let place = self.0.iter().filter(|place| place.group == at.group).nth(at.block);
        place.map_or_else(|| (vec![Key::from("blocks")], 0), |place| (place.keys.clone(), place.start))
    }
}
