//! The ways of one who times runs that finish in several places.

use lane_distance::{Course, Spot, Track};
use wave_plan::{Timers, TimingRules, Watch};

use crate::plan::plan_block::PlanBlock;
use crate::plan::warning::Warning;

/// A shorter walk than this is not worth a word, in seconds: finishes of one block in several lanes lie no further apart.
const NOTICED_S: f64 = 20.0;

/// Where one who times a finish stands, on a way round outside all lanes; nothing off the oval.
pub(crate) fn watch(track: &Track, finish: &Spot) -> Option<Watch> {
    let layout = track.layout();
    let on_oval = layout.on_course(*finish, Course::Oval)?;
    let outermost = layout.lane_numbers(Course::Oval).last()?;
    let at_m = layout.from_finish_m(layout.abreast(on_oval, outermost));
    Some(Watch { at_m, round_m: track.lap_m(outermost).ok()? })
}

/// That one coach walks from finish to finish, where several groups are timed by one watch.
pub(crate) fn coach_walks(track: &Track, blocks: &[PlanBlock], rules: &TimingRules) -> Option<Warning> {
    let named = blocks.iter().filter(|block| block.reps.iter().any(|rep| !rep.athletes.is_empty()));
    let mut finishes: Vec<(f64, &[String], Watch)> = named
        .flat_map(|block| block.reps.iter().map(|rep| (block.groups.as_slice(), rep)))
        .filter_map(|(groups, rep)| Some((rep.done_s?, groups, watch(track, &rep.finish.spot())?)))
        .collect();
    finishes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let walks = finishes.windows(2).filter(|pair| pair[0].1 != pair[1].1);
    let walks_s: Vec<f64> =
        walks.map(|pair| pair[0].2.walk_s(&pair[1].2)).filter(|walk_s| *walk_s >= NOTICED_S).collect();
    let longest_s = walks_s.iter().copied().reduce(f64::max)?;
    (rules.timers == Timers::One).then_some(Warning::CoachWalks { walks: walks_s.len(), longest_s })
}
