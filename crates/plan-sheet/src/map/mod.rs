//! The map of a plan, to scale, and its lanes unrolled, as SVG.
//!
//! On the map a unit of the page is a metre of track: the centre of a cone is at its `x_m` and at
//! minus its `y_m`. Nothing is told by colour alone, and no text is smaller than eight points where the
//! picture is printed as wide as it says: 180 mm, and for phones 100 mm.

mod arrangement;
mod arrows;
mod compass;
mod cones;
mod document;
mod fitting;
mod flags;
mod frame;
mod ground;
mod hazards;
mod ink;
mod inset;
mod inset_page;
mod key;
mod labels;
mod legend;
mod lettering;
mod names;
mod paint;
mod patterns;
mod picture;
mod ribbon;
mod room;
mod sheet;
mod sketch;
mod spread;
mod strip;
mod strip_part;
mod strip_row;
mod unrolled;
mod way;

pub(crate) use document::maps_with_ids;
pub use document::{MapPicture, map_picture, map_pictures, map_svg, phone_map};
pub use strip::{Strip, strips, strips_in_parts};
