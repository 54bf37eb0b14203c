//! Who hands a baton to whom, as the session file says it.

use std::collections::BTreeSet;

use crate::evening::Group;
use crate::finished::Planned;

/// Who hands to whom, in turn, for each team of some groups.
pub(crate) fn handings(groups: &[&Group]) -> Vec<Vec<(String, String)>> {
    let mut teams: Vec<Vec<String>> = Vec::new();
    let mut left: Vec<String> = Vec::new();
    for group in groups {
        let names: Vec<&String> = group.athletes.iter().map(|athlete| &athlete.name).collect();
        if !group.relay.is_empty() {
            teams.push(group.relay.iter().map(|&place| names[place].clone()).collect());
        }
        let is_left = |place: &usize| !group.relay.contains(place);
        left.extend((0..names.len()).filter(is_left).map(|place| names[place].clone()));
    }
    let hand = |a: &String, b: &String| (a.clone(), b.clone());
    let in_order = |team: &Vec<String>| team.windows(2).map(|pair| hand(&pair[0], &pair[1])).collect();
    let mut all: Vec<Vec<(String, String)>> = teams.iter().map(in_order).collect();
    while let [a, b, ..] = left.as_slice() {
        all.push(vec![hand(a, b), hand(b, a)]);
        teams.push(vec![a.clone(), b.clone()]);
        left.drain(..2);
    }
    if let ([odd], Some(team), Some(turns)) = (left.as_slice(), teams.last(), all.last_mut()) {
        match team.as_slice() {
            [a, b] => *turns = vec![hand(a, b), hand(odd, a), hand(b, odd)],
            longer => turns.push(hand(&longer[longer.len() - 1], odd)),
        }
    }
    all
}

/// What is wrong with who hands to whom in a block, and with where they stand.
pub(crate) fn wrong_handings(planned: &Planned<'_>, faults: &mut Vec<String>) {
    let Planned { asked, groups, block, .. } = planned;
    let expected: BTreeSet<(u32, String, String)> = (handings(groups).iter())
        .flat_map(|turns| {
            let runs = asked.steps.iter().zip(1..).filter(|(step, _)| step.is_exchange);
            runs.enumerate().map(|(nth, (_, run))| {
                let (incoming, outgoing) = turns[nth % turns.len()].clone();
                (run, incoming, outgoing)
            })
        })
        .collect();
    let mut found = BTreeSet::new();
    for rep in &block.reps {
        let Some(handover) = &rep.handover else { continue };
        let pair = [handover.incoming.clone(), handover.outgoing.clone()];
        let [incoming, outgoing] = pair.clone();
        if rep.athletes != pair || !found.insert((rep.rep, incoming, outgoing)) {
            faults.push(format!("{:?} run as {pair:?} in `{}`", rep.athletes, block.read.text));
        }
        // The mark and the run-in lie back from the entry, along the lane.
        let Some(run_in) = &rep.run_in else {
            faults.push(format!("{pair:?} have no run-in"));
            continue;
        };
        let lap_m = rep.start.from_finish_line_m + rep.start.to_finish_line_m;
        let back_m = |spot: &lane_distance::Placement| {
            (spot.to_finish_line_m - rep.start.to_finish_line_m).rem_euclid(lap_m)
        };
        let mark_m = back_m(&handover.spot);
        let is_there = (mark_m - handover.check_mark.back_m).abs() < 1e-6 && mark_m < 40.0;
        if !is_there || (back_m(run_in) - 40.0).abs() > 1e-6 {
            faults.push(format!("{pair:?}: a mark {mark_m} m back, a run-in of {} m", back_m(run_in)));
        }
    }
    if found != expected {
        faults.push(format!("`{}` is handed on as {found:?}, not {expected:?}", block.read.text));
    }
}
