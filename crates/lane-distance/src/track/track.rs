//! A track: its ground, its paint, and what is closed.

use std::sync::Arc;

use crate::geometry::course::Course;
use crate::geometry::lane::Lane;
use crate::geometry::lane_number::{LaneNumber, MOST_LANES};
use crate::geometry::line::Line;
use crate::geometry::point::Point;
use crate::geometry::spot::{PaintReading, Spot};
use crate::paint::mark::{Mark, MarkId};
use crate::paint::paint::{LanePaint, Paint, Painted};
use crate::spec::tolerances::Tolerances;
use crate::spec::track_spec::TrackSpec;
use crate::track::hazard::Hazard;
use crate::track::lane_error::LaneError;
use crate::track::layout::Layout;
use crate::track::track_fault::TrackFault;

/// A track: its ground, its paint, and what is closed. A clone shares the ground and the paint.
#[derive(Clone, Debug, PartialEq)]
pub struct Track {
    name: String,
    layout: Arc<Layout>,
    marks: Arc<[Mark]>,
    paint: Arc<Paint>,
    closed: Vec<LaneNumber>,
    /// Those of the closed lanes that its description closes for a reason, and why.
    closed_because: Option<(Vec<LaneNumber>, String)>,
    hazards: Vec<Hazard>,
    tolerances: Tolerances,
    bearing_deg: Option<f64>,
}

impl Track {
    /// Builds a track from its description.
    ///
    /// # Errors
    ///
    /// Every fault of the description, each with its place.
    pub fn build(spec: &TrackSpec) -> Result<Self, Vec<TrackFault>> {
        let mut faults = Vec::new();
        spec.check(&mut faults);
        let most = spec.most_lanes(&mut faults);
        let mut widths = spec.widths_m(most, &mut faults);
        spec.check_lanes(most.unwrap_or(MOST_LANES), &mut faults);
        let path = spec.inner_path(&mut faults);
        let marks = spec.paint(&mut faults);
        let Some(path) = path else { return Err(faults) };
        let Some(&outermost_m) = widths.last() else { return Err(faults) };
        let widest = widths.len().min(MOST_LANES.into());
        widths.resize(MOST_LANES.into(), outermost_m);
        let lanes = Lane::side_by_side(spec.inner_edge, &widths);
        let scale = spec.scale(Line::parallel(&path, lanes[0].measure_m, 1.0).lap_m(), &mut faults);
        let straights = [&spec.home_straight, &spec.back_straight]
            .map(|straight| (straight.lanes.unwrap_or(spec.lanes), straight.chute.metres()));
        let layout = Layout::new(path, lanes, widest, spec.lanes, straights, scale);
        spec.check_hazards(&layout, &mut faults);
        spec.check_own_marks(&layout, &mut faults);
        if !faults.is_empty() {
            return Err(faults);
        }
        let paint = Paint::resolve(&layout, &marks);
        let mut closed: Vec<_> =
            spec.closed_lanes.lanes().iter().copied().filter_map(LaneNumber::new).collect();
        closed.sort_unstable();
        closed.dedup();
        Ok(Self {
            name: spec.name.clone(),
            layout: Arc::new(layout),
            marks: marks.into(),
            paint: Arc::new(paint),
            closed_because: spec.closed_lanes.reason().map(|why| (closed.clone(), why.to_owned())),
            closed,
            hazards: spec.hazards.clone(),
            tolerances: spec.tolerances,
            bearing_deg: spec.bearing,
        })
    }

    /// The same track with more lanes closed.
    ///
    /// # Errors
    ///
    /// [`LaneError::Missing`] where no course of the track has such a lane.
    pub fn with_closed(mut self, lanes: &[LaneNumber]) -> Result<Self, LaneError> {
        for &lane in lanes {
            self.measure_line(lane)?;
            if !self.closed.contains(&lane) {
                self.closed.push(lane);
            }
        }
        self.closed.sort_unstable();
        Ok(self)
    }

