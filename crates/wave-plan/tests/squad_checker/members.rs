//! Who runs in which wave.

use wave_plan::{Mode, SquadSet, WavePlan};

/// The most that one wave of a set may hold.
fn most(set: &SquadSet) -> usize {
    match set.mode {
        Mode::OneToALane { most: None } => set.lanes.len(),
        Mode::OneToALane { most: Some(most) } => most.min(set.lanes.len()),
        Mode::GroupToALane { most } => most,
    }
}

/// Everybody runs once, in the fewest waves, and each wave is a stretch of the order by target.
pub(super) fn check(set: &SquadSet, waves: &[WavePlan], faults: &mut Vec<String>) {
    let mut everybody: Vec<usize> = waves.iter().flat_map(|wave| wave.members.clone()).collect();
    everybody.sort_unstable();
    if everybody != (0..set.runners.len()).collect::<Vec<_>>() {
        faults.push(format!("not everybody runs in just one wave: {everybody:?}"));
        return;
    }
    if waves.len() != set.runners.len().div_ceil(most(set)) {
        faults.push(format!("{} waves are not the fewest", waves.len()));
    }
    for wave in waves {
        if wave.members.is_empty() || wave.members.len() > most(set) {
            faults.push(format!("a wave of {}", wave.members.len()));
        }
        if wave.go_s.len() != set.reps as usize || wave.lanes.len() != set.reps as usize {
            faults.push(format!("{} starts and {} lots of lanes", wave.go_s.len(), wave.lanes.len()));
        }
        if wave.lanes.iter().any(|lanes| lanes.len() != wave.members.len()) {
            faults.push("a wave has another number of lanes than of members".to_owned());
        }
    }
    let target = |&member: &usize| set.runners[member].target_s;
    let mut ranges: Vec<(f64, f64)> = (waves.iter())
        .map(|wave| {
            let fastest = wave.members.iter().map(target).fold(f64::INFINITY, f64::min);
            (fastest, wave.members.iter().map(target).fold(0.0, f64::max))
        })
        .collect();
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    for pair in ranges.windows(2) {
        if pair[0].1 > pair[1].0 {
            faults.push(format!("waves of targets {pair:?} mix"));
        }
    }
}
