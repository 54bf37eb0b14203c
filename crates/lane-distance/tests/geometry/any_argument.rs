//! No argument makes a public function panic: any lane, any distance, any spot of any track.

use lane_distance::spec::{InnerEdge, LengthSpec, Tolerances, TrackSpec};
use lane_distance::{
    Course, Hazard, HazardKind, Lane, LaneList, LaneNumber, Line, Pair, Path, Piece, Place, Placement, Point,
    Pose, Route, Side, Spot, Station, Track,
};
use proptest::prelude::*;

use crate::lane_number;

/// Numbers that are distances, and numbers that are none.
fn metres() -> impl Strategy<Value = f64> {
    prop_oneof![
        -1000.0..1000.0,
        any::<f64>(),
        prop::sample::select(vec![0.0, -0.0, 1e300, f64::INFINITY, f64::NEG_INFINITY, f64::NAN]),
    ]
}

/// Numbers that lanes have, and numbers that they have not.
fn number() -> impl Strategy<Value = u8> {
    prop_oneof![0..12_u8, any::<u8>()]
}

fn lane() -> impl Strategy<Value = LaneNumber> {
    prop::sample::select(LaneNumber::ALL.to_vec())
}

fn course() -> impl Strategy<Value = Course> {
    prop::sample::select(Course::ALL.to_vec())
}

fn place() -> impl Strategy<Value = Place> {
    prop_oneof![
        Just(Place::Anywhere),
        Just(Place::Bend),
        course().prop_map(Place::On),
        course().prop_map(Place::Against),
    ]
}

fn spot() -> impl Strategy<Value = Spot> {
    (course(), lane(), metres()).prop_map(|(course, lane, to_finish_m)| Spot { course, lane, to_finish_m })
}

fn track() -> impl Strategy<Value = Track> {
    prop::sample::select(Track::built_in_names().collect::<Vec<_>>())
        .prop_map(|name| Track::built_in(name).expect("it comes with the crate"))
}

fn hazard() -> impl Strategy<Value = Hazard> {
    let lanes = prop::option::of(prop::collection::vec(number(), 0..4));
    (course(), metres(), metres(), lanes).prop_map(|(on, from, to, lanes)| Hazard {
        kind: HazardKind::ClosedStretch,
        on,
        from: LengthSpec::from_metres(from),
        to: LengthSpec::from_metres(to),
        side: Side::Across,
        lanes,
        note: None,
    })
}

