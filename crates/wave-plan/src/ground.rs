//! What a set runs on: a straight or laps.

/// What a set runs on: a straight, or laps.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Ground {
    /// A straight: nobody comes round again.
    #[default]
    Straight,
    /// Laps, which differ from lane to lane.
    Laps {
        /// The shortest of the lanes, in metres.
        shortest_m: f64,
        /// The longest of the lanes, in metres.
        longest_m: f64,
    },
}

impl Ground {
    /// The ground of lanes whose laps are known; a straight where there are none.
    pub fn from_laps(laps_m: impl IntoIterator<Item = f64>) -> Self {
        laps_m
            .into_iter()
            .map(|lap_m| Self::Laps { shortest_m: lap_m, longest_m: lap_m })
            .fold(Self::Straight, Self::and)
    }

    /// The laps of both. A straight has none of its own: as a lane of the oval it has the oval's.
    pub(crate) fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Straight, ground) | (ground, Self::Straight) => ground,
            (Self::Laps { shortest_m: a, longest_m: b }, Self::Laps { shortest_m: c, longest_m: d }) => {
                Self::Laps { shortest_m: a.min(c), longest_m: b.max(d) }
            }
        }
    }
}
