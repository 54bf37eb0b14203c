//! The rules that a venue posts.

use lane_distance::{Course, Key, LaneNumber, Place, TrackFaultKind};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::files::file_fault::FileFaultKind;

/// The rules that a venue posts for training.
///
/// ```
/// use session_plan::{Activity, HouseRules};
///
/// let rules: HouseRules = serde_yaml::from_str("
/// lanes:
///   - { over: 400, lanes: [1, 2] }
///   - { from: 120, up_to: 400, lanes: [2, 3, 4] }
///   - { up_to: 100, lanes: [5, 6, 7], on: straights }
///   - { of: hurdles, lanes: [6, 7] }
///   - { of: recoveries, lanes: [6] }
/// direction: anticlockwise
/// infield_crossing: forbidden
/// ")?;
/// assert_eq!(rules.rule(Activity::Runs, 200.0).map(|rule| rule.lanes.as_slice()), Some([2, 3, 4].as_slice()));
/// # Ok::<(), serde_yaml::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct HouseRules {
    /// Which lanes serve what; the first rule that fits a run counts.
    pub lanes: Vec<LaneRule>,
    /// In which direction people run.
    pub direction: Direction,
    /// Whether people may cross the infield.
    pub infield_crossing: InfieldCrossing,
    /// Anything else that is posted.
    pub notes: Vec<String>,
}

/// Which lanes serve what.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LaneRule {
    /// What is done in these lanes.
    pub of: Activity,
    /// Runs longer than this, in metres.
    pub over: Option<f64>,
    /// Runs of this or more, in metres.
    pub from: Option<f64>,
    /// Runs of this or less, in metres.
    pub up_to: Option<f64>,
    /// The lanes, the one to be used first in front. None means off the track.
    pub lanes: Vec<u8>,
    /// Where they are run.
    pub on: RuleCourse,
}

/// What is done in a lane.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Activity {
    /// Repetitions.
    #[default]
    Runs,
    /// Repetitions over hurdles.
    Hurdles,
    /// Jogs and walks between repetitions.
    Recoveries,
}

/// Where a rule sends runs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum RuleCourse {
    /// Wherever they fit.
    #[default]
    Track,
    /// On the straights.
    Straights,
}

/// In which direction people run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, JsonSchema)]
pub enum Direction {
    /// Anticlockwise round the oval; either way on the straights.
    #[default]
    #[serde(rename = "straights either way")]
    StraightsEitherWay,
    /// Anticlockwise everywhere.
    #[serde(rename = "anticlockwise")]
    Anticlockwise,
}

/// Whether people may cross the infield.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum InfieldCrossing {
    /// They may.
    #[default]
    Allowed,
    /// They may not.
    Forbidden,
}

impl LaneRule {
    /// The lanes as checked numbers, the one to be used first in front.
    pub(crate) fn lane_numbers(&self) -> impl Iterator<Item = LaneNumber> {
        self.lanes.iter().copied().filter_map(LaneNumber::new)
    }

    /// Whether the rule speaks of runs of this distance.
    pub fn fits(&self, distance_m: f64) -> bool {
        self.over.is_none_or(|over| distance_m > over)
            && self.from.is_none_or(|from| distance_m >= from)
            && self.up_to.is_none_or(|up_to| distance_m <= up_to)
    }

    /// Where the rule sends a run that names no place.
    pub fn place(&self) -> Option<Place> {
        (self.on == RuleCourse::Straights).then_some(Place::On(Course::HomeStraight))
    }
}

impl HouseRules {
    /// The rule for an activity and a distance, if there is one.
    pub fn rule(&self, activity: Activity, distance_m: f64) -> Option<&LaneRule> {
        self.lanes.iter().find(|rule| rule.of == activity && rule.fits(distance_m))
    }

    /// What is wrong with the rules on a track of this many lanes, each with the keys that lead to it.
    pub(crate) fn faults(&self, outermost: u8) -> Vec<(Vec<Key>, FileFaultKind)> {
        let mut faults = Vec::new();
        for (index, rule) in self.lanes.iter().enumerate() {
            let at = |name: &str| {
                vec![Key::from("house_rules"), Key::from("lanes"), Key::from(index), Key::from(name)]
            };
            for &lane in rule.lanes.iter().filter(|lane| !(1..=outermost).contains(*lane)) {
                faults.push((at("lanes"), FileFaultKind::Track(TrackFaultKind::NoLane { lane, outermost })));
            }
            let low = rule.over.or(rule.from).unwrap_or(0.0);
            let high = rule.up_to.unwrap_or(f64::INFINITY);
            if !(low >= 0.0 && low <= high) {
                faults.push((at("up_to"), FileFaultKind::RuleFitsNoRun));
            }
        }
        faults
    }
}
