//! Whether the lanes of a wave start at one place or finish at one.

use std::collections::BTreeMap;

use lane_distance::{Course, LaneNumber, MarkId, Placement, Spot, Track};
use session_plan::{Plan, Remark, Rep};

use crate::evening::Evening;
use crate::finished::Planned;
use crate::hazards::is_free;

/// Waves whose lanes neither start at one place nor finish at one, unless the plan says so and is right.
pub(crate) fn places_apart(evening: &Evening, plan: &Plan, planned: &Planned<'_>, faults: &mut Vec<String>) {
    let text = &planned.block.read.text;
    let mut waves: BTreeMap<(u32, u32), Vec<&Rep>> = BTreeMap::new();
    for rep in &planned.block.reps {
        waves.entry((rep.rep, rep.wave)).or_default().push(rep);
    }
    let mut told: Vec<(u32, LaneNumber)> = Vec::new();
    for remark in &planned.block.remarks {
        if let Remark::NoCommonPlace { runs, lanes } = remark {
            told.extend(runs.iter().flat_map(|run| lanes.iter().map(|lane| (*run, *lane))));
        }
    }
    for ((run, wave), reps) in waves {
        let is_one =
            |place: fn(&Rep) -> &Placement| reps.iter().all(|rep| is_one_place(place(rep), place(reps[0])));
        if is_one(|rep| &rep.start) || is_one(|rep| &rep.finish) {
            continue;
        }
        let is_told = reps.iter().all(|rep| told.contains(&(run, rep.lane)));
        told.retain(|(known, _)| *known != run);
        let name = format!("wave {wave} of run {run} of `{text}`");
        // Of lanes that nobody asked for some are left out.
        let has_asked =
            |rep: &&Rep| rep.athletes.iter().any(|name| !evening.athletes()[name.as_str()].lanes.is_empty());
        if !is_told || planned.asked.lanes.is_empty() && !reps.iter().any(has_asked) {
            faults.push(format!("{name} is scattered"));
        }
        if let Some(place) = common_place(evening, plan, planned, &reps) {
            faults.push(format!("{name} is scattered, and has {place} in common"));
        }
    }
    if let Some((run, lane)) = told.first() {
        faults.push(format!("run {run} of `{text}` is not scattered in lane {lane}"));
    }
}

/// Whether two spots are one, or on one mark, or on one line square across a straight.
fn is_one_place(a: &Placement, b: &Placement) -> bool {
    let is_on_paint = |spot: &Placement| spot.mark.is_some() && spot.past_mark_m.abs() < 0.05;
    let is_straight = a.course != Course::Oval && a.course == b.course;
    let is_same = a.lane == b.lane && a.course == b.course;
    is_same && (a.to_finish_line_m - b.to_finish_line_m).abs() < 1e-3
        || a.mark == b.mark && is_on_paint(a) && is_on_paint(b)
        || is_straight && (a.to_finish_line_m - b.to_finish_line_m).abs() < 1e-3
}

/// A mark of the oval that some runs could all start from or finish at.
fn common_place(evening: &Evening, plan: &Plan, planned: &Planned<'_>, reps: &[&Rep]) -> Option<String> {
    let track = plan.track.ground.as_ref();
    // The plan goes by what may be in use at some time while the block is run.
    let all = || planned.block.reps.iter();
    let from_s = all().filter_map(|rep| rep.go_s).fold(f64::INFINITY, f64::min);
    let to_s = all().filter_map(|rep| rep.done_s).fold(0.0, f64::max);
    let mut found = track.painted(Course::Oval, reps[0].lane).iter().flat_map(|at| [(at, true), (at, false)]);
    found.find_map(|(at, is_start)| {
        let is_theirs = |rep: &&Rep| {
            let Some(spot) = mark(track, at.mark, rep.lane) else { return false };
            let lap_m = track.lap_m(rep.lane).unwrap_or(f64::NAN);
            let along =
                |metres: f64| Spot { to_finish_m: (spot.to_finish_m + metres).rem_euclid(lap_m), ..spot };
            let ends = if is_start { (spot, along(-rep.distance_m)) } else { (along(rep.distance_m), spot) };
            is_free(evening, track, ends, rep.distance_m, (from_s, to_s))
        };
        let name = track.mark(at.mark).map_or("", |mark| &*mark.name);
        reps.iter()
            .all(is_theirs)
            .then(|| format!("the {name}, {}", if is_start { "a start" } else { "a finish" }))
    })
}

/// Where a mark lies in a lane of the oval, if that is how the place there is called.
fn mark(track: &Track, mark: MarkId, lane: LaneNumber) -> Option<Spot> {
    let mut all = track.painted(Course::Oval, lane).iter();
    let spot = Spot::on_oval(lane, all.find(|painted| painted.mark == mark)?.to_finish_m);
    let reading = track.read(spot);
    (reading.mark == Some(mark) && reading.is_on_paint()).then_some(spot)
}
