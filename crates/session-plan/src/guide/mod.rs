//! How an evening is planned: what lies between the runs, how long things take, how fast they are to be, and what happens when
//! something changes.
//!
//! 1. [`recoveries`]: rests, cycles, and jogs that bend to a place that is there already.
//! 2. [`targets`]: race paces, percentages, and times carried from one distance to another.
//! 3. [`estimated_times`]: times that nobody gave.
//! 4. [`late_changes`]: an athlete is missing, a lane is shut, it starts late.
//!
//! Where the runs start and finish is [`lane_distance::guide`], how a text is read [`workout_notation::guide`], who runs when
//! [`wave_plan::guide`].

#[doc = include_str!("recoveries.md")]
pub mod recoveries {}

#[doc = include_str!("targets.md")]
pub mod targets {}

#[doc = include_str!("estimated_times.md")]
pub mod estimated_times {}

#[doc = include_str!("late_changes.md")]
pub mod late_changes {}
