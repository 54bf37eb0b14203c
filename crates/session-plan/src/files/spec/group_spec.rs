//! Training groups and athletes, as session files write them.

use std::collections::BTreeMap;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

use crate::files::spec::quantities::{BlockText, Name, RaceDistance, Time};
use crate::people::bests::Bests;
use crate::people::session::Athlete;
use crate::people::time_of_day::TimeOfDay;

/// Best times by race distance.
pub(crate) type BestsSpec = BTreeMap<RaceDistance, Time>;

/// A training group.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GroupSpec {
    /// What it is called.
    pub(crate) name: String,
    /// Who belongs to it: names, or more about each.
    #[serde(default)]
    #[schemars(schema_with = "athletes")]
    pub(crate) athletes: Vec<AthleteSpec>,
    /// Best times by race distance, for those of the group who have none of their own.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BestsSpec,
    /// The lanes that it runs in where a block names none.
    #[serde(default)]
    pub(crate) lanes: Option<Vec<u8>>,
    /// When it begins, where it comes later than the others, such as 18:20.
    #[serde(default)]
    pub(crate) late: Option<TimeOfDay>,
    /// Its own blocks; those of the session unless given.
    #[serde(default)]
    pub(crate) blocks: Option<Vec<BlockText>>,
}

/// An athlete. The name alone, or a number, will do in a file.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "Athlete", deny_unknown_fields)]
pub(crate) struct AthleteSpec {
    /// The name.
    pub(crate) name: Name,
    /// Best times by race distance.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BestsSpec,
    /// The target of each run of a block whose runs are all alike, where the athlete has one of their own.
    #[serde(default)]
    pub(crate) target: Option<Time>,
    /// Targets by distance, for flat runs that their block gives no pace.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) targets: BestsSpec,
    /// The lanes that the athlete may run in, if not all.
    #[serde(default)]
    pub(crate) lanes: Option<Vec<u8>>,
    /// How many repetitions of each block the athlete does, if not all.
    #[serde(default)]
    pub(crate) reps: Option<u8>,
    /// Who guides the athlete, in the next lane on the outside.
    #[serde(default)]
    pub(crate) guide: Option<Name>,
}

fn athletes(generator: &mut SchemaGenerator) -> Schema {
    let athlete = generator.subschema_for::<AthleteSpec>();
    json_schema!({ "type": "array", "items": { "anyOf": [{ "type": ["string", "integer"] }, athlete] } })
}

/// Best times, carried to other distances by an exponent.
pub(crate) fn bests(times: &BestsSpec, exponent: f64) -> Bests {
    Bests::new(times.iter().map(|(distance, time)| (distance.0, time.0)).collect(), exponent)
}

impl AthleteSpec {
    pub(crate) fn athlete(&self, exponent: f64) -> Athlete {
        Athlete {
            name: self.name.0.clone(),
            bests: bests(&self.bests, exponent),
            target_s: self.target.map(|target| target.0),
            targets: self.targets.iter().map(|(distance, time)| (distance.0, time.0)).collect(),
            lanes: self.lanes.clone(),
            reps: self.reps.map(u32::from),
            guide: self.guide.as_ref().map(|guide| guide.0.clone()),
        }
    }
}
