//! A finished plan, as the checker reads it.

use lane_distance::{Course, Placement, Spot, Track};
use session_plan::{Plan, PlanBlock, Rep};

use crate::checker::{Run, Start};
use crate::evening::{Athlete, Evening, Group, Recovery, Reps};

/// What a block of a plan was asked to be, and by which groups.
pub(crate) struct Asked<'a> {
    pub(crate) reps: &'a Reps,
    pub(crate) groups: Vec<&'a Group>,
}

/// For each block of a plan what was asked: by the group whose own block it is, or by all others together.
pub(crate) fn asked<'a>(evening: &'a Evening, plan: &Plan) -> Vec<Asked<'a>> {
    let of_block = |block: &PlanBlock| {
        let groups: Vec<&Group> = match block.at.group {
            Some(own) => vec![&evening.groups[own]],
            None => evening.groups.iter().filter(|group| group.blocks.is_empty()).collect(),
        };
        let reps = &evening.blocks_of(groups[0])[block.at.block];
        assert_eq!(reps.text, block.text);
        Asked { reps, groups }
    };
    let asked: Vec<Asked<'_>> = plan.blocks.iter().map(of_block).collect();
    let shared = evening.groups.iter().filter(|group| group.blocks.is_empty()).take(1);
    let own = evening.groups.iter().filter(|group| !group.blocks.is_empty());
    let blocks: usize = shared.chain(own).map(|group| evening.blocks_of(group).len()).sum();
    assert_eq!(asked.len(), blocks, "every block is planned once");
    asked
}

/// The starts of a plan.
pub(crate) fn starts(evening: &Evening, plan: &Plan) -> Vec<Start> {
    let athletes = evening.athletes();
    let mut starts: Vec<Start> = Vec::new();
    for (set, (block, asked)) in plan.blocks.iter().zip(asked(evening, plan)).enumerate() {
        for rep in &block.reps {
            let (wave, number) = (rep.wave as usize, rep.rep as usize);
            let go_s = rep.go_s.expect("every target is given");
            let runs =
                rep.athletes.iter().map(|name| run(plan, rep, athletes[name.as_str()], asked.reps.recovery));
            let same = |start: &&mut Start| (start.set, start.wave, start.rep) == (set, wave, number);
            match starts.iter_mut().find(same) {
                Some(start) => start.runs.extend(runs),
                None => starts.push(Start { set, wave, rep: number, go_s, runs: runs.collect() }),
            }
        }
    }
    starts
}

fn run(plan: &Plan, rep: &Rep, athlete: &Athlete, recovery: Recovery) -> Run {
    let finish_m = finish_m(&plan.track.ground, &rep.finish);
    Run {
        who: athlete.name.clone(),
        go_s: rep.go_s.expect("every target is given"),
        target_s: athlete.target_s,
        cycle_s: match recovery {
            Recovery::Rest(rest_s) => athlete.target_s + rest_s,
            Recovery::Cycle(cycle_s) => cycle_s.max(athlete.target_s),
        },
        distance_m: rep.distance_m,
        lanes: vec![(rep.lane.get(), if rep.the_other_way { -finish_m } else { finish_m })],
        laps_m: if rep.course == Course::Oval { lap_m(plan, rep.lane.get()) } else { Vec::new() },
        is_reversed: rep.the_other_way,
    }
}

/// The lap of a lane, in metres.
pub(crate) fn lap_m(plan: &Plan, lane: u8) -> Vec<f64> {
    plan.track.lanes.iter().filter(|of| of.lane == lane).map(|of| of.lap_m).collect()
}

/// How far past the finish line a spot lies, in metres along its lane; on a straight it lies before it. The
/// end of the back straight is found on the oval by looking for the nearest place.
pub(crate) fn finish_m(track: &Track, finish: &Placement) -> f64 {
    match finish.course {
        Course::Oval => finish.from_finish_line_m,
        Course::HomeStraight => -finish.to_finish_line_m,
        Course::BackStraight => {
            let Ok(lap_m) = track.lap_m(finish.lane) else { return -finish.to_finish_line_m };
            let away_m = |to_finish_m: f64| {
                let point = track.point(Spot::on_oval(finish.lane, to_finish_m));
                (point.x - finish.x_m).hypot(point.y - finish.y_m)
            };
            let mut best_m = 0.0;
            let mut step_m = 1.0;
            let mut tried: Vec<f64> = (0..lap_m as u32).map(f64::from).collect();
            while step_m > 1e-6 {
                best_m = tried.into_iter().min_by(|a, b| away_m(*a).total_cmp(&away_m(*b))).unwrap_or(best_m);
                tried = (-10..=10).map(|n| best_m + f64::from(n) * step_m / 10.0).collect();
                step_m /= 10.0;
            }
            -best_m
        }
    }
}

/// What is wrong with the lanes of a block and with who runs it.
pub(crate) fn lanes_and_names(
    evening: &Evening,
    block: &PlanBlock,
    asked: &Asked<'_>,
    faults: &mut Vec<String>,
) {
    let athletes = evening.athletes();
    for rep in &block.reps {
        let own = rep.athletes.iter().map(|name| &athletes[name.as_str()].lanes);
        let allowed = own.chain([&asked.reps.lanes]).filter(|lanes| !lanes.is_empty());
        if evening.closed.contains(&rep.lane.get())
            || allowed.into_iter().any(|lanes| !lanes.contains(&rep.lane.get()))
        {
            faults.push(format!("{:?} run `{}` in lane {}", rep.athletes, block.text, rep.lane));
        }
    }
    for athlete in asked.groups.iter().flat_map(|group| &group.athletes) {
        let mut reps: Vec<u32> =
            block.reps.iter().filter(|rep| rep.athletes.contains(&athlete.name)).map(|rep| rep.rep).collect();
        reps.sort_unstable();
        if reps != (1..=asked.reps.count).collect::<Vec<_>>() {
            faults.push(format!("{} runs repetitions {reps:?} of `{}`", athlete.name, block.text));
        }
    }
}
