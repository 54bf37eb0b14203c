//! Squads: what is planned keeps every promise, and ends as early as can be.

mod cases;
mod checker;
mod dice;
mod hostile;
mod known;
mod optimum;
mod planned;
mod properties;
mod reference;
mod search;
mod sets;
