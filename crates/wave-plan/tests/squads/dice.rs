//! Numbers that look like chance, the same ones each time.

/// A fixed sequence of numbers that look like chance.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from `least` to `most`.
    pub(crate) fn whole(&mut self, least: u64, most: u64) -> u64 {
        least + self.next() % (most - least + 1)
    }

    pub(crate) fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.whole(0, of.len() as u64 - 1) as usize]
    }
}
