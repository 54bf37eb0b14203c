//! Where a repetition can start and finish.

use crate::course::Course;
use crate::lane_error::LaneError;
use crate::line::Line;
use crate::paint::{Ease, LanePaint, Painted};
use crate::spot::{ON_PAINT_M, PaintReading, Spot};
use crate::track::Track;

/// The shortest and the longest repetition that a search takes, in metres.
pub const REP_RANGE_M: std::ops::RangeInclusive<f64> = 10.0..=10_000.0;

/// How far past the finish line nobody is sent to finish: runners stop at the line, those who time
/// them stand there, and others slow down beyond it.
const RUN_OUT_M: f64 = 20.0;

/// Two marks that are a distance apart by design are so to this, in metres, after many laps; marks
/// that are so by chance, and nearly, are no pair worth having.
const MEANT_M: f64 = 0.01;

/// A start and a finish, a given distance apart along one lane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Where the repetition starts.
    pub start: Spot,
    /// Where it finishes.
    pub finish: Spot,
    /// How far it is, in metres: whole laps and the way from start to finish.
    pub distance_m: f64,
    /// The start in terms of paint.
    pub start_reading: PaintReading,
    /// The finish in terms of paint.
    pub finish_reading: PaintReading,
}

impl Pair {
    /// How many of the two ends stand on paint.
    pub fn ends_on_paint(&self) -> u8 {
        u8::from(self.start_reading.is_on_paint()) + u8::from(self.finish_reading.is_on_paint())
    }
}

/// Why no pair was looked for.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SearchError {
    /// The distance is too short, too long or no number.
    #[error("a repetition of {distance_m} m is out of range: 10 m to 10000 m")]
    Distance {
        /// The distance that was asked for, in metres.
        distance_m: f64,
    },
    /// The distance does not fit on the course.
    #[error("{distance_m} m do not fit on the {course}, which is {length_m:.2} m long with its chute")]
    TooLong {
        /// The distance that was asked for, in metres.
        distance_m: f64,
        /// The straight that it was to be run on.
        course: Course,
        /// Length of the straight with its chute, in metres.
        length_m: f64,
    },
    /// The lane cannot be run in.
    #[error(transparent)]
    Lane(#[from] LaneError),
}

/// What is worth having, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Worth {
    /// Start on paint, finish on the finish line.
    PaintToFinishLine,
    /// Start and finish on paint.
    PaintToPaint,
    /// Finish on the finish line, start near paint.
    NearPaintToFinishLine,
    /// Start on paint, finish near paint.
    PaintToNearPaint,
}

/// How many pairs of each worth are offered.
const MOST_EACH: usize = 3;

#[derive(Clone, Copy, Debug)]
struct Candidate {
    start: Spot,
    finish: Spot,
    ease: Ease,
    /// How far the end that is off paint lies from it, in whole centimetres.
    off_cm: u32,
}

#[derive(Default)]
struct Shortlist([arrayvec::ArrayVec<Candidate, MOST_EACH>; 4]);

impl Shortlist {
    fn offer(&mut self, worth: Worth, candidate: Candidate) {
        let list = &mut self.0[worth as usize];
        let key = |held: &Candidate| held.key(worth);
        // Where two marks share their paint, the better one stands for both.
        if let Some(same) = list.iter_mut().find(|held| held.is_same_place(&candidate)) {
            if key(&candidate) < key(same) {
                *same = candidate;
                list.sort_by_key(key);
            }
            return;
        }
        let at = list.partition_point(|held| key(held) <= key(&candidate));
        if at < MOST_EACH {
            if list.is_full() {
                list.pop();
            }
            list.insert(at, candidate);
        }
    }
}

impl Candidate {
    fn is_same_place(&self, other: &Self) -> bool {
        let near =
            |a: Spot, b: Spot| (a.to_finish_m - b.to_finish_m).abs() <= ON_PAINT_M && a.course == b.course;
        near(self.start, other.start) && near(self.finish, other.finish)
    }

    /// Off paint, the shortest tape is best; on paint, what is surest and easiest to find. A start
    /// on paint is worth most where it is easy to find, whatever the tape at the other end. Last, a
    /// finish close to the finish line is better than one far from it.
    fn key(&self, worth: Worth) -> [u32; 4] {
        let Ease { set, form } = self.ease;
        let (set, form, off_cm) = (set.into(), form.into(), self.off_cm);
        let finish_mm = (self.finish.to_finish_m * 1000.0) as u32;
        match worth {
            Worth::PaintToNearPaint => [form, set, off_cm, finish_mm],
            _ => [off_cm, set, form, finish_mm],
        }
    }
}

