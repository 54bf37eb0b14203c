//! Squads: who runs when, so that every rest is kept and every finish can be timed.
//!
//! A set has so many repetitions of one distance. Its athletes run in *waves*: in a sprint set one
//! athlete to a lane, all starting together; in a set of longer runs a pace group to a lane. Waves keep
//! their members and their order through the set. A start time is found for every wave and repetition
//! so that
//!
//! 1. every athlete has the rest that was asked for,
//! 2. the finish windows of two waves (from the fastest member's finish to the slowest's) never come
//!    closer than the timing gap; with two who time, at most two windows overlap,
//! 3. two starts are at least the start gap apart, and nobody comes within 10 m of another wave's
//!    runner in the same lane,
//! 4. nobody runs through the start of a wave that stands on it within 10 s of its go.
//!
//! Of all such plans one is found that ends first. Lanes then turn from repetition to repetition, so that each
//! athlete gets inner and outer lanes as evenly as the numbers allow.
//!
//! It knows times, distances and lanes, and nothing of tracks, texts or files.
//!
//! ```
//! use std::collections::BTreeMap;
//!
//! use wave_plan::{Ground, Mode, Runner, SquadSet, TimingRules, plan_squads};
//!
//! // Fourteen athletes, lane 1 closed on a track of six: 6 × 200 m in 34 s with 3 min of rest.
//! let set = SquadSet {
//!     reps: 6,
//!     distance_m: 200.0,
//!     ground: Ground::Laps { shortest_m: 407.0, longest_m: 437.7 },
//!     lanes: vec![2, 3, 4, 5, 6],
//!     finish_m: BTreeMap::new(),
//!     is_reversed: false,
//!     mode: Mode::OneToALane { most: None },
//!     runners: (1..=14).map(|n| Runner::new(n.to_string(), 34.0, 180.0)).collect(),
//! };
//! let plan = plan_squads(&[set], &TimingRules::default(), &[])?;
//! assert_eq!(plan.sets[0].len(), 3);
//! // The slowest wave's own end, and a start gap of 10 s for each of the two waves behind it.
//! assert!((plan.end_s - (6.0 * 34.0 + 5.0 * 180.0 + 20.0)).abs() < 1e-6);
//! assert!(plan.is_proven);
//! # Ok::<(), wave_plan::SquadError>(())
//! ```

mod candidate;
mod cut;
mod cutting;
mod error;
mod floor;
mod greedy;
mod ground;
mod group_lanes;
mod lane_turns;
mod network;
mod plan;
mod planner;
mod rules;
mod runner;
mod set;
mod soonest;
mod spacing;
mod wave;

pub use error::SquadError;
pub use ground::Ground;
pub use plan::{SquadPlan, WavePlan};
pub use planner::plan_squads;
pub use rules::{Timers, TimingRules};
pub use runner::Runner;
pub use set::{Mode, SquadSet};
