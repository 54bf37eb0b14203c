//! From a session to a plan.

pub(crate) mod block_at;
pub(crate) mod block_layout;
pub(crate) mod caution;
pub(crate) mod chain;
pub(crate) mod clash;
pub(crate) mod clock;
pub(crate) mod coach_place;
pub(crate) mod cone;
pub(crate) mod fault;
pub(crate) mod kept;
pub(crate) mod location;
pub(crate) mod nominal;
pub(crate) mod pairing;
pub(crate) mod plan;
pub(crate) mod plan_block;
pub(crate) mod planner;
pub(crate) mod remark;
pub(crate) mod rep;
pub(crate) mod setup_walk;
pub(crate) mod split;
pub(crate) mod squad_block;
pub(crate) mod warning;
pub(crate) mod who;
