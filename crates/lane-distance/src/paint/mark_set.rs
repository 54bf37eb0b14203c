//! Sets of marks as data.
//!
//! A mark set is a YAML file under `marks/`; it is carried inside the crate. Rules are data: a new
//! set needs no code.

use std::sync::OnceLock;

use serde::Deserialize;

use crate::geometry::course::Course;
use crate::geometry::length::Length;
use crate::paint::mark::{Form, Hurdles, Mark, Rule, Worn};
use crate::track::key::Key;
use crate::track::one_or_many::OneOrMany;
use crate::track::track_fault::{Quantity, TrackFault, TrackFaultKind};

/// The sets that come with the crate: name and YAML text.
const BUILT_IN: [(&str, &str); 7] = [
    ("standard", include_str!("../../marks/standard.yaml")),
    ("club lines", include_str!("../../marks/club-lines.yaml")),
    ("age-group hurdles", include_str!("../../marks/age-group-hurdles.yaml")),
    ("300 m hurdles", include_str!("../../marks/hurdles-300.yaml")),
    ("former takeover zones", include_str!("../../marks/former-takeover-zones.yaml")),
    ("small oval", include_str!("../../marks/small-oval.yaml")),
    ("yards", include_str!("../../marks/yards.yaml")),
];

/// A list of marks, with where they were published.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkSet {
    /// What a track file calls the set.
    pub set: String,
    /// Where the values were published, and whether they were read from a copy or from memory.
    pub source: String,
    /// The marks.
    pub marks: Vec<MarkSpec>,
}

impl MarkSet {
    /// The names of the sets that come with the crate.
    pub fn built_in_names() -> impl Iterator<Item = &'static str> {
        BUILT_IN.iter().map(|(name, _)| *name)
    }

    /// A set that comes with the crate.
    ///
    /// ```
    /// let set = lane_distance::MarkSet::built_in("standard").expect("it comes with the crate");
    /// assert_eq!(set.marks[0].name, "finish line");
    /// ```
    pub fn built_in(name: &str) -> Option<&'static Self> {
        Some(&built_in(name)?.0)
    }

    /// The marks of a set that comes with the crate, as if it were listed first.
    pub(crate) fn built_in_marks(name: &str) -> Option<&'static [Mark]> {
        Some(&built_in(name)?.1)
    }
}

/// A set that comes with the crate and its marks, read once, when it is first asked for.
fn built_in(name: &str) -> Option<&'static (MarkSet, Vec<Mark>)> {
    type Read = Option<(MarkSet, Vec<Mark>)>;
    static READ: [OnceLock<Read>; BUILT_IN.len()] = [const { OnceLock::new() }; BUILT_IN.len()];
    let index = BUILT_IN.iter().position(|(known, _)| *known == name)?;
    let read = || {
        // A set that does not parse never leaves the crate: a test reads every one.
        let set: MarkSet = serde_yaml::from_str(BUILT_IN[index].1).ok()?;
        let marks = set.marks.iter().map(|spec| spec.marks(0, &[])).collect::<Result<Vec<_>, _>>().ok()?;
        Some((set, marks.concat()))
    };
    READ[index].get_or_init(read).as_ref()
}

/// A place that is known without a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Station {
    /// Where the first bend after the finish line ends.
    #[serde(rename = "end of the first bend")]
    EndOfFirstBend,
}

