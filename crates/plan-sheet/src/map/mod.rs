//! The map of a plan, to scale, as SVG.
//!
//! On the map a unit of the page is a metre of track: the centre of a cone is at its `x_m` and at
//! minus its `y_m`. Nothing depends on colour alone, and no text is smaller than eight points where the
//! picture is printed as wide as it says: 180 mm, and for phones 100 mm.

mod arrangement;
mod arrows;
mod cluster;
mod compass;
mod cones;
mod fitting;
mod flag_wishes;
mod frame;
mod ground;
pub(crate) mod ground_map;
mod hazards;
mod inset;
mod inset_pages;
mod key;
mod labels;
mod legend;
pub(crate) mod map_picture;
mod map_sheet;
mod names;
mod paint;
mod patterns;
mod room;
pub(crate) mod run_picture;
mod sketch;
mod way;
