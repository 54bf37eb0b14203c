//! The lanes, to scale: bends, straights, chutes, and what is closed.

use kurbo::{Point, Rect};
use lane_distance::{Course, Lane, LaneNumber, Layout, Spot, Station, Track};
use svg::node::element::Element;
use svg::node::{Node, Value};

use super::frame::{Frame, around};
use super::way::Way;
use crate::drawing::ink::{Pen, element, group, line, pair, stroke};

/// The ground of a track as it is put on a page.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ground<'a> {
    pub(super) track: &'a Track,
    pub(super) frame: Frame,
}

/// What the lanes are filled with.
pub(super) const SURFACE: &str = "#f1f1f1";
const LANE_LINE: &str = "#8a8a8a";
const EDGE: &str = "#000000";

impl<'a> Ground<'a> {
    /// The ground on the page of the map.
    pub(super) const fn of(track: &'a Track) -> Self {
        Self { track, frame: Frame::METRES }
    }

    pub(super) fn layout(self) -> &'a Layout {
        self.track.layout()
    }

    /// How far the outer edge of the outermost lane of a course lies outside the inner edge, in metres.
    pub(super) fn outer_m(self, course: Course) -> f64 {
        let lane = self.layout().lane(self.layout().lane_numbers(course).last().unwrap_or(LaneNumber::FIRST));
        lane.inner_line_m + lane.width_m
    }

    /// The courses that are straights, with their ends on the inner edge: that of the chute, then the
    /// finish.
    fn straights(self) -> impl Iterator<Item = (Course, lane_distance::Pose, f64)> + use<'a> {
        let layout = self.layout();
        Course::ALL.into_iter().filter_map(move |course| {
            let straight = layout.straight(course)?;
            let end = layout.path().pose(Station { piece: straight.piece, fraction: 1.0 });
            Some((course, end, straight.length_m() / layout.scale()))
        })
    }

    /// The box that holds all lanes, chutes and all, in metres on the page.
    pub(super) fn bounds(self) -> Rect {
        let layout = self.layout();
        let outer_m = self.outer_m(Course::Oval);
        let (low, high) = layout.path().bounds();
        let oval = Rect::new(low.x - outer_m, -high.y - outer_m, high.x + outer_m, -low.y + outer_m);
        self.straights().fold(oval, |bounds, (course, end, length_m)| {
            let behind = lane_distance::Pose { point: end.point.towards(end.heading_rad, -length_m), ..end };
            let outer_m = self.outer_m(course);
            let corners = [end.point, behind.point, end.outwards(outer_m), behind.outwards(outer_m)];
            bounds.union(around(corners.map(|corner| Frame::METRES.at(corner))))
        })
    }

    /// A box on the infield that keeps some metres away from the straights, and as many from the bends.
    pub(super) fn infield(self, clear_m: f64) -> Rect {
        let (low, high) = self.layout().path().bounds();
        let tall = ((high.y - low.y) / 2.0 - clear_m).max(0.0);
        let mut half = (high.x - low.x) / 2.0;
        let is_on_infield = |x: f64| {
            [(x, tall), (-x, tall), (x, -tall), (-x, -tall)].into_iter().all(|(x, y)| {
                self.layout().path().outside_m(lane_distance::Point::new(x, y)) < -0.5 * clear_m
            })
        };
        while half > 0.0 && !is_on_infield(half) {
            half -= 1.0;
        }
        Rect::new(-half.max(0.0), -tall, half.max(0.0), tall)
    }

    /// Whether a place on the page of the map lies on a lane, or within some metres of one.
    pub(super) fn is_on_lanes(self, page: Point, clear_m: f64) -> bool {
        let point = lane_distance::Point::new(page.x, -page.y);
        let on_oval = self.layout().path().outside_m(point);
        if on_oval > -clear_m && on_oval < self.outer_m(Course::Oval) + clear_m {
            return true;
        }
        self.straights().any(|(course, end, length_m)| {
            let (along, out) = beside(point, end);
            (-length_m - clear_m..clear_m).contains(&along)
                && (-clear_m..self.outer_m(course) + clear_m).contains(&out)
        })
    }

    /// Whether a box on the page of the map lies over a lane.
    pub(super) fn is_box_on_lanes(self, place: Rect, mm: f64) -> bool {
        let clear_m = 0.4 * mm;
        // The lanes side by side are broader than a step, so that no long name lies across them unseen.
        let steps = (place.width() / (2.0 * mm)).ceil().max(4.0);
        (0..=steps as u32).any(|across| {
            (0..=2).any(|down| {
                let point = Point::new(
                    place.x0 + place.width() * f64::from(across) / steps,
                    place.y0 + place.height() * f64::from(down) / 2.0,
                );
                self.is_on_lanes(point, clear_m)
            })
        })
    }

    /// Whether a box on the page lies over the hatching of a closed lane.
    pub(super) fn is_on_hatching(self, place: Rect) -> bool {
        let layout = self.layout();
        let is_closed_at = |page: Point| {
            let metres = (page - self.frame.origin) / self.frame.scale;
            let point = lane_distance::Point::new(metres.x, -metres.y);
            self.track.closed_lanes().iter().any(|&lane| {
                let Lane { inner_line_m, width_m, .. } = layout.lane(lane);
                let is_across = |out_m: f64| (inner_line_m..inner_line_m + width_m).contains(&out_m);
                let is_on_oval =
                    layout.has_lane(Course::Oval, lane) && is_across(layout.path().outside_m(point));
                is_on_oval
                    || self.straights().any(|(course, end, length_m)| {
                        let (along_m, out_m) = beside(point, end);
                        layout.has_lane(course, lane)
                            && (-length_m..=0.0).contains(&along_m)
                            && is_across(out_m)
                    })
            })
        };
        (0..=6).any(|across| {
            (0..=3).any(|down| {
                is_closed_at(Point::new(
                    place.x0 + place.width() * f64::from(across) / 6.0,
                    place.y0 + place.height() * f64::from(down) / 3.0,
                ))
            })
        })
    }

    /// The part of the oval between two stations and two distances outside the inner edge.
    pub(super) fn band(self, ends: (Station, Station), (inner_m, outer_m): (f64, f64)) -> String {
        format!("{}{}Z", self.way(ends, outer_m).forward(), self.way(ends, inner_m).back())
    }

    /// A whole lap, some metres outside the inner edge, as path data.
    fn lap(self, outside_m: f64) -> String {
        let last = self.layout().path().pieces().len() - 1;
        let ends = (Station { piece: 0, fraction: 0.0 }, Station { piece: last, fraction: 1.0 });
        self.way(ends, outside_m).forward() + "Z"
    }

    /// The way between two stations, some metres outside the inner edge.
    pub(super) fn way(self, ends: (Station, Station), outside_m: f64) -> Way {
        Way::of(self.layout().path(), self.frame, ends, outside_m)
    }

    /// Where a line across a lane begins and ends at a spot: on its inner line, then on its outer one.
    pub(super) fn across(self, spot: Spot) -> (Point, Point) {
        let lane = self.layout().lane(spot.lane);
        let pose = self.layout().pose(spot);
        let from_measure_m = lane.inner_line_m - lane.measure_m;
        let at = |outwards_m: f64| self.frame.at(pose.outwards(outwards_m));
        (at(from_measure_m), at(from_measure_m + lane.width_m))
    }

    /// The ends of the finish line, which lies across all lanes of the home straight.
    pub(super) fn finish_line(self) -> (Point, Point) {
        let at_finish = |course: Course, lane: LaneNumber| Spot { course, lane, to_finish_m: 0.0 };
        let last =
            |course: Course| self.layout().lane_numbers(course).last().map(|lane| at_finish(course, lane));
        let first = at_finish(Course::Oval, LaneNumber::FIRST);
        let on_chute =
            last(Course::HomeStraight).filter(|spot| !self.layout().has_lane(Course::Oval, spot.lane));
        let outermost = on_chute.or_else(|| last(Course::Oval)).unwrap_or(first);
        (self.across(first).0, self.across(outermost).1)
    }

    /// A part of a straight: between two distances to its finish, and two outside the inner edge.
    pub(super) fn box_of_straight(
        self,
        course: Course,
        (from_m, to_m): (f64, f64),
        (inner_m, outer_m): (f64, f64),
    ) -> Vec<Point> {
        let scale = self.layout().scale();
        let Some((_, end, _)) = self.straights().find(|(known, ..)| *known == course) else {
            return Vec::new();
        };
        let at = |to_finish_m: f64, out_m: f64| {
            let point = end.point.towards(end.heading_rad, -to_finish_m / scale);
            self.frame.at(lane_distance::Pose { point, ..end }.outwards(out_m))
        };
        vec![at(from_m, inner_m), at(to_m, inner_m), at(to_m, outer_m), at(from_m, outer_m)]
    }

    /// The oval, then the straights with their chutes, as path data of shapes that are filled by the even-odd rule.
    pub(super) fn shapes(self) -> Vec<String> {
        let ring = self.lap(self.outer_m(Course::Oval)) + &self.lap(0.0);
        let straights = self.straights().map(|(course, _, length_m)| {
            let whole = (length_m * self.layout().scale(), 0.0);
            outline(&self.box_of_straight(course, whole, (0.0, self.outer_m(course))))
        });
        std::iter::once(ring).chain(straights).collect()
    }

    /// The lanes, with what is closed hatched across.
    pub(super) fn draw(self, shown: Rect, mm: f64) -> Element {
        let layout = self.layout();
        let shapes = self.shapes();
        // Edges first, then the surface over them: so that no edge crosses a lane where a chute leaves the bend.
        let mut drawn: Vec<Element> =
            shapes.iter().map(|d| stroke(d.clone(), Pen::new(EDGE, 0.7 * mm))).collect();
        drawn.extend(shapes.into_iter().map(|d| {
            let rule = ("fill-rule", Value::from("evenodd"));
            element("path", [("d", d.into()), ("fill", SURFACE.into()), rule])
        }));
        let thin = Pen::new(LANE_LINE, 0.12 * mm);
        let lines = layout.lane_numbers(Course::Oval).skip(1);
        drawn.extend(lines.map(|lane| stroke(self.lap(layout.lane(lane).inner_line_m), thin)));
        for (course, _, length_m) in self.straights() {
            let begins_m = length_m * layout.scale();
            for lane in layout.lane_numbers(course).skip(1) {
                // Where the oval has the lane its line is drawn already.
                let ends_m = self.chute_ends_m(course, lane).unwrap_or(0.0);
                let out_m = layout.lane(lane).inner_line_m;
                if begins_m > ends_m {
                    let ends = self.box_of_straight(course, (begins_m, ends_m), (out_m, out_m));
                    drawn.push(line(ends[0], ends[1], thin));
                }
            }
        }
        let hatching = self.hatching(shown, mm);
        if !hatching.is_empty() {
            let mut closed = stroke(hatching, Pen::new(EDGE, 0.3 * mm));
            closed.assign("class", "closed");
            drawn.push(closed);
        }
        group("ground", drawn)
    }

    /// Where a lane of a straight becomes one of the oval, in metres to the finish; nothing where the oval lacks it.
    fn chute_ends_m(self, course: Course, lane: LaneNumber) -> Option<f64> {
        let straight = self.layout().straight(course)?;
        self.layout().has_lane(Course::Oval, lane).then_some(straight.straight_m)
    }

    /// Strokes across the closed lanes, slanting and equally far apart, as far as they are shown.
    fn hatching(self, shown: Rect, mm: f64) -> String {
        let layout = self.layout();
        let apart_m = 1.3 * mm / self.frame.scale;
        let mut spots: Vec<Spot> = Vec::new();
        for &lane in self.track.closed_lanes() {
            if layout.has_lane(Course::Oval, lane) {
                let lap_m = layout.measure(lane).lap_m();
                let count = (lap_m / apart_m).round().max(1.0);
                spots.extend(
                    (0..count as u32).map(|index| Spot::on_oval(lane, lap_m * f64::from(index) / count)),
                );
            }
            for (course, _, length_m) in
                self.straights().filter(|(course, ..)| layout.has_lane(*course, lane))
            {
                let begins_m = length_m * layout.scale();
                let ends_m = self.chute_ends_m(course, lane).unwrap_or(layout.lane(lane).width_m);
                let count = ((begins_m - ends_m) / apart_m).floor().max(0.0);
                spots.extend((0..count as u32).map(|index| {
                    let to_finish_m = begins_m - f64::from(index) * apart_m;
                    Spot { course, lane, to_finish_m }
                }));
            }
        }
        let strokes = spots.into_iter().filter_map(|spot| {
            let width_m = layout.lane(spot.lane).width_m;
            let to_finish_m = match spot.course {
                Course::Oval => layout.measure(spot.lane).within_lap_m(spot.to_finish_m - width_m),
                _ => spot.to_finish_m - width_m,
            };
            let (from, to) = (self.across(spot).0, self.across(Spot { to_finish_m, ..spot }).1);
            let is_shown = shown.contains(from) || shown.contains(to);
            is_shown.then(|| format!("M{}L{}", pair(from), pair(to)))
        });
        strokes.collect()
    }
}

/// How far a point lies past the end of a straight, and how far outside its inner edge, in metres.
fn beside(point: lane_distance::Point, end: lane_distance::Pose) -> (f64, f64) {
    let (sin, cos) = libm::sincos(end.heading_rad);
    let (dx, dy) = (point.x - end.point.x, point.y - end.point.y);
    (dx * cos + dy * sin, dx * sin - dy * cos)
}

/// A shape with straight sides, as path data.
pub(super) fn outline(corners: &[Point]) -> String {
    let corners: Vec<String> = corners.iter().map(|corner| pair(*corner)).collect();
    format!("M{}Z", corners.join("L"))
}
