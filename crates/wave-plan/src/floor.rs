//! Bounds on the end that no plan beats.

use std::rc::Rc;

use crate::cut::Cut;
use crate::rules::{Timers, TimingRules};
use crate::set::SquadSet;
use crate::wave::Wave;

/// No plan of these sets ends before this, however they are cut, in seconds.
pub(crate) fn floor_s(sets: &[SquadSet], rules: &TimingRules) -> f64 {
    let alone = sets.iter().map(|set| waves_in_a_row_s(set, rules)).fold(0.0, f64::max);
    alone.max(all_starts_s(sets, rules)).max(all_windows_s(sets, rules))
}

/// A wave goes at least one start gap after each wave before it, and then needs its runs and rests. However the
/// waves are cut, somebody is left after each full wave of the slowest.
fn waves_in_a_row_s(set: &SquadSet, rules: &TimingRules) -> f64 {
    let mut own_s: Vec<f64> = set.runners.iter().map(|runner| runner.alone_s(set.reps)).collect();
    own_s.sort_by(|a, b| b.total_cmp(a));
    let waves = own_s.iter().step_by(set.most_in_wave()).enumerate();
    waves.map(|(place, own_s)| place as f64 * rules.start_gap_s + own_s).fold(0.0, f64::max)
}

/// All starts lie a start gap apart, and after the last of them somebody runs.
fn all_starts_s(sets: &[SquadSet], rules: &TimingRules) -> f64 {
    let starts: usize = sets.iter().map(SquadSet::start_count).sum();
    starts.saturating_sub(1) as f64 * rules.start_gap_s + fastest_s(sets)
}

/// All finish windows lie a timing gap apart; with two timers, one of them times at least half.
fn all_windows_s(sets: &[SquadSet], rules: &TimingRules) -> f64 {
    let timers = match rules.timers {
        Timers::One => 1.0,
        Timers::Two => 2.0,
        Timers::Untimed => return 0.0,
    };
    let mut all_s = 0.0;
    for set in sets {
        let mut targets_s: Vec<f64> = set.runners.iter().map(|runner| runner.target_s).collect();
        targets_s.sort_by(f64::total_cmp);
        let mut steps_s: Vec<f64> = targets_s.windows(2).map(|pair| pair[1] - pair[0]).collect();
        steps_s.sort_by(f64::total_cmp);
        // Cuts fall where they save most: at the widest steps from target to target.
        steps_s.truncate(steps_s.len() + 1 - set.wave_count());
        let round_s = steps_s.iter().sum::<f64>() + set.wave_count() as f64 * rules.timing_gap_s;
        all_s += f64::from(set.reps) * round_s;
    }
    fastest_s(sets) + all_s / timers - rules.timing_gap_s
}

fn fastest_s(sets: &[SquadSet]) -> f64 {
    let runners = sets.iter().filter(|set| set.reps > 0).flat_map(|set| &set.runners);
    let fastest_s = runners.map(|runner| runner.target_s).fold(f64::INFINITY, f64::min);
    if fastest_s.is_finite() { fastest_s } else { 0.0 }
}

/// No plan with this cut ends before this, in seconds: each wave's last start lies its cycles after its first, and
/// a start gap after the last start of the wave before.
pub(crate) fn cut_floor_s(cut: &Cut<'_>, rules: &TimingRules) -> f64 {
    let mut last_s = f64::NEG_INFINITY;
    let mut end_s: f64 = 0.0;
    for (place, wave) in cut.waves.iter().enumerate() {
        let first_s = place as f64 * rules.start_gap_s;
        let cycles_s = f64::from(wave.set.reps.saturating_sub(1)) * wave.cycle_s;
        last_s = (last_s + rules.start_gap_s).max(first_s + cycles_s);
        end_s = end_s.max(last_s + wave.window_s.1);
    }
    end_s
}

/// How long members wait for the one of their wave who is ready last, all together, in seconds.
pub(crate) fn cut_wait_s(cut: &Cut<'_>) -> f64 {
    let wait_s = |wave: &Rc<Wave<'_>>| {
        let cycles = f64::from(wave.set.reps.saturating_sub(1));
        wave.set.members(&wave.members).iter().map(|runner| wave.cycle_s - runner.cycle_s()).sum::<f64>()
            * cycles
    };
    cut.waves.iter().map(wait_s).sum()
}