proptest! {
    #[test]
    fn of_a_track(
        (track, other) in (track(), track()),
        (from, to) in (spot(), spot()),
        (lane, inside, number) in (lane(), lane(), number()),
        (course, place) in (course(), place()),
        distance_m in metres(),
        against in any::<bool>(),
        laps in any::<u32>(),
        name in prop_oneof![".{0,12}", "(400 m start|zone|finish line)( [-+] [0-9e.]{0,6})?"],
    ) {
        let _ = track.clone().with_closed(&[lane, inside]);
        let _ = (track.open_lanes(course), track.check_lane(course, lane), track.lane_number(number));
        let _ = (track.lap_m(lane), track.running_line_m(lane, distance_m), track.walk(lane));
        let _ = (track.landmark(&name, lane), track.landmark_with_reading(&name, lane));
        let _ = (track.search(lane, distance_m), track.search_at(place, lane, distance_m));
        let _ = (track.point(from), track.read_any(from), track.bend_share(from, distance_m, against));
        let _ = (track.distance_m(from, to), Placement::of(&track, from));
        let way = Route { from, to, against, laps };
        let _ = (track.route_m(&way), track.turns(&way));
        let reading = track.read(from);
        let _ = (track.spot_uncertainty_m(to, &reading), Placement::from_reading(&other, to, reading));
        let pair = Pair {
            start: from, finish: to, distance_m, against, start_reading: reading, finish_reading: reading,
        };
        let _ = (other.uncertainty_m(&pair), other.hazards_of(&pair).count(), pair.ends_on_paint());
        for painted in track.painted(course, lane) {
            let _ = other.mark(painted.mark).map(|mark| (mark.is_in_lane(lane), mark.trap_in(lane)));
        }
    }

    #[test]
    fn of_its_ground(
        track in track(),
        (from, to) in (spot(), spot()),
        (lane, inside) in (lane(), lane()),
        course in course(),
        metres in metres(),
        bends in any::<u8>(),
        station in (any::<usize>(), metres()).prop_map(|(piece, fraction)| Station { piece, fraction }),
        point in (metres(), metres()).prop_map(|(x, y)| Point::new(x, y)),
        hazard in hazard(),
    ) {
        let layout = track.layout();
        let _ = (layout.lane(lane), layout.lanes_of(course), layout.has_lane(course, lane));
        let _ = (layout.from_finish_m(from), layout.on_course(from, course), layout.pose(from));
        let _ = (layout.station(from), layout.abreast(from, lane), layout.past_m(from, to));
        let _ = (layout.tape_m(from, to), layout.curve(inside, metres), layout.join(from, lane));
        let _ = (layout.curved_start(inside, metres, lane), layout.crossing_m(from, to));
        let _ = (layout.stagger_in_lanes_m(lane, metres), layout.end_of_first_bend(lane));
        let _ = layout.stagger_after_break_m(lane, metres, bends);
        let _ = layout.start_before_break(lane, metres, bends, inside);
        let _ = (layout.path().pose(station), layout.path().outside_m(point), layout.path().bounds());
        for line in [layout.measure(lane).clone(), Line::parallel(layout.path(), metres, metres)] {
            let _ = (line.lap_m(), line.start_of_m(station.piece), line.from_finish_m(station));
            let _ = (line.station(metres), line.within_lap_m(metres));
        }
        let _ = (hazard.extent_m(layout, course, lane), hazard.covers(layout, from));
        let _ = hazard.lies_beside(layout, from, Side::Outside);
        let in_use = track.clone().with_hazards(|_| false);
        prop_assert!(in_use.hazards().is_empty());
        let _ = Tolerances::default().uncertainty_m(lane, metres, bends);
    }

    #[test]
    fn of_pieces_and_lists(
        pieces in prop::collection::vec(prop_oneof![
            metres().prop_map(|length_m| Piece::Straight { length_m }),
            (metres(), metres()).prop_map(|(radius_m, turn_rad)| Piece::Arc { radius_m, turn_rad }),
        ], 0..6),
        (offset_m, fraction) in (metres(), metres()),
        heading_rad in metres(),
        widths_m in prop::collection::vec(metres(), 0..300),
        lanes in prop::collection::vec(any::<u8>(), 0..6),
        text in ".{0,8}|[0-9.]{0,6} ?(m|yd|ft|in)?",
    ) {
        for piece in &pieces {
            let start = Pose { point: Point::new(offset_m, fraction), heading_rad };
            let _ = (piece.length_m(offset_m), piece.turn_rad(), piece.pose(start, fraction));
        }
        let _ = Path::close(pieces);
        let _ = Lane::side_by_side(InnerEdge::Kerb, &widths_m);
        let _ = (LaneList(&lanes).to_string(), text.parse::<LengthSpec>());
    }

    /// What a description holds may be anything: it is a track, or has faults.
    #[test]
    fn of_a_description(
        name in prop::sample::select(Track::built_in_names().collect::<Vec<_>>()),
        (lanes, closed, worn) in (number(), number(), number()),
        widths_m in prop::collection::vec(prop_oneof![Just(1.22), metres()], 0..300),
        (length, lap) in (metres(), metres()),
        hazard in hazard(),
        bearing in metres(),
    ) {
        use lane_distance::spec::{ClosedSpec, OneOrMany, WornSpec};
        let mut spec = TrackSpec::built_in(name).expect("it comes with the crate");
        let whole = spec.clone();
        spec.lanes = lanes;
        let _ = Track::build(&spec);
        spec.lane_width = OneOrMany::Many(widths_m.into_iter().map(LengthSpec::from_metres).collect());
        let _ = Track::build(&spec);
        for spoil in [
            &mut |spec: &mut TrackSpec| spec.closed_lanes = ClosedSpec::Lanes(vec![closed]),
            &mut |spec: &mut TrackSpec| spec.home_straight.chute = LengthSpec::from_metres(length),
            &mut |spec: &mut TrackSpec| spec.back_straight.lanes = Some(lanes),
            &mut |spec: &mut TrackSpec| spec.surveyed_lap = Some(LengthSpec::from_metres(lap)),
            &mut |spec: &mut TrackSpec| spec.tolerances.radius = LengthSpec::from_metres(length),
            &mut |spec: &mut TrackSpec| spec.hazards = vec![hazard.clone()],
            &mut |spec: &mut TrackSpec| spec.bearing = Some(bearing),
            &mut |spec: &mut TrackSpec| spec.path[0].turn = Some(length),
            &mut |spec: &mut TrackSpec| {
                spec.marks.worn = vec![WornSpec { mark: "finish line".to_owned(), lanes: Some(vec![worn]) }];
            },
        ] as [&mut dyn FnMut(&mut TrackSpec); 9] {
            let mut spec = whole.clone();
            spoil(&mut spec);
            let _ = Track::build(&spec);
        }
    }
}

#[test]
fn widths_of_255_lanes_are_too_many() {
    let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
    let width = LengthSpec::from_metres(1.22);
    spec.lane_width = lane_distance::spec::OneOrMany::Many(vec![width; 255]);
    let faults = Track::build(&spec).expect_err("there are 8 lanes");
    assert_eq!(faults[0].kind, lane_distance::TrackFaultKind::WidthCount { widths: 255, lanes: 8 });
}

#[test]
fn a_lane_beyond_the_others_lies_where_it_would() {
    let track = Track::built_in("standard").expect("it comes with the crate");
    let wider = Track::built_in("standard-6").expect("it comes with the crate");
    assert!(track.lane_number(9).is_err() && wider.check_lane(Course::Oval, lane_number(7)).is_err());
    let (eight, nine) =
        (track.point(Spot::on_oval(lane_number(8), 0.0)), track.point(Spot::on_oval(lane_number(9), 0.0)));
    assert!((eight.distance(nine) - 1.22).abs() < 1e-9);
    assert!(
        track.search(lane_number(9), 200.0).is_err()
            && track.layout().curved_start(lane_number(1), 200.0, lane_number(9)).is_none()
    );
}
