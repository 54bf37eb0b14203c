//! Where a repetition can start and finish.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::{ON_PAINT_M, Spot};
use crate::paint::paint::{Ease, LanePaint, Painted};
use crate::search::lane_run::LaneRun;
use crate::search::pair::Pair;
use crate::search::place::Place;
use crate::track::lane_error::LaneError;
use crate::track::track::Track;

/// The shortest and the longest repetition that a search takes, in metres.
pub const REP_RANGE_M: std::ops::RangeInclusive<f64> = 10.0..=10_000.0;

/// Two marks that are a distance apart by design are so to this, in metres, after many laps; marks
/// that are so by chance, and only nearly, are not a pair worth having.
pub(crate) const MEANT_M: f64 = 0.01;

/// A length to the millimetre: a lap in metres has as many decimals as a number can have.
fn to_mm(length_m: f64) -> f64 {
    (length_m * 1000.0).round() / 1000.0
}

/// Why no pair was looked for.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SearchError {
    /// The distance is too short, too long or no number.
    #[error("a repetition of {} m is out of range: 10 m to 10000 m", to_mm(*distance_m))]
    Distance {
        /// The distance that was asked for, in metres.
        distance_m: f64,
    },
    /// The distance does not fit on the straight.
    #[error(
        "{} m does not fit on the {course}, which is {length_m:.2} m long with its chute",
        to_mm(*distance_m)
    )]
    TooLong {
        /// The distance that was asked for, in metres.
        distance_m: f64,
        /// The straight that it was to be run on.
        course: Course,
        /// Length of the straight with its chute, in metres.
        length_m: f64,
    },
    /// The distance does not fit on a bend.
    #[error(
        "{} m does not fit on a bend in lane {lane}; the longest that fits there is {length_m:.2} m",
        to_mm(*distance_m)
    )]
    TooLongForBend {
        /// The distance that was asked for, in metres.
        distance_m: f64,
        /// The lane.
        lane: LaneNumber,
        /// Length of the longest bend in that lane, in metres.
        length_m: f64,
    },
    /// The track has no such straight.
    #[error("the track has no {course}")]
    NoStraight {
        /// The straight that was asked for.
        course: Course,
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
    /// Where the place leaves no room for any of these: finish on paint, start near paint.
    NearPaintToPaint,
    /// Where the place leaves no room for that either: from its very beginning.
    FromTheBeginning,
}

/// How many pairs of each worth are offered.
const MOST_EACH: usize = 3;

#[derive(Clone, Copy, Debug)]
struct Candidate {
    start: Spot,
    finish: Spot,
    against: bool,
    ease: Ease,
    /// How far the end that is off paint lies from it, in whole centimetres.
    off_cm: u32,
}

