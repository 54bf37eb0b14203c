//! Races over hurdles.

use serde::Deserialize;

use crate::spec::length_spec::LengthSpec;

/// The spacing of a hurdles race.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Hurdles {
    /// Length of the race.
    pub race: LengthSpec,
    /// From the start to the first hurdle.
    pub first: LengthSpec,
    /// Between hurdles.
    pub between: LengthSpec,
    /// How many hurdles.
    pub count: u8,
}

impl Hurdles {
    /// Distance of each hurdle to the finish, in metres, the first hurdle first.
    ///
    /// ```
    /// use lane_distance::spec::{Hurdles, LengthSpec};
    ///
    /// let m = LengthSpec::from_metres;
    /// let race = Hurdles { race: m(400.0), first: m(45.0), between: m(35.0), count: 10 };
    /// assert_eq!(race.to_finish_m().nth(3), Some(250.0)); // the 4th green tick
    /// assert_eq!(race.to_finish_m().last(), Some(40.0));
    /// ```
    pub fn to_finish_m(&self) -> impl Iterator<Item = f64> + use<> {
        let Self { race, first, between, count } = *self;
        (0..count).map(move |n| race.metres() - first.metres() - f64::from(n) * between.metres())
    }
}
