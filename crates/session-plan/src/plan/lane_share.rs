//! Lanes for crews that name none.

use std::collections::BTreeSet;

use wave_plan::Mode;

use crate::plan::draft::Draft;

/// All lanes of each draft of each crew.
pub(crate) fn own_lanes(crews: &[&[Draft<'_>]]) -> Vec<Vec<Vec<u8>>> {
    crews.iter().map(|drafts| drafts.iter().map(own).collect()).collect()
}

fn own(draft: &Draft<'_>) -> Vec<u8> {
    draft.lanes.iter().map(|lane| lane.lane.get()).collect()
}

/// The lanes of each draft of each crew. Those of crews that are there at once and name none are shared out: the
/// longer runs inside, by what each crew needs.
pub(crate) fn share_out(crews: &[&[Draft<'_>]]) -> Vec<Vec<Vec<u8>>> {
    let mut lanes = own_lanes(crews);
    let unnamed = |draft: &&Draft<'_>| !draft.has_own_lanes && draft.mode != Mode::Together;
    let mut sharing: Vec<usize> =
        (0..crews.len()).filter(|&crew| crews[crew].iter().any(|draft| unnamed(&draft))).collect();
    if sharing.len() < 2 {
        return lanes;
    }
    let longest_m =
        |crew: usize| crews[crew].iter().filter(unnamed).map(|draft| draft.longest_m).fold(0.0, f64::max);
    sharing.sort_by(|&a, &b| longest_m(b).total_cmp(&longest_m(a)));
    let named: BTreeSet<u8> =
        crews.iter().copied().flatten().filter(|draft| draft.has_own_lanes).flat_map(own).collect();
    let all: BTreeSet<u8> = crews.iter().copied().flatten().filter(unnamed).flat_map(own).collect();
    let free: Vec<u8> = all.difference(&named).copied().collect();
    let free = if free.len() < sharing.len() { all.into_iter().collect() } else { free };
    let runners = |crew: usize| crews[crew].first().map_or(0, |draft| draft.entrants.len());
    let athletes: usize = sharing.iter().map(|&crew| runners(crew)).sum();
    let mut left = free.as_slice();
    for (place, &crew) in sharing.iter().enumerate() {
        let still = sharing.len() - place - 1;
        // Pace groups need a lane each and no more; sprinters share what is left by their numbers.
        let needs = |draft: &Draft<'_>| match draft.mode {
            Mode::GroupToALane { most } => {
                let beside = draft.entrants.iter().map(|entrant| usize::from(entrant.lanes_beside())).max();
                draft.entrants.len().div_ceil(most.max(1)) + beside.unwrap_or(0)
            }
            Mode::OneToALane { .. } | Mode::Together => {
                (free.len() * runners(crew)).div_ceil(athletes.max(1))
            }
        };
        let fair = crews[crew].iter().filter(unnamed).map(needs).max().unwrap_or(1);
        let most = left.len().saturating_sub(still).max(1);
        let count = if still == 0 { left.len() } else { fair.clamp(1, most) };
        let (share, rest) = left.split_at(count.min(left.len()));
        for (draft, lanes) in crews[crew].iter().zip(&mut lanes[crew]).filter(|(draft, _)| unnamed(draft)) {
            let own: Vec<u8> = own(draft).into_iter().filter(|lane| share.contains(lane)).collect();
            if !own.is_empty() {
                *lanes = own;
            }
        }
        left = rest;
    }
    lanes
}
