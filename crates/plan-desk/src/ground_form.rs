//! What the form of somebody's own track holds.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the form of somebody's own track holds: each value as it is written, so that what is wrong can be shown where it
/// stands. Lists of numbers are written with commas; an empty value is one that is not given.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct GroundForm {
    /// What the track is called.
    pub name: String,
    /// The time zone of its clocks.
    pub timezone: String,
    /// The compass bearing in which the home straight is run.
    pub bearing: String,
    /// How its shape is given.
    pub shape: Shape,
    /// The radius of both bends of an oval, at the inner edge.
    pub radius: String,
    /// The length of both straights of an oval.
    pub straight: String,
    /// The pieces of the inner edge, where it is no plain oval.
    pub path: Vec<PieceForm>,
    /// What bounds lane 1.
    pub inner_edge: String,
    /// How many lanes the oval has.
    pub lanes: String,
    /// How wide the lanes are: one width, or one for each.
    pub lane_width: String,
    /// The home straight.
    pub home_straight: StraightForm,
    /// The back straight.
    pub back_straight: StraightForm,
    /// The paint.
    pub marks: MarksForm,
    /// The lanes that are closed.
    pub closed_lanes: ClosedForm,
    /// What is not safe.
    pub hazards: Vec<HazardForm>,
    /// The rules of the venue.
    pub house_rules: RulesForm,
}

/// How the shape of a track is given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// Two bends and two straights, each pair alike.
    #[default]
    Oval,
    /// Piece by piece.
    Pieces,
}

/// A piece of the inner edge: a straight, or an arc.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PieceForm {
    /// The length of a straight.
    pub straight: String,
    /// The radius of an arc.
    pub radius: String,
    /// How far an arc turns, in degrees.
    pub turn: String,
}

/// What a straight has beyond the oval.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct StraightForm {
    /// How many lanes it has.
    pub lanes: String,
    /// The length of the chute behind it.
    pub chute: String,
}

/// The paint.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct MarksForm {
    /// The mark sets, the most certain first.
    pub sets: Vec<String>,
    /// What has worn off.
    pub worn: Vec<WornForm>,
}

/// A mark that has worn off.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct WornForm {
    /// Its name.
    pub mark: String,
    /// The lanes where it has gone, if not all.
    pub lanes: String,
}

/// The lanes that are closed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ClosedForm {
    /// The lanes.
    pub lanes: String,
    /// Why they are closed.
    pub reason: String,
}

/// Something that is not safe.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct HazardForm {
    /// What it is.
    pub kind: String,
    /// The course that it lies on.
    pub on: String,
    /// Where it begins, in metres to the finish in lane 1.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// On which side of the lanes it lies.
    pub side: String,
    /// The lanes in which nobody may stand there, if not all.
    pub lanes: String,
    /// When it is in use, if not always.
    pub hours: String,
    /// Anything else to say of it.
    pub note: String,
}

/// The rules of a venue.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct RulesForm {
    /// Which lanes are for what.
    pub lanes: Vec<LaneRuleForm>,
    /// Which way straights are run.
    pub direction: String,
    /// Whether the infield may be crossed.
    pub infield_crossing: String,
    /// Other rules, one a line.
    pub notes: String,
}

/// Which lanes are for what.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LaneRuleForm {
    /// What is done.
    pub of: String,
    /// Over more than this, in metres.
    pub over: String,
    /// From this on, in metres.
    pub from: String,
    /// Up to this, in metres.
    pub up_to: String,
    /// The lanes.
    pub lanes: String,
    /// Where.
    pub on: String,
}

/// A change of a list in the form, which a button of it asks for.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum GroundEdit {
    /// Adds an item to the list of this name.
    Add(String),
    /// Removes the item of this name, such as `hazards.2`.
    Remove(String),
}

impl GroundForm {
    /// Changes a list; a list or an item that is not there changes nothing.
    pub(crate) fn edit(&mut self, edit: &GroundEdit) {
        match edit {
            GroundEdit::Add(list) => match list.as_str() {
                "path" => self.path.push(PieceForm::default()),
                "marks.worn" => self.marks.worn.push(WornForm::default()),
                "hazards" => self.hazards.push(HazardForm::new()),
                "house_rules.lanes" => self.house_rules.lanes.push(LaneRuleForm::new()),
                _ => {}
            },
            GroundEdit::Remove(item) => {
                let Some((list, place)) = item.rsplit_once('.') else { return };
                let Ok(place) = place.parse::<usize>() else { return };
                match list {
                    "path" => remove(&mut self.path, place),
                    "marks.worn" => remove(&mut self.marks.worn, place),
                    "hazards" => remove(&mut self.hazards, place),
                    "house_rules.lanes" => remove(&mut self.house_rules.lanes, place),
                    _ => {}
                }
            }
        }
    }

    /// Gives the shape in one way alone: what the other way had is carried over.
    pub(crate) fn settle(&mut self) {
        let bend = |radius: &str| PieceForm {
            radius: radius.to_owned(),
            turn: "180".to_owned(),
            ..PieceForm::default()
        };
        match self.shape {
            Shape::Oval => {
                let first = |value: fn(&PieceForm) -> &String| {
                    self.path.iter().map(value).find(|value| !value.is_empty()).cloned().unwrap_or_default()
                };
                let (radius, straight) = (first(|piece| &piece.radius), first(|piece| &piece.straight));
                if self.radius.is_empty() && self.straight.is_empty() {
                    (self.radius, self.straight) = (radius, straight);
                }
                self.path.clear();
            }
            Shape::Pieces => {
                if self.path.is_empty() {
                    let straight = PieceForm { straight: self.straight.clone(), ..PieceForm::default() };
                    let half = [bend(&self.radius), straight];
                    self.path = [half.as_slice(), &half].concat();
                }
                self.radius.clear();
                self.straight.clear();
            }
        }
    }
}

fn remove<T>(list: &mut Vec<T>, place: usize) {
    if place < list.len() {
        list.remove(place);
    }
}

impl HazardForm {
    /// One that is to be written.
    fn new() -> Self {
        let [kind, on, side] = ["gate", "oval", "outside"].map(str::to_owned);
        Self { kind, on, side, ..Self::default() }
    }
}

impl LaneRuleForm {
    /// One that is to be written.
    fn new() -> Self {
        let [of, on] = ["runs", "track"].map(str::to_owned);
        Self { of, on, ..Self::default() }
    }
}
