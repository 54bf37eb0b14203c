//! Runs from a mark, or to one, whose other end is painted as well.

use crate::geometry::course::Course;
use crate::geometry::spot::{PaintReading, Spot};
use crate::paint::mark::MarkId;
use crate::search::search::MEANT_M;
use crate::track::track::Track;

/// An end of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunEnd {
    /// Where it starts.
    Start,
    /// Where it finishes.
    Finish,
}

/// A run from a mark, or to one, whose other end is painted as well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnPaintRun {
    /// How far it is, in metres.
    pub distance_m: f64,
    /// Which of its ends is at the mark.
    pub end: RunEnd,
    /// Where the other end is.
    pub other: Spot,
    /// The paint there.
    pub reading: PaintReading,
}

impl Track {
    /// The runs of a distance in the direction of running that start or finish at a mark, in its lane, and have their
    /// other end on paint to the centimetre. A mark that is a trap in the lane serves only as the start of a run to the
    /// finish line.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, RunEnd, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let lane = LaneNumber::of::<2>();
    /// let (spot, reading) = track.landmark_with_reading("200 m start", lane)?;
    /// let mark = reading.mark.expect("it is one");
    /// let runs = |metres| track.on_paint_runs(spot, mark, metres).map(|run| run.end).collect::<Vec<_>>();
    /// // To the finish line, and from the 400 m start.
    /// assert_eq!(runs(200.0), [RunEnd::Start, RunEnd::Finish]);
    /// // In lane 2 one lap more is 407.04 m.
    /// assert_eq!(runs(600.0), []);
    /// # Ok::<(), lane_distance::LandmarkError>(())
    /// ```
    pub fn on_paint_runs(
        &self,
        spot: Spot,
        mark: MarkId,
        distance_m: f64,
    ) -> impl Iterator<Item = OnPaintRun> + use<'_> {
        let is_trap =
            move |mark: MarkId| self.mark(mark).is_some_and(|mark| mark.trap_in(spot.lane).is_some());
        let is_on_line = |spot: Spot| spot.to_finish_m == 0.0 && spot.course != Course::BackStraight;
        let finishes = [(RunEnd::Start, self.finish_of(spot, distance_m))];
        let starts = self.starts_of(spot, distance_m).map(|start| (RunEnd::Finish, start));
        finishes.into_iter().chain(starts).filter_map(move |(end, other)| {
            let (other, reading) = (other?, self.read(other?));
            let there = reading.mark.filter(|_| reading.past_m.abs() <= MEANT_M)?;
            let (start, finish) = match end {
                RunEnd::Start => (mark, (there, other)),
                RunEnd::Finish => (there, (mark, spot)),
            };
            let is_honest = !is_trap(finish.0) && (!is_trap(start) || is_on_line(finish.1));
            is_honest.then_some(OnPaintRun { distance_m, end, other, reading })
        })
    }

    /// Where a run from a spot finishes: out of its chute, and round the oval.
    fn finish_of(&self, start: Spot, distance_m: f64) -> Option<Spot> {
        let layout = self.layout();
        let Some(on_oval) = layout.on_course(start, Course::Oval) else {
            let to_finish_m = start.to_finish_m - distance_m;
            let on_straight = Spot { to_finish_m: to_finish_m.max(0.0), ..start };
            let Some(end) = layout.on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval) else {
                return (to_finish_m >= -MEANT_M).then_some(on_straight);
            };
            return match layout.on_course(on_straight, Course::Oval) {
                None => Some(on_straight),
                Some(on_oval) if to_finish_m >= 0.0 => Some(on_oval),
                Some(_) => self.finish_of(end, -to_finish_m),
            };
        };
        let to_finish_m = layout.measure(start.lane).within_lap_m(on_oval.to_finish_m - distance_m);
        Some(Spot::on_oval(start.lane, to_finish_m))
    }

    /// Where runs to a spot start: round the oval, and in the chute behind its straight.
    fn starts_of(&self, finish: Spot, distance_m: f64) -> impl Iterator<Item = Option<Spot>> + use<'_> {
        let layout = self.layout();
        let on_oval = layout.on_course(finish, Course::Oval).map(|on_oval| {
            let line = layout.measure(finish.lane);
            Spot::on_oval(finish.lane, line.within_lap_m(on_oval.to_finish_m + distance_m))
        });
        let in_chutes = [Course::HomeStraight, Course::BackStraight].into_iter().map(move |course| {
            let ground = layout.straight(course)?;
            let finish = layout.on_course(finish, course)?;
            let start = Spot { to_finish_m: finish.to_finish_m + distance_m, ..finish };
            let is_in_chute = layout.on_course(start, Course::Oval).is_none();
            (is_in_chute && start.to_finish_m <= ground.length_m() + MEANT_M).then_some(start)
        });
        std::iter::once(on_oval).chain(in_chutes)
    }
}
