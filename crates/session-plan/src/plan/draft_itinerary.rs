//! What the schedule needs to know of a draft.

use lane_distance::{Course, Pair, Track};
use wave_plan::{Ground, Itinerary, Runner, Stretch};

use crate::plan::block_part::run_in_m;
use crate::plan::draft::Draft;
use crate::plan::run_times::Timing;

impl Draft<'_> {
    /// How long something else is done first is given, and the lanes that it may use.
    pub(crate) fn itinerary(&self, after_s: f64, lanes: Vec<u8>) -> Itinerary {
        let runner = |(entrant, timings): (usize, &Vec<Timing>)| Runner {
            name: self.entrants[entrant].name().to_owned(),
            times: timings.iter().map(|timing| timing.times).collect(),
            lanes: self.lanes_of(entrant),
            lanes_beside: self.lanes_beside(entrant),
        };
        Itinerary {
            after_s,
            runs: (0..self.steps.len()).map(|run| self.stretch(run)).collect(),
            lanes,
            mode: self.mode,
            keeps_lanes: self.goes_on || self.keeps_lanes,
            runners: self.timings.iter().enumerate().map(runner).collect(),
        }
    }

    /// The ground of a run, from where its runners set off; nothing for a run by time.
    fn stretch(&self, run: usize) -> Option<Stretch> {
        let track = self.track.as_ref();
        let pairs = || self.lanes.iter().filter_map(move |lane| Some((lane.lane, lane.runs[run]?.pair)));
        let longest_m = pairs().map(|(_, pair)| pair.distance_m).reduce(f64::max)?;
        let laps_m = pairs()
            .filter(|(_, pair)| pair.start.course == Course::Oval)
            .filter_map(|(lane, _)| track.lap_m(lane).ok());
        Some(Stretch {
            distance_m: run_in_m(&self.steps[run], self.exchange_run_in_m()) + longest_m,
            ground: Ground::from_laps(laps_m),
            finish_m: pairs().map(|(lane, pair)| (lane.get(), finish_m(track, &pair))).collect(),
            is_reversed: pairs().any(|(_, pair)| pair.against),
        })
    }

    /// How long the slowest would take alone, in seconds.
    pub(crate) fn alone_s(&self) -> f64 {
        let alone_s = |timings: &Vec<Timing>| {
            let rests_s: f64 = timings.iter().rev().skip(1).map(|timing| timing.times.rest_s).sum();
            timings.iter().map(|timing| timing.times.target_s).sum::<f64>() + rests_s
        };
        self.timings.iter().map(alone_s).fold(0.0, f64::max)
    }

    /// How long everybody rests after it at least, in seconds.
    pub(crate) fn rest_after_s(&self) -> f64 {
        let last = |timings: &Vec<Timing>| Some(timings.last()?.times.rest_s);
        self.timings.iter().filter_map(last).fold(0.0, f64::max)
    }

    /// Whether every target and every rest between its runs is given.
    pub(crate) fn is_timed(&self) -> bool {
        let is_estimated = |(run, timing): (usize, &Timing)| timing.is_estimated(self.is_last(run));
        !self.timings.iter().any(|timings| timings.iter().enumerate().any(is_estimated))
    }
}

/// How far past the finish line a run finishes, in metres along its lane in the direction of running. On a
/// straight it is before the line or on it.
fn finish_m(track: &Track, pair: &Pair) -> f64 {
    let layout = track.layout();
    let on_oval = layout.on_course(pair.finish, Course::Oval).unwrap_or(pair.finish);
    let past_m = layout.from_finish_m(on_oval);
    let is_straight = pair.finish.course != Course::Oval;
    let lap_m = if is_straight && past_m > 0.0 { track.lap_m(pair.finish.lane).unwrap_or(0.0) } else { 0.0 };
    let finish_m = past_m - lap_m;
    if pair.against { -finish_m } else { finish_m }
}
