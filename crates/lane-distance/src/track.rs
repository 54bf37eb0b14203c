//! A track: its ground, its paint, and what is closed.

use crate::course::Course;
use crate::fault::{Fault, key};
use crate::lane::Lane;
use crate::lane_error::LaneError;
use crate::layout::Layout;
use crate::mark::{Mark, MarkId};
use crate::paint::{LanePaint, Paint, Painted, check_bases};
use crate::point::Point;
use crate::spot::{PaintReading, Spot};
use crate::track_spec::TrackSpec;

/// A track: its ground, its paint, and what is closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Track {
    name: String,
    layout: Layout,
    marks: Vec<Mark>,
    paint: Paint,
    closed: Vec<u8>,
}

impl Track {
    /// Builds a track from its description.
    ///
    /// # Errors
    ///
    /// Every fault of the description that can be told apart, each with its place.
    pub fn build(spec: &TrackSpec) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        if spec.name.trim().is_empty() {
            faults.push(Fault::new(key!["name"], "the track has no name"));
        }
        let widths = spec.widths_m(&mut faults);
        let path = spec.inner_path(&mut faults);
        let marks = spec.paint(&mut faults);
        check_bases(&marks, &mut faults);
        let straights = [(&spec.home_straight, "home_straight"), (&spec.back_straight, "back_straight")];
        let straights = straights.map(|(straight, name)| {
            let chute_m = straight.chute.metres();
            if !(0.0..=200.0).contains(&chute_m) {
                faults.push(Fault::new(
                    key![name, "chute"],
                    format!("a chute of {chute_m} m is out of range: 0 m to 200 m"),
                ));
            }
            (straight.lanes.unwrap_or(spec.lanes), chute_m)
        });
        let (Some(path), true) = (path, faults.is_empty()) else {
            return Err(faults);
        };
        let lanes = Lane::side_by_side(spec.inner_edge, &widths);
        let layout = Layout::new(path, lanes, spec.lanes, straights);
        let paint = Paint::resolve(&layout, &marks);
        let track = Self { name: spec.name.clone(), layout, marks, paint, closed: Vec::new() };
        track
            .with_closed(&spec.closed_lanes)
            .map_err(|error| vec![Fault::new(key!["closed_lanes"], error.to_string())])
    }

    /// The same track with more lanes closed.
    ///
    /// # Errors
    ///
    /// [`LaneError::Missing`] where no course of the track has such a lane.
    pub fn with_closed(mut self, lanes: &[u8]) -> Result<Self, LaneError> {
        for &lane in lanes {
            self.check_lane_exists(lane)?;
            if !self.closed.contains(&lane) {
                self.closed.push(lane);
            }
        }
        self.closed.sort_unstable();
        Ok(self)
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

    /// One mark.
    pub fn mark(&self, id: MarkId) -> &Mark {
        &self.marks[id.index()]
    }

    /// The lanes that are closed, in order.
    pub fn closed_lanes(&self) -> &[u8] {
        &self.closed
    }

    /// The lanes of a course that are open, in order.
    pub fn open_lanes(&self, course: Course) -> Vec<u8> {
        (1..=self.layout.lanes_of(course)).filter(|lane| !self.closed.contains(lane)).collect()
    }

    /// Whether any course of the track has a lane, open or closed.
    ///
    /// # Errors
    ///
    /// [`LaneError::Missing`], which names the lanes of the oval that are open.
    pub fn check_lane_exists(&self, lane: u8) -> Result<(), LaneError> {
        if lane == 0 || usize::from(lane) > self.layout.lanes().len() {
            let open = self.open_lanes(Course::Oval);
            return Err(LaneError::Missing { lane, course: Course::Oval, open });
        }
        Ok(())
    }

    /// Whether a lane exists on a course and is open.
    ///
    /// # Errors
    ///
    /// [`LaneError`], which names the lanes that are open.
    pub fn check_lane(&self, course: Course, lane: u8) -> Result<(), LaneError> {
        if lane == 0 || lane > self.layout.lanes_of(course) {
            Err(LaneError::Missing { lane, course, open: self.open_lanes(course) })
        } else if self.closed.contains(&lane) {
            Err(LaneError::Closed { lane, course, open: self.open_lanes(course) })
        } else {
            Ok(())
        }
    }

    /// A lap of a lane along its measure line, in metres.
    ///
    /// # Errors
    ///
    /// [`LaneError::Missing`] where the oval has no such lane.
    pub fn lap_m(&self, lane: u8) -> Result<f64, LaneError> {
        if lane == 0 || lane > self.layout.lanes_of(Course::Oval) {
            return Err(LaneError::Missing {
                lane,
                course: Course::Oval,
                open: self.open_lanes(Course::Oval),
            });
        }
        Ok(self.layout.measure(lane).lap_m())
    }

    /// Where a spot lies on the plan.
    pub fn point(&self, spot: Spot) -> Point {
        self.layout.point(spot)
    }

    /// Tells a spot by the paint of its lane.
    ///
    /// ```
    /// use lane_distance::{Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let reading = track.read(Spot::on_oval(3, 300.0));
    /// let mark = track.mark(reading.mark.expect("lane 3 has paint"));
    /// assert_eq!(mark.name, "first 4x100 m takeover zone exit");
    /// assert!((reading.past_m + 10.0).abs() < 1e-9); // 10 m behind it
    /// assert!((reading.tape_m + 9.95).abs() < 0.01); // on the inner line of lane 3
    /// ```
    pub fn read(&self, spot: Spot) -> PaintReading {
        self.paint.read(&self.layout, spot)
    }

    /// The paint of a lane of a course, by distance to the finish.
    pub fn painted(&self, course: Course, lane: u8) -> &[Painted] {
        &self.lane_paint(course, lane).all
    }

    pub(crate) fn lane_paint(&self, course: Course, lane: u8) -> &LanePaint {
        self.paint.lane(course, lane)
    }

    /// The paint of a lane, in walking order from the finish line: round the oval, then the chutes.
    pub fn walk(&self, lane: u8) -> Vec<(Spot, MarkId)> {
        let mut walk = Vec::new();
        let oval = lane <= self.layout.lanes_of(Course::Oval);
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
