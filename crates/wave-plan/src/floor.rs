//! Bounds on the end that no plan beats.

use crate::cut::Cut;
use crate::itinerary::Itinerary;
use crate::rules::{Timers, TimingRules};
use crate::slot::Slot;

/// No plan of these itineraries ends before this, however they are cut, in seconds.
pub(crate) fn floor_s(slots: &[Slot<'_>], rules: &TimingRules) -> f64 {
    let in_turn_s = party_ends_s(slots, |_, slot| itinerary_floor_s(slot.itinerary, rules));
    let first_s = first_begin_s(slots);
    let all: Vec<&Itinerary> = slots.iter().map(|slot| slot.itinerary).collect();
    let windows_s = match rules.timers {
        Timers::EachGroup => 0.0,
        _ => all_windows_s(&all, rules),
    };
    in_turn_s.max(first_s + all_starts_s(&all, rules)).max(first_s + windows_s)
}

/// No plan of this itinerary alone lasts less than this, however it is cut, in seconds.
pub(crate) fn itinerary_floor_s(itinerary: &Itinerary, rules: &TimingRules) -> f64 {
    let alone = [itinerary];
    let windows_s = all_windows_s(&alone, rules);
    waves_in_a_row_s(itinerary, rules).max(all_starts_s(&alone, rules)).max(windows_s)
}

/// When the last party ends whose itineraries last so long each, in seconds.
pub(crate) fn party_ends_s(slots: &[Slot<'_>], lasts_s: impl Fn(usize, &Slot<'_>) -> f64) -> f64 {
    let mut ends_s: f64 = 0.0;
    let mut now: Option<(usize, f64)> = None;
    for (index, slot) in slots.iter().enumerate() {
        let so_far_s = now.filter(|(party, _)| *party == slot.party).map_or(0.0, |(_, end_s)| end_s);
        let end_s = so_far_s + slot.delay_s + lasts_s(index, slot);
        ends_s = ends_s.max(end_s);
        now = Some((slot.party, end_s));
    }
    ends_s
}

/// When the first party begins, in seconds.
fn first_begin_s(slots: &[Slot<'_>]) -> f64 {
    let firsts = slots.iter().enumerate();
    let firsts = firsts.filter(|(index, slot)| *index == 0 || slots[index - 1].party != slot.party);
    let first_s = firsts.map(|(_, slot)| slot.delay_s).fold(f64::INFINITY, f64::min);
    if first_s.is_finite() { first_s } else { 0.0 }
}

/// The least time between two starts of an itinerary; none where a run by time is in nobody's way.
fn start_gap_s(itinerary: &Itinerary, rules: &TimingRules) -> f64 {
    if itinerary.is_over_stretches() { rules.start_gap_s } else { 0.0 }
}

/// A wave goes at least one start gap after each wave before it, and then needs its runs and rests. However the
/// waves are cut, somebody is left after each full wave of the slowest.
fn waves_in_a_row_s(itinerary: &Itinerary, rules: &TimingRules) -> f64 {
    let mut own_s: Vec<f64> = itinerary.runners.iter().map(|runner| runner.alone_s()).collect();
    own_s.sort_by(|a, b| b.total_cmp(a));
    let gap_s = start_gap_s(itinerary, rules);
    let waves = own_s.iter().step_by(itinerary.most_in_wave()).enumerate();
    waves.map(|(place, own_s)| place as f64 * gap_s + own_s).fold(0.0, f64::max)
}

/// The targets of each run over a stretch, and the fewest and the most waves that run it.
fn rounds<'a>(
    itineraries: &'a [&Itinerary],
) -> impl Iterator<Item = (Vec<f64>, std::ops::RangeInclusive<usize>)> + 'a {
    itineraries.iter().flat_map(|itinerary| {
        let runs = itinerary.runs.iter().enumerate().filter(|(_, stretch)| stretch.is_some());
        runs.filter_map(move |(run, _)| {
            let times = itinerary.runners.iter().filter_map(|runner| runner.times.get(run));
            let mut targets_s: Vec<f64> = times.map(|times| times.target_s).collect();
            targets_s.sort_by(f64::total_cmp);
            let fewest = targets_s.len().div_ceil(itinerary.most_in_wave());
            let most = itinerary.wave_count().min(targets_s.len());
            (!targets_s.is_empty()).then_some((targets_s, fewest..=most))
        })
    })
}

/// All starts lie a start gap apart, and after the last of them somebody runs.
fn all_starts_s(itineraries: &[&Itinerary], rules: &TimingRules) -> f64 {
    let starts: usize = rounds(itineraries).map(|(_, waves)| *waves.start()).sum();
    starts.saturating_sub(1) as f64 * rules.start_gap_s + fastest_s(itineraries)
}

/// All finish windows lie a timing gap apart; with two timers, one of them times at least half.
fn all_windows_s(itineraries: &[&Itinerary], rules: &TimingRules) -> f64 {
    let timers = match rules.timers {
        Timers::One | Timers::EachGroup => 1.0,
        Timers::Two => 2.0,
        Timers::Untimed => return 0.0,
    };
    let mut all_s = 0.0;
    for (targets_s, waves) in rounds(itineraries) {
        let mut steps_s: Vec<f64> = targets_s.windows(2).map(|pair| pair[1] - pair[0]).collect();
        steps_s.sort_by(f64::total_cmp);
        // Cuts fall where they save most: at the widest steps from target to target.
        let with = |count: usize| {
            steps_s[..steps_s.len() + 1 - count].iter().sum::<f64>() + count as f64 * rules.timing_gap_s
        };
        all_s += waves.map(with).fold(f64::INFINITY, f64::min);
    }
    if all_s == 0.0 {
        return 0.0;
    }
    fastest_s(itineraries) + all_s / timers - rules.timing_gap_s
}

fn fastest_s(itineraries: &[&Itinerary]) -> f64 {
    let runners = itineraries.iter().flat_map(|itinerary| &itinerary.runners);
    let fastest_s = runners.map(|runner| runner.shortest_s()).fold(f64::INFINITY, f64::min);
    if fastest_s.is_finite() { fastest_s } else { 0.0 }
}

/// No plan with this cut lasts less than this, in seconds: each wave's last start lies its cycles after its first,
/// and a start gap after the last start of the wave before.
pub(crate) fn cut_floor_s(cut: &Cut<'_>, rules: &TimingRules) -> f64 {
    let mut last_s = f64::NEG_INFINITY;
    let mut legs = 0;
    let mut end_s: f64 = 0.0;
    let gap_s = cut.waves.first().map_or(0.0, |wave| start_gap_s(wave.itinerary, rules));
    for (place, wave) in cut.waves.iter().enumerate() {
        let own_s = place as f64 * gap_s + wave.cycles_s();
        // A wave that does fewer runs need not wait for the last of the wave before.
        last_s = if wave.legs.len() >= legs { own_s.max(last_s + gap_s) } else { own_s };
        legs = wave.legs.len();
        end_s = end_s.max(last_s + wave.legs.last().map_or(0.0, |leg| leg.window_s.1));
    }
    end_s
}

/// How long members wait for the one of their wave who is ready last, all together, in seconds.
pub(crate) fn cut_wait_s(cut: &Cut<'_>) -> f64 {
    cut.waves.iter().map(|wave| wave.wait_s).sum()
}
