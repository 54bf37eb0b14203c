//! A run on the track, for a phone in the hand: where to stand, which way to go, where to finish.

use kurbo::{Point, Rect, Size, Vec2};
use lane_distance::{Course, Pose, Spot, Track};
use session_plan::Plan;

use super::cones;
use super::frame::Frame;
use super::ground::Ground;
use crate::drawing::ink::{number, pair};

/// How wide the picture is. Its units are about as large as those of a phone's screen.
pub(crate) const WIDTH: f64 = 360.0;

/// What is left free around the lanes.
const RIM: f64 = 10.0;

/// The letters of its two words, and how broad the words are.
pub(crate) const LETTERS: f64 = 20.0;
const STAND: Size = Size::new(76.0, LETTERS);
const FINISH: Size = Size::new(82.0, LETTERS);

/// How far words keep from what they name.
const GAP: f64 = 11.0;

/// The track alone, as path data.
#[derive(Clone, Debug)]
pub(crate) struct TrackPicture {
    pub(crate) height: f64,
    /// The lanes, one shape over the other, each filled by the even-odd rule.
    pub(crate) surfaces: Vec<String>,
    /// The places of the whole plan: a dot is a way of no length.
    pub(crate) places: String,
}

/// A run in all its lanes, as path data, with the places of its words.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RunPicture {
    /// From the starts to the finishes.
    pub(crate) ways: String,
    /// From where a run-in begins to the start.
    pub(crate) run_ins: String,
    /// The head of an arrow in the direction of running.
    pub(crate) arrow: String,
    /// Where runners stand, each a way of no length.
    pub(crate) stands: String,
    /// Across the lanes where they finish.
    pub(crate) finishes: String,
    /// The middles of the words.
    pub(crate) stand_at: Point,
    pub(crate) finish_at: Point,
}

/// One lane of a run.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LaneRun {
    pub(crate) run_in: Option<Spot>,
    pub(crate) start: Spot,
    pub(crate) finish: Spot,
    pub(crate) distance_m: f64,
    /// Whether its runner stands where the run-in begins.
    pub(crate) stands_back: bool,
}

impl LaneRun {
    fn stand(&self) -> Spot {
        self.run_in.filter(|_| self.stands_back).unwrap_or(self.start)
    }
}

/// The track as it is put on the picture.
fn on_picture(track: &Track) -> (Ground<'_>, f64) {
    let ground = Ground::of(track);
    let bounds = ground.bounds();
    let scale = (WIDTH - 2.0 * RIM) / bounds.width();
    let origin = Point::new(RIM - bounds.x0 * scale, RIM - bounds.y0 * scale);
    (Ground { frame: Frame { scale, origin }, ..ground }, bounds.height() * scale + 2.0 * RIM)
}

impl TrackPicture {
    pub(crate) fn of(plan: &Plan) -> Self {
        let (ground, height) = on_picture(&plan.track.ground);
        let spots = plan.setup.iter().map(|cone| &cone.spot);
        let spots = spots.chain(plan.painted.iter().map(|painted| &painted.spot));
        Self {
            height,
            surfaces: ground.shapes(),
            places: spots.map(|spot| dot(cones::at(spot, ground.frame))).collect(),
        }
    }
}

impl RunPicture {
    /// The picture of a run; nothing where it has no lane.
    pub(crate) fn of(track: &Track, lanes: &[LaneRun]) -> Option<Self> {
        let (ground, height) = on_picture(track);
        let middle = lanes.get(lanes.len() / 2)?;
        let layout = ground.layout();
        let at = |spot: Spot| ground.frame.at(layout.point(spot));
        let stands: Vec<Point> = lanes.iter().map(|lane| at(lane.stand())).collect();
        let finishes = lanes.iter().map(|lane| {
            let (inner, outer) = ground.across(lane.finish);
            let beyond = (outer - inner).normalize() * 4.0;
            format!("M{}L{}", pair(inner - beyond), pair(outer + beyond))
        });
        // Words lie on the infield, or outside the track where there is room.
        let page = Rect::new(0.0, 0.0, WIDTH, height);
        let way = waypoints(ground, middle);
        let words = Words { ground, page, way: &way };
        let finish = words.place(middle.finish, FINISH, None);
        let stand = words.place(middle.stand(), STAND, Some(finish));
        Some(Self {
            ways: lanes.iter().map(|lane| way_of(ground, lane.start, lane.finish, lane.distance_m)).collect(),
            run_ins: lanes
                .iter()
                .filter_map(|lane| Some(way_of(ground, lane.run_in?, lane.start, 0.0)))
                .collect(),
            arrow: arrow(ground, middle),
            stands: stands.into_iter().map(dot).collect(),
            finishes: finishes.collect(),
            stand_at: stand.center(),
            finish_at: finish.center(),
        })
    }
}