/// A mark, or a row of them, as written in a mark set or a track file. Exactly one of the rules
/// `to_finish`, `before_finish`, `hurdles`, `across`, `curve`, `at`, `from` and `race` places it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MarkSpec {
    /// The name used in the trade. In a row, `{n}` stands for 1, 2, 3 and `{nth}` for first, second.
    pub name: String,
    /// How a walker would call it; may hold `{n}` and `{nth}` too.
    #[serde(default)]
    pub called: Option<String>,
    /// Its colour.
    pub colour: String,
    /// Its shape on the ground.
    pub form: Form,
    /// What it was painted for.
    #[serde(default, rename = "for")]
    pub purpose: String,
    /// Why it misleads someone who trains.
    #[serde(default)]
    pub trap: Option<String>,
    /// The first lane in which it misleads.
    #[serde(default)]
    pub trap_from_lane: Option<u8>,
    /// The lanes in which it is painted; every lane of its course unless given.
    #[serde(default)]
    pub lanes: Option<Vec<u8>>,
    /// The straight of `before_finish` or `hurdles`; hurdles without it are on the oval, and
    /// `before_finish` without it is on the home straight.
    #[serde(default)]
    pub on: Option<Course>,
    /// Rule: distance to the finish along the lane, on the oval.
    #[serde(default)]
    pub to_finish: Option<OneOrMany<Length>>,
    /// Rule: distance before the finish of a straight.
    #[serde(default)]
    pub before_finish: Option<OneOrMany<Length>>,
    /// Rule: one mark at each hurdle of a race.
    #[serde(default)]
    pub hurdles: Option<Hurdles>,
    /// Rule: square across all lanes, this far from the finish in lane 1; negative is past it.
    #[serde(default)]
    pub across: Option<OneOrMany<Length>>,
    /// Rule: curved across all lanes, this far from the finish in lane 1.
    #[serde(default)]
    pub curve: Option<Length>,
    /// Rule: square across all lanes at a place known by name.
    #[serde(default)]
    pub at: Option<Station>,
    /// Rule: from another mark, `past` metres past it.
    #[serde(default)]
    pub from: Option<String>,
    /// With `from`: metres past that mark; negative is behind it.
    #[serde(default)]
    pub past: Option<Length>,
    /// Rule: the start of a race of this length that breaks after `bends` bends in lanes.
    #[serde(default)]
    pub race: Option<Length>,
    /// With `race`: how many bends are run in lanes, 1 or 3.
    #[serde(default)]
    pub bends: Option<u8>,
}

impl MarkSpec {
    /// The marks that this row describes.
    ///
    /// `set` is the place of its set in the track's list, `at` the way to the row for faults.
    ///
    /// # Errors
    ///
    /// [`TrackFault`] where there is no rule, more than one, or one with a value out of range.
    pub fn marks(&self, set: u8, at: &[Key]) -> Result<Vec<Mark>, Vec<TrackFault>> {
        let rules = self.rules(at)?;
        let row = rules.len() > 1 || self.name.contains('{');
        Ok((1..)
            .zip(rules)
            .map(|(n, rule)| {
                let fill = |text: &String| if row { filled(text, n) } else { text.clone() };
                Mark {
                    name: fill(&self.name),
                    called: self.called.as_ref().map(fill),
                    colour: self.colour.clone(),
                    form: self.form,
                    purpose: fill(&self.purpose),
                    trap: self.trap.clone().map(|why| (self.trap_from_lane.unwrap_or(1), why)),
                    set,
                    lanes: self.lanes.clone(),
                    worn: Worn::Nowhere,
                    rule,
                }
            })
            .collect())
    }

    /// Faults of values that mean nothing without another one.
    fn check_partners(&self, within: &dyn Fn(&str) -> Vec<Key>, faults: &mut Vec<TrackFault>) {
        let on_straight = self.before_finish.is_some() || self.hurdles.is_some();
        let partners: [(bool, &str, bool, &[&str]); 4] = [
            (self.on.is_some(), "on", on_straight, &["before_finish", "hurdles"]),
            (self.past.is_some(), "past", self.from.is_some(), &["from"]),
            (self.bends.is_some(), "bends", self.race.is_some(), &["race"]),
            (self.trap_from_lane.is_some(), "trap_from_lane", self.trap.is_some(), &["trap"]),
        ];
        for (is_given, key, has_partner, partners) in partners {
            if is_given && !has_partner {
                let kind = TrackFaultKind::NeedsPartner { mark: self.name.clone(), key, partners };
                faults.push(TrackFault::new(within(key), kind));
            }
        }
    }

