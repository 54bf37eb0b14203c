//! `--out x.html`: the page of a plan, made by the built program and used in a real browser.

#[path = "../program/left_out.rs"]
mod left_out;
#[path = "../program/poppler.rs"]
mod poppler;
#[path = "../program/run.rs"]
mod run;
#[path = "../program/said.rs"]
mod said;
#[path = "../program/wrenbeck.rs"]
mod wrenbeck;

mod access;
mod blocks;
mod browser;
mod countdown;
mod csv;
mod kept;
mod keyboard;
mod made;
mod paper;
mod spoiled;
mod stopwatch;
mod stub;
mod words;