impl Track {
    /// The pairs of start and finish worth having for a distance in a lane, best first.
    ///
    /// Up to three of each kind are offered, in this order:
    ///
    /// 1. the start on paint and the finish on the finish line, where all can be timed;
    /// 2. start and finish both on paint elsewhere, the start on paint that reaches across the lane;
    /// 3. the finish on the finish line, the start off paint, told by the nearest mark;
    /// 4. the start on paint that reaches across the lane, the finish off paint, told by the nearest mark.
    ///
    /// Of one kind, the shortest tape comes first (in whole centimetres), then the paint of the set
    /// that the track lists first, then white lines before others before zone edges before ticks before curved lines,
    /// then the finish nearer to the finish line. In the fourth kind the paint of the start goes
    /// before the tape: it is the end that has to be found in a hurry. A mark that is a trap in the
    /// lane serves only as the start of the very run to the finish line that it was painted for.
    ///
    /// A run that fits on the home straight is laid there; otherwise, and besides, it is laid on the
    /// oval, as whole laps and a part. A finish within 20 m past the finish line is not offered:
    /// runners stop at the line, and others slow down beyond it.
    ///
    /// ```
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let best = track.search(5, 150.0)?[0];
    /// assert_eq!(best.ends_on_paint(), 2);
    /// let name = |reading: lane_distance::PaintReading| reading.mark.map(|mark| track.mark(mark).name.clone());
    /// assert_eq!(name(best.start_reading).as_deref(), Some("400 m start"));
    /// assert_eq!(name(best.finish_reading).as_deref(), Some("400 m hurdle tick 4"));
    /// # Ok::<(), lane_distance::SearchError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`SearchError`] where the distance is out of range, or the lane is missing or closed.
    pub fn search(&self, lane: u8, distance_m: f64) -> Result<Vec<Pair>, SearchError> {
        check_distance(distance_m)?;
        let on_home = self
            .layout()
            .straight(Course::HomeStraight)
            .filter(|home| lane > 0 && lane <= home.lanes && distance_m <= home.length_m());
        let on_oval = lane > 0 && lane <= self.layout().lanes_of(Course::Oval);
        self.check_lane(if on_home.is_some() { Course::HomeStraight } else { Course::Oval }, lane)?;
        let mut shortlist = Shortlist::default();
        if let Some(home) = on_home {
            self.search_straight(Course::HomeStraight, lane, distance_m, home.length_m(), &mut shortlist);
        }
        if on_oval {
            // What lies wholly on the home straight has been found there.
            let found_m = if on_home.is_some() {
                self.layout().straight(Course::HomeStraight).map_or(0.0, |home| home.straight_m)
            } else {
                0.0
            };
            self.search_oval(lane, distance_m, found_m, &mut shortlist);
        }
        Ok(self.pairs(&shortlist, distance_m))
    }

    /// The pairs worth having for a distance in a lane of one course, best first.
    ///
    /// The order is that of [`Track::search`]; the back straight has no finish line of its own.
    ///
    /// # Errors
    ///
    /// [`SearchError`] where the distance is out of range or does not fit on the course, or the
    /// lane is missing or closed.
    pub fn search_on(&self, course: Course, lane: u8, distance_m: f64) -> Result<Vec<Pair>, SearchError> {
        check_distance(distance_m)?;
        self.check_lane(course, lane)?;
        let mut shortlist = Shortlist::default();
        match self.layout().straight(course) {
            None => self.search_oval(lane, distance_m, 0.0, &mut shortlist),
            Some(ground) if distance_m <= ground.length_m() => {
                self.search_straight(course, lane, distance_m, ground.length_m(), &mut shortlist);
            }
            Some(ground) => {
                return Err(SearchError::TooLong { distance_m, course, length_m: ground.length_m() });
            }
        }
        Ok(self.pairs(&shortlist, distance_m))
    }

    fn pairs(&self, shortlist: &Shortlist, distance_m: f64) -> Vec<Pair> {
        let pair = |candidate: &Candidate| Pair {
            start: candidate.start,
            finish: candidate.finish,
            distance_m,
            start_reading: self.read(candidate.start),
            finish_reading: self.read(candidate.finish),
        };
        shortlist.0.iter().flatten().map(pair).collect()
    }

    fn search_straight(
        &self,
        course: Course,
        lane: u8,
        distance_m: f64,
        length_m: f64,
        shortlist: &mut Shortlist,
    ) {
        let spot = |to_finish_m: f64| Spot { course, lane, to_finish_m };
        let paint = self.lane_paint(course, lane);
        if course == Course::HomeStraight {
            shortlist.offer_finish_line(self, spot(distance_m), spot(0.0));
        }
        shortlist.offer_paint(paint, |start_m| {
            let finish_m = start_m - distance_m;
            (start_m <= length_m && finish_m > ON_PAINT_M).then(|| (spot(start_m), spot(finish_m)))
        });
    }

