//! From a session to a plan.

pub(crate) mod block_plan;
pub(crate) mod caution;
pub(crate) mod chain;
pub(crate) mod clash;
pub(crate) mod clock;
pub(crate) mod coach_place;
pub(crate) mod kept;
pub(crate) mod nominal;
pub(crate) mod pairing;
pub(crate) mod plan;
pub mod plan_words;
pub(crate) mod planner;
pub(crate) mod setup_walk;
pub(crate) mod split;
pub(crate) mod squad_block;
pub(crate) mod stride;
pub(crate) mod wherein;
