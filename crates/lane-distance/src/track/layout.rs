//! The ground: lanes and courses, without paint.

use crate::geometry::course::Course;
use crate::geometry::lane::Lane;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::line::Line;
use crate::geometry::path::Path;
use crate::geometry::point::{Point, Pose};
use crate::geometry::spot::Spot;
use crate::geometry::station::Station;

/// A straight with its chute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StraightCourse {
    /// Index of its piece of the path.
    pub piece: usize,
    /// Number of lanes.
    pub lanes: u8,
    /// Length of the part that belongs to the oval, in metres.
    pub straight_m: f64,
    /// Length of the chute behind it, in metres.
    pub chute_m: f64,
}

impl StraightCourse {
    /// Straight and chute, in metres: the longest run that fits.
    pub const fn length_m(&self) -> f64 {
        self.straight_m + self.chute_m
    }
}

/// The ground of a track: where its lanes lie and how long they are.
///
/// Every question about a spot has an answer: a lane that the track does not have is where it would lie,
/// beside the others and as wide as the nearest of them.
/// [`Track::check_lane`](crate::Track::check_lane) finds out whether there is such a lane, and
/// functions with a result or an option refuse one that is not there.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    path: Path,
    /// As many as any track may have: those that this one does not have lie beside the others.
    lanes: Vec<Lane>,
    widest: usize,
    measure: Vec<Line>,
    inner: Vec<Line>,
    oval_lanes: u8,
    home: StraightCourse,
    back: Option<StraightCourse>,
    scale: f64,
}

/// How far the heading of the back straight may differ from a half turn, in radians.
const OPPOSITE_RAD: f64 = 0.02;

impl Layout {
    /// Lays lanes along a path. `lanes` holds one for every lane number, `widest` of them on the widest
    /// course; `straights` holds the lanes and the chute of the home straight and of the back straight;
    /// `scale` is the surveyed lap as a part of the computed one.
    ///
    /// The back straight is the longest straight that is run opposite to the home straight; a path
    /// without one has no such course.
    pub(crate) fn new(
        path: Path,
        lanes: Vec<Lane>,
        widest: usize,
        oval_lanes: u8,
        straights: [(u8, f64); 2],
        scale: f64,
    ) -> Self {
        let course = |piece: usize, (lanes, chute_m): (u8, f64)| StraightCourse {
            piece,
            lanes,
            straight_m: path.pieces()[piece].length_m(0.0) * scale,
            chute_m: chute_m * scale,
        };
        let last = path.pieces().len() - 1;
        let back = (0..last)
            .filter(|&piece| {
                !path.pieces()[piece].is_arc()
                    && (path.starts()[piece].heading_rad - std::f64::consts::PI).abs() < OPPOSITE_RAD
            })
            .max_by(|&a, &b| path.pieces()[a].length_m(0.0).total_cmp(&path.pieces()[b].length_m(0.0)));
        let home = course(last, straights[0]);
        let back = back.map(|piece| course(piece, straights[1]));
        let measure = lanes.iter().map(|lane| Line::parallel(&path, lane.measure_m, scale)).collect();
        let inner = lanes.iter().map(|lane| Line::parallel(&path, lane.inner_line_m, scale)).collect();
        Self { path, lanes, widest, measure, inner, oval_lanes, home, back, scale }
    }

    /// The inner edge of lane 1.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The lanes of the widest course, lane 1 first.
    pub fn lanes(&self) -> &[Lane] {
        &self.lanes[..self.widest]
    }

    /// How many lanes a course has.
    pub fn lanes_of(&self, course: Course) -> u8 {
        match course {
            Course::Oval => self.oval_lanes,
            Course::HomeStraight => self.home.lanes,
            Course::BackStraight => self.back.map_or(0, |back| back.lanes),
        }
    }

    /// A straight; nothing for the oval, or where the track has no such straight.
    pub fn straight(&self, course: Course) -> Option<StraightCourse> {
        match course {
            Course::Oval => None,
            Course::HomeStraight => Some(self.home),
            Course::BackStraight => self.back,
        }
    }

    /// Whether a course has a lane.
    pub fn has_lane(&self, course: Course, lane: LaneNumber) -> bool {
        lane.get() <= self.lanes_of(course)
    }

