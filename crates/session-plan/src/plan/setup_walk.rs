//! The walk that sets everything out before the session.

use std::collections::BTreeSet;

use lane_distance::{Course, LaneNumber, Placement, Spot, Track};
use serde::Serialize;

use crate::plan::cone::{Cone, ConeLabel, Cones, PaintedSpot, SpotEnd, SpotUse, is_same_spot};
use crate::plan::on_foot::WALK_M_PER_S;
use crate::plan::plan_block::PlanBlock;

/// How long a walker's step is where the session does not say, in metres: common practice, no
/// source.
pub const USUAL_STRIDE_M: f64 = 0.75;

/// How far it is to walk from the finish line round the track, from cone to cone, and on to the
/// finish line again.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SetupWalk {
    /// How many cones are set out.
    pub cones: usize,
    /// How far that is, in metres, along the lanes and across them.
    pub walk_m: f64,
    /// How long it takes to walk, in seconds, without the time to tape and to set down.
    pub walk_s: f64,
    /// The walker's stride, in metres.
    pub stride_m: f64,
    /// Whether that stride is the usual one, as the session does not say.
    pub is_stride_assumed: bool,
}

impl SetupWalk {
    /// The walk past some cones in their order.
    pub(crate) fn of(track: &Track, cones: &[Cone], stride_m: Option<f64>) -> Self {
        let met: Vec<Met> = cones.iter().map(|cone| Met::on_walk(track, &cone.spot)).collect();
        let walk_m = match (met.first(), met.last()) {
            (Some(&first), Some(&last)) => {
                let from_line_m = Met { lap_m: 0.0, out_m: 0.0, ..first }.walk_m(track, first);
                let between_m: f64 = met.windows(2).map(|pair| pair[0].walk_m(track, pair[1])).sum();
                let lap_m = track.lap_m(LaneNumber::FIRST).unwrap_or_default();
                from_line_m + between_m + last.walk_m(track, Met { lap_m, out_m: 0.0, ..last })
            }
            _ => 0.0,
        };
        Self {
            cones: cones.len(),
            walk_m,
            walk_s: walk_m / WALK_M_PER_S,
            stride_m: stride_m.unwrap_or(USUAL_STRIDE_M),
            is_stride_assumed: stride_m.is_none(),
        }
    }
}

/// What is set out for a plan, and what need not be.
pub(crate) struct SettingOut {
    /// The cones, in the order of the walk.
    pub(crate) cones: Vec<Cone>,
    /// The spots without a cone, in the same order.
    pub(crate) painted: Vec<PaintedSpot>,
}

impl SettingOut {
    /// Every spot of the plan once, in the order met on one lap from the finish line, then lane by lane; a chute is
    /// walked out and back where its straight begins. One who trains alone in one lane has letters for numbers.
    pub(crate) fn of(
        track: &Track,
        blocks: &[PlanBlock],
        stride_m: f64,
        which: Cones,
        is_alone: bool,
    ) -> Self {
        let mut spots = used_spots(blocks);
        spots.sort_by_cached_key(|used| Met::on_walk(track, &used.spot).key());
        let is_one_lane = spots.windows(2).all(|pair| pair[0].spot.lane == pair[1].spot.lane);
        let (painted, bare): (Vec<PaintedSpot>, Vec<PaintedSpot>) =
            spots.into_iter().partition(|used| which == Cones::OffPaint && used.spot.is_on_paint());
        let mut cones: Vec<Cone> = Vec::with_capacity(bare.len());
        for (order, PaintedSpot { uses, spot }) in (1..).zip(bare) {
            let strides = spot.clone().with_strides(stride_m).strides.unwrap_or(0.0);
            cones.push(Cone { order, label: ConeLabel::numbered(order), uses, spot, strides });
        }
        if is_alone && is_one_lane {
            letter(&mut cones);
        }
        Self { cones, painted }
    }
}

/// Calls cones by what they mark first.
fn letter(cones: &mut [Cone]) {
    for end in [SpotEnd::Start, SpotEnd::Finish, SpotEnd::Change, SpotEnd::RunIn, SpotEnd::CheckMark] {
        let mut own: Vec<&mut Cone> =
            cones.iter_mut().filter(|cone| cone.uses.first().is_some_and(|first| first.end == end)).collect();
        let are_several = own.len() > 1;
        for (number, cone) in (1..).zip(&mut own) {
            cone.label = ConeLabel::lettered(end, are_several.then_some(number));
        }
    }
}

