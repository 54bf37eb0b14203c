//! The ground of a described track, and what is wrong with it.

use std::ops::RangeInclusive;

use crate::geometry::course::Course;
use crate::geometry::lane_number::{LaneNumber, MOST_LANES};
use crate::geometry::path::Path;
use crate::geometry::piece::Piece;
use crate::spec::closed_spec::ClosedSpec;
use crate::spec::length_spec::LengthSpec;
use crate::spec::one_or_many::OneOrMany;
use crate::spec::piece_spec::PieceSpec;
use crate::spec::track_spec::{RadiusAt, TrackSpec};
use crate::track::key::{Key, key};
use crate::track::layout::Layout;
use crate::track::track_fault::{Quantity, TrackFault, TrackFaultKind};

/// How far a surveyed lap may differ from the computed one, in metres.
const SURVEY_M: f64 = 0.5;

impl TrackSpec {
    /// The path at the inner edge.
    pub(crate) fn inner_path(&self, faults: &mut Vec<TrackFault>) -> Option<Path> {
        let before = faults.len();
        let inwards_m = match self.radius_at {
            RadiusAt::InnerEdge => 0.0,
            RadiusAt::MeasureLine => self.inner_edge.measure_m(),
        };
        let pieces: Vec<Piece> = self
            .path
            .iter()
            .enumerate()
            .filter_map(|(index, piece)| piece.piece(inwards_m, index, faults))
            .collect();
        if faults.len() > before {
            return None;
        }
        Path::close(pieces)
            .map_err(|error| faults.push(TrackFault::new(key!["path"], TrackFaultKind::Path(error))))
            .ok()
    }

    /// How many lanes the widest course has; nothing where a number of lanes is out of range, which is
    /// added to the faults.
    pub fn most_lanes(&self, faults: &mut Vec<TrackFault>) -> Option<u8> {
        let counts = [
            (Some(self.lanes), key!["lanes"]),
            (self.home_straight.lanes, key!["home_straight", "lanes"]),
            (self.back_straight.lanes, key!["back_straight", "lanes"]),
        ];
        let mut most = Some(1);
        for (lanes, at) in counts {
            let Some(lanes) = lanes else { continue };
            let range = 1.0..=f64::from(MOST_LANES);
            match TrackFault::out_of_range(at, Quantity::Lanes, lanes.into(), range) {
                None => most = most.map(|most| lanes.max(most)),
                Some(fault) => {
                    faults.push(fault);
                    most = None;
                }
            }
        }
        most
    }

    /// The width of each lane of the widest course, in metres; where their number is not known, of as
    /// many as there may be.
    pub(crate) fn widths_m(&self, most: Option<u8>, faults: &mut Vec<TrackFault>) -> Vec<f64> {
        let out_of_range = |width: LengthSpec, at: Vec<Key>| {
            TrackFault::out_of_range(at, Quantity::LaneWidth, width.metres(), 0.5..=3.0)
        };
        match &self.lane_width {
            OneOrMany::One(width) => {
                faults.extend(out_of_range(*width, key!["lane_width"]));
                vec![width.metres(); most.unwrap_or(MOST_LANES).into()]
            }
            OneOrMany::Many(widths) => {
                if let Some(lanes) = most
                    && widths.len() != usize::from(lanes)
                {
                    let kind = TrackFaultKind::WidthCount { widths: widths.len(), lanes };
                    faults.push(TrackFault::new(key!["lane_width"], kind));
                }
                let wrong = widths.iter().enumerate();
                faults.extend(
                    wrong.filter_map(|(index, width)| out_of_range(*width, key!["lane_width", index])),
                );
                widths.iter().map(|width| width.metres()).collect()
            }
        }
    }

    /// The surveyed lap as a part of the computed one.
    pub(crate) fn scale(&self, computed_m: f64, faults: &mut Vec<TrackFault>) -> f64 {
        let Some(surveyed) = self.surveyed_lap else { return 1.0 };
        let surveyed_m = surveyed.metres();
        if (surveyed_m - computed_m).abs() <= SURVEY_M {
            return surveyed_m / computed_m;
        }
        let kind = TrackFaultKind::SurveyedLap { surveyed_m, computed_m, most_m: SURVEY_M };
        faults.push(TrackFault::new(key!["surveyed_lap"], kind));
        1.0
    }

