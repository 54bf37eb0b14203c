//! The description of a track, as its file gives it.

use serde::Deserialize;

use crate::geometry::arc::Arc;
use crate::geometry::course::Course;
use crate::geometry::lane::{InnerEdge, MOST_LANES};
use crate::geometry::length::Length;
use crate::geometry::path::Path;
use crate::geometry::straight::Straight;
use crate::geometry::stretch::Piece;
use crate::paint::mark::{Mark, Rule, Worn};
use crate::paint::mark_set::{MarkSet, MarkSpec};
use crate::track::closed_spec::ClosedSpec;
use crate::track::fault::{Fault, Key, key};
use crate::track::hazard::Hazard;
use crate::track::layout::Layout;
use crate::track::one_or_many::OneOrMany;
use crate::track::tolerance::Tolerances;

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
    pub(crate) fn inner_path(&self, faults: &mut Vec<Fault>) -> Option<Path> {
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
        Path::close(pieces).map_err(|error| faults.push(Fault::new(key!["path"], error.to_string()))).ok()
    }

    /// How many lanes the widest course has; nothing where a number of lanes is out of range.
    pub(crate) fn most_lanes(&self, faults: &mut Vec<Fault>) -> Option<u8> {
        let counts = [
            (Some(self.lanes), key!["lanes"]),
            (self.home_straight.lanes, key!["home_straight", "lanes"]),
            (self.back_straight.lanes, key!["back_straight", "lanes"]),
        ];
        let mut most = Some(1);
        for (lanes, at) in counts {
            let Some(lanes) = lanes else { continue };
            if (1..=MOST_LANES).contains(&lanes) {
                most = most.map(|most| lanes.max(most));
            } else {
                let message = format!("{lanes} lanes are out of range: a track has 1 to {MOST_LANES}");
                faults.push(Fault::new(at, message));
                most = None;
            }
        }
        most
    }

    /// The width of each lane of the widest course, in metres; where their number is not known, of as
    /// many as there may be.
    pub(crate) fn widths_m(&self, most: Option<u8>, faults: &mut Vec<Fault>) -> Vec<f64> {
        let out_of_range = |width: Length, at: Vec<Key>| {
            let width_m = width.metres();
            (!(0.5..=3.0).contains(&width_m))
                .then(|| Fault::new(at, format!("a lane width of {width_m} m is out of range: 0.5 m to 3 m")))
        };
        match &self.lane_width {
            OneOrMany::One(width) => {
                faults.extend(out_of_range(*width, key!["lane_width"]));
                vec![width.metres(); most.unwrap_or(MOST_LANES).into()]
            }
            OneOrMany::Many(widths) => {
                if let Some(most) = most
                    && widths.len() != usize::from(most)
                {
                    let message = format!("{} lane widths are given for {most} lanes", widths.len());
                    faults.push(Fault::new(key!["lane_width"], message).with_help(
                        "give one width for all lanes, or one for each lane from lane 1 outwards",
                    ));
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
    pub(crate) fn scale(&self, computed_lap_m: f64, faults: &mut Vec<Fault>) -> f64 {
        let Some(surveyed) = self.surveyed_lap else { return 1.0 };
        let off_m = surveyed.metres() - computed_lap_m;
        if off_m.abs() <= SURVEY_M {
            return surveyed.metres() / computed_lap_m;
        }
        let message = format!(
            "the surveyed lap of {:.3} m differs by {off_m:+.3} m from the computed lap of lane 1, {computed_lap_m:.3} m; \
             the most allowed is {SURVEY_M} m",
            surveyed.metres()
        );
        faults.push(
            Fault::new(key!["surveyed_lap"], message)
                .with_help("check the radii and straights against the survey"),
        );
        1.0
    }

    /// Faults of values that need no geometry.
    pub(crate) fn check(&self, faults: &mut Vec<Fault>) {
        if self.name.trim().is_empty() {
            faults.push(Fault::new(key!["name"], "the track has no name"));
        }
        if let Some(bearing) = self.bearing
            && !(0.0..360.0).contains(&bearing)
        {
            let message = format!("a bearing of {bearing}° is out of range: 0° to 360°, 0° is north");
            faults.push(Fault::new(key!["bearing"], message));
        }
        for (straight, name) in
            [(&self.home_straight, "home_straight"), (&self.back_straight, "back_straight")]
        {
            let chute_m = straight.chute.metres();
            if !(0.0..=200.0).contains(&chute_m) {
                let message = format!("a chute of {chute_m} m is out of range: 0 m to 200 m");
                faults.push(Fault::new(key![name, "chute"], message));
            }
        }
        for (index, hazard) in self.hazards.iter().enumerate() {
            if hazard.on != Course::Oval && hazard.from < hazard.to {
                let message = "the hazard ends before it begins: distances count down to the finish";
                faults
                    .push(Fault::new(key!["hazards", index], message).with_help("exchange `from` and `to`"));
            }
        }
        let tolerances = &self.tolerances;
        for (tolerance, name) in
            [(tolerances.lane_width, "lane_width"), (tolerances.radius, "radius"), (tolerances.tape, "tape")]
        {
            let tolerance_m = tolerance.metres();
            if !(0.0..=1.0).contains(&tolerance_m) {
                let message = format!("a tolerance of {tolerance_m} m is out of range: 0 m to 1 m");
                faults.push(Fault::new(key!["tolerances", name], message));
            }
        }
    }

    /// Faults of values that name a lane which no course has.
    pub(crate) fn check_lanes(&self, most: u8, faults: &mut Vec<Fault>) {
        let mut check = |lanes: &[u8], at: Vec<Key>| {
            for (index, lane) in lanes.iter().enumerate() {
                if !(1..=most).contains(lane) {
                    let at = [at.as_slice(), &[Key::from(index)]].concat();
                    let message = format!("there is no lane {lane}: the track has lanes 1 to {most}");
                    faults.push(Fault::new(at, message));
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
    pub(crate) fn check_own_marks(&self, layout: &Layout, faults: &mut Vec<Fault>) {
        for (index, spec) in self.marks.own.iter().enumerate() {
            for mark in spec.marks(0, &[]).unwrap_or_default() {
                let Rule::BeforeFinish(course, before_m) = mark.rule else { continue };
                let length_m = layout.straight(course).map_or(0.0, |ground| ground.length_m());
                if before_m > length_m {
                    let name = if spec.hurdles.is_some() { "hurdles" } else { "before_finish" };
                    let message = format!(
                        "the mark `{}` lies {before_m} m before the finish, off the {course}: it is {length_m:.2} m long with its chute",
                        mark.name
                    );
                    faults.push(Fault::new(key!["marks", "own", index, name], message));
                    break;
                }
            }
        }
    }

    /// Faults of hazards that do not lie on their course.
    pub(crate) fn check_hazards(&self, layout: &Layout, faults: &mut Vec<Fault>) {
        for (index, hazard) in self.hazards.iter().enumerate() {
            let length_m = match (hazard.on, layout.straight(hazard.on)) {
                (Course::Oval, _) => layout.measure(1).lap_m(),
                (_, Some(ground)) => ground.length_m(),
                (course, None) => {
                    faults
                        .push(Fault::new(key!["hazards", index, "on"], format!("the track has no {course}")));
                    continue;
                }
            };
            for (place, name) in [(hazard.from, "from"), (hazard.to, "to")] {
                let place_m = place.metres();
                if !(0.0..=length_m).contains(&place_m) {
                    let message = format!(
                        "{place_m} m from the finish is not on the {}: 0 m to {length_m:.2} m",
                        hazard.on
                    );
                    faults.push(Fault::new(key!["hazards", index, name], message));
                }
            }
        }
    }

    /// The marks of every set, the track's own marks, less what has worn off.
    pub(crate) fn paint(&self, faults: &mut Vec<Fault>) -> Vec<Mark> {
        let default_sets = vec!["standard".to_owned()];
        let sets = self.marks.sets.as_ref().unwrap_or(&default_sets);
        let mut marks = Vec::new();
        let mut is_every_set_known = true;
        for (index, name) in sets.iter().enumerate() {
            if sets[..index].contains(name) {
                let message = format!("the mark set `{name}` is listed twice");
                faults.push(Fault::new(key!["marks", "sets", index], message).with_help("list it once"));
                continue;
            }
            let Some(set) = MarkSet::built_in_marks(name) else {
                is_every_set_known = false;
                let known: Vec<_> = MarkSet::built_in_names().map(|known| format!("`{known}`")).collect();
                faults.push(
                    Fault::new(key!["marks", "sets", index], format!("there is no mark set `{name}`"))
                        .with_help(format!("write one of {}", known.join(", "))),
                );
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
    fn check_bases(&self, marks: &[Mark], faults: &mut Vec<Fault>) {
        for mark in marks {
            let at = || match self.marks.own.iter().position(|own| own.name == mark.name) {
                Some(index) => key!["marks", "own", index, "from"],
                None => key!["marks"],
            };
            let mut link = mark;
            for _ in 0..=marks.len() {
                let Rule::From(base, _) = &link.rule else { break };
                let Some(next) = marks.iter().find(|other| other.name == *base) else {
                    if !std::ptr::eq(link, mark) {
                        // That is the fault of the mark on the way.
                        break;
                    }
                    let message = format!(
                        "the mark `{}` is placed from `{base}`, which the track does not have",
                        mark.name
                    );
                    let near = nearest_name(base, marks.iter().map(|mark| mark.name.as_str()));
                    faults.push(did_you_mean(Fault::new(at(), message), near));
                    break;
                };
                if next.name == mark.name {
                    let message = format!("the mark `{}` is placed from itself", mark.name);
                    faults.push(Fault::new(at(), message));
                    break;
                }
                link = next;
            }
        }
    }
}

fn did_you_mean(fault: Fault, near: Option<&str>) -> Fault {
    match near {
        Some(near) => fault.with_help(format!("did you mean `{near}`?")),
        None => fault,
    }
}

fn wear_off(marks: &mut [Mark], worn: &WornSpec, index: usize, faults: &mut Vec<Fault>) {
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
        let near = nearest_name(&worn.mark, marks.iter().map(|mark| mark.name.as_str()));
        let fault = Fault::new(
            key!["marks", "worn", index, "mark"],
            format!("the track has no mark `{}` to wear off", worn.mark),
        );
        faults.push(did_you_mean(fault, near));
    }
}

/// The known name most like a wrong one.
pub(crate) fn nearest_name<'a>(wrong: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known
        .map(|name| (strsim::jaro_winkler(&wrong.to_lowercase(), &name.to_lowercase()), name))
        .filter(|(likeness, _)| *likeness > 0.85)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

impl PieceSpec {
    fn piece(&self, inwards_m: f64, index: usize, faults: &mut Vec<Fault>) -> Option<Piece> {
        let before = faults.len();
        let mut within = |value: f64, low: f64, high: f64, name: &str, unit: &str| {
            if !(low..=high).contains(&value) {
                faults.push(Fault::new(
                    key!["path", index, name],
                    format!("a {name} of {value}{unit} is out of range: {low}{unit} to {high}{unit}"),
                ));
            }
            value
        };
        let piece = match (self.straight, self.radius, self.turn) {
            (Some(length), None, None) => {
                let length_m = within(length.metres(), 0.001, 400.0, "straight", " m");
                Piece::Straight(Straight { length_m })
            }
            (None, Some(radius), Some(turn)) => {
                let radius_m = within(radius.metres(), 5.0, 200.0, "radius", " m") - inwards_m;
                let turn_deg = within(turn, 0.001, 360.0, "turn", "°");
                Piece::Arc(Arc { radius_m, turn_rad: turn_deg.to_radians() })
            }
            _ => {
                faults.push(
                    Fault::new(key!["path", index], "a piece of the path is either a straight or an arc")
                        .with_help("write `- straight: 84.39`, or `- { radius: 36.50, turn: 180 }`"),
                );
                return None;
            }
        };
        (faults.len() == before).then_some(piece)
    }
}
