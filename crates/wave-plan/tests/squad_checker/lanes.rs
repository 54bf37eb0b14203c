//! Who runs in which lane.

use std::collections::BTreeSet;

use wave_plan::{Mode, SquadSet, WavePlan};

/// Lanes are those of the set, nobody leaves the lanes allowed, and turns are fair.
pub(super) fn check(set: &SquadSet, waves: &[WavePlan], faults: &mut Vec<String>) {
    for wave in waves {
        for lanes in &wave.lanes {
            if lanes.iter().any(|lane| !set.lanes.contains(lane)) {
                faults.push(format!("lanes {lanes:?} are not all of the set"));
            }
            for (&member, lane) in wave.members.iter().zip(lanes) {
                let own = set.runners[member].lanes.as_ref();
                if own.is_some_and(|own| !own.contains(lane)) {
                    faults.push(format!("runner {member} is put in lane {lane}, not one of {own:?}"));
                }
            }
        }
        match set.mode {
            Mode::OneToALane { .. } => one_to_a_lane(set, wave, faults),
            Mode::GroupToALane { .. } => {
                let lanes: BTreeSet<u8> = wave.lanes.iter().flatten().copied().collect();
                if lanes.len() != 1 {
                    faults.push(format!("a group runs in lanes {lanes:?}"));
                }
            }
        }
    }
}

fn one_to_a_lane(set: &SquadSet, wave: &WavePlan, faults: &mut Vec<String>) {
    for lanes in &wave.lanes {
        if lanes.iter().collect::<BTreeSet<_>>().len() != lanes.len() {
            faults.push(format!("two of a wave in one of the lanes {lanes:?}"));
        }
    }
    if wave.members.iter().any(|&member| set.runners[member].lanes.is_some()) {
        return;
    }
    for place in 0..wave.members.len() {
        let count = |lane: &u8| wave.lanes.iter().filter(|lanes| lanes[place] == *lane).count();
        let counts: Vec<usize> = set.lanes.iter().map(count).collect();
        if counts.iter().max() > counts.iter().min().map(|least| least + 1).as_ref() {
            faults.push(format!("uneven use of the lanes: {counts:?}"));
        }
    }
}
