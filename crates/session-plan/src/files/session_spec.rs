//! The contents of a session file, as written.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;

use chrono::{Datelike, NaiveDate};
use lane_distance::Key;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;
use serde::de::{self, Deserializer, MapAccess, Visitor};

use crate::files::fault::Fault;
use crate::files::quantities::{RaceDistance, Time};
use crate::files::squad_spec::SquadSpec;
use crate::people::bests::{Bests, RIEGEL_EXPONENT};
use crate::people::hours::Hours;
use crate::people::session::{Athlete, Group, Session};
use crate::plan::pairing::Prefer;
use workout_notation::Block;

/// A session file.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SessionSpec {
    /// What the session is called.
    pub(crate) title: String,
    /// The day, such as 2027-04-13.
    #[serde(default)]
    pub(crate) date: Option<NaiveDate>,
    /// The booking, such as 18:00-19:30.
    #[serde(default)]
    pub(crate) hours: Option<Hours>,
    /// A built-in track, or a track file beside this one.
    #[serde(default)]
    pub(crate) track: Option<String>,
    /// Lanes that are closed besides those that are closed on the track.
    #[serde(default)]
    pub(crate) closed_lanes: Vec<u8>,
    /// The wind, in words.
    #[serde(default)]
    pub(crate) wind: Option<String>,
    /// Which starts and finishes are wanted most.
    #[serde(default)]
    pub(crate) prefer: Prefer,
    /// The walker's stride, in metres, for those who set out without a tape.
    #[serde(default)]
    pub(crate) stride: Option<f64>,
    /// The break between two blocks.
    #[serde(default)]
    pub(crate) between_blocks: Option<Time>,
    /// Best times by race distance, for targets.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BTreeMap<Distance, Time>,
    /// Riegel's exponent, by which bests are carried to other distances.
    #[serde(default)]
    pub(crate) riegel_exponent: Option<f64>,
    /// How squads share lanes and time.
    #[serde(default)]
    pub(crate) squad: SquadSpec,
    /// Anything else for the sheet.
    #[serde(default)]
    pub(crate) notes: Vec<String>,
    /// The training groups.
    #[serde(default)]
    pub(crate) groups: Vec<GroupSpec>,
    /// What is done, a line of the notation each.
    #[serde(default)]
    pub(crate) blocks: Vec<BlockText>,
}

/// A distance that orders, as keys must.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(transparent)]
pub(crate) struct Distance(RaceDistance);

impl PartialOrd for Distance {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Eq for Distance {}

impl Ord for Distance {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.0.total_cmp(&other.0.0)
    }
}

/// A training group.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GroupSpec {
    /// What it is called.
    pub(crate) name: String,
    /// Who belongs to it: names, or mappings with more about each.
    #[serde(default)]
    pub(crate) athletes: Vec<AthleteSpec>,
    /// Bests that stand for the whole group.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BTreeMap<Distance, Time>,
    /// The lanes that it runs in where a block names none.
    #[serde(default)]
    pub(crate) lanes: Option<Vec<u8>>,
    /// Its own blocks; those of the session unless given.
    #[serde(default)]
    pub(crate) blocks: Option<Vec<BlockText>>,
}

/// Somebody who trains.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct AthleteSpec(NamedAthlete);

/// Somebody who trains, with more than the name.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct NamedAthlete {
    /// The name.
    pub(crate) name: String,
    /// Best times by race distance.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BTreeMap<Distance, Time>,
    /// The target of each run, where the athlete has one of their own.
    #[serde(default)]
    pub(crate) target: Option<Time>,
    /// The lanes that the athlete may run in, if not all.
    #[serde(default)]
    pub(crate) lanes: Option<Vec<u8>>,
}

impl JsonSchema for AthleteSpec {
    fn schema_name() -> Cow<'static, str> {
        "Athlete".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "Somebody who trains: the name or number, or a mapping with more than the name.",
            "anyOf": [{ "type": ["string", "integer"] }, generator.subschema_for::<NamedAthlete>()]
        })
    }
}

impl<'de> Deserialize<'de> for AthleteSpec {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader;

        impl<'de> Visitor<'de> for Reader {
            type Value = AthleteSpec;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("the name or number of an athlete, or a mapping with `name`")
            }

            fn visit_str<E: de::Error>(self, name: &str) -> Result<AthleteSpec, E> {
                let name = name.to_owned();
                Ok(AthleteSpec(NamedAthlete { name, bests: BTreeMap::new(), target: None, lanes: None }))
            }

            fn visit_u64<E: de::Error>(self, number: u64) -> Result<AthleteSpec, E> {
                self.visit_str(&number.to_string())
            }

            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<AthleteSpec, A::Error> {
                NamedAthlete::deserialize(de::value::MapAccessDeserializer::new(map)).map(AthleteSpec)
            }
        }

        deserializer.deserialize_any(Reader)
    }
}

/// The text of a block; a number alone is a distance, and YAML does not call that text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct BlockText(String);

impl JsonSchema for BlockText {
    fn schema_name() -> Cow<'static, str> {
        "Block".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A line of the notation, such as 6 x 200 in lane 2.",
            "type": ["string", "number"]
        })
    }
}

impl<'de> Deserialize<'de> for BlockText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader;

        impl Visitor<'_> for Reader {
            type Value = BlockText;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a string")
            }

            fn visit_u64<E: de::Error>(self, value: u64) -> Result<BlockText, E> {
                Ok(BlockText(value.to_string()))
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<BlockText, E> {
                Ok(BlockText(value.to_string()))
            }

            fn visit_str<E: de::Error>(self, value: &str) -> Result<BlockText, E> {
                Ok(BlockText(value.to_owned()))
            }
        }

        deserializer.deserialize_any(Reader)
    }
}

