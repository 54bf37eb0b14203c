//! How much of a run lies on bends.

use crate::geometry::course::Course;
use crate::geometry::spot::Spot;
use crate::track::track::Track;

/// Less of a bend than this is not run, in metres.
const ROUNDING_M: f64 = 1e-6;

/// How much of a run lies on bends.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BendShare {
    /// Metres along arcs.
    pub metres: f64,
    /// How many bends are run, each time that the run comes by one. A bend within which the run
    /// starts or ends counts.
    pub bends: u32,
}

impl Track {
    /// How much of a run within one lane lies on bends: exact, from the arcs of the path. A run that
    /// begins in a chute and is longer than its straight goes on along the oval; `against` is a run
    /// on a straight, the other way.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Spot};
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// // 200 m to the finish: the second bend, and a home straight of 84.39 m.
    /// let share = track.bend_share(Spot::on_oval(LaneNumber::of::<4>(), 200.0), 200.0, false);
    /// assert_eq!(share.bends, 1);
    /// assert!((share.metres - 115.61).abs() < 1e-9);
    /// ```
    pub fn bend_share(&self, start: Spot, distance_m: f64, against: bool) -> BendShare {
        let layout = self.layout();
        if against {
            return BendShare::default();
        }
        let (start, distance_m) = match layout.straight(start.course) {
            None => (start, distance_m),
            Some(_) => {
                let beyond_m = distance_m - start.to_finish_m;
                let end = layout.on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval);
                match end {
                    Some(end) if beyond_m > ROUNDING_M => (end, beyond_m),
                    _ => return BendShare::default(),
                }
            }
        };
        let line = layout.measure(start.lane);
        let lap_m = line.lap_m();
        let begins_m = line.within_lap_m(layout.from_finish_m(start));
        let ends_m = begins_m + distance_m;
        let bends = layout.bends();
        // What is run in the lap that begins so many laps after the finish line is first passed.
        let in_lap = |lap: u32| {
            let mut share = BendShare::default();
            let shared_m = |from_m: f64, to_m: f64| {
                let lap_begins_m = f64::from(lap) * lap_m;
                ((lap_begins_m + to_m).min(ends_m) - (lap_begins_m + from_m).max(begins_m)).max(0.0)
            };
            for &(first, after) in &bends {
                let arcs = (first..after).filter(|piece| layout.path().pieces()[*piece].is_arc());
                let metres: f64 =
                    arcs.map(|piece| shared_m(line.start_of_m(piece), line.start_of_m(piece + 1))).sum();
                if metres > ROUNDING_M {
                    share.metres += metres;
                    share.bends += 1;
                }
            }
            share
        };
        // Between the first lap and the last, each is as the second.
        let laps = (ends_m / lap_m).ceil() as u32;
        let mut share = BendShare::default();
        let last = laps.saturating_sub(1);
        for (lap, times) in [(0, laps.min(1)), (1, laps.saturating_sub(2)), (last, last.min(1))] {
            let part = if times == 0 { BendShare::default() } else { in_lap(lap) };
            share.metres += f64::from(times) * part.metres;
            share.bends = share.bends.saturating_add(times.saturating_mul(part.bends));
        }
        share
    }
}
