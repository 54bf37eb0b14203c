//! Marks as a mark set or a track file gives them.

use serde::Deserialize;

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::paint::mark::{Form, Mark, Rule, Worn};
use crate::spec::hurdles::Hurdles;
use crate::spec::length_spec::LengthSpec;
use crate::spec::one_or_many::OneOrMany;
use crate::track::key::Key;
use crate::track::track_fault::{Quantity, TrackFault, TrackFaultKind};

/// A line square across the track that is known by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum KnownLine {
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
    /// The name used in the trade. In a row, `{n}` stands for 1, 2, 3, `{nth}` for first,
    /// second, `{n-th}` for 1st, 2nd.
    pub name: String,
    /// What a walker would call it; may hold `{n}`, `{nth}` and `{n-th}` too.
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
    pub to_finish: Option<OneOrMany<LengthSpec>>,
    /// Rule: distance before the finish of a straight.
    #[serde(default)]
    pub before_finish: Option<OneOrMany<LengthSpec>>,
    /// Rule: one mark at each hurdle of a race.
    #[serde(default)]
    pub hurdles: Option<Hurdles>,
    /// Rule: square across all lanes, this far from the finish in lane 1; negative is past it.
    #[serde(default)]
    pub across: Option<OneOrMany<LengthSpec>>,
    /// Rule: curved across all lanes, this far from the finish in lane 1.
    #[serde(default)]
    pub curve: Option<LengthSpec>,
    /// Rule: square across all lanes at a place known by name.
    #[serde(default)]
    pub at: Option<KnownLine>,
    /// Rule: from another mark, `past` metres past it.
    #[serde(default)]
    pub from: Option<String>,
    /// With `from`: metres past that mark; negative is behind it.
    #[serde(default)]
    pub past: Option<LengthSpec>,
    /// Rule: the start of a race of this length that breaks after `bends` bends in lanes.
    #[serde(default)]
    pub race: Option<LengthSpec>,
    /// With `race`: how many bends are run in lanes, 1 or 3.
    #[serde(default)]
    pub bends: Option<u8>,
}

impl MarkSpec {
    /// The marks that this row describes.
    ///
    /// `set` is the index of its set in the track's list, `at` the keys that lead to the row.
    ///
    /// # Errors
    ///
    /// [`TrackFault`] where there is no rule, more than one, or one with a value out of range.
    pub(crate) fn marks(&self, set: u8, at: &[Key]) -> Result<Vec<Mark>, Vec<TrackFault>> {
        let rules = self.rules(at)?;
        Ok((1..)
            .zip(rules)
            .map(|(n, rule)| {
                let fill = |text: &String| filled(text, n);
                Mark {
                    name: fill(&self.name).into(),
                    called: self.called.as_ref().map(fill),
                    colour: self.colour.as_str().into(),
                    form: self.form,
                    purpose: fill(&self.purpose),
                    trap: self.trap.clone().map(|why| (self.trap_from_lane.unwrap_or(1), why)),
                    set,
                    lanes: self
                        .lanes
                        .as_ref()
                        .map(|lanes| lanes.iter().copied().filter_map(LaneNumber::new).collect()),
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
        let mut faults = Vec::new();
        let within = |name: &str| [at, &[Key::from(name)]].concat();
        let (straight, bends) = (self.on.unwrap_or(Course::HomeStraight), self.bends.unwrap_or(1));
        let hurdle = |to_finish_m: f64| match self.on {
            None | Some(Course::Oval) => Rule::ToFinish(to_finish_m),
            Some(straight) => Rule::BeforeFinish(straight, to_finish_m),
        };
        let past_m = self.past.unwrap_or_default().metres();
        let rules: [(&'static str, Option<Vec<Rule>>); 8] = [
            ("to_finish", row(self.to_finish.as_ref(), Rule::ToFinish)),
            ("before_finish", row(self.before_finish.as_ref(), |m| Rule::BeforeFinish(straight, m))),
            ("hurdles", self.hurdles.map(|hurdles| hurdles.to_finish_m().map(hurdle).collect())),
            ("across", row(self.across.as_ref(), Rule::Across)),
            ("curve", self.curve.map(|length| vec![Rule::Curve(length.metres())])),
            ("at", self.at.map(|KnownLine::EndOfFirstBend| vec![Rule::EndOfFirstBend])),
            ("from", self.from.clone().map(|mark| vec![Rule::From(mark, past_m)])),
            ("race", self.race.map(|race| vec![Rule::AfterBreak { race_m: race.metres(), bends }])),
        ];
        let mut found: Vec<_> = rules.into_iter().filter_map(|(key, rules)| Some((key, rules?))).collect();
        if self.before_finish.is_some() && straight == Course::Oval {
            faults.push(TrackFault::new(within("on"), TrackFaultKind::BeforeFinishOnOval));
        }
        if self.race.is_some() && bends != 1 && bends != 3 {
            faults.push(TrackFault::new(within("bends"), TrackFaultKind::Bends(bends)));
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
        // Ticks that follow one another too closely are one, or run backwards.
        if let Some(hurdles) = self.hurdles.filter(|hurdles| hurdles.count > 1) {
            let (at, between_m) =
                ([at, &[Key::from("hurdles"), Key::from("between")]].concat(), hurdles.between.metres());
            faults.extend(TrackFault::out_of_range(
                at,
                Quantity::Rule("between"),
                between_m,
                CLOSEST_HURDLES_M..=10_000.0,
            ));
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

/// The least that lies between two hurdles, in metres: nobody lands and takes off within less.
const CLOSEST_HURDLES_M: f64 = 1.0;

/// A rule for each of the lengths that are given.
fn row(lengths: Option<&OneOrMany<LengthSpec>>, rule: impl Fn(f64) -> Rule) -> Option<Vec<Rule>> {
    Some(lengths?.as_slice().iter().map(|length| rule(length.metres())).collect())
}

fn filled(text: &str, n: usize) -> String {
    const NTH: [&str; 10] =
        ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"];
    let ending = match (n / 10 % 10, n % 10) {
        (1, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    let short = format!("{n}{ending}");
    let nth = NTH.get(n - 1).map_or(short.as_str(), |word| word);
    text.replace("{nth}", nth).replace("{n-th}", &short).replace("{n}", &n.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_needs_exactly_one_rule() {
        let text = "{name: a, colour: white, form: tick, to_finish: 10, across: 10}";
        let spec: MarkSpec = serde_yaml::from_str(text).expect("the row is well formed");
        let faults = spec.marks(0, &[]).expect_err("two rules");
        let rules = vec!["to_finish", "across"];
        assert_eq!(faults[0].kind, TrackFaultKind::SeveralRules { mark: "a".to_owned(), rules });
    }
}
