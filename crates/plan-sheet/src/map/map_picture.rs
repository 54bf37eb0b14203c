//! The map of a plan as SVG.

use session_plan::Plan;

use super::fitting::fitted;
use super::map_sheet;
use super::room::Room;
use crate::drawing::picture::Picture;
use crate::sheet::sheet::Sheet;

/// The track of a plan to scale, with numbered flags, insets and north: for pages that print the list of
/// cones, the lanes unrolled and the cautions themselves. One map is 180 mm wide; the other is as wide as a
/// phone, 100 mm, with letters of the same size. Identifiers in them begin with `prefix`.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Session, Venue};
/// use workout_notation::Block;
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let blocks = ["150 in lane 2", "300 in lanes 2-3"].map(|text| Block::parse(text).expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &Session::of_blocks("two", blocks.to_vec())).expect("both lanes are open");
/// let (map, phone) = plan_sheet::maps(&plan, "tuesday");
/// assert!(map.starts_with("<svg"));
/// assert!(map.contains("data-cone=\"2\""));
/// assert!(phone.contains("width=\"100mm\""));
/// ```
pub fn maps(plan: &Plan, prefix: &str) -> (String, String) {
    let map = fitted(plan, &format!("{prefix}-map"), Room::PAGE).0.svg();
    (map, phone_map(plan, prefix))
}

/// The second of [`maps`] alone.
pub(crate) fn phone_map(plan: &Plan, prefix: &str) -> String {
    fitted(plan, &format!("{prefix}-phone"), Room::PHONE).0.svg()
}

/// A picture of those that make a map.
#[derive(Clone, Debug, PartialEq)]
pub struct MapPicture {
    /// The picture in words, for readers who cannot see it.
    pub words: String,
    /// The picture.
    pub svg: String,
    /// How high it is, in millimetres.
    pub height_mm: f64,
}

/// The map of a plan in pictures for pages: the first is `width_mm` wide and holds the map and as many of its insets
/// as make it no higher than `first_mm`; the others are 180 mm wide, hold the other insets and are no higher than
/// `others_mm`. Letters have the same size whatever the width. The map itself is not cut, nor is an inset.
///
/// ```
/// # use lane_distance::Track;
/// # use session_plan::{Cones, Session, Venue};
/// # use workout_notation::Block;
/// # let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let blocks = ["60", "80", "100", "120", "150", "180", "250", "300"]
///     .map(|metres| Block::parse(&format!("{metres} in lanes 1-8")).expect("it is well formed"));
/// let session = Session { cones: Cones::EverySpot, ..Session::of_blocks("all", blocks.to_vec()) };
/// let plan = session_plan::plan(&venue, &session).expect("all lanes are open");
/// let pictures = plan_sheet::map_pictures(&plan, 180.0, 120.0, 200.0);
/// assert!(pictures.len() > 1);
/// assert_eq!(plan_sheet::map_pictures(&plan, 180.0, f64::INFINITY, 200.0).len(), 1);
/// ```
pub fn map_pictures(plan: &Plan, width_mm: f64, first_mm: f64, others_mm: f64) -> Vec<MapPicture> {
    let (map, insets) = fitted(plan, "map", Room { width_mm, first_mm, others_mm, ..Room::PAGE });
    let picture = |picture: Picture| MapPicture {
        words: picture.words.clone(),
        height_mm: picture.bounds.height() / picture.mm,
        svg: picture.svg(),
    };
    std::iter::once(map).chain(insets).map(picture).collect()
}

/// The map of a plan as a sheet of its own: title, track, list of cones, lanes unrolled, cautions.
///
/// ```
/// # use lane_distance::Track;
/// # use session_plan::{Session, Venue};
/// # use workout_notation::Block;
/// # let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// # let session = Session::of_block("6 x 200 in lane 2", Block::parse("6 x 200 in lane 2").expect("it is well formed"));
/// # let plan = session_plan::plan(&venue, &session).expect("lane 2 is open");
/// assert!(plan_sheet::map_svg(&plan).contains("Distances assume the measure line"));
/// ```
pub fn map_svg(plan: &Plan) -> String {
    let (map, _) = fitted(plan, "sheet", Room::PAGE);
    map_sheet::around(&Sheet::of(plan), map).svg()
}