impl RunPicture {
    /// Nothing to be seen: the words lie beyond the picture.
    pub(crate) fn nowhere() -> Self {
        let beyond = Point::new(0.0, -99.0);
        let none = String::new;
        Self {
            ways: none(),
            run_ins: none(),
            arrow: none(),
            stands: none(),
            finishes: none(),
            stand_at: beyond,
            finish_at: beyond,
        }
    }

    /// The middle of the word at the start, then of that at the finish, as attributes.
    pub(crate) fn words_at(&self) -> [[String; 2]; 2] {
        [self.stand_at, self.finish_at].map(|at| [number(at.x), number(at.y)])
    }
}

/// A dot, drawn with a round pen.
fn dot(at: Point) -> String {
    format!("M{}h0", pair(at))
}

/// From one spot to another of a lane, as path data; of a lap and more the whole lap.
fn way_of(ground: Ground<'_>, from: Spot, to: Spot, distance_m: f64) -> String {
    let layout = ground.layout();
    let at = |spot: Spot| ground.frame.at(layout.point(spot));
    if from.course != Course::Oval || to.course != Course::Oval {
        return format!("M{}L{}", pair(at(from)), pair(at(to)));
    }
    let outside_m = layout.measure(from.lane).offset_m;
    let is_lap = distance_m > layout.measure(from.lane).lap_m() - 0.5;
    let ends = (layout.station(from), layout.station(if is_lap { from } else { to }));
    ground.way(ends, outside_m).forward()
}

/// Where a lane's runner is after a part of the way, and which way it goes there.
fn after(ground: Ground<'_>, lane: &LaneRun, part: f64) -> Pose {
    let layout = ground.layout();
    if lane.start.course == Course::Oval {
        let line = layout.measure(lane.start.lane);
        let whole_m = lane.distance_m.min(line.lap_m());
        let to_finish_m = line.within_lap_m(lane.start.to_finish_m - part * whole_m);
        return layout.pose(Spot { to_finish_m, ..lane.start });
    }
    let (from_m, to_m) = (lane.start.to_finish_m, lane.finish.to_finish_m);
    let pose = layout.pose(Spot { to_finish_m: from_m + part * (to_m - from_m), ..lane.start });
    if from_m >= to_m { pose } else { Pose { heading_rad: pose.heading_rad + std::f64::consts::PI, ..pose } }
}

fn waypoints(ground: Ground<'_>, lane: &LaneRun) -> Vec<Point> {
    (0..=40).map(|step| ground.frame.at(after(ground, lane, f64::from(step) / 40.0).point)).collect()
}

/// The head of an arrow past the middle of the way.
fn arrow(ground: Ground<'_>, lane: &LaneRun) -> String {
    let pose = after(ground, lane, 0.55);
    let (sin, cos) = libm::sincos(pose.heading_rad);
    let (along, across) = (Vec2::new(cos, -sin), Vec2::new(sin, cos));
    let middle = ground.frame.at(pose.point);
    let corners =
        [middle + along * 11.0, middle - along * 7.0 + across * 9.0, middle - along * 7.0 - across * 9.0];
    super::ground::outline(&corners)
}

/// Where words can lie.
struct Words<'a> {
    ground: Ground<'a>,
    page: Rect,
    way: &'a [Point],
}

