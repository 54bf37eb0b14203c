//! How squads share lanes and time, as session files write it.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::files::spec::quantities::Time;
use crate::files::spec::squad_lanes::{LaneUse, SquadLanes};
use crate::people::session::{GROUP_OF, SquadRules};
use wave_plan::{Mode, Timers, TimingRules};

/// How squads share lanes and time.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub(crate) struct SquadSpec {
    /// How a set shares the lanes; by its distance unless given.
    mode: Option<ModeSpec>,
    /// The most athletes in a wave, or in the group of a lane.
    #[schemars(range(min = 1))]
    pub(crate) most: Option<u8>,
    /// The lanes that squads use where their blocks name none; or `keep` where everybody stays in one lane through a
    /// block, as over hurdles and from blocks unless given, and `turn` where lanes turn from run to run.
    lanes: Option<SquadLanes>,
    /// Between the finish windows of two waves.
    timing_gap: Option<Time>,
    /// Between two starts.
    start_gap: Option<Time>,
    /// How many people time.
    timers: TimersSpec,
}

/// How a set shares the lanes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
enum ModeSpec {
    /// One athlete to a lane.
    #[serde(rename = "one to a lane")]
    OneToALane,
    /// A pace group to a lane.
    #[serde(rename = "a group to a lane")]
    GroupToALane,
}

/// How many people time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum TimersSpec {
    /// One.
    #[default]
    One,
    /// Two: at most two waves may finish at once.
    Two,
    /// One for each group: groups may finish at once.
    #[serde(rename = "each group")]
    EachGroup,
    /// Nobody.
    Untimed,
}

impl SquadSpec {
    /// The rules that are described.
    pub(crate) fn rules(&self) -> SquadRules {
        let usual = TimingRules::default();
        let most = self.most.map(usize::from);
        let mode = match self.mode {
            Some(ModeSpec::OneToALane) => Some(Mode::OneToALane { most }),
            Some(ModeSpec::GroupToALane) => Some(Mode::GroupToALane { most: most.unwrap_or(GROUP_OF) }),
            // A limit alone is one of a sprint wave.
            None => most.map(|most| Mode::OneToALane { most: Some(most) }),
        };
        SquadRules {
            mode,
            lanes: match &self.lanes {
                Some(SquadLanes::Named(lanes)) => Some(lanes.clone()),
                Some(SquadLanes::Used(_)) | None => None,
            },
            keeps_lanes: match &self.lanes {
                Some(SquadLanes::Used(lane_use)) => Some(*lane_use == LaneUse::Keep),
                Some(SquadLanes::Named(_)) | None => None,
            },
            timing: TimingRules {
                timing_gap_s: self.timing_gap.map_or(usual.timing_gap_s, |gap| gap.0),
                start_gap_s: self.start_gap.map_or(usual.start_gap_s, |gap| gap.0),
                timers: match self.timers {
                    TimersSpec::One => Timers::One,
                    TimersSpec::Two => Timers::Two,
                    TimersSpec::EachGroup => Timers::EachGroup,
                    TimersSpec::Untimed => Timers::Untimed,
                },
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::files::file_fault::BELOW;

    #[test]
    fn keys_that_belong_below_squad_are_keys_of_it() {
        let schema = schemars::schema_for!(super::SquadSpec);
        let known = schema.get("properties").and_then(|keys| keys.as_object()).expect("it is an object");
        for (holder, keys) in BELOW {
            assert_eq!(*holder, "squad");
            assert!(keys.iter().all(|key| known.contains_key(*key)), "{keys:?}");
        }
    }
}
