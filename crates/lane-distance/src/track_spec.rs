//! The description of a track, as its file gives it.

use serde::Deserialize;

use crate::arc::Arc;
use crate::fault::{Fault, Key, key};
use crate::lane::{InnerEdge, MOST_LANES};
use crate::length::Length;
use crate::mark::{Mark, Worn};
use crate::mark_set::{MarkSet, MarkSpec, OneOrMany};
use crate::path::Path;
use crate::straight::Straight;
use crate::stretch::Piece;

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
    /// Lanes closed to training.
    #[serde(default)]
    pub closed_lanes: Vec<u8>,
    /// The paint.
    #[serde(default)]
    pub marks: MarksSpec,
}

/// A piece of the path: either `straight`, or `radius` and `turn`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
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

    /// The width of each lane of the widest course, in metres.
    pub(crate) fn widths_m(&self, faults: &mut Vec<Fault>) -> Vec<f64> {
        let mut count = |lanes: u8, least: u8, at: Vec<Key>| {
            if !(least..=MOST_LANES).contains(&lanes) {
                faults.push(Fault::new(
                    at,
                    format!("{lanes} lanes are out of range: a track has {least} to {MOST_LANES}"),
                ));
            }
            lanes.clamp(least, MOST_LANES)
        };
        let most = [
            count(self.lanes, 1, key!["lanes"]),
            count(self.home_straight.lanes.unwrap_or(self.lanes), 1, key!["home_straight", "lanes"]),
            count(self.back_straight.lanes.unwrap_or(self.lanes), 1, key!["back_straight", "lanes"]),
        ]
        .into_iter()
        .fold(1, u8::max);
        let widths: Vec<f64> = match &self.lane_width {
            OneOrMany::One(width) => vec![width.metres(); most.into()],
            OneOrMany::Many(widths) => widths.iter().map(|width| width.metres()).collect(),
        };
        if widths.len() != usize::from(most) {
            faults.push(
                Fault::new(
                    key!["lane_width"],
                    format!("{} lane widths are given for {most} lanes", widths.len()),
                )
                .with_help("give one width for all lanes, or one for each lane from lane 1 outwards"),
            );
        }
        for (index, width) in widths.iter().enumerate() {
            if !(0.5..=3.0).contains(width) {
                let at = match self.lane_width {
                    OneOrMany::One(_) => key!["lane_width"],
                    OneOrMany::Many(_) => key!["lane_width", index],
                };
                faults
                    .push(Fault::new(at, format!("a lane width of {width} m is out of range: 0.5 m to 3 m")));
                break;
            }
        }
        widths
    }

    /// The marks of every set, the track's own marks, less what has worn off.
    pub(crate) fn paint(&self, faults: &mut Vec<Fault>) -> Vec<Mark> {
        let default_sets = vec!["standard".to_owned()];
        let sets = self.marks.sets.as_ref().unwrap_or(&default_sets);
        let mut marks = Vec::new();
        for (index, name) in sets.iter().enumerate() {
            let Some(set) = MarkSet::built_in(name) else {
                let known: Vec<_> = MarkSet::built_in_names().map(|known| format!("`{known}`")).collect();
                faults.push(
                    Fault::new(key!["marks", "sets", index], format!("there is no mark set `{name}`"))
                        .with_help(format!("write one of {}", known.join(", "))),
                );
                continue;
            };
            let at = key!["marks", "sets", index];
            for spec in &set.marks {
                match spec.marks(index as u8, &at) {
                    Ok(more) => marks.extend(more),
                    Err(more) => faults.extend(more),
                }
            }
        }
        for (index, spec) in self.marks.own.iter().enumerate() {
            // The track's own paint is the surest of all: somebody looked at it.
            let at = key!["marks", "own", index];
            match spec.marks(0, &at) {
                Ok(more) => marks.extend(more),
                Err(more) => faults.extend(more),
            }
        }
        for (index, worn) in self.marks.worn.iter().enumerate() {
            wear_off(&mut marks, worn, index, faults);
        }
        marks
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
        faults.push(match near {
            Some(near) => fault.with_help(format!("did you mean `{near}`?")),
            None => fault,
        });
    }
}

/// The known name most like a wrong one.
pub(crate) fn nearest_name<'a>(wrong: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known
        .map(|name| (strsim::jaro_winkler(&wrong.to_lowercase(), &name.to_lowercase()), name))
        .filter(|(likeness, _)| *likeness > 0.7)
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