    /// The lanes of a course, from the inside.
    pub fn lane_numbers(&self, course: Course) -> impl Iterator<Item = LaneNumber> + Clone + use<> {
        LaneNumber::first(self.lanes_of(course))
    }

    /// A lane by its number. One that no course has is where it would lie: beside the others, and as
    /// wide as the nearest of them.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let (eight, nine) = (LaneNumber::of::<8>(), LaneNumber::of::<9>());
    /// let (eight, nine) = (track.layout().lane(eight), track.layout().lane(nine));
    /// assert!((nine.inner_line_m - eight.inner_line_m - 1.22).abs() < 1e-9);
    /// assert_eq!(track.layout().lanes().len(), 8);
    /// ```
    pub fn lane(&self, number: LaneNumber) -> Lane {
        self.lanes[number.index()]
    }

    /// The measure line of a lane; of one that no course has, where it would lie.
    pub fn measure(&self, lane: LaneNumber) -> &Line {
        &self.measure[lane.index()]
    }

    /// What every computed length is multiplied by: the surveyed lap of lane 1 as a part of the
    /// computed one, 1 where none was surveyed.
    pub const fn scale(&self) -> f64 {
        self.scale
    }

    /// The bends in running order: index of the first piece of each, and of the piece after its
    /// last. A bend is all that lies between the two straights, or between any straights where the
    /// track has no back straight.
    pub(crate) fn bends(&self) -> Vec<(usize, usize)> {
        let last = self.path.pieces().len() - 1;
        match self.back {
            Some(back) => vec![(0, back.piece), (back.piece + 1, last)],
            None => {
                let is_arc = |piece: &usize| self.path.pieces()[*piece].is_arc();
                let mut bends: Vec<(usize, usize)> = Vec::new();
                for piece in (0..last).filter(is_arc) {
                    match bends.last_mut() {
                        Some(bend) if bend.1 == piece => bend.1 = piece + 1,
                        _ => bends.push((piece, piece + 1)),
                    }
                }
                bends
            }
        }
    }

