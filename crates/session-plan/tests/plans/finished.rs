//! A finished plan, as the checker reads it.

use lane_distance::{Course, Placement, Spot, Track};
use session_plan::{Plan, PlanBlock, Rep};

use crate::asked::{Asked, Length, Step};
use crate::checker::{Clock, Run, Start};
use crate::evening::{Athlete, Evening, Group};
use crate::handings::wrong_handings;

/// A block of a plan, with what was asked.
pub(crate) struct Planned<'a> {
    /// Which of the crews does it, and which of the blocks of that crew it is.
    pub(crate) crew: usize,
    pub(crate) place: usize,
    pub(crate) asked: &'a Asked,
    pub(crate) groups: Vec<&'a Group>,
    pub(crate) block: &'a PlanBlock,
}

/// The blocks of a plan: those of each crew once, in their order.
pub(crate) fn blocks<'a>(evening: &'a Evening, plan: &'a Plan) -> Vec<Planned<'a>> {
    let mut blocks = Vec::new();
    for (crew, (own, groups, asked)) in evening.crews().into_iter().enumerate() {
        for (place, asked) in asked.iter().enumerate() {
            let mut found =
                plan.blocks.iter().filter(|block| (block.at.group, block.at.block) == (own, place));
            let block = found.next().unwrap_or_else(|| panic!("`{}` is not planned", asked.text));
            assert!(
                found.next().is_none() && block.read.text == asked.text,
                "`{}` is planned once",
                asked.text
            );
            blocks.push(Planned { crew, place, asked, groups: groups.clone(), block });
        }
    }
    assert_eq!(blocks.len(), plan.blocks.len());
    blocks
}

/// The clocks of the crews: runs by time show in no plan, and so count as part of the breaks.
pub(crate) fn clocks(evening: &Evening) -> Vec<Clock> {
    let clock = |(_, _, asked): (_, _, &[Asked])| {
        let mut breaks_s = Vec::new();
        let mut before_s = 0.0;
        for asked in asked {
            let last = asked.last_run();
            breaks_s.push(before_s + if last == 0 { 0.0 } else { asked.by_time_s(0) });
            before_s = asked.break_s(evening.between_s) + asked.by_time_s(last);
        }
        Clock { begins_s: 0.0, breaks_s }
    };
    evening.crews().into_iter().map(clock).collect()
}

/// The starts of a plan.
pub(crate) fn starts(evening: &Evening, plan: &Plan) -> Vec<Start> {
    let athletes = evening.athletes();
    let mut starts: Vec<Start> = Vec::new();
    for Planned { crew, place, asked, block, .. } in blocks(evening, plan) {
        for rep in &block.reps {
            let (wave, number) = (rep.wave as usize, rep.rep as usize);
            let go_s = rep.go_s.expect("every target is given");
            let runs = rep.athletes.iter().map(|name| run(plan, rep, athletes[name.as_str()], asked));
            let same = |start: &&mut Start| {
                (start.party, start.block, start.wave, start.run) == (crew, place, wave, number)
            };
            match starts.iter_mut().find(same) {
                Some(start) => start.runs.extend(runs),
                None => starts.push(Start {
                    party: crew,
                    block: place,
                    wave,
                    run: number,
                    go_s,
                    is_by_time: false,
                    runs: runs.collect(),
                }),
            }
        }
    }
    starts
}

fn run(plan: &Plan, rep: &Rep, athlete: &Athlete, asked: &Asked) -> Run {
    let finish_m = finish_m(&plan.track.ground, &rep.finish);
    let number = rep.rep as usize;
    let go_s = rep.go_s.expect("every target is given");
    let step = &asked.steps[number - 1];
    let run_in_m = if rep.handover.is_some() { 40.0 } else { step.run_in_m };
    // The target is for what follows the run-in; nobody knows how long that takes but the plan.
    let shown_s = rep.done_s.expect("every target is given") - go_s;
    let lasts_s = |metres: f64| if run_in_m > 0.0 { shown_s } else { athlete.target_s(metres) };
    let own_s = step.cycle_s(lasts_s);
    Run {
        who: athlete.name.clone(),
        go_s,
        target_s: lasts_s(rep.distance_m),
        cycle_s: own_s + asked.by_time_s(number),
        distance_m: rep.distance_m + run_in_m,
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

/// What is wrong with the lanes of a block, with how far its runs are, and with who runs them.
pub(crate) fn lanes_and_names(evening: &Evening, planned: &Planned<'_>, faults: &mut Vec<String>) {
    let Planned { asked, groups, block, .. } = planned;
    let athletes = evening.athletes();
    for rep in &block.reps {
        let own = rep.athletes.iter().map(|name| &athletes[name.as_str()].lanes);
        let allowed = own.chain([&asked.lanes]).filter(|lanes| !lanes.is_empty());
        if evening.closed.contains(&rep.lane.get())
            || allowed.into_iter().any(|lanes| !lanes.contains(&rep.lane.get()))
        {
            faults.push(format!("{:?} run `{}` in lane {}", rep.athletes, block.read.text, rep.lane));
        }
        let step = &asked.steps[rep.rep as usize - 1];
        let slowest_s = rep.athletes.iter().map(|name| athletes[name.as_str()].target_s(rep.distance_m));
        if step.run_in_m > 0.0 && !has_run_in(rep, step.run_in_m, slowest_s.fold(0.0, f64::max)) {
            faults.push(format!("{:?} have no run-in of {} m: {rep:?}", rep.athletes, step.run_in_m));
        }
        match step.length {
            Length::Metres(metres) if (metres - rep.distance_m).abs() < 1e-6 => {}
            length => {
                faults.push(format!("{} m are run for {length:?} of `{}`", rep.distance_m, block.read.text))
            }
        }
    }
    let has_teams =
        asked.has_exchanges() && groups.iter().map(|group| group.athletes.len()).sum::<usize>() > 1;
    if has_teams {
        wrong_handings(planned, faults);
    }
    let is_own = |step: &Step| !(step.is_by_time() || has_teams && step.is_exchange);
    let runs = asked.steps.iter().zip(1..).filter(|(step, _)| is_own(step));
    let runs: Vec<u32> = runs.map(|(_, number)| number).collect();
    for athlete in groups.iter().flat_map(|group| &group.athletes) {
        let theirs = block.reps.iter().filter(|rep| rep.athletes.contains(&athlete.name));
        let mut reps: Vec<u32> =
            theirs.filter(|rep| is_own(&asked.steps[rep.rep as usize - 1])).map(|rep| rep.rep).collect();
        reps.sort_unstable();
        if reps != runs {
            faults.push(format!("{} runs repetitions {reps:?} of `{}`", athlete.name, block.read.text));
        }
    }
}

/// Whether a plan shows a run-in of so many metres before the start, and time for it: `target_s` is for the run itself.
fn has_run_in(rep: &Rep, run_in_m: f64, target_s: f64) -> bool {
    let is_there = rep.run_in.as_ref().is_some_and(|begins| {
        (begins.x_m - rep.start.x_m).hypot(begins.y_m - rep.start.y_m) <= run_in_m + 1e-6
            && begins.lane == rep.lane
    });
    let lasts_s = rep.done_s.zip(rep.go_s).map_or(f64::NAN, |(done_s, go_s)| done_s - go_s);
    // From standing it takes longer than at the speed of the run, but not four seconds longer.
    let at_speed_s = target_s * run_in_m / rep.distance_m;
    is_there && (at_speed_s..at_speed_s + 4.0).contains(&(lasts_s - target_s))
}
