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
    /// The place of its text in the list.
    text: usize,
    /// Where it begins in its text, in bytes.
    start: usize,
}

impl TextPlaces {
    /// Adds the blocks of a text, the next of their list.
    pub(crate) fn add(&mut self, group: Option<usize>, text: usize, blocks: &[Block]) {
        self.0.extend(blocks.iter().map(|block| TextPlace { group, text, start: block.start }));
    }

    /// The keys of the text in which a block stands, and where in it the block begins.
    pub(crate) fn of(&self, at: BlockAt) -> (Vec<Key>, usize) {
        let place = self.0.iter().filter(|place| place.group == at.group).nth(at.block);
        let (text, start) = place.map_or((at.block, 0), |place| (place.text, place.start));
        (block_keys(at.group, text), start)
    }
}

/// The keys that lead to a text of a list of blocks.
pub(crate) fn block_keys(group: Option<usize>, text: usize) -> Vec<Key> {
    let group = group.map(|group| [Key::from("groups"), Key::from(group)]);
    let block = [Key::from("blocks"), Key::from(text)];
    [group.as_ref().map_or([].as_slice(), |group| group), &block].concat()
}