/// Every spot of a plan once, with what happens there.
fn used_spots(blocks: &[PlanBlock]) -> Vec<PaintedSpot> {
    let mut spots: Vec<PaintedSpot> = Vec::new();
    for (number, block) in (1..).zip(blocks) {
        let mut met = BTreeSet::new();
        for rep in &block.reps {
            // Repetitions between the same spots need the same cones.
            let bits =
                [rep.start.to_finish_line_m, rep.finish.to_finish_line_m, rep.distance_m].map(f64::to_bits);
            let run_in = rep.run_in.as_ref().map(|spot| spot.to_finish_line_m.to_bits());
            let mark = rep.handover.as_ref().map(|handover| handover.spot.to_finish_line_m.to_bits());
            if !met.insert((rep.lane, rep.course, run_in, mark, rep.pace_changes.len(), bits)) {
                continue;
            }
            let changes = rep.pace_changes.iter().map(|change| (SpotEnd::Change, &change.spot));
            let ends = [(SpotEnd::Start, &rep.start), (SpotEnd::Finish, &rep.finish)];
            let run_in = rep.run_in.iter().map(|spot| (SpotEnd::RunIn, spot));
            let mark = rep.handover.iter().map(|handover| (SpotEnd::CheckMark, &handover.spot));
            for (end, spot) in ends.into_iter().chain(changes).chain(run_in).chain(mark) {
                let own = SpotUse { end, distance_m: rep.distance_m, run: rep.nominal.run, block: number };
                match spots.iter_mut().find(|used| is_same_spot(&used.spot, spot)) {
                    Some(used) => {
                        if !used.uses.contains(&own) {
                            used.uses.push(own);
                        }
                        // Who stands a hair off paint stands on it.
                        if spot.is_on_paint() && !used.spot.is_on_paint() {
                            used.spot = spot.clone();
                        }
                    }
                    None => spots.push(PaintedSpot { uses: vec![own], spot: spot.clone() }),
                }
            }
        }
    }
    spots.iter_mut().for_each(|used| used.uses.sort_by_key(|own| own.end));
    spots
}

/// Where a cone is met by someone who walks round from the finish line.
#[derive(Clone, Copy)]
struct Met {
    /// How far along the lap of lane 1, in metres.
    lap_m: f64,
    /// How far out in the chute that is passed there, in metres.
    out_m: f64,
    /// In which lane.
    lane: LaneNumber,
}

impl Met {
    fn on_walk(track: &Track, spot: &Placement) -> Self {
        let layout = track.layout();
        let (on_lap, out_m) = match layout.straight(spot.course) {
            None => (
                Some(layout.abreast(Spot::on_oval(spot.lane, spot.to_finish_line_m), LaneNumber::FIRST)),
                0.0,
            ),
            // A chute is passed where its straight begins.
            Some(ground) => {
                let to_finish_m = spot.to_finish_line_m.min(ground.straight_m);
                let abreast = Spot { course: spot.course, lane: LaneNumber::FIRST, to_finish_m };
                (layout.on_course(abreast, Course::Oval), spot.to_finish_line_m - to_finish_m)
            }
        };
        let lap_m = on_lap.map_or(0.0, |spot| layout.from_finish_m(spot));
        Self { lap_m, out_m, lane: spot.lane }
    }

    /// Its place in the order of the walk, in whole millimetres.
    fn key(self) -> (i64, i64, LaneNumber) {
        let mm = |length_m: f64| (length_m * 1000.0).round() as i64;
        (mm(self.lap_m), mm(self.out_m), self.lane)
    }

    /// How far it is to walk to the next cone: along the middle between the two lanes, and across.
    fn walk_m(self, track: &Track, next: Self) -> f64 {
        let layout = track.layout();
        let across_m = layout.lane(next.lane).measure_m - layout.lane(self.lane).measure_m;
        let along_m = if self.lap_m == next.lap_m {
            (next.out_m - self.out_m).abs()
        } else {
            let lap_m = track.lap_m(LaneNumber::FIRST).unwrap_or_default();
            // A place of lane 1, along the lap of another lane of the oval.
            let along = |met: Self, lane: LaneNumber| {
                let outermost = layout.lane_numbers(Course::Oval).last();
                let lane = outermost.map_or(lane, |outermost| lane.min(outermost));
                if met.lap_m >= lap_m {
                    return track.lap_m(lane).unwrap_or_default();
                }
                let spot =
                    Spot::on_oval(LaneNumber::FIRST, if met.lap_m == 0.0 { 0.0 } else { lap_m - met.lap_m });
                layout.from_finish_m(layout.abreast(spot, lane))
            };
            let in_lane = |lane| along(next, lane) - along(self, lane);
            self.out_m + (in_lane(self.lane) + in_lane(next.lane)) / 2.0 + next.out_m
        };
        libm::hypot(along_m, across_m)
    }
}

#[cfg(test)]
mod tests {
    use lane_distance::Track;

    use super::*;
    use crate::{Session, Venue, plan};

    use workout_notation::Block;

    fn planned(blocks: &[&str]) -> crate::Plan {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let blocks = blocks.iter().map(|text| Block::parse(text).expect("well formed")).collect();
        let session = Session { cones: Cones::EverySpot, ..Session::of_blocks("a walk", blocks) };
        plan(&venue, &session).expect("it fits")
    }

    fn is_start(cone: &Cone) -> bool {
        cone.uses.iter().all(|own| own.end == SpotEnd::Start)
    }

