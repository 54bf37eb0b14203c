//! Lanes and what bounds them.

use serde::{Deserialize, Serialize};

use crate::geometry::lane_number::LaneNumber;

/// What bounds lane 1 on the infield side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum InnerEdge {
    /// A raised kerb all the way round: lane 1 is measured 0.30 m outside it.
    #[default]
    #[serde(rename = "kerb")]
    Kerb,
    /// A painted line only: lane 1 is measured 0.20 m outside it, as every other lane is.
    #[serde(rename = "line")]
    Line,
    /// A raised kerb on the bends and a line along the straights. Only the bends change a lane's
    /// length, so lane 1 is measured as with a kerb.
    #[serde(rename = "kerb on the bends")]
    KerbOnBends,
}

impl InnerEdge {
    /// Distance of lane 1's measure line from the inner edge, in metres.
    pub const fn measure_m(self) -> f64 {
        match self {
            Self::Kerb | Self::KerbOnBends => 0.30,
            Self::Line => LINE_MEASURE_M,
        }
    }
}

/// Distance of a measure line from a painted inner line, in metres.
pub const LINE_MEASURE_M: f64 = 0.20;

/// One lane, by its distances from the inner edge of lane 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lane {
    /// 1 is the innermost.
    pub number: LaneNumber,
    /// Distance of the lane's inner line from the inner edge of lane 1, in metres.
    pub inner_line_m: f64,
    /// Distance of the lane's measure line from the inner edge of lane 1, in metres.
    pub measure_m: f64,
    /// Width in metres, the outer line included.
    pub width_m: f64,
}

impl Lane {
    /// Lanes of the given widths in metres, side by side from the inner edge: at most
    /// [`MOST_LANES`](crate::MOST_LANES).
    pub fn side_by_side(inner_edge: InnerEdge, widths_m: &[f64]) -> Vec<Self> {
        let mut inner_line_m = 0.0;
        LaneNumber::ALL
            .into_iter()
            .zip(widths_m)
            .map(|(number, &width_m)| {
                let measure =
                    if number == LaneNumber::FIRST { inner_edge.measure_m() } else { LINE_MEASURE_M };
                let lane = Self { number, inner_line_m, measure_m: inner_line_m + measure, width_m };
                inner_line_m += width_m;
                lane
            })
            .collect()
    }
}
