//! The walk that sets everything out before the session.

use std::collections::BTreeSet;

use lane_distance::{Course, Placement, Spot, Track};

use crate::plan::{PlanBlock, SetupItem};
use crate::plan_words::metres;

/// Spots closer than this share a cone, in metres.
const SAME_SPOT_M: f64 = 0.005;

/// Every spot of the plan once, in the order met on one lap from the finish line, then lane by lane.
pub(crate) fn walk(track: &Track, blocks: &[PlanBlock]) -> Vec<SetupItem> {
    let mut items: Vec<SetupItem> = Vec::new();
    for (number, block) in (1..).zip(blocks) {
        let mut met = BTreeSet::new();
        for rep in &block.reps {
            // Repetitions between the same two spots need the same cones.
            let bits =
                [rep.start.to_finish_line_m, rep.finish.to_finish_line_m, rep.distance_m].map(f64::to_bits);
            if !met.insert((rep.lane, rep.course, rep.run_in.is_some(), bits)) {
                continue;
            }
            let run_in = rep.run_in.as_ref().map(|spot| ("run-in", spot));
            for (what, spot) in [("start", &rep.start), ("finish", &rep.finish)].into_iter().chain(run_in) {
                let serves = format!("{} m of block {number}", metres(rep.distance_m));
                let known = items.iter_mut().find(|item| item.what == what && is_same(&item.spot, spot));
                match known {
                    Some(item) if item.serves.split(", ").any(|known| known == serves) => {}
                    Some(item) => item.serves = format!("{}, {serves}", item.serves),
                    None => items.push(SetupItem { order: 0, what, serves, spot: spot.clone() }),
                }
            }
        }
    }
    items.sort_by(|a, b| {
        let key = |item: &SetupItem| (along_lap_mm(track, &item.spot), item.spot.lane);
        key(a).cmp(&key(b)).then(b.what.cmp(a.what))
    });
    for (order, item) in (1..).zip(&mut items) {
        item.order = order;
    }
    items
}

fn is_same(a: &Placement, b: &Placement) -> bool {
    a.lane == b.lane && (a.x_m - b.x_m).hypot(a.y_m - b.y_m) < SAME_SPOT_M
}

/// How far along the lap of lane 1 a spot is met by someone who walks it from the finish line, in
/// whole millimetres.
fn along_lap_mm(track: &Track, spot: &Placement) -> i64 {
    let layout = track.layout();
    let met = match layout.straight(spot.course) {
        None => Some(layout.abreast(Spot::on_oval(spot.lane, spot.to_finish_line_m), 1)),
        // A chute is passed where its straight begins.
        Some(ground) => {
            let to_finish_m = spot.to_finish_line_m.min(ground.straight_m);
            layout.on_course(Spot { course: spot.course, lane: 1, to_finish_m }, Course::Oval)
        }
    };
    met.map_or(0, |spot| (layout.from_finish_m(spot) * 1000.0).round() as i64)
}