impl Candidate {
    fn is_same_place(&self, other: &Self, lap_m: f64) -> bool {
        let near = |a: Spot, b: Spot| {
            let apart_m = (a.to_finish_m - b.to_finish_m).abs();
            apart_m.min(lap_m - apart_m) <= ON_PAINT_M && a.course == b.course
        };
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

#[derive(Default)]
struct Shortlist([arrayvec::ArrayVec<Candidate, MOST_EACH>; 6]);

impl Track {
    /// The pairs of start and finish worth having for a distance in a lane, best first:
    /// [`Track::search_at`] for [`Place::Anywhere`].
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let best = track.search(LaneNumber::of::<5>(), 150.0)?[0];
    /// assert_eq!(best.ends_on_paint(), 2);
    /// let name = |reading: lane_distance::PaintReading| {
    ///     reading.mark.and_then(|mark| track.mark(mark)).map(|mark| mark.name.clone())
    /// };
    /// assert_eq!(name(best.start_reading).as_deref(), Some("400 m start"));
    /// assert_eq!(name(best.finish_reading).as_deref(), Some("400 m hurdle tick 4"));
    /// # Ok::<(), lane_distance::SearchError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`SearchError`] where the distance is out of range, or the lane is missing or closed.
    pub fn search(&self, lane: LaneNumber, distance_m: f64) -> Result<Vec<Pair>, SearchError> {
        self.search_at(Place::Anywhere, lane, distance_m)
    }

    /// The pairs of start and finish worth having for a distance in a lane at a place, best first.
    ///
    /// Up to three of each kind are offered, in this order:
    ///
    /// 1. the start on paint and the finish on the finish line, where all can be timed;
    /// 2. start and finish both on paint elsewhere, the start on paint that reaches across the lane;
    /// 3. the finish on the finish line, the start off paint, measured from the nearest mark;
    /// 4. the start on paint that reaches across the lane, the finish off paint, measured from the nearest
    ///    mark.
    ///
    /// Of one kind, the shortest tape comes first (in whole centimetres), then the paint of the set
    /// that the track lists first, then the plainer paint: white lines before others before zone
    /// edges before ticks before curved lines, the forms of both ends added up; then the finish nearer
    /// to the finish line. The fourth kind goes by the form of the start, its set, the tape and the
    /// finish, in this order: the start is the end that has to be found in a hurry. A mark that is a
    /// trap in the lane serves only as the start of the very run to the finish line that it was
    /// painted for.
    ///
    /// Anywhere, a run that fits on the home straight is laid there; otherwise, and as well, it is
    /// laid on the oval, as whole laps and a part. A finish within 20 m past the finish line is not
    /// offered: runners stop at the line, and others slow down beyond it. On a bend and on the back
    /// straight there is no finish line. Where a place leaves no room for any of the four kinds, the
    /// finish is put on paint and the start off it, or the run begins where the place does.
    ///
    /// No spot lies in a hazard, and no run leads through a closed stretch ([`Track::hazards`]):
    /// there may be no pair at all.
    ///
    /// ```
    /// use lane_distance::{Course, LaneNumber, Place, Placement, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let lane = LaneNumber::of::<4>();
    /// let best = track.search_at(Place::Against(Course::HomeStraight), lane, 60.0)?[0];
    /// assert!(best.finish.to_finish_m > best.start.to_finish_m);
    /// let error = track.search_at(Place::On(Course::BackStraight), lane, 100.0).expect_err("it is too short");
    /// assert_eq!(
    ///     error.to_string(),
    ///     "100 m does not fit on the back straight, which is 84.39 m long with its chute"
    /// );
    /// # Ok::<(), lane_distance::SearchError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`SearchError`] where the distance is out of range or does not fit at the place, or the lane
    /// is missing or closed.
    pub fn search_at(
        &self,
        place: Place,
        lane: LaneNumber,
        distance_m: f64,
    ) -> Result<Vec<Pair>, SearchError> {
        if !REP_RANGE_M.contains(&distance_m) {
            return Err(SearchError::Distance { distance_m });
        }
        let mut shortlist = Shortlist::default();
        for run in self.runs(place, lane, distance_m)?.iter().flatten() {
            shortlist.offer_run(self, run);
        }
        let last = if place == Place::Anywhere { Worth::PaintToNearPaint } else { Worth::FromTheBeginning };
        let mut pairs = Vec::new();
        for (worth, candidates) in shortlist.0.iter().enumerate() {
            let is_spare = worth > Worth::PaintToNearPaint as usize;
            if worth > last as usize || is_spare && !pairs.is_empty() {
                break;
            }
            pairs.extend(candidates.iter().map(|candidate| Pair {
                start: candidate.start,
                finish: candidate.finish,
                distance_m,
                against: candidate.against,
                start_reading: self.read(candidate.start),
                finish_reading: self.read(candidate.finish),
            }));
        }
        Ok(pairs)
    }

    /// The runs that a place stands for: at most two.
    fn runs(
        &self,
        place: Place,
        lane: LaneNumber,
        distance_m: f64,
    ) -> Result<[Option<LaneRun<'_>>; 2], SearchError> {
        let layout = self.layout();
        match place {
            Place::Anywhere => {
                let home = layout.straight(Course::HomeStraight);
                let home = home.filter(|home| lane.get() <= home.lanes && distance_m <= home.length_m());
                let course = if home.is_some() { Course::HomeStraight } else { Course::Oval };
                self.check_lane(course, lane)?;
                let line = self.measure_line(lane)?;
                let straight =
                    home.map(|home| LaneRun::straight(Course::HomeStraight, home, lane, distance_m, false));
                let oval = layout.has_lane(Course::Oval, lane).then(|| {
                    // What lies wholly on the home straight has been found there.
                    let found_m = home.map_or(0.0, |home| home.straight_m);
                    LaneRun::oval(line, lane, distance_m, found_m)
                });
                Ok([straight, oval])
            }
            Place::On(Course::Oval) | Place::Against(Course::Oval) => {
                self.check_lane(Course::Oval, lane)?;
                Ok([Some(LaneRun::oval(self.measure_line(lane)?, lane, distance_m, 0.0)), None])
            }
            Place::On(course) | Place::Against(course) => {
                let ground = layout.straight(course).ok_or(SearchError::NoStraight { course })?;
                self.check_lane(course, lane)?;
                if distance_m > ground.length_m() {
                    return Err(SearchError::TooLong { distance_m, course, length_m: ground.length_m() });
                }
                let against = matches!(place, Place::Against(_));
                Ok([Some(LaneRun::straight(course, ground, lane, distance_m, against)), None])
            }
            Place::Bend => {
                self.check_lane(Course::Oval, lane)?;
                let line = self.measure_line(lane)?;
                let bends =
                    layout.bends().into_iter().map(|bend| LaneRun::bend(line, lane, distance_m, bend));
                let mut runs = [None, None];
                let mut longest_m: f64 = 0.0;
                for (bend, place) in bends.zip(&mut runs) {
                    longest_m = longest_m.max(bend.room_m());
                    *place = (distance_m <= bend.room_m()).then_some(bend);
                }
                if runs.iter().all(Option::is_none) {
                    return Err(SearchError::TooLongForBend { distance_m, lane, length_m: longest_m });
                }
                Ok(runs)
            }
        }
    }
}

impl Shortlist {
    /// Offers a pair; `lap_m` is the lap that goes round, infinite on a straight.
    fn offer(&mut self, worth: Worth, candidate: Candidate, lap_m: f64) {
        let list = &mut self.0[worth as usize];
        let key = |held: &Candidate| held.key(worth);
        // Where two marks share their paint, the better one stands for both.
        if let Some(same) = list.iter_mut().find(|held| held.is_same_place(&candidate, lap_m)) {
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

    /// Offers every pair of a run that is worth having.
    fn offer_run(&mut self, track: &Track, run: &LaneRun<'_>) {
        let paint = track.lane_paint(run.course(), run.lane());
        let candidate = |(start, finish): (Spot, Spot), ease: Ease, off_m: f64| {
            let against = run.is_against();
            let is_clear = track.is_clear(start) && track.is_clear(finish);
            (is_clear && !track.is_barred(start, run.distance_m(), against)).then(|| Candidate {
                start,
                finish,
                against,
                ease,
                off_cm: to_cm(off_m),
            })
        };
        if let Some(pair) = run.ending_on_the_line() {
            let reading = track.read(pair.0);
            let worth =
                if reading.is_on_paint() { Worth::PaintToFinishLine } else { Worth::NearPaintToFinishLine };
            if let Some(candidate) = candidate(pair, Ease::default(), reading.past_m) {
                self.offer(worth, candidate, run.lap_m());
            }
        }
        self.offer_paint(paint, run, candidate);
        if run.is_bounded() {
            self.offer_spare(paint, run, candidate);
        }
    }

    /// Offers every pair that starts on paint and does not finish on the finish line.
    ///
    /// As starts come nearer to the finish line, so do finishes: each look for the nearest mark goes
    /// on from the last.
    fn offer_paint(
        &mut self,
        paint: &LanePaint,
        run: &LaneRun<'_>,
        candidate: impl Fn((Spot, Spot), Ease, f64) -> Option<Candidate>,
    ) {
        let mut near_end = Walker::new(&paint.meant, run.lap_m());
        let mut near_anchor = Walker::new(&paint.anchors, run.lap_m());
        for begin in &paint.starts {
            let Some(pair) = run.starting_at(begin.to_finish_m) else {
                continue;
            };
            let finish_m = pair.1.to_finish_m;
            let (to_end_m, end) = near_end.nearest(finish_m);
            let (worth, offered) = match end {
                Some(end) if to_end_m <= MEANT_M && !end.ease.is_trap() => {
                    (Worth::PaintToPaint, candidate(pair, both(begin.ease, end.ease), to_end_m))
                }
                Some(_) if to_end_m <= ON_PAINT_M => continue,
                _ => match near_anchor.nearest(finish_m) {
                    (to_anchor_m, Some(_)) => {
                        (Worth::PaintToNearPaint, candidate(pair, begin.ease, to_anchor_m))
                    }
                    (_, None) => continue,
                },
            };
            if let Some(offered) = offered {
                self.offer(worth, offered, run.lap_m());
            }
        }
    }

    /// Offers what is left where a place has little room: the finish on paint, and the place's own
    /// beginning.
    fn offer_spare(
        &mut self,
        paint: &LanePaint,
        run: &LaneRun<'_>,
        candidate: impl Fn((Spot, Spot), Ease, f64) -> Option<Candidate>,
    ) {
        let mut near_anchor = Walker::new(&paint.anchors, run.lap_m());
        for end in &paint.anchors {
            let Some(pair) = run.finishing_at(end.to_finish_m) else {
                continue;
            };
            let (off_m, _) = near_anchor.nearest(pair.0.to_finish_m);
            if let Some(offered) = candidate(pair, end.ease, off_m) {
                self.offer(Worth::NearPaintToPaint, offered, run.lap_m());
            }
        }
        if let Some(offered) =
            run.starting_with_its_place().and_then(|pair| candidate(pair, Ease::default(), 0.0))
        {
            self.offer(Worth::FromTheBeginning, offered, run.lap_m());
        }
    }
}

/// Finds the nearest mark for one distance after another. The distances rise but for one fall at the
/// finish line, so that all of them together cost one pass or two over the marks.
struct Walker<'a> {
    marks: &'a [Painted],
    at: usize,
    lap_m: f64,
}

impl<'a> Walker<'a> {
    /// `lap_m` is the lap that goes round, infinite on a straight.
    const fn new(marks: &'a [Painted], lap_m: f64) -> Self {
        Self { marks, at: 0, lap_m }
    }

    fn nearest(&mut self, to_finish_m: f64) -> (f64, Option<&'a Painted>) {
        let (Some(first), Some(last)) = (self.marks.first(), self.marks.last()) else {
            return (f64::INFINITY, None);
        };
        if self.at > 0 && self.marks[self.at - 1].to_finish_m >= to_finish_m {
            self.at = self.marks.partition_point(|mark| mark.to_finish_m < to_finish_m);
        }
        while self.at < self.marks.len() && self.marks[self.at].to_finish_m < to_finish_m {
            self.at += 1;
        }
        let before = match self.at {
            0 => (to_finish_m + self.lap_m - last.to_finish_m, last),
            at => (to_finish_m - self.marks[at - 1].to_finish_m, &self.marks[at - 1]),
        };
        let after = match self.marks.get(self.at) {
            None => (first.to_finish_m + self.lap_m - to_finish_m, first),
            Some(mark) => (mark.to_finish_m - to_finish_m, mark),
        };
        let (off_m, mark) = if before.0 <= after.0 { before } else { after };
        if off_m.is_finite() { (off_m, Some(mark)) } else { (f64::INFINITY, None) }
    }
}

fn to_cm(metres: f64) -> u32 {
    (metres.abs() * 100.0).round() as u32
}

/// The ease of finding two marks: as uncertain as the less certain of them, as hard as both together.
fn both(a: Ease, b: Ease) -> Ease {
    Ease { set: a.set.max(b.set), form: a.form + b.form }
}