    /// The same track with all its lanes open.
    pub fn with_all_open(mut self) -> Self {
        self.closed.clear();
        self.closed_because = None;
        self
    }

    /// The same track with only those of its hazards that are in use.
    pub fn with_hazards(mut self, mut in_use: impl FnMut(&Hazard) -> bool) -> Self {
        self.hazards.retain(|hazard| in_use(hazard));
        self
    }

    /// The hazards that are taken to be in use: no spot lies in one, and no run leads through a
    /// closed stretch.
    pub fn hazards(&self) -> &[Hazard] {
        &self.hazards
    }

    /// Whether no hazard holds a spot.
    pub(crate) fn is_clear(&self, spot: Spot) -> bool {
        !self.hazards.iter().any(|hazard| hazard.holds(&self.layout, spot))
    }

    /// Whether a run leads through a closed stretch.
    pub(crate) fn is_barred(&self, start: Spot, distance_m: f64, against: bool) -> bool {
        self.hazards.iter().any(|hazard| hazard.bars(&self.layout, start, distance_m, against))
    }

    /// The uncertainty of the distance from a spot to the finish line, in metres, plus or minus.
    pub fn spot_uncertainty_m(&self, spot: Spot, reading: &PaintReading) -> f64 {
        self.run_uncertainty_m(spot, spot.to_finish_m, u8::from(!reading.is_on_paint()))
    }

    /// The uncertainty of a run of some length from a spot, in metres, plus or minus.
    pub(crate) fn run_uncertainty_m(&self, start: Spot, distance_m: f64, ends_off_paint: u8) -> f64 {
        let turned_rad = match start.course {
            Course::Oval => self.layout.turned_rad(start, distance_m),
            _ => 0.0,
        };
        self.tolerances.uncertainty_m(start.lane, turned_rad, ends_off_paint)
    }

    /// What the track is called.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The ground, without paint.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The marks of the track, wherever they are painted.
    pub fn marks(&self) -> &[Mark] {
        &self.marks
    }

    /// One mark; nothing where the identifier is that of another track.
    pub fn mark(&self, id: MarkId) -> Option<&Mark> {
        self.marks.get(id.index())
    }

    /// The lanes that are closed, in order.
    pub fn closed_lanes(&self) -> &[LaneNumber] {
        &self.closed
    }

    /// The lanes that the track's description closes for a reason, in order, and why.
    pub fn closed_because(&self) -> Option<(&[LaneNumber], &str)> {
        self.closed_because.as_ref().map(|(lanes, why)| (lanes.as_slice(), why.as_str()))
    }

    /// Compass bearing in which the home straight is run, in degrees from north, if it is known.
    pub const fn bearing_deg(&self) -> Option<f64> {
        self.bearing_deg
    }

    /// The lanes of a course that are open, in order.
    pub fn open_lanes(&self, course: Course) -> Vec<LaneNumber> {
        self.layout.lane_numbers(course).filter(|lane| !self.closed.contains(lane)).collect()
    }

    /// The lane of a number, open or closed, where any course of the track has it.
    ///
    /// ```
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// assert_eq!(track.lane_number(8)?.get(), 8);
    /// let error = track.lane_number(9).expect_err("it has eight lanes");
    /// assert_eq!(error.to_string(), "there is no lane 9 on the oval; open there: lanes 1 to 8");
    /// # Ok::<(), lane_distance::LaneError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`LaneError::Missing`], which names the lanes of the oval that are open.
    pub fn lane_number(&self, number: u8) -> Result<LaneNumber, LaneError> {
        let lane = LaneNumber::new(number).ok_or_else(|| self.missing(Course::Oval, number))?;
        self.measure_line(lane).map(|_| lane)
    }

    fn missing(&self, course: Course, lane: impl Into<u8>) -> LaneError {
        LaneError::Missing { lane: lane.into(), course, open: self.open_lanes(course) }
    }