    fn search_oval(&self, lane: u8, distance_m: f64, found_m: f64, shortlist: &mut Shortlist) {
        let line: &Line = self.layout().measure(lane);
        let lap_m = line.lap_m();
        let part_m = line.within_lap_m(distance_m);
        let paint = self.lane_paint(Course::Oval, lane);
        let spot = |to_finish_m: f64| Spot::on_oval(lane, to_finish_m);
        if part_m > found_m || distance_m > lap_m {
            shortlist.offer_finish_line(self, spot(part_m), spot(0.0));
        }
        shortlist.offer_paint(paint, |start_m| {
            let finish_m = if start_m >= part_m { start_m - part_m } else { start_m - part_m + lap_m };
            let is_found = start_m <= found_m && finish_m < start_m;
            let is_finish_line = finish_m <= ON_PAINT_M || lap_m - finish_m <= ON_PAINT_M;
            let is_in_run_out = lap_m - finish_m < RUN_OUT_M;
            (!is_found && !is_finish_line && !is_in_run_out).then(|| (spot(start_m), spot(finish_m)))
        });
    }
}

impl Shortlist {
    /// Offers the one pair that finishes on the finish line.
    fn offer_finish_line(&mut self, track: &Track, start: Spot, finish: Spot) {
        let reading = track.read(start);
        let off_cm = to_cm(reading.past_m);
        let worth =
            if reading.is_on_paint() { Worth::PaintToFinishLine } else { Worth::NearPaintToFinishLine };
        self.offer(worth, Candidate { start, finish, ease: Ease::default(), off_cm });
    }

    /// Offers every pair that starts on paint and does not finish on the finish line.
    ///
    /// `pair` gives the spots for a start, or nothing where the run is not to be had. As starts
    /// come nearer to the finish line, so do finishes: each search goes on from the last.
    fn offer_paint(&mut self, paint: &LanePaint, pair: impl Fn(f64) -> Option<(Spot, Spot)>) {
        let mut near_end = Walker::new(&paint.ends);
        let mut near_anchor = Walker::new(&paint.anchors);
        for begin in paint.ends.iter().filter(|begin| begin.ease.is_easy()) {
            let Some((start, finish)) = pair(begin.to_finish_m) else {
                continue;
            };
            let (to_end_m, end) = near_end.nearest(finish.to_finish_m);
            if let Some(end) = end.filter(|_| to_end_m <= ON_PAINT_M) {
                if to_end_m <= MEANT_M && !end.ease.is_trap() {
                    let ease = both(begin.ease, end.ease);
                    let candidate = Candidate { start, finish, ease, off_cm: to_cm(to_end_m) };
                    self.offer(Worth::PaintToPaint, candidate);
                }
                continue;
            }
            let (to_anchor_m, anchor) = near_anchor.nearest(finish.to_finish_m);
            if anchor.is_some() {
                let candidate = Candidate { start, finish, ease: begin.ease, off_cm: to_cm(to_anchor_m) };
                self.offer(Worth::PaintToNearPaint, candidate);
            }
        }
    }
}

/// Finds the nearest mark for one distance after another. The distances rise but for one fall at the
/// finish line, so that all of them together cost one pass or two over the marks.
struct Walker<'a> {
    marks: &'a [Painted],
    at: usize,
}

impl<'a> Walker<'a> {
    const fn new(marks: &'a [Painted]) -> Self {
        Self { marks, at: 0 }
    }

    fn nearest(&mut self, to_finish_m: f64) -> (f64, Option<&'a Painted>) {
        let behind = |at: usize| self.marks[at].to_finish_m < to_finish_m;
        if self.at > 0 && !behind(self.at - 1) {
            self.at = self.marks.partition_point(|mark| mark.to_finish_m < to_finish_m);
        }
        while self.at < self.marks.len() && self.marks[self.at].to_finish_m < to_finish_m {
            self.at += 1;
        }
        let neighbours = [self.at.checked_sub(1), Some(self.at)];
        neighbours
            .into_iter()
            .flatten()
            .filter_map(|at| self.marks.get(at))
            .map(|mark| ((mark.to_finish_m - to_finish_m).abs(), mark))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or((f64::INFINITY, None), |(off_m, mark)| (off_m, Some(mark)))
    }
}

fn to_cm(metres: f64) -> u32 {
    (metres.abs() * 100.0).round() as u32
}

/// The ease of finding two marks: as unsure as the less sure of them, as hard as both together.
fn both(a: Ease, b: Ease) -> Ease {
    Ease { set: a.set.max(b.set), form: a.form + b.form }
}

fn check_distance(distance_m: f64) -> Result<(), SearchError> {
    if REP_RANGE_M.contains(&distance_m) { Ok(()) } else { Err(SearchError::Distance { distance_m }) }
}
