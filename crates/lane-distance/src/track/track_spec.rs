//! The description of a track, as its file gives it.

use std::ops::RangeInclusive;

use serde::Deserialize;

use crate::geometry::course::Course;
use crate::geometry::lane::{InnerEdge, MOST_LANES};
use crate::geometry::length::Length;
use crate::geometry::path::Path;
use crate::geometry::piece::Piece;
use crate::paint::base::bases;
use crate::paint::mark::{Mark, Rule, Worn};
use crate::paint::mark_set::{MarkSet, MarkSpec};
use crate::track::closed_spec::ClosedSpec;
use crate::track::hazard::Hazard;
use crate::track::key::{Key, key};
use crate::track::layout::Layout;
use crate::track::one_or_many::OneOrMany;
use crate::track::tolerance::Tolerances;
use crate::track::track_fault::{Quantity, TrackFault, TrackFaultKind};

/// The description of a track.
///
/// ```
/// use lane_distance::{Track, TrackSpec};
///
/// let spec: TrackSpec = serde_yaml::from_str("
/// name: two straights and two bends
/// path:                        # the inner edge of lane 1, in running order from the finish line
///   - { radius: 36.50, turn: 180 }
///   - straight: 84.39
///   - { radius: 36.50, turn: 180 }
///   - straight: 84.39
/// lanes: 6
/// lane_width: 1.22
/// home_straight: { lanes: 8, chute: 28.61 }
/// ")?;
/// let track = Track::build(&spec).expect("the path closes");
/// assert!((track.lap_m(2)? - 407.038).abs() < 0.001);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TrackSpec {
    /// What the track is called on every sheet.
    pub name: String,
    /// Where its dimensions were published or measured.
    #[serde(default)]
    pub source: String,
    /// The inner edge of lane 1, in running order from the finish line: bend, back straight, bend,
    /// home straight.
    pub path: Vec<PieceSpec>,
    /// Which line the radii of `path` belong to.
    #[serde(default)]
    pub radius_at: RadiusAt,
    /// What bounds lane 1 on the infield side.
    #[serde(default)]
    pub inner_edge: InnerEdge,
    /// Number of lanes on the oval.
    pub lanes: u8,
    /// Width of every lane, or of each lane from lane 1 outwards; the outer line is included.
    pub lane_width: OneOrMany<Length>,
    /// The home straight, where it differs from the oval.
    #[serde(default)]
    pub home_straight: StraightSpec,
    /// The back straight, where it differs from the oval.
    #[serde(default)]
    pub back_straight: StraightSpec,
    /// A surveyed lap of lane 1. It may differ from the computed one by 0.5 m; all distances are
    /// then scaled to it.
    #[serde(default)]
    pub surveyed_lap: Option<Length>,
    /// Compass bearing in which the home straight is run, in degrees from north.
    #[serde(default)]
    pub bearing: Option<f64>,
    /// Lanes closed to training.
    #[serde(default)]
    pub closed_lanes: ClosedSpec,
    /// The paint.
    #[serde(default)]
    pub marks: MarksSpec,
    /// Stretches that are not safe to stand on, or to run through, while in use.
    #[serde(default)]
    pub hazards: Vec<Hazard>,
    /// How far the track may differ from this description.
    #[serde(default)]
    pub tolerances: Tolerances,
}

/// How far a surveyed lap may differ from the computed one, in metres.
const SURVEY_M: f64 = 0.5;

/// A piece of the path: either `straight`, or `radius` and `turn`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PieceSpec {
    /// Length of a straight.
    #[serde(default)]
    pub straight: Option<Length>,
    /// Radius of an arc.
    #[serde(default)]
    pub radius: Option<Length>,
    /// Turn of an arc to the left, in degrees.
    #[serde(default)]
    pub turn: Option<f64>,
}

/// Which line a radius belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum RadiusAt {
    /// The inner edge of lane 1.
    #[default]
    #[serde(rename = "inner edge")]
    InnerEdge,
    /// The measure line of lane 1.
    #[serde(rename = "measure line")]
    MeasureLine,
}

/// What a straight has beyond the oval.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StraightSpec {
    /// Number of lanes; as many as the oval unless given.
    #[serde(default)]
    pub lanes: Option<u8>,
    /// Length of the chute behind the oval.
    #[serde(default)]
    pub chute: Length,
}

/// The paint of a track.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MarksSpec {
    /// Names of mark sets, the surest first; `standard` unless given.
    #[serde(default)]
    pub sets: Option<Vec<String>>,
    /// Marks that only this track has.
    #[serde(default)]
    pub own: Vec<MarkSpec>,
    /// Marks of the sets that can no longer be seen.
    #[serde(default)]
    pub worn: Vec<WornSpec>,
}

