//! One coach who times several groups is in one place at a time.

use lane_distance::{Course, Track};
use wave_plan::{Timers, TimingRules};

use crate::plan::coach_place::CoachPlace;
use crate::plan::plan_block::PlanBlock;
use crate::plan::remark::Remark;

/// Finishes that lie no further apart than this are seen from one place, in metres: those of one zone do, in several
/// lanes.
const SEEN_M: f64 = 30.0;

/// A block that the coach would go to.
struct Watched {
    /// Its place in the plan, from 0.
    index: usize,
    from_s: f64,
    to_s: f64,
    /// Where the coach would stand, in metres along the outermost lane; nothing off the oval.
    at_m: Option<f64>,
    on_line: bool,
    finishes: usize,
}

/// Sends the coach of several groups to one of the places where their blocks finish at the same time: to the finish
/// line before others, and then to where most finish. The other blocks are without, and say so.
pub(crate) fn one_coach(track: &Track, blocks: &mut [PlanBlock], rules: &TimingRules) {
    if rules.timers != Timers::One {
        return;
    }
    let mut watched: Vec<Watched> =
        blocks.iter().enumerate().filter_map(|(index, block)| Watched::of(track, index, block)).collect();
    watched.sort_by_key(|one| (!one.on_line, std::cmp::Reverse(one.finishes), one.index));
    let mut seen: Vec<Watched> = Vec::new();
    for one in watched {
        let is_other = |other: &&Watched| {
            blocks[other.index].groups != blocks[one.index].groups
                && other.from_s < one.to_s
                && one.from_s < other.to_s
                && !other.is_near(&one, track)
        };
        let mut with: Vec<usize> = seen.iter().filter(is_other).map(|other| other.index + 1).collect();
        if with.is_empty() {
            seen.push(one);
            continue;
        }
        with.sort_unstable();
        blocks[one.index].coach = None;
        blocks[one.index].remarks.push(Remark::CoachElsewhere { with });
    }
}

impl Watched {
    /// A block with athletes and times.
    fn of(track: &Track, index: usize, block: &PlanBlock) -> Option<Self> {
        let coach = block.coach.as_ref()?;
        let named = || block.reps.iter().filter(|rep| !rep.athletes.is_empty());
        Some(Self {
            index,
            from_s: named().filter_map(|rep| rep.go_s).reduce(f64::min)?,
            to_s: named().filter_map(|rep| rep.done_s).reduce(f64::max)?,
            at_m: along_m(track, coach),
            on_line: coach.finish.is_none(),
            finishes: named().count(),
        })
    }

    /// Whether one place serves both.
    fn is_near(&self, other: &Self, track: &Track) -> bool {
        let lap_m = outermost(track).and_then(|lane| track.lap_m(lane).ok()).unwrap_or(f64::INFINITY);
        match (self.at_m, other.at_m) {
            (Some(a), Some(b)) => (a - b).abs().min(lap_m - (a - b).abs()) <= SEEN_M,
            _ => false,
        }
    }
}

/// How far along the outermost lane from the finish line a place for the coach is, in metres.
fn along_m(track: &Track, coach: &CoachPlace) -> Option<f64> {
    let Some(finish) = &coach.finish else { return Some(0.0) };
    let layout = track.layout();
    let on_oval = layout.on_course(finish.spot(), Course::Oval)?;
    Some(layout.from_finish_m(layout.abreast(on_oval, outermost(track)?)))
}

fn outermost(track: &Track) -> Option<lane_distance::LaneNumber> {
    track.layout().lane_numbers(Course::Oval).last()
}
