//! A line round the track, parallel to the inner edge.

use crate::geometry::path::Path;
use crate::geometry::station::Station;

/// One line round the track, parallel to the inner edge: a lane's measure line or its inner line.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Distance outside the inner edge, in metres.
    pub offset_m: f64,
    /// Distance from the finish line to the start of each piece, and to the end of the last: so
    /// one more than there are pieces.
    starts_m: Vec<f64>,
}

impl Line {
    /// The parallel of `path` at `offset_m`, its lengths multiplied by `scale`, which is 1 but for a
    /// track with a surveyed lap.
    pub fn parallel(path: &Path, offset_m: f64, scale: f64) -> Self {
        let mut starts_m = Vec::with_capacity(path.pieces().len() + 1);
        let mut along_m = 0.0;
        starts_m.push(along_m);
        for piece in path.pieces() {
            along_m += piece.length_m(offset_m) * scale;
            starts_m.push(along_m);
        }
        Self { offset_m, starts_m }
    }

    /// Length of the whole lap, in metres.
    pub fn lap_m(&self) -> f64 {
        self.starts_m[self.starts_m.len() - 1]
    }

    /// Distance from the finish line to where a piece begins, in metres; the number of pieces or
    /// more gives the whole lap.
    pub fn start_of_m(&self, piece: usize) -> f64 {
        self.starts_m[piece.min(self.last() + 1)]
    }

    /// Index of the last piece.
    fn last(&self) -> usize {
        self.starts_m.len() - 2
    }

    /// Distance of a station from the finish line, in the direction of running, in metres. A piece
    /// that the path does not have counts as its last.
    pub fn from_finish_m(&self, station: Station) -> f64 {
        let piece = station.piece.min(self.last());
        let start = self.starts_m[piece];
        start + station.fraction * (self.starts_m[piece + 1] - start)
    }

    /// The station at a distance from the finish line, which lies within the lap.
    pub fn station(&self, from_finish_m: f64) -> Station {
        let last = self.last();
        let piece = self.starts_m[1..=last].iter().take_while(|&&start| start <= from_finish_m).count();
        let start = self.starts_m[piece];
        let fraction = (from_finish_m - start) / (self.starts_m[piece + 1] - start);
        Station { piece, fraction: fraction.clamp(0.0, 1.0) }
    }

    /// A distance to the finish brought into one lap: at least 0, less than the lap.
    pub fn within_lap_m(&self, to_finish_m: f64) -> f64 {
        let lap_m = self.lap_m();
        let within = to_finish_m.rem_euclid(lap_m);
        // A rounding error short of a whole lap is the finish line.
        if lap_m - within < 1e-9 { 0.0 } else { within }
    }
}
