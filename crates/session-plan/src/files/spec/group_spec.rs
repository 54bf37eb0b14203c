//! Training groups and athletes, as session files write them.

use std::collections::BTreeMap;

use lane_distance::Key;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

use crate::files::file_fault::FileFaultKind;
use crate::files::limit::Limit;
use crate::files::spec::block_spec::{BlockSpec, blocks_schema};
use crate::files::spec::quantities::{Name, RaceDistance, Time};
use crate::people::age_group::AgeGroup;
use crate::people::bests::Bests;
use crate::people::session::Athlete;
use crate::people::session_changes::is_called;
use crate::people::time_of_day::TimeOfDay;

/// Best times by race distance.
pub(crate) type BestsSpec = BTreeMap<RaceDistance, Time>;

/// A training group.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GroupSpec {
    /// What it is called.
    #[schemars(extend("maxLength" = Limit::NameLetters.most()))]
    pub(crate) name: String,
    /// Who belongs to it: names, or more about each.
    #[serde(default)]
    #[schemars(schema_with = "athletes")]
    pub(crate) athletes: Vec<AthleteSpec>,
    /// Their age group, if not the one in their name, for times that are estimated where there are neither targets nor bests.
    #[serde(default)]
    pub(crate) age: Option<AgeGroup>,
    /// Best times by race distance, for those of the group who have none of their own.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BestsSpec,
    /// The lanes that it runs in where a block names none.
    #[serde(default)]
    pub(crate) lanes: Option<Vec<u8>>,
    /// When it begins, where that is later than the others and is planned so, such as 18:20.
    #[serde(default)]
    pub(crate) start: Option<TimeOfDay>,
    /// When it begins, where it comes later than was planned, such as 18:20.
    #[serde(default)]
    pub(crate) late: Option<TimeOfDay>,
    /// Its relay teams for exchange zones, such as [[Ada, Bea], [Cyd, Dan]]: in a team each hands to the next, in turn.
    /// Those who are in none are paired in their order, and hand on both ways.
    #[serde(default)]
    pub(crate) relay: Vec<Vec<Name>>,
    /// Its own blocks; those of the session unless given.
    #[serde(default)]
    #[schemars(schema_with = "blocks_schema")]
    pub(crate) blocks: Option<Vec<BlockSpec>>,
}

/// An athlete. The name alone, or a number, will do in a file.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "Athlete", deny_unknown_fields)]
pub(crate) struct AthleteSpec {
    /// The name.
    pub(crate) name: Name,
    /// The age group, if not that of the group.
    #[serde(default)]
    pub(crate) age: Option<AgeGroup>,
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
    let name = generator.subschema_for::<Name>();
    let athlete = generator.subschema_for::<AthleteSpec>();
    json_schema!({
        "type": "array",
        "maxItems": Limit::Athletes.most(),
        "items": { "anyOf": [name, athlete] }
    })
}

/// Best times, carried to other distances by an exponent.
pub(crate) fn bests(times: &BestsSpec, exponent: f64) -> Bests {
    Bests::new(times.iter().map(|(distance, time)| (distance.0, time.0)).collect(), exponent)
}

impl GroupSpec {
    /// Its relay teams, by the names that its athletes are written with.
    pub(crate) fn relay(&self) -> Vec<Vec<String>> {
        let team = |team: &Vec<Name>| team.iter().filter_map(|name| self.called(name)).collect();
        self.relay.iter().map(team).collect()
    }

    /// The athlete of a name: as it is written, else whatever its capitals.
    fn called(&self, Name(name): &Name) -> Option<String> {
        let names = || self.athletes.iter().map(|athlete| &athlete.name.0);
        let exact = names().find(|known| *known == name);
        exact.or_else(|| names().find(|known| is_called(known, name))).cloned()
    }

    /// What is wrong with its relay teams, `at` the keys that lead to it.
    pub(crate) fn relay_faults(&self, at: &[Key]) -> Vec<(Vec<Key>, FileFaultKind)> {
        let mut faults = Vec::new();
        let mut others: Vec<String> = Vec::new();
        for (team, names) in self.relay.iter().enumerate() {
            let at = [at, &[Key::from("relay"), Key::from(team)]].concat();
            let mut fault = |place: usize, kind| {
                faults.push(([at.as_slice(), &[Key::from(place)]].concat(), kind));
            };
            let mut own: Vec<String> = Vec::new();
            for (place, name) in names.iter().enumerate() {
                let Some(known) = self.called(name) else {
                    let names = self.athletes.iter().map(|athlete| athlete.name.0.clone()).collect();
                    let (name, group) = (name.0.clone(), self.name.clone());
                    fault(place, FileFaultKind::NotInGroup { name, group, names });
                    continue;
                };
                if own.last() == Some(&known) {
                    fault(place, FileFaultKind::HandsToOneself(known.clone()));
                } else if others.contains(&known) {
                    fault(place, FileFaultKind::InTwoTeams(known.clone()));
                }
                own.push(known);
            }
            if names.len() < 2 {
                faults.push((at, FileFaultKind::TeamOfOne(names.first().map(|name| name.0.clone()))));
            }
            others.extend(own);
        }
        faults
    }
}

impl AthleteSpec {
    pub(crate) fn athlete(&self, exponent: f64) -> Athlete {
        Athlete {
            name: self.name.0.clone(),
            age: self.age,
            bests: bests(&self.bests, exponent),
            target_s: self.target.map(|target| target.0),
            targets: self.targets.iter().map(|(distance, time)| (distance.0, time.0)).collect(),
            lanes: self.lanes.clone(),
            reps: self.reps.map(u32::from),
            guide: self.guide.as_ref().map(|guide| guide.0.clone()),
        }
    }
}
