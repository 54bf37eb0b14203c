//! The race over hurdles that a group is named for: `Women 100H`, `400H lads`.

use crate::block::{Block, Body, Item, Series};
use crate::cursor::Cursor;
use crate::forms::{FORMS, HurdlePart, RunKind};
use crate::token::Lexed;

/// How far the race over hurdles is that stands in a name, in metres.
///
/// ```
/// use workout_notation::hurdles_race_m;
///
/// assert_eq!(hurdles_race_m("Women 100H"), Some(100.0));
/// assert_eq!(hurdles_race_m("400 m hurdles lads"), Some(400.0));
/// assert_eq!(hurdles_race_m("400 runners"), None);
/// ```
pub fn hurdles_race_m(name: &str) -> Option<f64> {
    let lexed = Lexed::new(name, &FORMS);
    let cursor = Cursor::new(&lexed);
    let at = (0..lexed.tokens.len()).find(|&ahead| cursor.hurdles_event_at(ahead).is_some())?;
    cursor.number_at(at)
}

impl Block {
    /// The same block over the hurdles of a race, in metres, wherever it names none.
    ///
    /// ```
    /// use workout_notation::Block;
    ///
    /// let block = Block::parse("4 x 5 hurdles").expect("it is well formed");
    /// assert_eq!(block.over_hurdles_of(100.0).to_string(), "4 x 100h to hurdle 5");
    /// ```
    #[must_use]
    pub fn over_hurdles_of(&self, of_m: f64) -> Self {
        let mut block = self.clone();
        if let Body::Runs(series) = &mut block.body {
            series.over_hurdles_of(of_m);
        }
        block
    }
}

impl Series {
    fn over_hurdles_of(&mut self, of_m: f64) {
        for item in &mut self.items {
            match item {
                Item::Series(series) => series.over_hurdles_of(of_m),
                Item::Run(run) => {
                    if let RunKind::Hurdles {
                        race_m: race_m @ None,
                        part: HurdlePart::To(_) | HurdlePart::Between { .. },
                    } = &mut run.kind.value
                    {
                        *race_m = Some(of_m);
                    }
                }
            }
        }
    }
}
