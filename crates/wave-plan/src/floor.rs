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

#[cfg(test)]
mod tests {
    use crate::cut::cuts;
    use crate::itinerary::Stretch;
    use crate::runner::Runner;

    use super::*;

    /// Runners with these targets and 60 s of rest over three runs, two abreast.
    fn set(targets_s: &[f64]) -> Itinerary {
        let runner = |(n, &target_s): (usize, &f64)| Runner::new(format!("no. {n}"), 3, target_s, 60.0);
        let stretch = Stretch { distance_m: 200.0, ..Stretch::default() };
        Itinerary::repetitions(3, stretch, vec![1, 2], targets_s.iter().enumerate().map(runner).collect())
    }

    /// Five in three waves: they need 210 to 234 s alone.
    fn five() -> Itinerary {
        set(&[30.0, 32.0, 34.0, 36.0, 38.0])
    }

    fn rules(timing_gap_s: f64, start_gap_s: f64, timers: Timers) -> TimingRules {
        TimingRules { timing_gap_s, start_gap_s, timers }
    }

    const EVERY: [Timers; 4] = [Timers::One, Timers::Two, Timers::EachGroup, Timers::Untimed];

    #[test]
    fn an_itinerary_lasts_as_long_as_its_slowest_waves_in_a_row() {
        // Whoever is slowest of each wave: 234 s, 15 s + 222 s, 30 s + 210 s.
        assert_eq!(EVERY.map(|timers| itinerary_floor_s(&five(), &rules(5.0, 15.0, timers))), [240.0; 4]);
        assert_eq!(itinerary_floor_s(&five(), &rules(5.0, 5.0, Timers::One)), 234.0);
        assert_eq!(five().runners[4].alone_s(), 3.0 * 38.0 + 2.0 * 60.0);
        // A run by time is in nobody's way.
        let mut by_time = five();
        by_time.runs[1] = None;
        assert_eq!(itinerary_floor_s(&by_time, &rules(5.0, 15.0, Timers::Untimed)), 234.0);
    }

    #[test]
    fn an_itinerary_lasts_as_long_as_its_starts() {
        // Nine starts, 60 s apart, and the fastest after the last of them.
        assert_eq!(itinerary_floor_s(&five(), &rules(5.0, 60.0, Timers::One)), 8.0 * 60.0 + 30.0);
        // Six of them without the run by time.
        let mut by_time = five();
        by_time.runs[1] = None;
        assert_eq!(itinerary_floor_s(&by_time, &rules(5.0, 60.0, Timers::One)), 5.0 * 60.0 + 30.0);
        // Who stops after the first run leaves two waves for each of the others.
        let mut early = five();
        early.runners[..2].iter_mut().for_each(|runner| runner.times.truncate(1));
        assert_eq!(itinerary_floor_s(&early, &rules(5.0, 60.0, Timers::One)), 6.0 * 60.0 + 30.0);
    }

    #[test]
    fn an_itinerary_lasts_as_long_as_its_finishes() {
        // In each round two steps of 2 s lie within waves, and three windows 100 s apart; after the last none follows.
        let round_s = 2.0 * 2.0 + 3.0 * 100.0;
        let floor_s = |timers| itinerary_floor_s(&five(), &rules(100.0, 15.0, timers));
        assert_eq!(floor_s(Timers::One), 30.0 + 3.0 * round_s - 100.0);
        assert_eq!(floor_s(Timers::EachGroup), floor_s(Timers::One));
        assert_eq!(floor_s(Timers::Two), 30.0 + 3.0 * round_s / 2.0 - 100.0);
        assert_eq!(floor_s(Timers::Untimed), 240.0);
        // The cuts fall where the steps are widest: 1 s and 2 s remain within waves.
        let uneven = set(&[30.0, 31.0, 51.0, 61.0, 63.0]);
        let round_s = 1.0 + 2.0 + 3.0 * 100.0;
        assert_eq!(
            itinerary_floor_s(&uneven, &rules(100.0, 15.0, Timers::One)),
            30.0 + 3.0 * round_s - 100.0
        );
        // Of the three who run on, two waves or three finish, whichever takes less: two with 2 s within one.
        let mut early = five();
        early.runners[..2].iter_mut().for_each(|runner| runner.times.truncate(1));
        let all_s = 304.0 + 2.0 * (2.0 + 200.0);
        assert_eq!(itinerary_floor_s(&early, &rules(100.0, 15.0, Timers::One)), 30.0 + all_s - 100.0);
    }

