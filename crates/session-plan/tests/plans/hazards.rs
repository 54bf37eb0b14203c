//! Hazards in use at some hours of an evening, and what a finished plan makes of them: found from the points of the
//! track alone.

use std::collections::HashMap;
use std::fmt::Write as _;

use lane_distance::{Course, LaneNumber, Point, Spot, Track};
use session_plan::{Caution, Plan, Rep};

use crate::dice::Dice;
use crate::evening::Evening;

/// Evenings with hazards begin at this hour, and end at that.
const HOURS: (u64, u64) = (18, 23);

/// What is done with a plan goes by what may be in use so much earlier or later, in seconds.
const MARGIN_S: f64 = 300.0;

/// How exactly ways are looked at, how near an end of a hazard nothing is sure, and how wide a lane is, in metres.
const STEP_M: f64 = 1.0;
const NEAR_M: f64 = 2.0;
const LANE_M: f64 = 1.22;

/// A hazard along the oval.
#[derive(Clone, Debug)]
pub(crate) struct Hazard {
    kind: &'static str,
    /// Where it begins and ends, in metres to the finish in lane 1.
    from_m: f64,
    to_m: f64,
    /// The lanes in which nobody may stand there, or run through a closed stretch; none means all.
    lanes: Vec<u8>,
    /// When it is in use, in minutes from the start of the evening; nothing for always.
    used_min: Option<(u64, u64)>,
}

impl Hazard {
    pub(crate) fn new(dice: &mut Dice, lap_m: u64) -> Self {
        let kind = dice.pick(&["javelin runway", "javelin runway", "cage sector", "gate", "closed stretch"]);
        let from_m = dice.whole(40, lap_m - 10) as f64;
        let is_everywhere = kind != "closed stretch" && dice.whole(0, 2) == 0;
        let first = dice.whole(1, 5) as u8;
        let from_min = dice.whole(0, 60);
        Self {
            kind,
            from_m,
            to_m: from_m - dice.whole(5, 30) as f64,
            lanes: if is_everywhere { Vec::new() } else { vec![first, first + 1] },
            used_min: (dice.whole(0, 4) > 0).then(|| (from_min, from_min + dice.whole(10, 60))),
        }
    }

    /// Whether it is in use at some time between two, in seconds from the start of the evening.
    fn is_used(&self, from_s: f64, to_s: f64) -> bool {
        self.used_min.is_none_or(|(from, to)| from_s < to as f64 * 60.0 && from as f64 * 60.0 < to_s)
    }

    fn is_in(&self, lane: LaneNumber) -> bool {
        self.lanes.is_empty() || self.lanes.contains(&lane.get())
    }

    /// Whether a place beside lane 1 lies within it by so much, in metres; without by so much where that is negative.
    fn holds(&self, to_finish_m: f64, by_m: f64) -> bool {
        (self.to_m + by_m..=self.from_m - by_m).contains(&to_finish_m)
    }
}

/// The lines of a track file that say where hazards are.
pub(crate) fn of_track(hazards: &[Hazard]) -> String {
    let mut text = if hazards.is_empty() { String::new() } else { "hazards:\n".to_owned() };
    for (number, hazard) in hazards.iter().enumerate() {
        let Hazard { kind, from_m, to_m, lanes, used_min } = hazard;
        let lanes = if lanes.is_empty() { String::new() } else { format!(", lanes: {lanes:?}") };
        let time = |minutes: u64| format!("{}:{:02}", HOURS.0 + minutes / 60, minutes % 60);
        let hours = used_min
            .map_or_else(String::new, |(from, to)| format!(", hours: \"{}-{}\"", time(from), time(to)));
        let _ = writeln!(
            text,
            "  - {{ kind: {kind}, from: {from_m}, to: {to_m}, side: inside, note: h{number}{lanes}{hours} }}"
        );
    }
    text
}

/// The line of a session file that says when the evening is, where hazards have hours.
pub(crate) fn of_session(hazards: &[Hazard]) -> String {
    if hazards.is_empty() { String::new() } else { format!("hours: {}:00-{}:00\n", HOURS.0, HOURS.1) }
}

/// Where the runners of a run come by, as distances to the finish beside them in lane 1; none where they are beside no
/// place of the oval.
#[derive(Clone)]
struct Way {
    /// Where they stand before, pass the start, and finish.
    ends_m: Vec<Option<f64>>,
    all_m: Vec<f64>,
}

/// What is wrong with the runs of an evening and the hazards in use meanwhile.
pub(crate) fn wrong_hazards(evening: &Evening, plan: &Plan, faults: &mut Vec<String>) {
    if evening.hazards.is_empty() {
        return;
    }
    let mut known: HashMap<String, Way> = HashMap::new();
    for (block, rep) in plan.blocks.iter().flat_map(|block| block.reps.iter().map(move |rep| (block, rep))) {
        let (Some(go_s), Some(done_s)) = (rep.go_s, rep.done_s) else { continue };
        let place =
            format!("{:?} {:?} {:?} {}", rep.start.spot(), rep.finish.spot(), rep.run_in_m, rep.distance_m);
        let way = known.entry(place).or_insert_with(|| way(&plan.track.ground, rep)).clone();
        for (number, hazard) in evening.hazards.iter().enumerate() {
            let name =
                || format!("{:?} of `{}` go {go_s} done {done_s}: {hazard:?}", rep.athletes, block.read.text);
            let note = Some(format!("h{number}"));
            let is_told = rep
                .cautions
                .iter()
                .any(|caution| matches!(caution, Caution::PassesHazard { note: of, .. } if *of == note));
            let comes_by = |by_m: f64| way.all_m.iter().any(|at_m| hazard.holds(*at_m, by_m));
            if hazard.is_used(go_s, done_s) {
                if hazard.is_in(rep.lane) && way.ends_m.iter().flatten().any(|at_m| hazard.holds(*at_m, 0.01))
                {
                    faults.push(format!("somebody stands in it: {}", name()));
                }
                if hazard.kind == "closed stretch" && hazard.is_in(rep.lane) && comes_by(NEAR_M) {
                    faults.push(format!("somebody runs through it: {}", name()));
                }
                if comes_by(NEAR_M) && !is_told {
                    faults.push(format!("nobody is warned: {}", name()));
                }
            }
            let may_be_used = hazard.is_used(go_s - MARGIN_S - 1.0, done_s + MARGIN_S + 1.0);
            if is_told && !(may_be_used && comes_by(-NEAR_M)) {
                faults.push(format!("warned of nothing: {}", name()));
            }
        }
    }
}