    /// Whether a lane exists on a course and is open.
    ///
    /// # Errors
    ///
    /// [`LaneError`], which names the lanes that are open.
    pub fn check_lane(&self, course: Course, lane: LaneNumber) -> Result<(), LaneError> {
        if !self.layout.has_lane(course, lane) {
            Err(self.missing(course, lane))
        } else if self.closed.contains(&lane) {
            Err(LaneError::Closed { lane: lane.into(), course, open: self.open_lanes(course) })
        } else {
            Ok(())
        }
    }

    /// A lap of a lane along its measure line, in metres.
    ///
    /// # Errors
    ///
    /// [`LaneError::Missing`] where the oval has no such lane.
    pub fn lap_m(&self, lane: LaneNumber) -> Result<f64, LaneError> {
        match self.layout.has_lane(Course::Oval, lane) {
            true => Ok(self.measure_line(lane)?.lap_m()),
            false => Err(self.missing(Course::Oval, lane)),
        }
    }

    /// The measure line of a lane that some course has.
    pub(crate) fn measure_line(&self, lane: LaneNumber) -> Result<&Line, LaneError> {
        let is_there = lane.index() < self.layout.lanes().len();
        is_there.then(|| self.layout.measure(lane)).ok_or_else(|| self.missing(Course::Oval, lane))
    }

    /// Where a spot lies on the plan.
    pub fn point(&self, spot: Spot) -> Point {
        self.layout.point(spot)
    }

    /// Reads a spot off the paint of its lane: from the nearest mark that is not a trap.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let reading = track.read(Spot::on_oval(LaneNumber::of::<3>(), 300.0));
    /// let mark = reading.mark.and_then(|mark| track.mark(mark)).expect("lane 3 has paint");
    /// assert_eq!(&*mark.name, "first 4x100 m takeover zone exit");
    /// assert!((reading.past_m + 10.0).abs() < 1e-9); // 10 m behind it
    /// assert!((reading.tape_m + 9.95).abs() < 0.01); // on the inner line of lane 3
    /// ```
    pub fn read(&self, spot: Spot) -> PaintReading {
        self.paint.read(&self.layout, spot)
    }

    /// Reads a spot off any mark that it stands on, trap or not; else as [`Track::read`] does.
    pub fn read_any(&self, spot: Spot) -> PaintReading {
        self.paint.read_any(&self.layout, spot)
    }

    /// The paint of a lane of a course, by distance to the finish.
    pub fn painted(&self, course: Course, lane: LaneNumber) -> &[Painted] {
        &self.lane_paint(course, lane).all
    }

    /// The lines that reach across a lane of a course and that a run may start on, by distance to the finish.
    ///
    /// ```
    /// use lane_distance::{Course, LaneNumber, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let lines = track.start_lines(Course::Oval, LaneNumber::of::<2>());
    /// assert!(lines.iter().any(|line| line.to_finish_m == 200.0));
    /// ```
    pub fn start_lines(&self, course: Course, lane: LaneNumber) -> &[Painted] {
        &self.lane_paint(course, lane).starts
    }

    pub(crate) fn lane_paint(&self, course: Course, lane: LaneNumber) -> &LanePaint {
        self.paint.lane(course, lane)
    }

    /// The paint of a lane, in walking order from the finish line: round the oval, then the chutes.
    pub fn walk(&self, lane: LaneNumber) -> Vec<(Spot, MarkId)> {
        let mut walk = Vec::new();
        let oval = self.layout.has_lane(Course::Oval, lane);
        for course in Course::ALL {
            let spots = self
                .painted(course, lane)
                .iter()
                .map(|painted| (Spot { course, lane, to_finish_m: painted.to_finish_m }, painted.mark));
            // What a straight shares with the oval was met on the way round.
            let mut met: Vec<_> = spots
                .filter(|(spot, _)| {
                    course == Course::Oval || !oval || self.layout.on_course(*spot, Course::Oval).is_none()
                })
                .collect();
            met.sort_by(|(a, _), (b, _)| {
                self.layout.from_finish_m(*a).total_cmp(&self.layout.from_finish_m(*b))
            });
            walk.extend(met);
        }
        walk
    }
}
