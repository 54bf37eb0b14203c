//! Tracks of any shape that a track file can describe, with what can be worked out of their dimensions
//! alone: measure lines, straights, bends.

use lane_distance::spec::{
    ClosedSpec, InnerEdge, LengthSpec, MarksSpec, OneOrMany, PieceSpec, RadiusAt, StraightSpec, TrackSpec,
};
use lane_distance::{Course, Hazard, HazardKind, Side, Track};
use proptest::prelude::*;

use crate::trace::{self, Trace};

/// The dimensions of a track: its two bends are alike, and so are its straights.
#[derive(Clone, Debug)]
pub(crate) struct Ground {
    /// Radius at the inner edge and turn of each arc of a bend, in metres and degrees.
    pub(crate) bend: Vec<(f64, f64)>,
    pub(crate) straight_m: f64,
    /// Widths of the lanes of the widest course, in metres.
    pub(crate) widths_m: Vec<f64>,
    /// How many lanes the oval, the home straight and the back straight have.
    pub(crate) lanes: [u8; 3],
    /// Chutes of the home straight and of the back straight, in metres.
    pub(crate) chutes_m: [f64; 2],
    pub(crate) inner_edge: InnerEdge,
    pub(crate) closed: Vec<u8>,
    /// How much longer than computed a lap was surveyed, in metres.
    pub(crate) surveyed_off_m: Option<f64>,
    pub(crate) hazards: Vec<Hazard>,
    pub(crate) sets: Vec<&'static str>,
}

const KINDS: [HazardKind; 4] =
    [HazardKind::JavelinRunway, HazardKind::WaterJump, HazardKind::ClosedStretch, HazardKind::ClosedStretch];

fn any_bend() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let double =
        (15.0..45.0, 15.0..80.0, 25.0..80.0).prop_map(|(ends_m, middle_m, turn): (f64, f64, f64)| {
            vec![(ends_m, turn), (middle_m, 180.0 - 2.0 * turn), (ends_m, turn)]
        });
    prop_oneof![(15.0..60.0).prop_map(|radius_m| vec![(radius_m, 180.0)]), double]
}

/// A hazard by parts of its course: the course, where it begins, how much of it it covers.
type AnyHazard = (usize, usize, f64, f64, Option<Vec<u8>>);

fn any_hazard() -> impl Strategy<Value = AnyHazard> {
    let lanes = prop::option::of(prop::collection::vec(1u8..=4, 1..3));
    (0..KINDS.len(), 0usize..5, 0.0..1.0, 0.01..0.15, lanes)
}

pub(crate) fn any_inner_edge() -> impl Strategy<Value = InnerEdge> {
    prop_oneof![Just(InnerEdge::Kerb), Just(InnerEdge::Line), Just(InnerEdge::KerbOnBends)]
}

/// Any track that a track file can describe.
pub(crate) fn any_ground() -> impl Strategy<Value = Ground> {
    let sets = prop_oneof![
        Just(vec!["standard", "club lines"]),
        Just(vec!["standard", "former takeover zones", "300 m hurdles", "age-group hurdles"]),
        Just(vec!["small oval", "club lines"]),
        Just(vec!["yards"]),
    ];
    let lanes = (4u8..=10, 4u8..=10, 4u8..=10).prop_map(|(oval, home, back)| [oval, home, back]);
    let shape = (any_bend(), 20.0..130.0, any_inner_edge(), prop::collection::vec(0.9..1.5, 10));
    let more = (
        prop::array::uniform2(prop_oneof![Just(0.0), 0.0..100.0]),
        prop::collection::btree_set(1u8..=4, 0..3),
        prop::option::of(-0.5..0.5),
        prop::collection::vec(any_hazard(), 0..4),
    );
    (shape, lanes, more, sets).prop_map(
        |((bend, straight_m, inner_edge, mut widths_m), lanes, (chutes_m, closed, off_m, hazards), sets)| {
            widths_m.truncate(usize::from(lanes.into_iter().max().unwrap_or_default()));
            let mut ground = Ground {
                bend,
                straight_m,
                widths_m,
                lanes,
                chutes_m,
                inner_edge,
                closed: closed.into_iter().collect(),
                surveyed_off_m: off_m,
                hazards: Vec::new(),
                sets,
            };
            ground.hazards = hazards.into_iter().map(|hazard| ground.hazard(hazard)).collect();
            ground
        },
    )
}

impl Ground {
    fn hazard(&self, (kind, on, begins, part, lanes): AnyHazard) -> Hazard {
        let on = [Course::Oval, Course::Oval, Course::Oval, Course::HomeStraight, Course::BackStraight][on];
        let length_m = match on {
            Course::Oval => self.lap_m(1) * self.scale(),
            straight => self.course_m(straight),
        };
        let from_m = begins * length_m;
        let to_m = match on {
            Course::Oval => (from_m - part * length_m).rem_euclid(length_m),
            _ => (from_m - part * length_m).max(0.0),
        };
        let (from, to) = (LengthSpec::from_metres(from_m), LengthSpec::from_metres(to_m));
        Hazard { kind: KINDS[kind], on, from, to, side: Side::Inside, lanes, note: None }
    }