    fn rules(&self, at: &[Key]) -> Result<Vec<Rule>, Vec<TrackFault>> {
        let mut found: Vec<(&'static str, Vec<Rule>)> = Vec::new();
        let mut faults = Vec::new();
        let within = |name: &str| [at, &[Key::from(name)]].concat();
        if let Some(lengths) = &self.to_finish {
            let rules = lengths.as_slice().iter().map(|length| Rule::ToFinish(length.metres()));
            found.push(("to_finish", rules.collect()));
        }
        if let Some(lengths) = &self.before_finish {
            let course = self.on.unwrap_or(Course::HomeStraight);
            let rules = lengths.as_slice().iter().map(|length| Rule::BeforeFinish(course, length.metres()));
            found.push(("before_finish", rules.collect()));
            if course == Course::Oval {
                faults.push(TrackFault::new(within("on"), TrackFaultKind::BeforeFinishOnOval));
            }
        }
        if let Some(hurdles) = &self.hurdles {
            let course = self.on.unwrap_or(Course::Oval);
            let rules = hurdles.to_finish_m().map(|to_finish_m| match course {
                Course::Oval => Rule::ToFinish(to_finish_m),
                straight => Rule::BeforeFinish(straight, to_finish_m),
            });
            found.push(("hurdles", rules.collect()));
        }
        if let Some(lengths) = &self.across {
            found.push((
                "across",
                lengths.as_slice().iter().map(|length| Rule::Across(length.metres())).collect(),
            ));
        }
        if let Some(length) = self.curve {
            found.push(("curve", vec![Rule::Curve(length.metres())]));
        }
        if let Some(Station::EndOfFirstBend) = self.at {
            found.push(("at", vec![Rule::EndOfFirstBend]));
        }
        if let Some(mark) = &self.from {
            let past = self.past.unwrap_or_default().metres();
            found.push(("from", vec![Rule::From(mark.clone(), past)]));
        }
        if let Some(race) = self.race {
            let bends = self.bends.unwrap_or(1);
            if bends != 1 && bends != 3 {
                faults.push(TrackFault::new(within("bends"), TrackFaultKind::Bends(bends)));
            }
            found.push(("race", vec![Rule::AfterBreak { race_m: race.metres(), bends }]));
        }
        self.check_partners(&within, &mut faults);
        let mark = || self.name.clone();
        for &(rule, ref rules) in &found {
            if rules.is_empty() {
                faults.push(TrackFault::new(within(rule), TrackFaultKind::EmptyRule { mark: mark(), rule }));
            }
            // Of a row of marks, the first that is out of range stands for all.
            faults.extend(rules.iter().find_map(|placed| {
                let (length_m, least_m) = match *placed {
                    Rule::ToFinish(length_m) | Rule::BeforeFinish(_, length_m) | Rule::Curve(length_m) => {
                        (length_m, 0.0)
                    }
                    Rule::AfterBreak { race_m, .. } => (race_m, 0.0),
                    Rule::Across(length_m) | Rule::From(_, length_m) => (length_m, -10_000.0),
                    Rule::EndOfFirstBend => return None,
                };
                TrackFault::out_of_range(within(rule), Quantity::Rule(rule), length_m, least_m..=10_000.0)
            }));
        }
        let kind = match found.len() {
            _ if !faults.is_empty() => return Err(faults),
            1 => return Ok(found.remove(0).1),
            0 => TrackFaultKind::NoRule { mark: mark() },
            _ => {
                let rules = found.iter().map(|(rule, _)| *rule).collect();
                TrackFaultKind::SeveralRules { mark: mark(), rules }
            }
        };
        Err(vec![TrackFault::new(at.to_vec(), kind)])
    }
}

fn filled(text: &str, n: usize) -> String {
    const NTH: [&str; 10] =
        ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"];
    let nth = NTH.get(n - 1).map_or_else(|| format!("{n}th"), |word| (*word).to_owned());
    text.replace("{nth}", &nth).replace("{n}", &n.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_that_comes_with_the_crate_can_be_read() {
        for (name, text) in BUILT_IN {
            let set: MarkSet = serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(set.set, name);
            assert!(!set.source.is_empty(), "{name} names no source");
            for spec in &set.marks {
                let marks = spec.marks(0, &[]).unwrap_or_else(|faults| panic!("{name}: {faults:?}"));
                assert!(marks.iter().all(|mark| !mark.name.contains('{')), "{name}: {marks:?}");
                assert!(!spec.purpose.is_empty(), "{name}: {} has no purpose", spec.name);
            }
        }
    }

    #[test]
    fn a_mark_needs_exactly_one_rule() {
        let text = "{name: a, colour: white, form: tick, to_finish: 10, across: 10}";
        let spec: MarkSpec = serde_yaml::from_str(text).expect("the row is well formed");
        let faults = spec.marks(0, &[]).expect_err("two rules");
        let rules = vec!["to_finish", "across"];
        assert_eq!(faults[0].kind, TrackFaultKind::SeveralRules { mark: "a".to_owned(), rules });
    }
}
