//! Where the coach stands.

use std::cmp::Reverse;

use lane_distance::{Course, LaneNumber, Placement, Side, Spot, Track};
use serde::Serialize;

use crate::plan::rep::Rep;

/// How far from the lanes the coach stands, in metres: common practice, no source.
const CLEAR_OF_LANES_M: f64 = 1.5;

/// A place off the lanes from which most finishes of a block are seen square on.
///
/// Serialised, it is its numbers; whoever writes it adds the finish in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CoachPlace {
    /// Metres from the centre of the infield, along the home straight's direction of running.
    pub x_m: f64,
    /// Metres from the centre of the infield, towards the back straight.
    pub y_m: f64,
    /// On which side of the lanes it lies.
    pub side: Side,
    /// The lane beside it.
    pub lane: LaneNumber,
    /// The finish that it is level with; nothing for the finish line.
    #[serde(skip)]
    pub finish: Option<Placement>,
}

impl CoachPlace {
    /// Level with the finish that most repetitions share: outside the lanes, or on the infield side
    /// where something in use lies outside them. Where it lies on both sides, the next finish counts; nothing
    /// where that leaves none.
    pub(crate) fn of(track: &Track, reps: &[Rep]) -> Option<Self> {
        let mut finishes: Vec<(&Rep, usize)> = Vec::new();
        for rep in reps {
            match finishes.iter_mut().find(|(known, _)| is_level(track, known, rep)) {
                Some((_, count)) => *count += 1,
                None => finishes.push((rep, 1)),
            }
        }
        // Of equals the first, in running order of the lanes.
        finishes.sort_by_key(|(_, count)| Reverse(*count));
        let sides = [Side::Outside, Side::Inside];
        finishes.iter().find_map(|(rep, _)| sides.into_iter().find_map(|side| Self::beside(track, rep, side)))
    }

    /// Level with a finish, on one side of all lanes, if that is safe.
    fn beside(track: &Track, rep: &Rep, side: Side) -> Option<Self> {
        let finish = rep.finish.spot();
        let layout = track.layout();
        let course = widest_course(track, finish);
        let outermost = layout.lane_numbers(course).last().unwrap_or(rep.lane).max(rep.lane);
        let lane = if side == Side::Outside { outermost } else { LaneNumber::FIRST };
        let abreast = match finish.course {
            Course::Oval if layout.has_lane(Course::Oval, lane) => layout.abreast(finish, lane),
            Course::Oval => Spot { lane, ..layout.on_course(finish, course)? },
            _ => Spot { lane, ..finish },
        };
        if track.hazards().iter().any(|hazard| hazard.lies_beside(layout, abreast, side)) {
            return None;
        }
        let is_line = finish.to_finish_m == 0.0 && finish.course != Course::BackStraight;
        let ground = layout.lane(lane);
        let inner_m = ground.inner_line_m - ground.measure_m;
        let offset_m = match side {
            Side::Outside => inner_m + ground.width_m + CLEAR_OF_LANES_M,
            _ => inner_m - CLEAR_OF_LANES_M,
        };
        let point = layout.pose(abreast).outwards(offset_m);
        let finish = (!is_line).then(|| rep.finish.clone());
        Some(Self { x_m: point.x, y_m: point.y, side, lane, finish })
    }
}

/// Whether two finishes lie square across the lanes from each other.
fn is_level(track: &Track, a: &Rep, b: &Rep) -> bool {
    let layout = track.layout();
    let (a, b) = (a.finish.spot(), b.finish.spot());
    // What lies on a straight lies on the oval too, except in a chute or in a lane of the straight alone.
    let level_m = match (layout.on_course(a, Course::Oval), layout.on_course(b, Course::Oval)) {
        (Some(a), Some(b)) => layout.past_m(layout.abreast(a, b.lane), b).abs(),
        _ if a.course == b.course => (a.to_finish_m - b.to_finish_m).abs(),
        _ => return false,
    };
    level_m < 0.05
}

/// The course with the most lanes on which the spot lies.
fn widest_course(track: &Track, spot: Spot) -> Course {
    let layout = track.layout();
    Course::ALL
        .into_iter()
        .filter(|&course| layout.on_course(spot, course).is_some())
        .max_by_key(|&course| (layout.lanes_of(course), course == spot.course))
        .unwrap_or(spot.course)
}

#[cfg(test)]
mod tests {
    use lane_distance::{Side, Track};

    use crate::{Plan, Session, Venue, plan};

    use workout_notation::Block;

    fn planned(track: &str, block: &str) -> Plan {
        let venue = Venue::from(Track::built_in(track).expect("it comes with the crate"));
        let block = Block::parse(block).expect("well formed");
        plan(&venue, &Session::of_block("a block", block)).expect("it fits")
    }

    #[test]
    fn the_coach_stands_outside_all_lanes_at_the_finish_line() {
        for track in ["standard", "standard-6"] {
            let plan = planned(track, "6 x 200 in lane 2");
            let coach = plan.blocks[0].coach.clone().expect("it finishes somewhere");
            assert_eq!((coach.side, coach.lane.get(), coach.finish), (Side::Outside, 8, None));
            // Half the straight; the radius, eight lanes of 1.22 m, and 1.5 m.
            assert!((coach.x_m - 42.195).abs() < 1e-9, "{}", coach.x_m);
            assert!((coach.y_m + 36.50 + 8.0 * 1.22 + 1.5).abs() < 1e-9, "{}", coach.y_m);
        }
    }

    #[test]
    fn the_coach_stands_where_most_finish() {
        let plan = planned("standard", "3 x (150 in lane 3 + 300 in lane 3) rest 5min");
        let block = &plan.blocks[0];
        let coach = block.coach.clone().expect("it finishes somewhere");
        let finish = &block.reps[0].finish;
        assert!((coach.x_m - finish.x_m).hypot(coach.y_m - finish.y_m) < 9.0, "{coach:?}");
    }

    #[test]
    fn one_finish_line_is_one_place_whether_it_is_run_to_round_the_bend_or_along_the_straight() {
        let plan = planned("standard", "2 x 200 in lane 3 + 2 x 100 in lane 3 + 3 x 150 in lane 3");
        let block = &plan.blocks[0];
        let courses: Vec<_> = block.reps.iter().map(|rep| rep.finish.course).collect();
        assert!(courses.contains(&lane_distance::Course::HomeStraight), "{courses:?}");
        let coach = block.coach.clone().expect("it finishes somewhere");
        assert_eq!((coach.side, coach.lane.get(), coach.finish), (Side::Outside, 8, None));
    }

    #[test]
    fn a_block_without_places_needs_nobody_there() {
        assert_eq!(planned("standard", "warm-up 20 min").blocks[0].coach, None);
    }
}
