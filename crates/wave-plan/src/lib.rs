//! One evening, one schedule: who runs when, so that every rest is kept and every finish can be timed.
//!
//! A [`Party`] is a group on its own clock. It does one [`Itinerary`] after the other: runs in order, each with what
//! its [`Runner`]s need before the next. The athletes of an itinerary run in *waves*: in sprints one athlete to a
//! lane, all starting together; in longer runs a pace group to a lane. Waves keep their members and their order
//! through the itinerary. Every wave gets a *go time* for each run, so that
//!
//! 1. every athlete has the rest that was asked for, and a wave goes again only when all of it are done;
//! 2. the finish windows of two waves (from the fastest member's finish to the slowest's) are at least the
//!    timing gap apart; with two timers, at most two windows overlap; with one for each party, those of one party
//!    are apart;
//! 3. two starts are at least the start gap apart, and nobody comes within 10 m of another wave's runner in
//!    the same lane;
//! 4. nobody runs through a start in the 10 s before the go of the wave that stands there;
//! 5. nobody runs the other way in a lane while somebody else runs in it.
//!
//! Parties share nothing else, and wait for one another only where they share something. Of all such plans it finds
//! one that ends first, with a bound where it could not look at all of them. Lanes then turn from run to run, so
//! that each athlete gets inner and outer lanes as evenly as the numbers allow.
//!
//! It knows times, distances and lanes, and nothing about tracks, texts or files. The [`guide`] has the rules as formulas, what is
//! searched, what *proven* means, and a squad worked out by hand.
//!
//! ```
//! use wave_plan::{Ground, Itinerary, Party, Runner, Stretch, TimingRules, plan_evening};
//!
//! // Fourteen athletes, lane 1 closed on a track of six: 6 × 200 m in 34 s with 3 min of rest.
//! let ground = Ground::Laps { shortest_m: 407.0, longest_m: 437.7 };
//! let stretch = Stretch { distance_m: 200.0, ground, ..Stretch::default() };
//! let runners = (1..=14).map(|n| Runner::new(n.to_string(), 6, 34.0, 180.0)).collect();
//! let itinerary = Itinerary::repetitions(6, stretch, vec![2, 3, 4, 5, 6], runners);
//! let party = Party { begins_s: 0.0, itineraries: vec![itinerary] };
//! let plan = plan_evening(&[party], &TimingRules::default(), &[])?;
//! assert_eq!(plan.parties[0][0].waves.len(), 3);
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
#[doc = include_str!("guide.md")]
pub mod guide {}
mod itinerary;
mod lane_turns;
mod network;
mod party;
mod plan;
mod planner;
mod raise;
mod rules;
mod runner;
mod slot;
mod soonest;
mod spacing;
mod wave;

pub use error::SquadError;
pub use ground::Ground;
pub use itinerary::{Itinerary, Mode, Stretch};
pub use party::Party;
pub use plan::{EveningPlan, ItineraryPlan, WavePlan};
pub use planner::plan_evening;
pub use rules::{Timers, TimingRules};
pub use runner::{RunTimes, Runner};
