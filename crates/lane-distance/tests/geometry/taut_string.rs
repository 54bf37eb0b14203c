//! Breaking for the inside and the curved start, against a string pulled taut round a sampled line, to
//! 0.1 mm: on three shapes, with no lane closed, lane 1 closed, and lanes 1 and 2 closed.
//!
//! The shapes are those of World Athletics, Track and Field Facilities Manual, chapter 2: 400 m standard
//! track (read), double bend track 2 (from memory), and of a line-marking trade sheet: small oval of
//! 300 m (read). Lane 1 is measured 0.30 m outside the kerb, others 0.20 m outside their inner line
//! (World Athletics, Technical Rules, track and lanes).

use crate::lane_number;
use crate::sampled::{Piece, Sampled, distance_m, right_of_m};
use lane_distance::{Course, Layout, Spot, Track};

/// To what the solver and the string agree, in metres.
const AGREES_M: f64 = 0.0001;

/// The name, the half of the inner edge up to the finish of the back straight, and the lanes.
const SHAPES: [(&str, &[Piece], u8); 3] = [
    ("standard", &[Piece::Bend(36.50, 180.0), Piece::Straight(84.39)], 8),
    (
        "double-bend-2",
        &[Piece::Bend(24.0, 60.0), Piece::Bend(48.0, 60.0), Piece::Bend(24.0, 60.0), Piece::Straight(98.52)],
        8,
    ),
    // The trade sheet gives the radius of the measure line, 35.00 m.
    ("oval-300", &[Piece::Bend(35.00 - 0.30, 180.0), Piece::Straight(40.04)], 6),
];

/// A track with the sampled measure lines of its lanes.
struct Shape {
    track: Track,
    lines: Vec<Sampled>,
    /// The place at which the first bend ends, in every lane.
    breaks: usize,
}

impl Shape {
    fn line(&self, lane: u8) -> &Sampled {
        &self.lines[usize::from(lane) - 1]
    }

    fn layout(&self) -> &Layout {
        self.track.layout()
    }

    fn lanes(&self) -> u8 {
        self.lines.len() as u8
    }

    /// The spot at a place.
    fn spot(&self, lane: u8, place: usize) -> Spot {
        let line = self.line(lane);
        let to_finish_m = line.lap_m() - line.along_m[place];
        Spot::on_oval(lane_number(lane), if place == 0 { 0.0 } else { to_finish_m })
    }

    /// The way from a place to the inside lane and along it to the finish line.
    fn way_m(&self, lane: u8, place: usize, inside: u8) -> f64 {
        let inner = self.line(inside);
        let (across_m, touches_m) = inner.string_ahead(self.line(lane).places[place], place);
        across_m + inner.lap_m() - touches_m
    }
}

fn shapes() -> impl Iterator<Item = Shape> {
    SHAPES.into_iter().map(|(name, half, lanes)| {
        let pieces = [half, half].concat();
        let outside_m = |lane: u8| if lane == 1 { 0.30 } else { f64::from(lane - 1) * 1.22 + 0.20 };
        let lines: Vec<_> = (1..=lanes).map(|lane| Sampled::new(&pieces, outside_m(lane))).collect();
        // The first half without its straight.
        let breaks = Sampled::new(&half[..half.len() - 1], 0.0).steps();
        Shape { track: Track::built_in(name).expect("it comes with the crate"), lines, breaks }
    })
}

/// Asserts that two distances agree, whole laps left out.
fn assert_agree(solver_m: f64, string_m: f64, lap_m: f64, what: &str) {
    let differs_m = (solver_m - string_m).rem_euclid(lap_m);
    let differs_m = differs_m.min(lap_m - differs_m);
    assert!(differs_m < AGREES_M, "{what}: {solver_m} m, the string {string_m} m");
}

/// With no lane closed, lane 1, and lanes 1 and 2.
const INNERMOST: [u8; 3] = [1, 2, 3];

#[test]
fn the_way_to_the_innermost_open_lane_is_the_taut_string() {
    for shape in shapes() {
        let steps = shape.line(1).steps();
        for inside in INNERMOST {
            for lane in inside + 1..=shape.lanes() {
                for place in (0..23).map(|n| n * steps / 23) {
                    let join = shape
                        .layout()
                        .join(shape.spot(lane, place), lane_number(inside))
                        .expect("it lies inside");
                    let what = format!("{} lane {lane} to {inside} from place {place}", shape.track.name());
                    let string_m = shape.way_m(lane, place, inside);
                    assert_agree(join.to_finish_m, string_m, shape.line(inside).lap_m(), &what);
                }
            }
        }
    }
}

#[test]
fn a_race_that_breaks_starts_where_the_string_says() {
    for shape in shapes() {
        for inside in INNERMOST {
            for lane in inside..=shape.lanes() {
                let (line, inner_m) = (shape.line(lane), shape.line(inside).lap_m());
                for (race_m, bends) in [(800.0, 1), (1600.0, 3)] {
                    let spot = shape.layout().start_before_break(
                        lane_number(lane),
                        race_m,
                        bends,
                        lane_number(inside),
                    );
                    let spot = spot.expect("it lies outside");
                    let after_m = match lane == inside {
                        true => inner_m - line.along_m[shape.breaks],
                        false => shape.way_m(lane, shape.breaks, inside),
                    };
                    // After one bend, or in the second lap: whole laps of the inside lane are run later.
                    let laps = ((race_m - after_m) / inner_m).floor() - if bends == 3 { 1.0 } else { 0.0 };
                    let in_lane_m = race_m - after_m - laps * inner_m;
                    let string_m = line.lap_m() - line.along_m[shape.breaks] + in_lane_m;
                    let what = format!("{} {race_m} m in lane {lane}, inside {inside}", shape.track.name());
                    assert_agree(spot.to_finish_m, string_m, line.lap_m(), &what);
                }
            }
        }
    }
}