    /// The angle that a run turns through, in radians: from one spot on in the direction of running
    /// for a distance, out of a chute and round the oval.
    pub(crate) fn turned_rad(&self, start: Spot, distance_m: f64) -> f64 {
        let (on_oval, in_chute_m) = match self.on_course(start, Course::Oval) {
            Some(on_oval) => (Some(on_oval), 0.0),
            // A chute and its straight do not turn.
            None => (self.on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval), start.to_finish_m),
        };
        let Some(on_oval) = on_oval else { return 0.0 };
        let line = self.measure(on_oval.lane);
        // Headings count on from the finish line round the whole lap, so that a run of nearly a lap
        // between two places of one straight is not taken for one that does not turn.
        let turned_from_finish_rad = |from_finish_m: f64| {
            let laps = (from_finish_m / line.lap_m()).floor();
            let station = line.station(from_finish_m - laps * line.lap_m());
            laps * std::f64::consts::TAU + self.path.pose(station).heading_rad
        };
        let begins_m = self.from_finish_m(on_oval);
        let ends_m = begins_m + (distance_m - in_chute_m).max(0.0);
        turned_from_finish_rad(ends_m) - turned_from_finish_rad(begins_m)
    }

    /// Index of the piece that follows the first bend: the back straight, or the first straight.
    pub(crate) fn after_first_bend(&self) -> usize {
        self.back.map_or_else(
            || {
                let pieces = self.path.pieces();
                pieces.iter().position(|piece| !piece.is_arc()).unwrap_or(0)
            },
            |back| back.piece,
        )
    }

    /// Distance of a spot from the finish line in the direction of running, in metres. On a
    /// straight, spots before the finish have negative distances.
    pub fn from_finish_m(&self, spot: Spot) -> f64 {
        match spot.course {
            Course::Oval if spot.to_finish_m == 0.0 => 0.0,
            Course::Oval => self.measure(spot.lane).lap_m() - spot.to_finish_m,
            // Not -0.0, which would print as such.
            _ => 0.0 - spot.to_finish_m,
        }
    }

    /// The spot as another course names it, where that course holds it.
    pub fn on_course(&self, spot: Spot, course: Course) -> Option<Spot> {
        if spot.course == course {
            return Some(spot);
        }
        let (on_oval, straight) = match (spot.course, course) {
            (Course::Oval, _) => (spot, course),
            (_, Course::Oval) => (spot, spot.course),
            // The straights have no place in common.
            _ => return None,
        };
        let ground = self.straight(straight)?;
        if spot.lane.get() > self.oval_lanes.min(ground.lanes) {
            return None;
        }
        let line = self.measure(spot.lane);
        let beyond_m = self.beyond_m(spot.lane, ground);
        if spot.course == Course::Oval {
            let to_finish_m = on_oval.to_finish_m - beyond_m;
            (-1e-9..=ground.straight_m + 1e-9).contains(&to_finish_m).then_some(Spot {
                course,
                lane: spot.lane,
                to_finish_m: to_finish_m.clamp(0.0, ground.straight_m),
            })
        } else {
            (spot.to_finish_m <= ground.straight_m)
                .then(|| Spot::on_oval(spot.lane, line.within_lap_m(spot.to_finish_m + beyond_m)))
        }
    }

    /// How far it is in a lane of the oval from the end of a straight to the finish line, in metres:
    /// nothing for the home straight.
    pub(crate) fn beyond_m(&self, lane: LaneNumber, ground: StraightCourse) -> f64 {
        let line = self.measure(lane);
        line.lap_m() - line.start_of_m(ground.piece + 1)
    }

    /// Where a spot lies on the plan.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let finish = track.layout().point(Spot::on_oval(LaneNumber::FIRST, 0.0));
    /// assert!((finish.x - 42.195).abs() < 1e-9 && (finish.y + 36.80).abs() < 1e-9);
    /// ```
    pub fn point(&self, spot: Spot) -> Point {
        self.pose(spot).point
    }

    /// Where a spot lies on the plan, and the direction of running there.
    pub fn pose(&self, spot: Spot) -> Pose {
        let offset_m = self.measure(spot.lane).offset_m;
        let inner = match self.straight(spot.course) {
            None => self.path.pose(self.station(spot)),
            Some(ground) => {
                let end = self.path.pose(Station { piece: ground.piece, fraction: 1.0 });
                Pose { point: end.point.towards(end.heading_rad, -spot.to_finish_m / self.scale), ..end }
            }
        };
        Pose { point: inner.outwards(offset_m), ..inner }
    }

    /// The station of a spot on the oval.
    pub fn station(&self, spot: Spot) -> Station {
        self.measure(spot.lane).station(self.from_finish_m(spot))
    }

    /// The spot of another lane that lies square across the track from a spot on the oval.
    pub fn abreast(&self, spot: Spot, lane: LaneNumber) -> Spot {
        let line = self.measure(lane);
        let to_finish_m = line.lap_m() - line.from_finish_m(self.station(spot));
        Spot { lane, to_finish_m: line.within_lap_m(to_finish_m), ..spot }
    }

    /// How far `to` lies past `from` along the measure line, taken the shorter way round, in
    /// metres: negative where `to` lies behind. Both are spots of one lane and course.
    pub fn past_m(&self, from: Spot, to: Spot) -> f64 {
        let past_m = from.to_finish_m - to.to_finish_m;
        if from.course == Course::Oval {
            shorter_way_round(past_m, self.measure(from.lane).lap_m())
        } else {
            past_m
        }
    }

    /// The same as [`Layout::past_m`], laid with a tape along the lane's inner line.
    pub fn tape_m(&self, from: Spot, to: Spot) -> f64 {
        if from.course != Course::Oval {
            return self.past_m(from, to);
        }
        let inner = &self.inner[from.lane.index()];
        let past_m = inner.from_finish_m(self.station(to)) - inner.from_finish_m(self.station(from));
        shorter_way_round(past_m, inner.lap_m())
    }
}

/// A difference of two distances on a lap, brought to at most half a lap either way.
pub(crate) fn shorter_way_round(difference_m: f64, lap_m: f64) -> f64 {
    if difference_m > lap_m / 2.0 {
        difference_m - lap_m
    } else if difference_m < -lap_m / 2.0 {
        difference_m + lap_m
    } else {
        difference_m
    }
}
