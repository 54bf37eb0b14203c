//! Which part of a hurdles race is run.

/// Which part of a hurdles race is run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HurdlePart {
    /// From its start to its finish.
    Whole,
    /// From its start to a hurdle, counted from 1.
    To(u8),
    /// From the hurdle before the first one, counted from 1, to the last one.
    Between {
        /// The first hurdle that is cleared.
        first: u8,
        /// The last hurdle that is cleared.
        last: u8,
    },
    /// So far from its start.
    First {
        /// How far, in metres.
        run_m: f64,
        /// How many hurdles are said to stand on it.
        hurdles: u8,
    },
    /// So far to its finish.
    Last {
        /// How far, in metres.
        run_m: f64,
        /// How many hurdles are said to stand on it.
        hurdles: u8,
    },
}
