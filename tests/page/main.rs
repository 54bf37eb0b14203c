//! `--out x.html`: the page of a plan, made by the built program and used in a real browser.

#[path = "../program/left_out.rs"]
mod left_out;
#[path = "../program/picture.rs"]
mod picture;
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
mod boxes;
mod browser;
mod countdown;
mod csv;
mod day;
mod first_screen;
mod hand;
mod kept;
mod keyboard;
mod limits;
mod loading;
mod made;
mod paper;
mod readme;
mod rest;
mod spoiled;
mod squad;
mod stopwatch;
mod stub;
mod tabs;
mod words;
