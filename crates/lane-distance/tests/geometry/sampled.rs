//! A line round a track as a chain of sampled places, and a string pulled taut round it: what the
//! solver finds by closed forms, found here by trying places one after another.
//!
//! Nothing is taken from the solver: the pieces are typed where they are used, and laid end to end.

/// How far apart places lie on the inner edge, in metres. A chain of chords this long is shorter than
/// a bend of 24 m by 3 parts in a thousand million: 3 µm in a lap.
const APART_M: f64 = 0.01;

/// A piece of the inner edge of lane 1.
#[derive(Clone, Copy)]
pub(crate) enum Piece {
    /// A straight of this length, in metres.
    Straight(f64),
    /// A bend to the left: radius in metres, turn in degrees.
    Bend(f64, f64),
}

/// A line parallel to the inner edge, from the finish line. Places of the same index lie square across
/// the track from each other in every line of one track.
pub(crate) struct Sampled {
    pub(crate) places: Vec<(f64, f64)>,
    /// Distance of each place from the finish line along the chain, in metres.
    pub(crate) along_m: Vec<f64>,
}

impl Sampled {
    /// The line that lies `outside_m` outside the inner edge.
    pub(crate) fn new(pieces: &[Piece], outside_m: f64) -> Self {
        let (mut x, mut y, mut heading) = (0.0_f64, 0.0_f64, 0.0_f64);
        let mut places = vec![(0.0, -outside_m)];
        for piece in pieces {
            let (length_m, turn) = match *piece {
                Piece::Straight(length_m) => (length_m, 0.0),
                Piece::Bend(radius_m, turn_deg) => (radius_m * turn_deg.to_radians(), turn_deg.to_radians()),
            };
            let steps = (length_m / APART_M).ceil();
            for step in 1..=steps as u32 {
                let part = f64::from(step) / steps;
                let (mut ahead_m, mut left_m) = (length_m * part, 0.0);
                if let Piece::Bend(radius_m, _) = *piece {
                    let (sin, cos) = (turn * part).sin_cos();
                    (ahead_m, left_m) = (radius_m * sin, radius_m * (1.0 - cos));
                }
                let (sin, cos) = heading.sin_cos();
                let place = (x + ahead_m * cos - left_m * sin, y + ahead_m * sin + left_m * cos);
                let (sin, cos) = (heading + turn * part).sin_cos();
                places.push((place.0 + outside_m * sin, place.1 - outside_m * cos));
                if step == steps as u32 {
                    (x, y) = place;
                }
            }
            heading += turn;
        }
        let mut along_m = vec![0.0];
        for pair in places.windows(2) {
            along_m.push(along_m[along_m.len() - 1] + distance_m(pair[0], pair[1]));
        }
        Self { places, along_m }
    }

    /// Length of the whole line.
    pub(crate) fn lap_m(&self) -> f64 {
        self.along_m[self.steps()]
    }

    /// How many places there are; the last is the first again.
    pub(crate) fn steps(&self) -> usize {
        self.places.len() - 1
    }

    /// The string from a place outside this line, beside place `beside` of it, to where it first lies
    /// on the line: its straight part, and how far along the line, whole laps added, that ends.
    ///
    /// Of all joining places within half a lap, it is the one whose straight leaves none of the others
    /// on its right: any other straight would cross the line.
    pub(crate) fn string_ahead(&self, from: (f64, f64), beside: usize) -> (f64, f64) {
        let best = (beside..beside + self.steps() / 2).fold(beside, |best, joins| {
            if right_of_m(from, self.at(best), self.at(joins)) > 0.0 { joins } else { best }
        });
        (distance_m(from, self.at(best)), self.along_on_m(best))
    }

    /// A place, counted on from lap to lap.
    pub(crate) fn at(&self, place: usize) -> (f64, f64) {
        self.places[place % self.steps()]
    }

    /// How far along the line it lies, counted on into the second lap.
    pub(crate) fn along_on_m(&self, place: usize) -> f64 {
        let laps_m = if place >= self.steps() { self.lap_m() } else { 0.0 };
        self.along_m[place % self.steps()] + laps_m
    }
}

/// The distance between two places.
pub(crate) fn distance_m(a: (f64, f64), b: (f64, f64)) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

/// How far a place lies to the right of the way from one place to another, times the way's length.
pub(crate) fn right_of_m(from: (f64, f64), to: (f64, f64), place: (f64, f64)) -> f64 {
    (place.0 - from.0) * (to.1 - from.1) - (place.1 - from.1) * (to.0 - from.0)
}
