//! Who runs in which lane, from repetition to repetition.

use crate::runner::Runner;

/// The lane of each runner in each repetition: inner and outer lanes as evenly as the numbers allow;
/// nothing where the lanes that runners may use are too few.
///
/// Without such limits the lanes turn by one from repetition to repetition, so that no runner has a
/// lane twice before having each once. With limits, or with lanes taken beside a runner's own, each repetition gets the assignment whose lanes
/// have been used least, by dynamic programming over the lanes that are taken.
pub(crate) fn lane_turns(runners: &[&Runner], lanes: &[u8], reps: usize) -> Option<Vec<Vec<u8>>> {
    let is_free = runners.iter().all(|runner| runner.lanes.is_none() && runner.lanes_beside == 0);
    if runners.len() > lanes.len() {
        return None;
    }
    if is_free {
        let turn = |rep: usize| (0..runners.len()).map(|place| lanes[(place + rep) % lanes.len()]).collect();
        return Some((0..reps).map(turn).collect());
    }
    let mut used = vec![vec![0_u32; lanes.len()]; runners.len()];
    let mut turns = Vec::with_capacity(reps);
    for rep in 0..reps {
        let turn = least_used(runners, lanes, &used, rep)?;
        for (runner, &lane) in turn.iter().enumerate() {
            used[runner][lane] += 1;
        }
        turns.push(turn.into_iter().map(|lane| lanes[lane]).collect());
    }
    Some(turns)
}

/// The assignment of runners to lanes (as indices) that adds least to the squares of how often each was used.
fn least_used(runners: &[&Runner], lanes: &[u8], used: &[Vec<u32>], rep: usize) -> Option<Vec<usize>> {
    let sets = 1_usize << lanes.len();
    let with_beside = |runner: &Runner, lane: usize| {
        let places =
            runner.takes(lanes[lane]).filter_map(|taken| lanes.iter().position(|lane| *lane == taken));
        places.fold(0_usize, |taken, place| taken | 1 << place)
    };
    let mut cost = vec![u32::MAX; sets];
    let mut chosen = vec![vec![usize::MAX; sets]; runners.len()];
    cost[0] = 0;
    for (index, runner) in runners.iter().enumerate() {
        let mut next = vec![u32::MAX; sets];
        for taken in (0..sets).filter(|&taken| cost[taken] != u32::MAX) {
            for turn in 0..lanes.len() {
                // Start looking one lane on in each repetition, so that equals turn as well.
                let lane = (turn + rep + index) % lanes.len();
                let takes = with_beside(runner, lane);
                let with = taken | takes;
                if taken & takes == 0 && runner.may_have(lanes[lane], lanes) {
                    let more = cost[taken] + 2 * used[index][lane] + 1;
                    if more < next[with] {
                        next[with] = more;
                        chosen[index][with] = lane;
                    }
                }
            }
        }
        cost = next;
    }
    let mut taken = (0..sets).filter(|&taken| cost[taken] != u32::MAX).min_by_key(|&taken| cost[taken])?;
    let mut turn = vec![0; runners.len()];
    for index in (0..runners.len()).rev() {
        turn[index] = chosen[index][taken];
        taken &= !with_beside(runners[index], turn[index]);
    }
    Some(turn)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everybody_has_each_lane_as_often_as_the_numbers_allow() {
        let runners: Vec<Runner> = (0..4).map(|n| Runner::new(n.to_string(), 1, 30.0, 60.0)).collect();
        let runners: Vec<&Runner> = runners.iter().collect();
        let turns = lane_turns(&runners, &[2, 3, 4, 5, 6], 7).expect("five lanes suffice for four");
        for runner in 0..4 {
            let count = |lane: u8| turns.iter().filter(|turn| turn[runner] == lane).count();
            let counts: Vec<usize> = (2..=6).map(count).collect();
            assert!(counts.iter().all(|count| (1..=2).contains(count)), "{counts:?}");
        }
    }

    #[test]
    fn a_pinned_runner_stays_in_the_lanes_allowed() {
        let mut runners: Vec<Runner> = (0..3).map(|n| Runner::new(n.to_string(), 1, 30.0, 60.0)).collect();
        runners[1].lanes = Some(vec![5, 6]);
        let runners: Vec<&Runner> = runners.iter().collect();
        let turns = lane_turns(&runners, &[4, 5, 6], 6).expect("three lanes suffice");
        assert!(turns.iter().all(|turn| turn[1] != 4 && turn.iter().collect::<std::collections::BTreeSet<_>>().len() == 3));
    }

    #[test]
    fn a_pair_has_two_adjoining_lanes_and_turns_with_the_others() {
        let mut runners: Vec<Runner> = (0..3).map(|n| Runner::new(n.to_string(), 1, 30.0, 60.0)).collect();
        runners[1].lanes_beside = 1;
        let runners: Vec<&Runner> = runners.iter().collect();
        let lanes = [2, 3, 5, 6, 7];
        let turns = lane_turns(&runners, &lanes, 6).expect("five lanes suffice");
        for turn in &turns {
            let mut taken: Vec<u8> =
                runners.iter().zip(turn).flat_map(|(runner, &lane)| runner.takes(lane)).collect();
            taken.sort_unstable();
            taken.dedup();
            assert!(taken.len() == 4 && taken.iter().all(|lane| lanes.contains(lane)), "{turn:?}");
        }
        let of_pair: std::collections::BTreeSet<u8> = turns.iter().map(|turn| turn[1]).collect();
        assert!(of_pair.len() > 1, "{turns:?}");
        // Two pairs have no room side by side where a lane between them is shut.
        assert_eq!(lane_turns(&[runners[1], runners[1]], &[2, 3, 4, 6], 1), None);
    }

    #[test]
    fn too_many_pins_leave_no_assignment() {
        let mut runners: Vec<Runner> = (0..2).map(|n| Runner::new(n.to_string(), 1, 30.0, 60.0)).collect();
        for runner in &mut runners {
            runner.lanes = Some(vec![5]);
        }
        let runners: Vec<&Runner> = runners.iter().collect();
        assert_eq!(lane_turns(&runners, &[4, 5], 1), None);
    }
}