    /// The track of these dimensions.
    pub(crate) fn track(&self) -> Track {
        let m = LengthSpec::from_metres;
        let arc = |&(radius_m, turn): &(f64, f64)| PieceSpec {
            radius: Some(m(radius_m)),
            turn: Some(turn),
            straight: None,
        };
        let straight = PieceSpec { straight: Some(m(self.straight_m)), ..PieceSpec::default() };
        let half: Vec<_> = self.bend.iter().map(arc).chain([straight]).collect();
        let [home_straight, back_straight] =
            [0, 1].map(|n| StraightSpec { lanes: Some(self.lanes[n + 1]), chute: m(self.chutes_m[n]) });
        let spec = TrackSpec {
            name: "any track".to_owned(),
            source: String::new(),
            path: [half.as_slice(), &half].concat(),
            radius_at: RadiusAt::InnerEdge,
            inner_edge: self.inner_edge,
            lanes: self.lanes[0],
            lane_width: OneOrMany::Many(self.widths_m.iter().copied().map(m).collect()),
            home_straight,
            back_straight,
            surveyed_lap: self.surveyed_off_m.map(|off_m| m(self.lap_m(1) + off_m)),
            bearing: None,
            closed_lanes: ClosedSpec::Lanes(self.closed.clone()),
            hazards: self.hazards.clone(),
            tolerances: Default::default(),
            marks: MarksSpec {
                sets: Some(self.sets.iter().map(|set| (*set).to_owned()).collect()),
                ..MarksSpec::default()
            },
        };
        Track::build(&spec).unwrap_or_else(|faults| panic!("{faults:?}"))
    }

    /// World Athletics, Technical Rules, track and lanes: lane 1 is measured 0.30 m outside a kerb, every
    /// other lane, and lane 1 without a kerb, 0.20 m outside its inner line.
    fn outside_m(&self, lane: u8) -> f64 {
        let measure_m = match (lane, self.inner_edge) {
            (1, InnerEdge::Kerb | InnerEdge::KerbOnBends) => 0.30,
            _ => 0.20,
        };
        self.widths_m[..usize::from(lane) - 1].iter().sum::<f64>() + measure_m
    }

    /// Length of a bend in a lane, as computed.
    pub(crate) fn bend_m(&self, lane: u8) -> f64 {
        let arc_m = |&(radius_m, turn): &(f64, f64)| (radius_m + self.outside_m(lane)) * turn.to_radians();
        self.bend.iter().map(arc_m).sum()
    }

    /// A lap of a lane, as computed.
    pub(crate) fn lap_m(&self, lane: u8) -> f64 {
        2.0 * (self.bend_m(lane) + self.straight_m)
    }

    /// The surveyed lap as a part of the computed one.
    pub(crate) fn scale(&self) -> f64 {
        self.surveyed_off_m.map_or(1.0, |off_m| (self.lap_m(1) + off_m) / self.lap_m(1))
    }

    /// Length of a straight with its chute, as surveyed.
    pub(crate) fn course_m(&self, straight: Course) -> f64 {
        let chute_m = self.chutes_m[usize::from(straight == Course::BackStraight)];
        (self.straight_m + chute_m) * self.scale()
    }

    /// Where a place along one lane lies along lane 1, both as computed: on a bend, by the part of each
    /// arc that lies behind.
    pub(crate) fn along_lane_1_m(&self, lane: u8, along_m: f64) -> f64 {
        let (mut rest_m, mut inside_m) = (along_m, 0.0);
        let half = || self.bend.iter().copied().map(Some).chain([None]);
        for piece in half().chain(half()) {
            let (own_m, lane_1_m) = match piece {
                Some((radius_m, turn)) => (
                    (radius_m + self.outside_m(lane)) * turn.to_radians(),
                    (radius_m + self.outside_m(1)) * turn.to_radians(),
                ),
                None => (self.straight_m, self.straight_m),
            };
            if rest_m <= own_m {
                return inside_m + lane_1_m * rest_m / own_m;
            }
            (rest_m, inside_m) = (rest_m - own_m, inside_m + lane_1_m);
        }
        inside_m
    }

    /// The measure line of a lane, as a curves library integrates it.
    pub(crate) fn measure_line(&self, lane: u8) -> Trace {
        let outside_m = self.outside_m(lane);
        // The whole track turns about its centre: half of it leads from the finish line to the place
        // opposite, and the centre lies midway.
        let mut half = Vec::new();
        let (mut x, mut y, mut heading) = (0.0_f64, 0.0_f64, 0.0_f64);
        for &(radius_m, turn) in &self.bend {
            let centre = (x - radius_m * heading.sin(), y + radius_m * heading.cos());
            half.push((
                centre,
                radius_m + outside_m,
                heading - std::f64::consts::FRAC_PI_2,
                turn.to_radians(),
            ));
            heading += turn.to_radians();
            (x, y) = (centre.0 + radius_m * heading.sin(), centre.1 - radius_m * heading.cos());
        }
        let (middle_x, middle_y) = ((x - self.straight_m) / 2.0, y / 2.0);
        let mut curves = Vec::new();
        for side in [1.0, -1.0] {
            for &((x, y), radius_m, begins, turn) in &half {
                let centre = (side * (x - middle_x), side * (y - middle_y));
                let begins = begins + if side < 0.0 { std::f64::consts::PI } else { 0.0 };
                curves.extend(trace::bend(centre, radius_m, begins, turn));
            }
            let at = |x: f64| (side * (x - middle_x), side * (y + outside_m - middle_y));
            curves.extend(trace::straight(at(x), at(x - self.straight_m)));
        }
        Trace::new(curves)
    }
}
