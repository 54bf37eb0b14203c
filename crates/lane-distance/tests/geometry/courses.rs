//! The courses of a track and where their places lie on one another, by elementary geometry.

use std::f64::consts::PI;

use lane_distance::spec::{LengthSpec, TrackSpec};
use lane_distance::{
    Course, LaneError, LaneNumber, Line, NoRouteError, Path, Piece, Place, Point, Route, SearchError, Spot,
    Station, Track,
};

use crate::by_hand::{STRAIGHT_M, lap_m, radius_m};
use crate::fixtures::{built_in, standard, standard_with};
use crate::lane_number;

fn spot(course: Course, lane: u8, to_finish_m: f64) -> Spot {
    Spot { course, lane: lane_number(lane), to_finish_m }
}

fn assert_near(found_m: f64, expected_m: f64, what: &str) {
    assert!((found_m - expected_m).abs() < 1e-6, "{what}: {found_m}, not {expected_m}");
}

/// A track of three straights and three bends of two arcs each, with one lane less on the oval.
fn three_straights() -> Track {
    let corner = "{ radius: 30, turn: 50 }, { radius: 30, turn: 70 }, { straight: 60 }";
    let text = format!(
        "{{ name: three, lanes: 2, lane_width: 1.22, home_straight: {{ lanes: 3 }}, path: [{corner}, {corner}, {corner}] }}"
    );
    let spec: TrackSpec = serde_yaml::from_str(&text).unwrap_or_else(|error| panic!("{error}: {text}"));
    Track::build(&spec).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[test]
fn a_track_of_three_straights_has_three_bends_and_no_back_straight() {
    let track = three_straights();
    let bend_m = |lane: u8| 2.0 * PI / 3.0 * if lane == 1 { 30.30 } else { 31.42 };
    for lane in [1, 2] {
        let lap_m = 3.0 * (60.0 + bend_m(lane));
        assert_near(track.lap_m(lane_number(lane)).expect("it has the lane"), lap_m, "lap");
        let bends = track.bend_runs(lane_number(lane)).expect("it has the lane");
        assert_eq!(bends.len(), 3);
        for (n, bend) in bends.iter().enumerate() {
            let begins_m = n as f64 * lap_m / 3.0;
            assert_near(bend.distance_m, bend_m(lane), "bend");
            assert_near(track.layout().from_finish_m(bend.start), begins_m, "start of a bend");
            assert_near(track.layout().from_finish_m(bend.finish), begins_m + bend_m(lane), "its end");
        }
        let straights = track.straight_runs(lane_number(lane)).expect("it has the lane");
        assert_eq!(straights.iter().map(|run| run.start.course).collect::<Vec<_>>(), [Course::HomeStraight]);
        let breaks = track.layout().end_of_first_bend(lane_number(lane));
        assert_near(track.layout().from_finish_m(breaks), bend_m(lane), "break line");
        let share = track.bend_share(Spot::on_oval(lane_number(lane), 0.0), lap_m, false);
        assert_eq!(share.bends, 3);
        assert_near(share.metres, 3.0 * bend_m(lane), "share");
    }
    assert_eq!(track.layout().lanes_of(Course::BackStraight), 0);
    assert_eq!([Course::Oval, Course::HomeStraight].map(|course| track.layout().lanes_of(course)), [2, 3]);
    assert_eq!(track.layout().straight(Course::BackStraight), None);
    let back = Course::BackStraight;
    let refused = track.search_at(Place::On(back), lane_number(1), 50.0);
    assert_eq!(refused, Err(SearchError::NoStraight { course: back }));
    assert_eq!(refused.expect_err("it has none").to_string(), "the track has no back straight");
}

#[test]
fn places_of_a_straight_lie_on_the_oval_where_it_holds_them() {
    let track = standard();
    let layout = track.layout();
    for lane in 1..=8 {
        // From the end of the back straight it is a bend and the home straight to the finish line.
        let beyond_m = PI * radius_m(lane) + STRAIGHT_M;
        for at_m in [0.0, 1.0, 40.0, STRAIGHT_M] {
            for (course, on_oval_m) in [(Course::HomeStraight, at_m), (Course::BackStraight, at_m + beyond_m)]
            {
                let there =
                    layout.on_course(spot(course, lane, at_m), Course::Oval).expect("the oval has it");
                assert_near(there.to_finish_m, on_oval_m, "on the oval");
                let back = layout.on_course(there, course).expect("the straight has it");
                assert_near(back.to_finish_m, at_m, "and back");
                let (a, b) = (track.point(there), track.point(back));
                assert!(a.distance(b) < 1e-9, "{course} {at_m} m: {a:?} {b:?}");
            }
        }
        for (at_m, course) in [
            (STRAIGHT_M + 0.1, Course::HomeStraight),
            (lap_m(lane) - 0.1, Course::HomeStraight),
            (beyond_m - 0.1, Course::BackStraight),
            (beyond_m + STRAIGHT_M + 0.1, Course::BackStraight),
        ] {
            assert_eq!(layout.on_course(Spot::on_oval(lane_number(lane), at_m), course), None, "{at_m} m");
        }
        assert_eq!(layout.on_course(spot(Course::HomeStraight, lane, 85.0), Course::Oval), None);
        assert_eq!(layout.on_course(spot(Course::HomeStraight, lane, 30.0), Course::BackStraight), None);
    }
    // Lanes 7 and 8 of the home straight of this track are none of the oval.
    let six = Track::built_in("standard-6").expect("it comes with the crate");
    assert_eq!(six.layout().on_course(spot(Course::HomeStraight, 7, 30.0), Course::Oval), None);
    assert!(six.layout().on_course(spot(Course::HomeStraight, 6, 30.0), Course::Oval).is_some());
}

#[test]
fn past_is_the_shorter_way_round() {
    let track = standard();
    let lap_m = lap_m(4);
    for (from_m, to_m, past_m) in [
        (50.0, 30.0, 20.0),
        (30.0, 50.0, -20.0),
        (10.0, lap_m - 10.0, 20.0),
        (lap_m - 10.0, 10.0, -20.0),
        (0.0, lap_m / 2.0 + 1.0, lap_m / 2.0 - 1.0),
        (lap_m / 2.0 + 1.0, 0.0, 1.0 - lap_m / 2.0),
        (0.0, lap_m / 2.0 - 1.0, 1.0 - lap_m / 2.0),
    ] {
        let [from, to] = [from_m, to_m].map(|at_m| Spot::on_oval(lane_number(4), at_m));
        assert_near(track.layout().past_m(from, to), past_m, "past");
    }
    // A straight does not go round.
    let [from, to] = [110.0, 0.0].map(|at_m| spot(Course::HomeStraight, 4, at_m));
    assert_eq!(track.layout().past_m(from, to), 110.0);
    assert_eq!(track.layout().tape_m(from, to), 110.0);
    // Across the finish line the tape lies on the bend for the one part, and on the straight for the other.
    let [from, to] = [10.0, lap_m - 20.0].map(|at_m| Spot::on_oval(lane_number(4), at_m));
    let tape_m = 10.0 + 20.0 * (radius_m(4) - 0.20) / radius_m(4);
    assert_near(track.layout().tape_m(from, to), tape_m, "tape");
    assert_near(track.layout().tape_m(to, from), -tape_m, "tape");
}

#[test]
fn a_route_goes_round_or_out_of_a_chute() {
    let track = standard();
    let lap = lap_m(4);
    let distance_m = |from, to| track.distance_m(from, to).expect("a route leads there");
    let (home, oval) = (Course::HomeStraight, Course::Oval);
    for (from, to, metres) in [
        // From a spot to itself it is a lap, on a straight too.
        (spot(oval, 4, 100.0), spot(oval, 4, 100.0), lap),
        (spot(home, 4, 50.0), spot(home, 4, 50.0), lap),
        (spot(home, 4, 50.0), spot(home, 4, 60.0), lap - 10.0),
        (spot(home, 4, 110.0), spot(home, 4, 10.0), 100.0),
        (spot(home, 4, 110.0), spot(oval, 4, 0.0), 110.0),
        (spot(home, 4, 110.0), spot(oval, 4, 300.0), 110.0 + lap - 300.0),
        (spot(home, 4, 40.0), spot(oval, 4, 300.0), 40.0 + lap - 300.0),
        (spot(Course::BackStraight, 4, 30.0), spot(home, 4, 0.0), 30.0 + PI * radius_m(4) + STRAIGHT_M),
    ] {
        assert_near(distance_m(from, to), metres, &format!("{from:?} to {to:?}"));
    }
    let into_chute = track.distance_m(spot(oval, 4, 20.0), spot(home, 4, 110.0));
    assert_eq!(into_chute, Err(NoRouteError { from: oval, to: home }));
    assert_eq!(
        into_chute.expect_err("it is a chute").to_string(),
        "no route leads from the oval to the home straight in the direction of running"
    );
    let route = |from, to, against, laps| {
        track.route_m(&Route { from, to, against, laps }).expect("a route leads there")
    };
    let (a, b) = (spot(oval, 4, 300.0), spot(oval, 4, 100.0));
    assert_near(route(a, b, false, 0), 200.0, "once");
    assert_near(route(a, b, true, 0), lap - 200.0, "clockwise");
    assert_near(route(a, b, false, 2), 200.0 + 2.0 * lap, "two laps more");
    assert_near(route(a, a, false, 0), lap, "back to the same place");
    assert_near(route(a, a, false, 3), 3.0 * lap, "three laps");
    let turns = |from, to, against, laps| {
        track.turns(&Route { from, to, against, laps }).expect("a route leads there")
    };
    assert_near(turns(a, a, false, 3), 3.0, "turns of three laps");
    assert_near(turns(spot(home, 4, 110.0), spot(home, 4, 0.0), false, 0), 0.0, "turns of a straight");
    // Out of the chute, over the straight and half of the bend.
    let half_way = Spot::on_oval(lane_number(4), lap - PI * radius_m(4) / 2.0);
    assert_near(turns(spot(home, 4, 110.0), half_way, false, 0), 0.25, "turns out of a chute");
    // Between two places of one straight, nearly a lap turns once.
    assert_near(turns(spot(oval, 4, 20.0), spot(oval, 4, 40.0), false, 0), 1.0, "turns of nearly a lap");
    assert_near(turns(a, b, true, 0), 1.0 - turns(a, b, false, 0), "turns clockwise");
}

#[test]
fn a_wider_line_costs_a_turn_times_what_it_is_wider() {
    let track = standard();
    let cost_m =
        |lane, running_m| track.running_line_m(lane_number(lane), running_m).expect("it has the lane");
    assert_near(cost_m(1, 0.30), 0.0, "the measure line of lane 1");
    assert_near(cost_m(3, 0.20), 0.0, "the measure line of lane 3");
    assert_near(cost_m(1, 1.30), 2.0 * PI, "a metre wider");
    assert_near(cost_m(3, 0.10), -0.2 * PI, "10 cm narrower");
    let surveyed = standard_with(|spec| spec.surveyed_lap = Some(LengthSpec::from_metres(400.4)));
    let scaled_m = surveyed.running_line_m(lane_number(1), 1.30).expect("it has the lane");
    assert_near(scaled_m, 2.0 * PI * 400.4 / lap_m(1), "a metre wider on a surveyed track");
}

#[test]
fn a_line_counts_round_the_lap() {
    let arc = Piece::Arc { radius_m: 36.50, turn_rad: PI };
    let straight = Piece::Straight { length_m: STRAIGHT_M };
    let path = Path::close(vec![arc, straight, arc, straight]).expect("it closes");
    let line = Line::parallel(&path, 0.30, 1.0);
    let (bend_m, lap_m) = (PI * 36.80, lap_m(1));
    assert_near(line.lap_m(), lap_m, "lap");
    let begins_m = [0.0, bend_m, bend_m + STRAIGHT_M, 2.0 * bend_m + STRAIGHT_M, lap_m, lap_m];
    for (piece, begins_m) in begins_m.into_iter().enumerate() {
        assert_near(line.start_of_m(piece), begins_m, "start of a piece");
    }
    for (from_m, piece, fraction) in [
        (0.0, 0, 0.0),
        (bend_m / 4.0, 0, 0.25),
        (bend_m, 1, 0.0),
        (bend_m + STRAIGHT_M / 2.0, 1, 0.5),
        (lap_m - STRAIGHT_M / 4.0, 3, 0.75),
        (lap_m, 3, 1.0),
        // What lies outside the lap counts as its nearer end.
        (lap_m + 5.0, 3, 1.0),
        (-5.0, 0, 0.0),
    ] {
        let station = line.station(from_m);
        assert_eq!(station.piece, piece, "{from_m} m");
        assert_near(station.fraction, fraction, "fraction");
        assert_near(line.from_finish_m(station), from_m.clamp(0.0, lap_m), "and back");
    }
    // A piece that the path does not have counts as its last.
    assert_near(line.from_finish_m(Station { piece: 9, fraction: 0.5 }), lap_m - STRAIGHT_M / 2.0, "piece 9");
    let pose = path.pose(Station { piece: 9, fraction: 1.0 });
    assert!(pose.point.distance(path.starts()[0].point) < 1e-9, "{pose:?}");
    for (to_finish_m, within_m) in [
        (100.0, 100.0),
        (lap_m + 100.0, 100.0),
        (-100.0, lap_m - 100.0),
        (3.0 * lap_m - 1.0, lap_m - 1.0),
        (lap_m - 1e-6, lap_m - 1e-6),
    ] {
        assert_near(line.within_lap_m(to_finish_m), within_m, "within the lap");
    }
    // A rounding error short of a lap is the finish line.
    for almost_m in [lap_m, -1e-12, lap_m - 1e-10, 2.0 * lap_m - 1e-10] {
        assert!(line.within_lap_m(almost_m) < 1e-9, "{almost_m}");
    }
    let scaled = Line::parallel(&path, 0.30, 1.01);
    assert_near(scaled.lap_m(), 1.01 * lap_m, "scaled lap");
}

#[test]
fn what_lies_outside_the_kerb_is_square_to_it() {
    let track = standard();
    let path = track.layout().path();
    let half_m = STRAIGHT_M / 2.0;
    for (x, y, outside_m) in [
        // Beside the straights, the bends, and at their ends.
        (0.0, -37.5, 1.0),
        (0.0, 40.0, 3.5),
        (10.0, -30.0, -6.5),
        (half_m + 38.5, 0.0, 2.0),
        (-half_m - 30.5, 0.0, -6.0),
        (half_m, -37.0, 0.5),
        (-half_m, 36.0, -0.5),
        // The centre of the infield is as far from either straight.
        (0.0, 0.0, -36.5),
        (half_m, 0.0, -36.5),
        (half_m + 20.0, 0.0, -16.5),
    ] {
        assert_near(path.outside_m(Point::new(x, y)), outside_m, &format!("{x}, {y}"));
    }
    for eighth in 0..8 {
        let angle = f64::from(eighth) * PI / 8.0 - PI / 2.0;
        let there = Point::new(half_m + 40.0 * angle.cos(), 40.0 * angle.sin());
        assert_near(path.outside_m(there), 3.5, "on the first bend");
        assert_near(path.outside_m(Point::new(-there.x, -there.y)), 3.5, "on the second");
    }
}

#[test]
fn the_box_of_a_path_holds_every_place_of_it() {
    for track in built_in().chain([three_straights()]) {
        let path = track.layout().path();
        let (low, high) = path.bounds();
        let mut seen = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        for piece in 0..path.pieces().len() {
            for step in 0..=2000 {
                let at = path.pose(Station { piece, fraction: f64::from(step) / 2000.0 }).point;
                seen = [seen[0].min(at.x), seen[1].min(at.y), seen[2].max(at.x), seen[3].max(at.y)];
            }
        }
        for (seen_m, bound_m) in seen.into_iter().zip([low.x, low.y, high.x, high.y]) {
            assert!((seen_m - bound_m).abs() < 1e-3, "{}: {seen_m} m, not {bound_m} m", track.name());
        }
        // The centre of the box is the centre of the plan.
        assert!((low.x + high.x).abs() < 1e-9 && (low.y + high.y).abs() < 1e-9, "{}", track.name());
    }
}

#[test]
fn a_lap_may_turn_a_millionth_of_a_degree_too_far() {
    let path = |second_deg: f64, first_m: f64| {
        let arc = |radius_m, turn_deg: f64| Piece::Arc { radius_m, turn_rad: turn_deg.to_radians() };
        let straight = Piece::Straight { length_m: STRAIGHT_M };
        Path::close(vec![
            arc(36.50, 180.0),
            straight,
            arc(36.50, second_deg),
            Piece::Straight { length_m: first_m },
        ])
    };
    for (turn_deg, closes) in
        [(180.0 + 8e-7, true), (180.0 - 8e-7, true), (180.0 + 2e-6, false), (180.0 - 2e-6, false)]
    {
        assert_eq!(path(turn_deg, STRAIGHT_M).is_ok(), closes, "{turn_deg}°");
    }
    assert!(path(180.0, STRAIGHT_M + 0.0009).is_ok() && path(180.0, STRAIGHT_M + 0.0011).is_err());
}

#[test]
fn closed_lanes_are_those_of_the_description_and_those_added() {
    let spec = |closed: &str| {
        standard_with(|spec| {
            spec.closed_lanes =
                serde_yaml::from_str(closed).unwrap_or_else(|error| panic!("{error}: {closed}"));
        })
    };
    let numbers = |lanes: &[LaneNumber]| lanes.iter().map(|lane| lane.get()).collect::<Vec<_>>();
    let track = spec("{ lanes: [4, 2, 4], reason: new surface }");
    assert_eq!(numbers(track.closed_lanes()), [2, 4]);
    let (lanes, why) = track.closed_because().expect("a reason is given");
    assert_eq!((numbers(lanes), why), (vec![2, 4], "new surface"));
    assert_eq!(numbers(&track.open_lanes(Course::Oval)), [1, 3, 5, 6, 7, 8]);
    let more = track.clone().with_closed(&[lane_number(3), lane_number(2)]).expect("it has the lanes");
    assert_eq!(numbers(more.closed_lanes()), [2, 3, 4]);
    let error = track.clone().with_closed(&[lane_number(9)]).expect_err("it has eight lanes");
    assert!(matches!(error, LaneError::Missing { lane: 9, .. }), "{error}");
    let open = more.with_all_open();
    assert_eq!((numbers(open.closed_lanes()), open.closed_because()), (vec![], None));
    assert!(open.check_lane(Course::Oval, lane_number(4)).is_ok());
    assert_eq!(spec("[1]").closed_because(), None);
    assert_eq!(standard().bearing_deg(), None);
    assert_eq!(standard_with(|spec| spec.bearing = Some(12.5)).bearing_deg(), Some(12.5));
}

#[test]
fn a_curved_start_reaches_from_its_inside_lane_outwards() {
    let track = standard();
    let layout = track.layout();
    for inside in 1..=8 {
        let curve = layout.curve(lane_number(inside), 150.0);
        assert!(curve.iter().map(|point| point.spot.lane.get()).eq(inside..=8), "{curve:?}");
        assert_near(curve[0].spot.to_finish_m, 150.0, "the inside lane's own start");
        for point in &curve {
            let way = layout.join(point.spot, lane_number(inside)).expect("it lies further in");
            assert_near(way.to_finish_m, 150.0, "as far as in the inside lane");
            let square = layout.abreast(curve[0].spot, point.spot.lane);
            assert_near(point.past_square_m, layout.past_m(square, point.spot), "past the square line");
        }
    }
    assert_eq!(layout.curve(lane_number(9), 150.0), []);
    assert_eq!(layout.curved_start(lane_number(3), 150.0, lane_number(2)), None);
    assert_eq!(layout.curved_start(lane_number(3), 150.0, lane_number(9)), None);
    // A start that lies more than a lap out is the same line.
    let [near, far] = [150.0, 150.0 + lap_m(1)].map(|metres| layout.curve(lane_number(1), metres)[7].spot);
    assert_near(far.to_finish_m, near.to_finish_m, "a lap more");
}