    /// What two parties do: one after 20 s, and again 50 s later; the other from 300 s on.
    fn evening(itineraries: &[Itinerary; 3]) -> [Slot<'_>; 3] {
        let slot =
            |party, delay_s, n: usize| Slot { party, delay_s, itinerary: &itineraries[n], before: &[] };
        [slot(0, 20.0, 0), slot(0, 50.0, 1), slot(1, 300.0, 2)]
    }

    #[test]
    fn an_evening_lasts_as_long_as_a_party_or_as_all_that_is_shared() {
        let itineraries = [five(), five(), five()];
        let slots = evening(&itineraries);
        let floor_s =
            |timing_gap_s, start_gap_s, timers| floor_s(&slots, &rules(timing_gap_s, start_gap_s, timers));
        // The first party's two itineraries in turn.
        for timers in EVERY {
            assert_eq!(floor_s(5.0, 15.0, timers), 20.0 + 240.0 + 50.0 + 240.0);
        }
        // All starts, from the first that can be.
        assert_eq!(floor_s(5.0, 60.0, Timers::One), 20.0 + 26.0 * 60.0 + 30.0);
        // All finishes, at one watch or two; at a watch for each party only its own.
        assert_eq!(floor_s(100.0, 15.0, Timers::One), 20.0 + 30.0 + 9.0 * 304.0 - 100.0);
        assert_eq!(floor_s(100.0, 15.0, Timers::Two), 20.0 + 30.0 + 9.0 * 152.0 - 100.0);
        assert_eq!(floor_s(100.0, 15.0, Timers::EachGroup), 20.0 + 842.0 + 50.0 + 842.0);
        assert_eq!(floor_s(100.0, 15.0, Timers::Untimed), 550.0);
        // The party that begins first may be the last of the list.
        let mut later = slots;
        (later[0].delay_s, later[2].delay_s) = (90.0, 7.0);
        let rules = rules(100.0, 15.0, Timers::One);
        assert_eq!(super::floor_s(&later, &rules), 7.0 + 30.0 + 9.0 * 304.0 - 100.0);
        assert_eq!(super::floor_s(&[], &rules), 0.0);
    }

    #[test]
    fn a_cut_lasts_as_long_as_its_waves_in_their_order_and_some_wait() {
        let mut four = set(&[30.0, 31.0, 40.0, 41.0]);
        four.runners[1].times.iter_mut().for_each(|times| times.rest_s = 65.0);
        let slot = Slot { party: 0, delay_s: 0.0, itinerary: &four, before: &[] };
        let cuts = cuts(&slot, true, &mut 0).expect("there are two lanes").cuts;
        let rules = rules(5.0, 10.0, Timers::One);
        let of = |first: usize| {
            let found = cuts.iter().find(|cut| cut.waves[0].members[0] == first);
            found.unwrap_or_else(|| panic!("a cut begins with no. {first}"))
        };
        // Cycles of 96 s and of 101 s, twice each, before the last run.
        assert_eq!(cut_floor_s(of(0), &rules), 10.0 + 2.0 * 101.0 + 41.0);
        // The fast wave's last start is a gap after that of the slow one.
        assert_eq!(cut_floor_s(of(2), &rules), 2.0 * 101.0 + 41.0);
        // No. 0 waits 6 s after each run but the last, and no. 2 waits 1 s.
        assert_eq!(cut_wait_s(of(0)), 2.0 * 6.0 + 2.0 * 1.0);
        assert_eq!(cut_wait_s(of(2)), cut_wait_s(of(0)));
    }

    #[test]
    fn who_runs_less_does_not_wait_for_the_last_start_of_the_wave_before() {
        let mut four = set(&[30.0, 31.0, 40.0, 41.0]);
        four.runners[..2].iter_mut().for_each(|runner| runner.times.truncate(1));
        let slot = Slot { party: 0, delay_s: 0.0, itinerary: &four, before: &[] };
        let cuts = cuts(&slot, true, &mut 0).expect("there are two lanes").cuts;
        let rules = rules(5.0, 300.0, Timers::Untimed);
        let mut floors_s: Vec<f64> = cuts.iter().map(|cut| cut_floor_s(cut, &rules)).collect();
        floors_s.sort_by(f64::total_cmp);
        // The slow wave first, or a start gap of 300 s later; the fast wave runs once.
        assert_eq!(floors_s, [300.0 + 31.0, 300.0 + 2.0 * 101.0 + 41.0]);
    }
}