/// The way of a run, with its run-in.
fn way(track: &Track, rep: &Rep) -> Way {
    let ends = [rep.run_in.as_ref(), Some(&rep.start), Some(&rep.finish)];
    let ends: Vec<Spot> = ends.into_iter().flatten().map(|place| place.spot()).collect();
    way_between(track, &ends, rep.distance_m + rep.run_in_m.unwrap_or(0.0), rep.the_other_way)
}

/// A way that sets off from the first of some spots and is so long, in metres.
fn way_between(track: &Track, ends: &[Spot], whole_m: f64, the_other_way: bool) -> Way {
    let begins = ends[0];
    let ends_m = ends.iter().map(|spot| beside_m(track, spot.lane, track.point(*spot))).collect();
    // After a lap everything was met.
    let steps = (whole_m.min(420.0) / STEP_M) as u32;
    let points = (0..=steps).map(|step| {
        let on_m = f64::from(step) * STEP_M;
        let to_finish_m = begins.to_finish_m + if the_other_way { on_m } else { -on_m };
        point(track, Spot { to_finish_m, ..begins })
    });
    let mut all_m: Vec<f64> = points.filter_map(|point| beside_m(track, begins.lane, point)).collect();
    all_m.sort_by(f64::total_cmp);
    all_m.dedup_by(|a, b| (*a - *b).abs() < STEP_M / 2.0);
    Way { ends_m, all_m }
}

/// Whether a run on the oval from one spot to another is sure to be free of the hazards that may be in use between two
/// times, in seconds.
pub(crate) fn is_free(
    evening: &Evening,
    track: &Track,
    (start, finish): (Spot, Spot),
    distance_m: f64,
    (from_s, to_s): (f64, f64),
) -> bool {
    let way = way_between(track, &[start, finish], distance_m, false);
    let used = evening
        .hazards
        .iter()
        .filter(|hazard| hazard.is_used(from_s - MARGIN_S, to_s + MARGIN_S) && hazard.is_in(start.lane));
    used.into_iter().all(|hazard| {
        let stands_in = way.ends_m.iter().flatten().any(|at_m| hazard.holds(*at_m, -NEAR_M));
        !stands_in
            && (hazard.kind != "closed stretch" || !way.all_m.iter().any(|at_m| hazard.holds(*at_m, -NEAR_M)))
    })
}

/// The point of a spot that may lie laps on, or past the end of a straight and so on the oval.
fn point(track: &Track, spot: Spot) -> Point {
    let on_oval = match spot.course {
        Course::Oval => spot,
        _ if spot.to_finish_m >= 0.0 => return track.point(spot),
        straight => {
            let end = track.point(Spot { to_finish_m: 0.0, course: straight, ..spot });
            // Where the straight ends the oval goes on.
            let end_m = (0..4000).map(|n| f64::from(n) / 10.0).min_by(|a, b| {
                let away_m =
                    |to_finish_m: f64| track.point(Spot::on_oval(spot.lane, to_finish_m)).distance(end);
                away_m(*a).total_cmp(&away_m(*b))
            });
            Spot::on_oval(spot.lane, end_m.unwrap_or_default() + spot.to_finish_m)
        }
    };
    let lap_m = track.lap_m(spot.lane).unwrap_or(f64::INFINITY);
    track.point(Spot { to_finish_m: on_oval.to_finish_m.rem_euclid(lap_m), ..on_oval })
}

/// How far it is to the finish in lane 1 beside a point of a lane; nothing in a chute, which leaves the lanes of the oval.
fn beside_m(track: &Track, lane: LaneNumber, at: Point) -> Option<f64> {
    let lap_m = track.lap_m(LaneNumber::FIRST).ok()?;
    let away_m = |to_finish_m: f64| {
        track.point(Spot::on_oval(LaneNumber::FIRST, to_finish_m.rem_euclid(lap_m))).distance(at)
    };
    let nearest =
        |tried: &mut dyn Iterator<Item = f64>| tried.min_by(|a, b| away_m(*a).total_cmp(&away_m(*b)));
    let coarse_m = nearest(&mut (0..lap_m as u32).step_by(10).map(f64::from))?;
    let finer_m = nearest(&mut (-10..=10).map(|n| coarse_m + f64::from(n)))?;
    let finer_m = nearest(&mut (-20..=20).map(|n| finer_m + f64::from(n) / 20.0))?;
    let off_m = f64::from(lane.get() - 1) * LANE_M - away_m(finer_m);
    // Beside a kerb lane 1 is measured 0.10 m further out than others. It is looked for in steps of 0.05 m.
    let is_beside = match lane.get() {
        1 => off_m.abs() < 0.026,
        _ => off_m.abs() < 0.004 || (off_m - 0.1).abs() < 0.004,
    };
    is_beside.then(|| finer_m.rem_euclid(lap_m))
}