impl Words<'_> {
    /// The place of a word beside a spot that hides the least.
    fn place(&self, spot: Spot, size: Size, other: Option<Rect>) -> Rect {
        let layout = self.ground.layout();
        let pose = layout.pose(spot);
        let (sin, cos) = libm::sincos(pose.heading_rad);
        let out = Vec2::new(sin, cos);
        let at = self.ground.frame.at(pose.point);
        let edge = self.ground.frame.at(pose.outwards(-layout.measure(spot.lane).offset_m));
        let half =
            |direction: Vec2| direction.x.abs() * size.width / 2.0 + direction.y.abs() * size.height / 2.0;
        let inwards = edge - out * (GAP + half(out));
        let outer_m = self.ground.outer_m(spot.course) - layout.measure(spot.lane).offset_m;
        let outwards = at + out * (self.ground.frame.length(outer_m) + GAP / 2.0 + half(out));
        let along = Vec2::new(-out.y, out.x);
        let shifts = [0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0];
        let places = shifts.into_iter().flat_map(|shift| {
            let by = along * shift * (half(along) + 4.0);
            [
                (inwards + by, shift.abs()),
                (inwards + by - out * (size.height + 4.0), shift.abs() + 0.4),
                (outwards + by, shift.abs() + 0.2),
            ]
        });
        let rated = places.map(|(middle, shift)| {
            let place = Rect::from_center_size(middle, size);
            (self.hidden(place, other) + shift, place)
        });
        let best = rated.min_by(|(a, _), (b, _)| a.total_cmp(b));
        let place = best.map_or(Rect::from_center_size(inwards, size), |(_, place)| place);
        // Whatever it hides, it is on the picture.
        let most = |low: f64, high: f64, from: f64, to: f64| (low - from).max(0.0) - (to - high).max(0.0);
        place
            + Vec2::new(
                most(self.page.x0, self.page.x1, place.x0, place.x1),
                most(self.page.y0, self.page.y1, place.y0, place.y1),
            )
    }

    /// How bad a place is: what it hides, and how far it leaves the picture.
    fn hidden(&self, place: Rect, other: Option<Rect>) -> f64 {
        let on_way = self.way.iter().filter(|point| place.inflate(5.0, 5.0).contains(**point)).count();
        let off_page = place.area() - place.intersect(self.page).area().max(0.0);
        let on_other = other.map_or(0.0, |other| {
            let both = place.inflate(3.0, 3.0).intersect(other);
            if both.width() > 0.0 && both.height() > 0.0 { 20.0 } else { 0.0 }
        });
        let on_lanes = [
            place.origin(),
            Point::new(place.x1, place.y0),
            Point::new(place.x0, place.y1),
            Point::new(place.x1, place.y1),
        ]
        .into_iter()
        .filter(|corner| {
            let ground = Point::ORIGIN + (*corner - self.ground.frame.origin) / self.ground.frame.scale;
            self.ground.is_on_lanes(ground, 0.0)
        })
        .count();
        on_way as f64 * 3.0 + off_page * 0.1 + on_other + on_lanes as f64 * 2.0
    }
}

#[cfg(test)]
mod tests {
    use lane_distance::LaneNumber;
    use session_plan::{Session, Venue, plan};
    use workout_notation::Block;

    use super::*;

    /// A run of one lane of a workout, with its track.
    fn first_run(track: &str, text: &str) -> (Track, LaneRun) {
        let track = Track::built_in(track).expect("it comes with the crate");
        let block = Block::parse(text).expect("it is well formed");
        let plan = plan(&Venue::from(track.clone()), &Session::of_block("one", block)).expect("it fits");
        let rep = &plan.blocks[0].reps[0];
        let run = LaneRun {
            run_in: rep.run_in.as_ref().map(|place| place.spot()),
            start: rep.start.spot(),
            finish: rep.finish.spot(),
            distance_m: rep.distance_m,
            stands_back: rep.run_in.is_some(),
        };
        (track, run)
    }

    #[test]
    fn both_words_are_on_the_picture_and_apart_whatever_is_run() {
        for track in ["standard", "standard-6", "double-bend-1", "indoor-200", "oval-300", "yards-440"] {
            for text in [
                "30",
                "60",
                "80",
                "100",
                "150",
                "190",
                "200",
                "300",
                "395",
                "400",
                "405",
                "1000",
                "3000",
                "flying 30 with 30 run-in",
            ] {
                for lane in ["1", "4"] {
                    let (track, run) = first_run(track, &format!("{text} in lane {lane}"));
                    let picture = RunPicture::of(&track, &[run]).expect("it has a lane");
                    let page = Rect::new(0.0, 0.0, WIDTH, on_picture(&track).1);
                    let stand = Rect::from_center_size(picture.stand_at, STAND);
                    let finish = Rect::from_center_size(picture.finish_at, FINISH);
                    let what = format!("{text} in lane {lane} of {}: {stand:?} {finish:?}", track.name());
                    for word in [stand, finish] {
                        assert!(page.inflate(0.01, 0.01).union(word) == page.inflate(0.01, 0.01), "{what}");
                    }
                    let both = stand.intersect(finish);
                    assert!(both.width() <= 0.0 || both.height() <= 0.0, "{what}");
                }
            }
        }
    }

    /// 200 m in lane 2 end at the finish line, whose place on the ground is half the straight from the middle.
    #[test]
    fn the_way_ends_where_the_finish_line_lies() {
        let (track, run) = first_run("standard", "200 in lane 2");
        let picture = RunPicture::of(&track, &[run]).expect("it has a lane");
        let (ground, _) = on_picture(&track);
        // Radius 36.50 m, straights 84.39 m; lane 2 is measured 1.22 m + 0.20 m outside the inner edge.
        let at = ground.frame.at(lane_distance::Point::new(84.39 / 2.0, -(36.50 + 1.42)));
        assert!(
            picture.ways.ends_with(&format!("L{}", pair(at))) || picture.ways.contains(&pair(at)),
            "{}",
            picture.ways
        );
        assert_eq!(run.start.lane, LaneNumber::of::<2>());
    }
}