/// What is wrong with a block: the way to it, its text, and the problem in that text.
pub(crate) type BlockProblem = (Vec<Key>, String, workout_notation::Problem);

impl SessionSpec {
    /// The session that is described.
    pub(crate) fn session(&self) -> (Session, Vec<Fault>, Vec<BlockProblem>) {
        let mut faults = self.faults();
        let mut problems = Vec::new();
        let exponent = self.riegel_exponent.unwrap_or(RIEGEL_EXPONENT);
        let blocks = read_blocks(&self.blocks, &[], &mut problems);
        let groups = self.groups.iter().enumerate().map(|(index, group)| {
            let at = [Key::from("groups"), Key::from(index)];
            Group {
                name: group.name.clone(),
                athletes: group.athletes.iter().map(|athlete| athlete.athlete(exponent)).collect(),
                bests: bests(&group.bests, exponent),
                lanes: group.lanes.clone(),
                blocks: group.blocks.as_ref().map(|blocks| read_blocks(blocks, &at, &mut problems)),
            }
        });
        let groups = groups.collect();
        let has_own_blocks =
            !self.groups.is_empty() && self.groups.iter().all(|group| group.blocks.is_some());
        if self.blocks.is_empty() && !has_own_blocks {
            faults.push(
                Fault::new(vec![Key::from("blocks")], "the session has no blocks")
                    .with_help("write for example `- 6 x 200 in lane 2` below `blocks:`"),
            );
        }
        let session = Session {
            title: self.title.clone(),
            date: self.date,
            hours: self.hours,
            blocks,
            groups,
            squad: self.squad.rules(),
            bests: bests(&self.bests, exponent),
            prefer: self.prefer,
            stride_m: self.stride,
            between_blocks_s: self.between_blocks.map(|time| time.0),
            wind: self.wind.clone().filter(|wind| !is_blank(wind)),
            // An empty item is a line begun and left, and says nothing.
            notes: self.notes.iter().filter(|note| !is_blank(note)).cloned().collect(),
        };
        (session, faults, problems)
    }

    fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut range = |value: Option<f64>, low: f64, high: f64, name: &str, what: &str| {
            if let Some(value) = value.filter(|value| !(low..=high).contains(value)) {
                let message = format!("{what} of {value} is out of range: {low} to {high}");
                faults.push(Fault::new(vec![Key::from(name)], message));
            }
        };
        range(self.stride, 0.3, 2.0, "stride", "a stride in metres");
        range(self.riegel_exponent, 1.0, 1.3, "riegel_exponent", "an exponent");
        // Calendars and pages write a year in four digits; what is earlier is a slip of the pen.
        if let Some(date) = self.date.filter(|date| !(1900..=9999).contains(&date.year())) {
            let message = format!("the year {} is out of range: 1900 to 9999", date.year());
            let fault = Fault::new(vec![Key::from("date")], message);
            faults.push(fault.with_help("write for example `date: 2027-04-13`"));
        }
        if is_blank(&self.title) {
            let fault = Fault::new(vec![Key::from("title")], "the session's title is empty");
            faults.push(fault.with_help("write for example `title: Tuesday`"));
        }
        let mut names: Vec<&str> = Vec::new();
        for (index, group) in self.groups.iter().enumerate() {
            if is_blank(&group.name) {
                let at = vec![Key::from("groups"), Key::from(index), Key::from("name")];
                faults.push(
                    Fault::new(at, "a group's name is empty")
                        .with_help("write for example `name: sprinters`"),
                );
            }
            for (place, AthleteSpec(athlete)) in group.athletes.iter().enumerate() {
                if is_blank(&athlete.name) {
                    let at = [Key::from("groups"), Key::from(index), Key::from("athletes"), Key::from(place)];
                    let fault = Fault::new(at.to_vec(), "an athlete's name is empty");
                    faults.push(fault.with_help("write for example `Ada`, or a number such as `7`"));
                    continue;
                }
                if names.contains(&athlete.name.as_str()) {
                    let at = [Key::from("groups"), Key::from(index), Key::from("athletes"), Key::from(place)];
                    let message = format!("two athletes are called `{}`", athlete.name);
                    faults.push(
                        Fault::new(at.to_vec(), message).with_help("add an initial to one of the names"),
                    );
                }
                names.push(&athlete.name);
            }
            if self.groups[..index].iter().any(|other| other.name == group.name) {
                let at = vec![Key::from("groups"), Key::from(index), Key::from("name")];
                faults.push(Fault::new(at, format!("two groups are called `{}`", group.name)));
            }
        }
        faults
    }
}

fn is_blank(text: &str) -> bool {
    text.trim().is_empty()
}

impl AthleteSpec {
    fn athlete(&self, exponent: f64) -> Athlete {
        let Self(athlete) = self;
        Athlete {
            name: athlete.name.clone(),
            bests: bests(&athlete.bests, exponent),
            target_s: athlete.target.map(|target| target.0),
            lanes: athlete.lanes.clone(),
        }
    }
}

fn bests(times: &BTreeMap<Distance, Time>, exponent: f64) -> Bests {
    Bests::new(times.iter().map(|(distance, time)| (distance.0.0, time.0)).collect(), exponent)
}

fn read_blocks(texts: &[BlockText], within: &[Key], problems: &mut Vec<BlockProblem>) -> Vec<Block> {
    let mut blocks = Vec::with_capacity(texts.len());
    for (index, BlockText(text)) in texts.iter().enumerate() {
        match Block::parse(text) {
            Ok(block) => blocks.push(block),
            Err(wrong) => {
                let at = [within, &[Key::from("blocks"), Key::from(index)]].concat();
                problems.extend(wrong.into_iter().map(|problem| (at.clone(), text.clone(), problem)));
            }
        }
    }
    blocks
}