    #[test]
    fn a_lap_of_lane_1_is_walked_and_no_more() {
        let plan = planned(&["400 in lane 1"]);
        assert_eq!(plan.setup.len(), 1, "start and finish are one cone");
        let uses = plan.setup[0].uses.iter().map(|own| (own.end, own.distance_m, own.block));
        assert!(uses.eq([(SpotEnd::Start, 400.0, 1), (SpotEnd::Finish, 400.0, 1)]));
        assert!((plan.walk.walk_m - 400.0).abs() < 0.02, "{}", plan.walk.walk_m);
        assert!((plan.walk.walk_s - plan.walk.walk_m / 1.4).abs() < 1e-9);
    }

    #[test]
    fn lanes_are_walked_across_and_a_chute_out_and_back() {
        let across = planned(&["200 in lanes 2-4"]);
        // From lane 2 to lane 4 on the finish line, to the start in lane 2 half a lap on, across to the
        // starts in lanes 3 and 4, each a little further on, and round to the line in lane 4.
        let bend_m = |offset_m: f64| std::f64::consts::PI * (36.5 + offset_m + 0.2);
        let lap_m = 2.0 * 84.39 + bend_m(2.0 * 1.22) + bend_m(3.0 * 1.22);
        let walk_m = across.walk.walk_m;
        assert!((walk_m - lap_m - 2.0 * 1.22).abs() < 0.2, "{walk_m} {lap_m}");
        let (near, far) = (planned(&["80 in lane 4"]), planned(&["110h in lane 4"]));
        // 110 m is 25.61 m out in the chute of a straight of 84.39 m.
        assert!((far.walk.walk_m - near.walk.walk_m - 2.0 * 25.61).abs() < 0.01, "{}", far.walk.walk_m);
    }

    #[test]
    fn cones_in_a_chute_come_in_the_order_of_the_walk() {
        let plan = planned(&["110h in lane 4", "100 in lanes 3-4"]);
        let starts: Vec<(f64, u8)> = plan
            .setup
            .iter()
            .filter(|cone| is_start(cone))
            .map(|cone| (cone.spot.to_finish_line_m, cone.spot.lane.get()))
            .collect();
        assert_eq!(starts, [(100.0, 3), (100.0, 4), (110.0, 4)]);
    }

    fn labels(session: &Session) -> Vec<String> {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let plan = plan(&venue, session).expect("it fits");
        plan.setup.iter().map(|cone| cone.label.to_string()).collect()
    }

    fn session(blocks: &[&str]) -> Session {
        let blocks = blocks.iter().map(|text| Block::parse(text).expect("well formed")).collect();
        Session::of_blocks("cones", blocks)
    }

    #[test]
    fn paint_needs_no_cone_unless_the_session_asks_for_it() {
        let run = session(&["200 in lane 2"]);
        assert_eq!(labels(&run), [""; 0]);
        assert_eq!(labels(&Session { cones: Cones::EverySpot, ..run }), ["F", "S"]);
        // The start of a 300 is off the paint, its finish is not.
        assert_eq!(labels(&session(&["300 in lane 2"])), ["S"]);
    }

    #[test]
    fn the_cones_of_one_lane_have_letters_and_those_of_several_numbers() {
        assert_eq!(labels(&session(&["300 in lane 2", "370 in lane 2"])), ["S1", "S2"]);
        assert_eq!(labels(&session(&["300 in lanes 2-3"])), ["1", "2"]);
        let mut squad = session(&["300 in lane 2"]);
        squad.add_athletes(2);
        assert_eq!(labels(&squad), ["1"]);
    }

    #[test]
    fn places_of_change_are_set_out() {
        let plan = planned(&["200 in-and-out 50s in lane 1"]);
        let changes = plan.setup.iter().filter(|cone| cone.uses[0].end == SpotEnd::Change);
        let mut at: Vec<f64> = changes.map(|cone| cone.spot.to_finish_line_m).collect();
        at.sort_by(f64::total_cmp);
        assert!(
            at.len() == 3 && at.iter().zip([50.0, 100.0, 150.0]).all(|(a, b)| (a - b).abs() < 1e-9),
            "{at:?}"
        );
        // A lap of lane 2 is 407.04 m: the second lap has places of its own.
        assert_eq!(labels(&session(&["2 laps in-and-out 100s in lane 2"])).len(), 8);
    }

    #[test]
    fn spots_less_than_the_breadth_of_a_line_apart_share_a_cone() {
        let near = planned(&["300.04 in lane 2", "300 in lane 2"]);
        let starts = near.setup.iter().filter(|cone| cone.uses[0].end == SpotEnd::Start);
        assert_eq!(starts.map(|cone| cone.uses.len()).collect::<Vec<_>>(), [2]);
        let apart = planned(&["300.06 in lane 2", "300 in lane 2"]);
        assert_eq!(apart.setup.iter().filter(|cone| cone.uses[0].end == SpotEnd::Start).count(), 2);
    }

    #[test]
    fn a_tape_is_counted_in_strides() {
        let plan = planned(&["300 in lane 2"]);
        let start = plan.setup.iter().find(|cone| is_start(cone)).expect("it starts somewhere");
        assert!((start.strides - start.spot.tape_m.abs() / 0.75).abs() < 1e-12);
        assert!(plan.walk.is_stride_assumed);
    }
}