#[test]
fn a_curved_start_lies_where_the_string_is_as_long() {
    for shape in shapes() {
        for inside in INNERMOST {
            let inner = shape.line(inside);
            for place in (0..11).map(|n| n * inner.steps() / 11) {
                let to_finish_m = shape.spot(inside, place).to_finish_m;
                let curve = shape.layout().curve(lane_number(inside), to_finish_m);
                assert_eq!(curve.len(), usize::from(shape.lanes() - inside + 1));
                for point in curve.into_iter().skip(1) {
                    let lane = point.spot.lane;
                    let (line, steps) = (shape.line(lane.get()), inner.steps());
                    let short_m = |at: usize| {
                        let differs_m = shape.way_m(lane.get(), at % steps, inside) - to_finish_m;
                        let lap_m = inner.lap_m();
                        differs_m - (differs_m / lap_m).round() * lap_m
                    };
                    // The way shortens from place to place: the last that is long enough, from 1 m
                    // behind the square line to 40 m past it.
                    let mut low = place + steps - steps / 400;
                    let mut high = low + steps / 10;
                    assert!(short_m(low) > 0.0 && short_m(high) < 0.0, "lane {lane} from place {place}");
                    while high - low > 1 {
                        let middle = (low + high) / 2;
                        if short_m(middle) >= 0.0 { low = middle } else { high = middle }
                    }
                    let part = short_m(low) / (short_m(low) - short_m(high));
                    let (a_m, b_m) = (line.along_m[low % steps], line.along_m[low % steps + 1]);
                    let along_m = a_m + part * (b_m - a_m);
                    let what = format!("{} lane {lane} from place {place}", shape.track.name());
                    assert_agree(point.spot.to_finish_m, line.lap_m() - along_m, line.lap_m(), &what);
                    let past_m = along_m - line.along_m[place];
                    assert_agree(point.past_square_m, past_m, line.lap_m(), &what);
                }
            }
        }
    }
}

/// The way out from the inner lane: along it, and straight from the place that leaves none of those
/// behind it on the right.
fn string_out_m(shape: &Shape, inside: u8, from: usize, lane: u8, to: usize) -> f64 {
    let (inner, end) = (shape.line(inside), shape.line(lane).at(to));
    let mut leaves = to;
    for place in (from..=to).rev() {
        if right_of_m(inner.at(leaves), end, inner.at(place)) > 0.0 {
            leaves = place;
        }
    }
    inner.along_on_m(leaves) - inner.along_on_m(from) + distance_m(inner.at(leaves), end)
}

/// The way in: a straight, and along the inner lane.
fn string_in_m(shape: &Shape, lane: u8, from: usize, inside: u8, to: usize) -> f64 {
    let (inner, begin) = (shape.line(inside), shape.line(lane).places[from]);
    let joins = (from..=to).fold(from, |best, place| {
        if right_of_m(begin, inner.at(best), inner.at(place)) > 0.0 { place } else { best }
    });
    distance_m(begin, inner.at(joins)) + inner.along_on_m(to) - inner.along_on_m(joins)
}

#[test]
fn a_change_of_lane_is_the_taut_string_both_ways() {
    for shape in shapes() {
        let steps = shape.line(1).steps();
        for (inside, lane) in [(1, 2), (1, 6), (2, 3), (3, 6)] {
            for from in (0..13).map(|n| n * steps / 13) {
                // From 2 % of a lap, where it is one straight line, to half a lap.
                for on in [steps / 50, steps / 12, steps / 4, steps / 2] {
                    let to = from + on;
                    let (inner, outer) = (shape.spot(inside, to % steps), shape.spot(lane, from));
                    let solver_m = shape.layout().crossing_m(outer, inner).expect("both are on the oval");
                    let string_m = string_in_m(&shape, lane, from, inside, to);
                    let what = format!("{} lane {lane} to {inside}, {from} to {to}", shape.track.name());
                    assert!((solver_m - string_m).abs() < AGREES_M, "{what}: {solver_m} m, {string_m} m");
                    let (inner, outer) = (shape.spot(inside, from), shape.spot(lane, to % steps));
                    let solver_m = shape.layout().crossing_m(inner, outer).expect("both are on the oval");
                    let string_m = string_out_m(&shape, inside, from, lane, to);
                    let what = format!("{} lane {inside} out to {lane}, {from} to {to}", shape.track.name());
                    assert!((solver_m - string_m).abs() < AGREES_M, "{what}: {solver_m} m, {string_m} m");
                }
            }
        }
    }
}

#[test]
fn the_shapes_are_on_every_course_as_long_as_the_tracks() {
    for shape in shapes() {
        assert_eq!(shape.lanes(), shape.layout().lanes_of(Course::Oval));
        for lane in 1..=shape.lanes() {
            let lap_m = shape.track.lap_m(lane_number(lane)).expect("the lane exists");
            assert!(
                (lap_m - shape.line(lane).lap_m()).abs() < AGREES_M,
                "{} lane {lane}",
                shape.track.name()
            );
        }
    }
}