    /// Faults of values that need no geometry.
    pub(crate) fn check(&self, faults: &mut Vec<TrackFault>) {
        if self.name.trim().is_empty() {
            faults.push(TrackFault::new(key!["name"], TrackFaultKind::NoName));
        }
        if let Some(value) = self.bearing.filter(|bearing| !(0.0..360.0).contains(bearing)) {
            let kind =
                TrackFaultKind::OutOfRange { quantity: Quantity::Bearing, value, low: 0.0, high: 360.0 };
            faults.push(TrackFault::new(key!["bearing"], kind));
        }
        for (straight, name) in
            [(&self.home_straight, "home_straight"), (&self.back_straight, "back_straight")]
        {
            let at = key![name, "chute"];
            faults.extend(TrackFault::out_of_range(
                at,
                Quantity::Chute,
                straight.chute.metres(),
                0.0..=200.0,
            ));
        }
        for (index, hazard) in self.hazards.iter().enumerate() {
            if hazard.on != Course::Oval && hazard.from < hazard.to {
                faults.push(TrackFault::new(key!["hazards", index], TrackFaultKind::HazardEndsFirst));
            }
        }
        let tolerances = &self.tolerances;
        for (tolerance, name) in
            [(tolerances.lane_width, "lane_width"), (tolerances.radius, "radius"), (tolerances.tape, "tape")]
        {
            let at = key!["tolerances", name];
            faults.extend(TrackFault::out_of_range(at, Quantity::Tolerance, tolerance.metres(), 0.0..=1.0));
        }
    }

    /// Faults of values that name a lane which no course has.
    pub(crate) fn check_lanes(&self, outermost: u8, faults: &mut Vec<TrackFault>) {
        let mut check = |lanes: &[u8], at: Vec<Key>| {
            for (index, &lane) in lanes.iter().enumerate() {
                if !(1..=outermost).contains(&lane) {
                    let at = [at.as_slice(), &[Key::from(index)]].concat();
                    faults.push(TrackFault::new(at, TrackFaultKind::NoLane { lane, outermost }));
                }
            }
        };
        let closed_at = match self.closed_lanes {
            ClosedSpec::Lanes(_) => key!["closed_lanes"],
            ClosedSpec::Because(_) => key!["closed_lanes", "lanes"],
        };
        check(self.closed_lanes.lanes(), closed_at);
        for (index, hazard) in self.hazards.iter().enumerate() {
            check(hazard.lanes.as_deref().unwrap_or_default(), key!["hazards", index, "lanes"]);
        }
        for (index, mark) in self.marks.own.iter().enumerate() {
            check(mark.lanes.as_deref().unwrap_or_default(), key!["marks", "own", index, "lanes"]);
        }
        for (index, worn) in self.marks.worn.iter().enumerate() {
            check(worn.lanes.as_deref().unwrap_or_default(), key!["marks", "worn", index, "lanes"]);
        }
    }

    /// Faults of hazards that do not lie on their course.
    pub(crate) fn check_hazards(&self, layout: &Layout, faults: &mut Vec<TrackFault>) {
        for (index, hazard) in self.hazards.iter().enumerate() {
            let length_m = match (hazard.on, layout.straight(hazard.on)) {
                (Course::Oval, _) => layout.measure(LaneNumber::FIRST).lap_m(),
                (_, Some(ground)) => ground.length_m(),
                (course, None) => {
                    let kind = TrackFaultKind::NoStraight(course);
                    faults.push(TrackFault::new(key!["hazards", index, "on"], kind));
                    continue;
                }
            };
            for (end, name) in [(hazard.from, "from"), (hazard.to, "to")] {
                let from_finish_m = end.metres();
                if !(0.0..=length_m).contains(&from_finish_m) {
                    let kind = TrackFaultKind::HazardOffCourse { course: hazard.on, from_finish_m, length_m };
                    faults.push(TrackFault::new(key!["hazards", index, name], kind));
                }
            }
        }
    }
}

impl PieceSpec {
    fn piece(&self, inwards_m: f64, index: usize, faults: &mut Vec<TrackFault>) -> Option<Piece> {
        let before = faults.len();
        let mut checked = |name: &str, quantity: Quantity, value: f64, range: RangeInclusive<f64>| {
            faults.extend(TrackFault::out_of_range(key!["path", index, name], quantity, value, range));
            value
        };
        let piece = match (self.straight, self.radius, self.turn) {
            (Some(length), None, None) => {
                let length_m = checked("straight", Quantity::Straight, length.metres(), 0.001..=400.0);
                Piece::Straight { length_m }
            }
            (None, Some(radius), Some(turn)) => {
                let radius_m = checked("radius", Quantity::Radius, radius.metres(), 5.0..=200.0) - inwards_m;
                let turn_deg = checked("turn", Quantity::Turn, turn, 0.001..=360.0);
                Piece::Arc { radius_m, turn_rad: turn_deg.to_radians() }
            }
            _ => {
                faults.push(TrackFault::new(key!["path", index], TrackFaultKind::StraightOrArc));
                return None;
            }
        };
        (faults.len() == before).then_some(piece)
    }
}
