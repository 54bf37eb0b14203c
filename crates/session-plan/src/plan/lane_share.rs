//! Lanes for crews that name none.

use std::collections::BTreeSet;

use wave_plan::Mode;

use crate::plan::draft::Draft;
use crate::plan::kept::Kept;

/// All lanes of each draft of each crew.
pub(crate) fn own_lanes(crews: &[&[Draft<'_>]]) -> Vec<Vec<Vec<u8>>> {
    crews.iter().map(|drafts| drafts.iter().map(own).collect()).collect()
}

fn own(draft: &Draft<'_>) -> Vec<u8> {
    draft.lanes.iter().map(|lane| lane.lane.get()).collect()
}

/// The lanes of each draft of each crew. Those of crews that are there at once and name none are shared out: the
/// longer runs inside, by what each crew needs. Whoever had lanes in a plan before stays in those that are left of them.
pub(crate) fn share_out(crews: &[&[Draft<'_>]], kept: &Kept) -> Vec<Vec<Vec<u8>>> {
    let mut lanes = own_lanes(crews);
    let mut sharing: Vec<usize> =
        (0..crews.len()).filter(|&crew| crews[crew].iter().any(|draft| unnamed(&draft))).collect();
    let nameless = crews.iter().copied().flatten().filter(|draft| draft.is_nameless());
    let single: BTreeSet<u8> = nameless.flat_map(own).collect();
    if sharing.len() + usize::from(!single.is_empty()) < 2 {
        return lanes;
    }
    let longest_m =
        |crew: usize| crews[crew].iter().filter(unnamed).map(|draft| draft.longest_m).fold(0.0, f64::max);
    sharing.sort_by(|&a, &b| longest_m(b).total_cmp(&longest_m(a)));
    let named: BTreeSet<u8> =
        crews.iter().copied().flatten().filter(|draft| !draft.takes_share).flat_map(own).collect();
    let all: BTreeSet<u8> = crews.iter().copied().flatten().filter(unnamed).flat_map(own).collect();
    let free: Vec<u8> = all.difference(&named).filter(|lane| !single.contains(lane)).copied().collect();
    let free = if free.len() < sharing.len() { all.into_iter().collect() } else { free };
    if let Some(shares) = as_before(&sharing, crews, kept, &free) {
        for (&crew, share) in sharing.iter().zip(&shares) {
            give(crews[crew], &mut lanes[crew], share);
        }
        return lanes;
    }
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
        give(crews[crew], &mut lanes[crew], share);
        left = rest;
    }
    lanes
}

/// Whether a draft takes its lanes from what is shared out.
fn unnamed(draft: &&Draft<'_>) -> bool {
    draft.takes_share && draft.mode != Mode::Together
}

/// Gives the drafts of a crew the lanes of its share that they can be run in.
fn give(drafts: &[Draft<'_>], lanes: &mut [Vec<u8>], share: &[u8]) {
    for (draft, lanes) in drafts.iter().zip(lanes).filter(|(draft, _)| unnamed(draft)) {
        let own: Vec<u8> = own(draft).into_iter().filter(|lane| share.contains(lane)).collect();
        if !own.is_empty() {
            *lanes = own;
        }
    }
}

/// What is left of the lanes that each crew had before, with lanes that nobody had in the place of those that are gone;
/// nothing where one of them has none, or two had the same.
fn as_before(sharing: &[usize], crews: &[&[Draft<'_>]], kept: &Kept, free: &[u8]) -> Option<Vec<Vec<u8>>> {
    let had = |&crew: &usize| -> BTreeSet<u8> {
        crews[crew].iter().filter(unnamed).flat_map(|draft| kept.lanes(draft)).collect()
    };
    let had: Vec<BTreeSet<u8>> = sharing.iter().map(had).collect();
    let all: BTreeSet<u8> = had.iter().flatten().copied().collect();
    if all.len() < had.iter().map(BTreeSet::len).sum() {
        return None;
    }
    let mut spare: Vec<u8> = free.iter().copied().filter(|lane| !all.contains(lane)).collect();
    let mut shares = Vec::with_capacity(had.len());
    for had in &had {
        let mut share: Vec<u8> = had.iter().copied().filter(|lane| free.contains(lane)).collect();
        for gone in had.iter().filter(|lane| !free.contains(lane)) {
            let nearest = (0..spare.len()).min_by_key(|&place| spare[place].abs_diff(*gone));
            share.extend(nearest.map(|place| spare.remove(place)));
        }
        share.sort_unstable();
        shares.push(share);
    }
    shares.iter().all(|share| !share.is_empty()).then_some(shares)
}
