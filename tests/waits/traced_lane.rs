//! A straightforward way to starts and finishes: along the traced measure line, then the nearest mark.

use anyhow::{Context as _, Result};
use kurbo::Point;
use lane_distance::{Course, Form, LaneNumber, Mark, MarkId, Spot, Track};

use crate::measure_line::MeasureLine;

/// A lane with its measure lines as curves and its marks as places on them.
pub(crate) struct TracedLane {
    home: Option<TracedCourse>,
    oval: TracedCourse,
}

struct TracedCourse {
    course: Course,
    line: MeasureLine,
    /// Marks that mislead nobody in this lane.
    marks: Vec<TracedMark>,
    goes_round: bool,
}

/// A mark, by how far along its line it lies.
struct TracedMark {
    along_m: f64,
    mark: MarkId,
    /// Of two marks in one place the less is the plainer.
    plainness: (u8, u8),
}

/// A start and a finish, each with the mark nearest to it.
pub(crate) struct FoundPair {
    pub(crate) course: Course,
    pub(crate) start: Point,
    pub(crate) finish: Point,
    pub(crate) start_mark: MarkId,
    pub(crate) finish_mark: MarkId,
    /// How far its ends lie from these marks together, in millimetres.
    off_mm: u64,
}

impl TracedLane {
    pub(crate) fn new(track: &Track, lane: LaneNumber) -> Result<Self> {
        let home = MeasureLine::home_straight(track, lane);
        let home = home.map(|line| TracedCourse::new(track, lane, Course::HomeStraight, line)).transpose()?;
        let oval = TracedCourse::new(track, lane, Course::Oval, MeasureLine::lap(track, lane))?;
        Ok(Self { home, oval })
    }

    fn home(&self, distance_m: f64) -> Option<&TracedCourse> {
        self.home.as_ref().filter(|home| distance_m <= home.line.length_m)
    }

    /// A run to the finish line: on the home straight where it fits there, else on the oval.
    pub(crate) fn to_finish_line(&self, distance_m: f64) -> Result<FoundPair> {
        self.home(distance_m).unwrap_or(&self.oval).to_finish_line(distance_m)
    }

    /// The runs to the finish line and from every mark, those that need the shortest tape first.
    pub(crate) fn pairs(&self, distance_m: f64) -> Result<Vec<FoundPair>> {
        let mut pairs = Vec::new();
        for course in self.home(distance_m).into_iter().chain([&self.oval]) {
            pairs.push(course.to_finish_line(distance_m)?);
            course.add_from_marks(distance_m, &mut pairs)?;
        }
        pairs.sort_by_key(|pair| pair.off_mm);
        Ok(pairs)
    }
}

impl TracedCourse {
    fn new(track: &Track, lane: LaneNumber, course: Course, line: MeasureLine) -> Result<Self> {
        let mut marks = Vec::new();
        for painted in track.painted(course, lane) {
            let mark = track.mark(painted.mark).context("a painted mark is one of the track")?;
            if mark.trap_in(lane).is_some() {
                continue;
            }
            let point = track.point(Spot { course, lane, to_finish_m: painted.to_finish_m });
            let along_m = line.along_m(Point::new(point.x, point.y)).context("the line has no curves")?;
            marks.push(TracedMark { along_m, mark: painted.mark, plainness: plainness(mark) });
        }
        Ok(Self { course, line, marks, goes_round: course == Course::Oval })
    }

    fn to_finish_line(&self, distance_m: f64) -> Result<FoundPair> {
        let length_m = self.line.length_m;
        self.pair((length_m - distance_m).rem_euclid(length_m), length_m)
    }

    fn add_from_marks(&self, distance_m: f64, pairs: &mut Vec<FoundPair>) -> Result<()> {
        let length_m = self.line.length_m;
        for mark in &self.marks {
            let finish_m = mark.along_m + distance_m;
            if self.goes_round || finish_m <= length_m {
                let finish_m = if self.goes_round { finish_m.rem_euclid(length_m) } else { finish_m };
                pairs.push(self.pair(mark.along_m, finish_m)?);
            }
        }
        Ok(())
    }

    /// A pair from one place along the line to another.
    fn pair(&self, start_m: f64, finish_m: f64) -> Result<FoundPair> {
        let (start_mark, start_mm) = self.nearest(start_m)?;
        let (finish_mark, finish_mm) = self.nearest(finish_m)?;
        Ok(FoundPair {
            course: self.course,
            start: self.line.at(start_m).context("the start is not on the line")?,
            finish: self.line.at(finish_m).context("the finish is not on the line")?,
            start_mark,
            finish_mark,
            off_mm: start_mm + finish_mm,
        })
    }

    /// The mark nearest to a place along the line, and how many millimetres off it lies.
    fn nearest(&self, along_m: f64) -> Result<(MarkId, u64)> {
        let off_mm = |mark: &TracedMark| {
            let off_m = (mark.along_m - along_m).abs();
            let off_m = if self.goes_round { off_m.min(self.line.length_m - off_m) } else { off_m };
            (off_m * 1000.0).round() as u64
        };
        let marks = self.marks.iter().map(|mark| (off_mm(mark), mark));
        let nearest = marks.min_by_key(|(off_mm, mark)| (*off_mm, mark.plainness));
        let (off_mm, mark) = nearest.context("the lane has no paint")?;
        Ok((mark.mark, off_mm))
    }
}

fn plainness(mark: &Mark) -> (u8, u8) {
    let form = match mark.form {
        Form::Line if mark.colour.contains("white") => 0,
        Form::Line => 1,
        Form::Edge | Form::ShortLine => 2,
        Form::Tick => 3,
        Form::Curve => 4,
    };
    (form, mark.set)
}
