//! Evenings: what is planned keeps every promise, and ends as early as can be.

mod beside;
mod checker;
mod dice;
mod evenings;
mod hostile;
mod kept;
mod known;
mod optimum;
mod planned;
mod properties;
mod reference;
mod search;
