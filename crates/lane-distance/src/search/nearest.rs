//! The spot that somebody points at.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::point::Point;
use crate::geometry::spot::Spot;
use crate::geometry::station::Station;
use crate::track::layout::Layout;

/// A place of a straight that the oval has as well is called by its distance on the oval: the straight has to be
/// nearer than this, in metres.
const SAME_M: f64 = 1e-9;

impl Layout {
    /// The spot of a lane nearest to a point: on the measure line, round the oval or along a straight with its chute.
    /// Nothing where no course has the lane.
    ///
    /// The nearest place of a straight is the foot of the perpendicular, that of an arc lies on the radius through the
    /// point, each no farther than the end of its piece: nothing is sampled.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Point, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let (layout, lane) = (track.layout(), LaneNumber::of::<2>());
    /// // On the infield, 10 m before the finish line.
    /// let spot = layout.nearest(lane, Point::new(84.39 / 2.0 - 10.0, -30.0)).expect("the oval has the lane");
    /// assert!((spot.to_finish_m - 10.0).abs() < 1e-9);
    /// ```
    pub fn nearest(&self, lane: LaneNumber, point: Point) -> Option<Spot> {
        let on_courses = Course::ALL.into_iter().filter_map(|course| self.nearest_on(course, lane, point));
        let nearest = on_courses.reduce(|best, other| if other.1 < best.1 - SAME_M { other } else { best });
        nearest.map(|(spot, _)| spot)
    }

    /// The spot of a course nearest to a point in a lane, and how far off it is, in metres.
    fn nearest_on(&self, course: Course, lane: LaneNumber, point: Point) -> Option<(Spot, f64)> {
        if !self.has_lane(course, lane) {
            return None;
        }
        let line = self.measure(lane);
        let Some(ground) = self.straight(course) else {
            let (station, off_m) = self.path().nearest(line.offset_m, point);
            let to_finish_m = line.within_lap_m(line.lap_m() - line.from_finish_m(station));
            return Some((Spot { course, lane, to_finish_m }, off_m));
        };
        let end = self.path().pose(Station { piece: ground.piece, fraction: 1.0 });
        let to_finish_m = (-end.ahead_m(point) * self.scale()).clamp(0.0, ground.length_m());
        let spot = Spot { course, lane, to_finish_m };
        Some((spot, self.point(spot).distance(point)))
    }

    /// The spot that a point stands for: in the lane whose strip holds it, else in the lane whose strip is nearest.
    /// What lies on the line between two lanes belongs to the inner one, whose width includes it.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Point, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let lane = |y: f64| track.layout().spot_at(Point::new(0.0, y)).lane.get();
    /// // Lane 2 lies from 1.22 m to 2.44 m outside the kerb, which is 36.50 m from the middle.
    /// assert_eq!([lane(-37.0), lane(-37.73), lane(-38.93), lane(-38.95), lane(40.0)], [1, 2, 2, 3, 3]);
    /// assert_eq!([lane(0.0), lane(-90.0)], [1, 8]);
    /// ```
    pub fn spot_at(&self, point: Point) -> Spot {
        let spots = self.lanes().iter().filter_map(|lane| {
            let spot = self.nearest(lane.number, point)?;
            let pose = self.pose(spot);
            let inner_m = lane.inner_line_m - lane.measure_m;
            let out_m = pose.outside_m(point);
            let beside_m = (inner_m - out_m).max(out_m - inner_m - lane.width_m).max(0.0);
            Some((spot, libm::hypot(pose.ahead_m(point), beside_m)))
        });
        let nearest = spots.reduce(|best, other| if other.1 < best.1 - SAME_M { other } else { best });
        // A track has at least one lane.
        nearest.map_or(Spot::on_oval(LaneNumber::FIRST, 0.0), |(spot, _)| spot)
    }
}
