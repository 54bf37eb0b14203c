//! How much of a map is magnified, and how many cones share a flag, so that everything finds room.

use session_plan::Plan;

use super::arrangement::{Arrangement, Infield};
use super::cluster::Cluster;
use super::inset::{self, Inset};
use super::room::Room;
use super::sketch::Sketch;
use crate::drawing::picture::Picture;

/// How close cones share a flag, in metres: the first distance at which every flag finds its place counts.
const CLOSE_M: [f64; 7] = [4.6, 7.0, 11.0, 18.0, 30.0, 60.0, 1000.0];

/// The map of a plan in as many pictures as the room asks for: the map, then the insets that find no room on
/// it. Ids begin with a prefix.
pub(super) fn fitted(plan: &Plan, prefix: &str, room: Room) -> (Picture, Vec<Picture>) {
    let sketch = Sketch::of(plan, prefix, room);
    let fitting = CLOSE_M.into_iter().find_map(|close_m| fitting(&sketch, close_m));
    // A plan may be so crowded that flags and insets never all find room that way.
    fitting.unwrap_or_else(|| {
        let insets = close_up(&sketch);
        let crowded = CLOSE_M.into_iter().find_map(|close_m| crowded(&sketch, close_m, &insets));
        crowded.unwrap_or_else(|| with_one_flag(&sketch, &insets))
    })
}

/// Cones that share a flag share an inset.
fn fitting(sketch: &Sketch<'_>, close_m: f64) -> Option<(Picture, Vec<Picture>)> {
    let clusters = Cluster::all(sketch.plan, close_m);
    // Even without insets, flags need room.
    Arrangement::of(sketch, &clusters, &[], Infield::ForInsets)?;
    let sized = |largest: f64| -> Option<Vec<Inset<'_>>> {
        let several = clusters.iter().filter(|cluster| cluster.cones.len() > 1);
        several.map(|cluster| Inset::of(cluster, sketch, largest)).collect()
    };
    let fits = |insets: &Vec<Inset<'_>>| {
        inset::shelves(insets.iter().collect(), sketch.infield(), sketch.gap()).left_over.is_empty()
    };
    let large = sized(inset::LARGEST[0])?;
    // Smaller ones are worth it only where then all stand on the infield.
    let smaller = || sized(inset::LARGEST[1]).filter(fits);
    let insets = if fits(&large) { large } else { smaller().unwrap_or(large) };
    let arrangement = Arrangement::of(sketch, &clusters, &insets, Infield::ForInsets)?;
    Some(arrangement.draw(sketch))
}

/// Cones that are farther apart share a flag, the infield is free for flags, and insets show what lies
/// close together.
fn crowded<'a>(sketch: &Sketch<'a>, close_m: f64, insets: &[Inset<'a>]) -> Option<(Picture, Vec<Picture>)> {
    let clusters = Cluster::all(sketch.plan, close_m);
    let arrangement = Arrangement::of(sketch, &clusters, insets, Infield::ForFlags)?;
    Some(arrangement.draw(sketch))
}

/// One flag for all cones, which always finds room.
fn with_one_flag<'a>(sketch: &Sketch<'a>, insets: &[Inset<'a>]) -> (Picture, Vec<Picture>) {
    let all = Cluster { cones: sketch.plan.setup.iter().collect() };
    Arrangement::with_one_flag(sketch, all, insets).draw(sketch)
}

/// An inset for each cone, by itself or with those that lie close to it.
fn close_up<'a>(sketch: &Sketch<'a>) -> Vec<Inset<'a>> {
    let close = Cluster::all(sketch.plan, CLOSE_M[0]);
    close.iter().flat_map(|cluster| Inset::parts(cluster, sketch, inset::LARGEST[0])).collect()
}

#[cfg(test)]
mod tests {
    use lane_distance::Track;
    use session_plan::{Session, Venue};
    use workout_notation::Block;

    use super::*;

    /// Whatever else is crowded, each cone has its number beside it in an inset, and a flag.
    #[test]
    fn a_plan_with_no_room_for_flags_tells_every_cone() {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let blocks = ["60", "110", "150", "200", "300"]
            .map(|metres| Block::parse(&format!("{metres} in lanes 1-8")).expect("it is well formed"));
        let session = Session::of_blocks("all", blocks.to_vec());
        let plan = session_plan::plan(&venue, &session).expect("all lanes are open");
        let sketch = Sketch::of(&plan, "map", Room::PAGE);
        let insets = close_up(&sketch);
        let (one, others) = with_one_flag(&sketch, &insets);
        let one = one.svg();
        assert!(others.is_empty());
        assert!(one.contains(&format!("1–{}", plan.setup.len())));
        let (crowded, _) = crowded(&sketch, CLOSE_M[0], &insets).expect("there is room");
        for drawing in [one, crowded.svg()] {
            for cone in &plan.setup {
                let shown = format!("data-inset-cone=\"{}\"", cone.order);
                assert_eq!(drawing.matches(&shown).count(), 1, "cone {}", cone.order);
            }
        }
    }
}
