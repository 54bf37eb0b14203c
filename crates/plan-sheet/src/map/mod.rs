//! The map of a plan, to scale, and its lanes unrolled, as SVG.
//!
//! On the map a unit of the page is a metre of track: the centre of a cone is at its `x_m` and at
//! minus its `y_m`. Nothing is told by colour alone, and no text is smaller than eight points where the
//! picture is printed 180 mm wide.

mod arrows;
mod compass;
mod cones;
mod document;
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
mod sheet;
mod spread;
mod strip;
mod way;

pub(crate) use document::map_picture_with_ids;
pub use document::{MapPicture, map_picture, map_pictures, map_svg};
pub use strip::{Strip, strips, strips_in_parts};
