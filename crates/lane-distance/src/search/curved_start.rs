//! Curved start lines: everyone in a group start runs equally far.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::Spot;
use crate::track::layout::{Layout, shorter_way_round};

/// How exactly a curved start is found, in metres.
const FOUND_M: f64 = 1e-10;

/// One lane's place on a curved start line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// The spot.
    pub spot: Spot,
    /// How far it lies past the line square across the track at the inside lane's start, along the
    /// lane, in metres; negative is behind it.
    pub past_square_m: f64,
}

impl Layout {
    /// The curved start line across the lanes from `inside` outwards, for a group that starts
    /// `to_finish_m` from the finish in the inside lane and breaks for it at once; empty where the oval
    /// has no such lane.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let curve = track.layout().curve(LaneNumber::of::<2>(), 150.0);
    /// assert_eq!(curve[0].spot.lane, 2);
    /// assert_eq!(curve[0].past_square_m, 0.0);
    /// assert!(curve.windows(2).all(|pair| pair[0].past_square_m < pair[1].past_square_m));
    /// ```
    pub fn curve(&self, inside: LaneNumber, to_finish_m: f64) -> Vec<CurvePoint> {
        let start = Spot::on_oval(inside, self.measure(inside).within_lap_m(to_finish_m));
        self.lane_numbers(Course::Oval)
            .filter(|lane| *lane >= inside)
            .filter_map(|lane| {
                let spot = self.curved_start(inside, to_finish_m, lane)?;
                Some(CurvePoint { spot, past_square_m: self.past_m(self.abreast(start, lane), spot) })
            })
            .collect()
    }

    /// Where the curve that leaves lane `inside` at `to_finish_m` crosses another lane: the spot
    /// from which the shortest run to the inside lane, and along it to the finish, is as long.
    ///
    /// On a bend the curve is an involute of the inside measure line. The secant method solves for
    /// the spot; on a bend the distance is linear in it, so two steps do.
    ///
    /// Nothing where the oval lacks one of the lanes, or the second lies inside the first.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let layout = track.layout();
    /// let (inside, lane) = (LaneNumber::FIRST, LaneNumber::of::<8>());
    /// let outside = layout.curved_start(inside, 300.0, lane).expect("lane 8 lies outside lane 1");
    /// let way = layout.join(outside, inside).expect("lane 1 lies further in");
    /// assert!((way.to_finish_m - 300.0).abs() < 1e-9);
    /// ```
    pub fn curved_start(&self, inside: LaneNumber, to_finish_m: f64, lane: LaneNumber) -> Option<Spot> {
        if !self.has_lane(Course::Oval, inside) || !self.has_lane(Course::Oval, lane) {
            return None;
        }
        let inside_line = self.measure(inside);
        let start = Spot::on_oval(inside, inside_line.within_lap_m(to_finish_m));
        if lane <= inside {
            return (lane == inside).then_some(start);
        }
        let line = self.measure(lane);
        let spot = |to_finish_m: f64| Spot::on_oval(lane, line.within_lap_m(to_finish_m));
        let short_by_m = |to_finish_m: f64| {
            let way = self.join(spot(to_finish_m), inside)?;
            Some(shorter_way_round(start.to_finish_m - way.to_finish_m, inside_line.lap_m()))
        };
        let mut before = (self.abreast(start, lane).to_finish_m, 0.0);
        before.1 = short_by_m(before.0)?;
        let mut now_m = before.0 + before.1;
        for _ in 0..50 {
            let short = short_by_m(now_m)?;
            if short.abs() < FOUND_M || short == before.1 {
                break;
            }
            let next_m = now_m - short * (now_m - before.0) / (short - before.1);
            before = (now_m, short);
            now_m = next_m;
        }
        Some(spot(now_m))
    }
}
