//! The map of a plan as SVG.

use session_plan::Plan;

use super::fitting::fitted;
use super::map_sheet;
use super::picture::Picture;
use super::room::Room;
use crate::drawing::svg_file::svg_file;
use crate::sheet::sheet::Sheet;
use crate::words::cone;
use crate::words::spot::spot;

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
/// let session = Session::of_block("6 x 200 in lane 2", Block::parse("6 x 200 in lane 2").expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &session).expect("lane 2 is open");
/// let (map, phone) = plan_sheet::maps(&plan, "tuesday");
/// assert!(map.starts_with("<svg"));
/// assert!(map.contains("data-cone=\"2\""));
/// assert!(phone.contains("width=\"100mm\""));
/// ```
pub fn maps(plan: &Plan, prefix: &str) -> (String, String) {
    let map = |name: &str, room: Room| drawn(plan, &format!("{prefix}-{name}"), room);
    (map("map", Room::PAGE), map("phone", Room::PHONE))
}

fn drawn(plan: &Plan, prefix: &str, room: Room) -> String {
    let (picture, _) = fitted(plan, prefix, room);
    let title = format!("Map of {}", plan.title);
    svg_file(&title, &description(plan), picture.bounds, picture.mm, vec![picture.drawing])
}

/// A picture of those that make a map.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MapPicture {
    /// The picture in words, for readers who cannot see it.
    pub words: String,
    /// The picture, 180 mm wide.
    pub svg: String,
}

/// The map of a plan in pictures for pages: the first holds the map and as many of its insets as make it no
/// higher than `first_mm`, the others hold the other insets and are no higher than `others_mm`. The map itself
/// is not cut, nor is an inset.
///
/// ```
/// # use lane_distance::Track;
/// # use session_plan::{Session, Venue};
/// # use workout_notation::Block;
/// # let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let blocks = ["60", "80", "100", "120", "150", "180", "250", "300"]
///     .map(|metres| Block::parse(&format!("{metres} in lanes 1-8")).expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &Session::of_blocks("all", blocks.to_vec())).expect("all lanes are open");
/// let pictures = plan_sheet::map_pictures(&plan, 120.0, 200.0);
/// assert!(pictures.len() > 1);
/// assert_eq!(plan_sheet::map_pictures(&plan, f64::INFINITY, 200.0).len(), 1);
/// ```
pub fn map_pictures(plan: &Plan, first_mm: f64, others_mm: f64) -> Vec<MapPicture> {
    let (map, pages) = fitted(plan, "map", Room { first_mm, others_mm, ..Room::PAGE });
    let title = format!("Map of {}", plan.title);
    let picture = |words: String, picture: Picture| {
        let svg = svg_file(&title, &words, picture.bounds, picture.mm, vec![picture.drawing]);
        MapPicture { words, svg }
    };
    let insets = pages.into_iter().map(|page| {
        let words = format!("Places of the map magnified, with their numbers: cones {}.", page.cones);
        picture(words, page.picture)
    });
    std::iter::once(picture(description(plan), map)).chain(insets).collect()
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
    let (picture, _) = fitted(plan, "sheet", Room::PAGE);
    let title = format!("Map of {}", plan.title);
    let (bounds, mm) = (picture.bounds, picture.mm);
    let (drawings, bounds) = map_sheet::around(&Sheet::of(plan), picture.drawing, bounds, mm);
    svg_file(&title, &description(plan), bounds, mm, drawings)
}

/// The picture in words, for readers who cannot see it.
fn description(plan: &Plan) -> String {
    let mut words = format!("The track {} to scale.", plan.track.name);
    for cone in &plan.setup {
        words += &format!(
            " Cone {}, {}, lane {}: {}.",
            cone.order,
            cone::marks(cone),
            cone.spot.lane,
            spot(&cone.spot)
        );
    }
    words
}
