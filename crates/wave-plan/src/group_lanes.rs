//! A lane for each group.

use crate::itinerary::Itinerary;

/// A lane for each group, in turn. Where some may not use every lane, each gets one that it may use, with as few
/// groups to a lane as possible.
pub(crate) fn group_lanes(set: &Itinerary, waves: &[&[usize]]) -> Option<Vec<u8>> {
    let count = set.lanes.len();
    let may: Vec<Vec<usize>> = (waves.iter().enumerate())
        .map(|(place, members)| {
            let runners = set.members(members);
            let in_turn = (0..count).map(|lane| (place + lane) % count);
            in_turn.filter(|&lane| set.may_all_have(&runners, set.lanes[lane])).collect()
        })
        .collect();
    (waves.len().div_ceil(count)..=waves.len()).find_map(|most| {
        let mut groups: Vec<Vec<usize>> = vec![Vec::new(); count];
        for place in 0..waves.len() {
            if !settle(place, &may, most, &mut groups, &mut vec![false; count]) {
                return None;
            }
        }
        let lane_of = |place| groups.iter().position(|groups| groups.contains(&place));
        (0..waves.len()).map(|place| lane_of(place).map(|lane| set.lanes[lane])).collect()
    })
}

/// Finds a lane for a group, moving others if necessary.
fn settle(
    place: usize,
    may: &[Vec<usize>],
    most: usize,
    groups: &mut [Vec<usize>],
    tried: &mut [bool],
) -> bool {
    for &lane in &may[place] {
        if groups[lane].len() < most {
            groups[lane].push(place);
            return true;
        }
    }
    for &lane in &may[place] {
        if std::mem::replace(&mut tried[lane], true) {
            continue;
        }
        for index in 0..groups[lane].len() {
            let other = groups[lane][index];
            if settle(other, may, most, groups, tried) {
                groups[lane].retain(|&group| group != other);
                groups[lane].push(place);
                return true;
            }
        }
    }
    false
}