/// A mark that has worn off.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct WornSpec {
    /// Its name.
    pub mark: String,
    /// The lanes where it has gone; every lane unless given.
    #[serde(default)]
    pub lanes: Option<Vec<u8>>,
}

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

    /// How many lanes the widest course has; nothing where a number of lanes is out of range.
    pub(crate) fn most_lanes(&self, faults: &mut Vec<TrackFault>) -> Option<u8> {
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
        let out_of_range = |width: Length, at: Vec<Key>| {
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

    /// Faults of the track's own marks that would be painted nowhere.
    pub(crate) fn check_own_marks(&self, layout: &Layout, faults: &mut Vec<TrackFault>) {
        for (index, spec) in self.marks.own.iter().enumerate() {
            for mark in spec.marks(0, &[]).unwrap_or_default() {
                let Rule::BeforeFinish(course, before_finish_m) = mark.rule else { continue };
                let length_m = layout.straight(course).map_or(0.0, |ground| ground.length_m());
                if before_finish_m > length_m {
                    let name = if spec.hurdles.is_some() { "hurdles" } else { "before_finish" };
                    let mark = mark.name;
                    let kind = TrackFaultKind::MarkOffStraight { mark, before_finish_m, course, length_m };
                    faults.push(TrackFault::new(key!["marks", "own", index, name], kind));
                    break;
                }
            }
        }
    }

    /// Faults of hazards that do not lie on their course.
    pub(crate) fn check_hazards(&self, layout: &Layout, faults: &mut Vec<TrackFault>) {
        for (index, hazard) in self.hazards.iter().enumerate() {
            let length_m = match (hazard.on, layout.straight(hazard.on)) {
                (Course::Oval, _) => layout.measure(1).lap_m(),
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

    /// The marks of every set, the track's own marks, less what has worn off.
    pub(crate) fn paint(&self, faults: &mut Vec<TrackFault>) -> Vec<Mark> {
        let default_sets = vec!["standard".to_owned()];
        let sets = self.marks.sets.as_ref().unwrap_or(&default_sets);
        let mut marks = Vec::new();
        let mut is_every_set_known = true;
        for (index, name) in sets.iter().enumerate() {
            let at = key!["marks", "sets", index];
            if sets[..index].contains(name) {
                faults.push(TrackFault::new(at, TrackFaultKind::SetTwice(name.clone())));
                continue;
            }
            let Some(set) = MarkSet::built_in_marks(name) else {
                is_every_set_known = false;
                let known = MarkSet::built_in_names().collect();
                faults.push(TrackFault::new(at, TrackFaultKind::UnknownSet { name: name.clone(), known }));
                continue;
            };
            marks.extend(set.iter().map(|mark| Mark { set: index as u8, ..mark.clone() }));
        }
        for (index, spec) in self.marks.own.iter().enumerate() {
            // The track's own paint is the surest of all: somebody looked at it.
            let at = key!["marks", "own", index];
            match spec.marks(0, &at) {
                Ok(more) => marks.extend(more),
                Err(more) => faults.extend(more),
            }
        }
        let mut by_name = Vec::new();
        for (index, worn) in self.marks.worn.iter().enumerate() {
            wear_off(&mut marks, worn, index, &mut by_name);
        }
        self.check_bases(&marks, &mut by_name);
        // A name that no mark has may be one of a set that is not known.
        if is_every_set_known {
            faults.extend(by_name);
        }
        marks
    }

    /// Faults of marks that lean on each other: a base that is missing, or that leans back.
    fn check_bases(&self, marks: &[Mark], faults: &mut Vec<TrackFault>) {
        let bases = bases(marks);
        for (index, mark) in marks.iter().enumerate() {
            let Rule::From(base, _) = &mark.rule else { continue };
            let mut links = std::iter::successors(bases[index], |link| bases[*link]).take(marks.len());
            let kind = match bases[index] {
                None => {
                    let near = nearest_mark(base, marks);
                    TrackFaultKind::UnknownBase { mark: mark.name.clone(), base: base.clone(), near }
                }
                Some(_) if links.any(|link| marks[link].name == mark.name) => {
                    TrackFaultKind::PlacedFromItself { mark: mark.name.clone() }
                }
                Some(_) => continue,
            };
            let at = match self.marks.own.iter().position(|own| own.name == mark.name) {
                Some(index) => key!["marks", "own", index, "from"],
                None => key!["marks"],
            };
            faults.push(TrackFault::new(at, kind));
        }
    }
}

fn wear_off(marks: &mut [Mark], worn: &WornSpec, index: usize, faults: &mut Vec<TrackFault>) {
    let mut known = false;
    for mark in marks.iter_mut().filter(|mark| mark.name == worn.mark) {
        known = true;
        mark.worn = match (&worn.lanes, &mark.worn) {
            (None, _) | (_, Worn::Everywhere) => Worn::Everywhere,
            (Some(lanes), Worn::Nowhere) => Worn::Lanes(lanes.clone()),
            (Some(lanes), Worn::Lanes(already)) => Worn::Lanes([already.as_slice(), lanes].concat()),
        };
    }
    if !known {
        let kind =
            TrackFaultKind::UnknownWorn { name: worn.mark.clone(), near: nearest_mark(&worn.mark, marks) };
        faults.push(TrackFault::new(key!["marks", "worn", index, "mark"], kind));
    }
}

/// The mark whose name is most like a wrong one.
fn nearest_mark(wrong: &str, marks: &[Mark]) -> Option<String> {
    marks
        .iter()
        .map(|mark| (strsim::jaro_winkler(&wrong.to_lowercase(), &mark.name.to_lowercase()), mark))
        .filter(|(likeness, _)| *likeness > 0.85)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, mark)| mark.name.clone())
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
