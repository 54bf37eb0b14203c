//! The waves and lanes of a plan that was made before.

use std::collections::{BTreeMap, BTreeSet};

use wave_plan::{ItineraryPlan, Mode};

use crate::plan::block_at::BlockAt;
use crate::plan::draft::Draft;
use crate::plan::plan::Plan;

/// Which wave each athlete had in each block of a plan that was made before, and which lanes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Kept(BTreeMap<(BlockAt, String), Before>);

/// What an athlete had in a block: the wave, from 1, and the lane of each run, by its number from 0.
type Before = BTreeMap<usize, (u32, u8)>;

impl Kept {
    /// The waves and lanes of a plan, by the place of the block and the name of the athlete.
    pub(crate) fn of(plan: &Plan) -> Self {
        let runs = plan.blocks.iter().flat_map(|block| block.reps.iter().map(move |rep| (block.at, rep)));
        let mut kept: BTreeMap<(BlockAt, String), Before> = BTreeMap::new();
        for (at, rep) in runs {
            for name in &rep.athletes {
                let before = kept.entry((at, name.clone())).or_default();
                before.insert(rep.rep as usize - 1, (rep.wave, rep.lane.get()));
            }
        }
        Self(kept)
    }

    /// Whether nothing was planned before.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The lanes that those who run a draft had in it before.
    pub(crate) fn lanes(&self, draft: &Draft<'_>) -> BTreeSet<u8> {
        let of_one = |name: &str| self.before(draft.at, name).into_iter().flat_map(BTreeMap::values);
        draft.entrants.iter().flat_map(|entrant| of_one(entrant.name())).map(|(_, lane)| *lane).collect()
    }

    fn before(&self, at: BlockAt, name: &str) -> Option<&Before> {
        self.0.get(&(at, name.to_owned()))
    }

    /// The wave that an athlete had in a part of a block, counted from 0.
    pub(crate) fn wave(&self, draft: &Draft<'_>, name: &str) -> Option<usize> {
        let runs = draft.first_run..draft.first_run + draft.steps.len();
        let (_, (wave, _)) = self.before(draft.at, name)?.range(runs).next()?;
        Some(*wave as usize - 1)
    }

    /// Gives those who can have it the lane that they had before. A wave may use any of its lanes, so that its times
    /// stay as they are.
    pub(crate) fn keep_lanes(&self, draft: &Draft<'_>, lanes: &[u8], planned: &mut ItineraryPlan) {
        // A guide takes a lane as well, which a lane from before would not respect; a team has one for all of its own.
        let has_guide = draft.entrants.iter().any(|entrant| entrant.lanes_beside() > 0);
        if self.is_empty() || has_guide || draft.relay.is_some() || draft.mode == Mode::Together {
            return;
        }
        for wave in &mut planned.waves {
            let turned: Option<Vec<Vec<u8>>> = (wave.lanes.iter().enumerate())
                .map(|(run, turned)| self.lanes_of_run(draft, lanes, (&wave.members, run), turned))
                .collect();
            if let Some(turned) = turned {
                wave.lanes = turned;
            }
        }
    }

    /// The lanes of the members of a wave in one run; nothing where not everybody finds one.
    fn lanes_of_run(
        &self,
        draft: &Draft<'_>,
        lanes: &[u8],
        (members, run): (&[usize], usize),
        turned: &[u8],
    ) -> Option<Vec<u8>> {
        let most = match draft.mode {
            Mode::GroupToALane { most } => most,
            Mode::OneToALane { .. } | Mode::Together => 1,
        };
        let takes =
            |member: usize, lane: u8| lane..=lane.saturating_add(draft.entrants[member].lanes_beside());
        let may_use = |member: usize, lane: u8| {
            let own = draft.entrants[member].athlete.and_then(|athlete| athlete.lanes.as_ref());
            takes(member, lane).all(|taken| lanes.contains(&taken))
                && own.is_none_or(|own| own.contains(&lane))
        };
        let mut found: Vec<Option<u8>> = vec![None; members.len()];
        let is_free = |found: &[Option<u8>], member: usize, lane: u8| {
            let known = members.iter().zip(found).filter_map(|(&other, lane)| Some(takes(other, (*lane)?)));
            let is_taken = |others: &std::ops::RangeInclusive<u8>| {
                others.start() <= takes(member, lane).end() && takes(member, lane).start() <= others.end()
            };
            known.filter(|others| if most > 1 { *others.start() == lane } else { is_taken(others) }).count()
                < most
        };
        for (place, &member) in members.iter().enumerate() {
            let before = self.before(draft.at, draft.entrants[member].name());
            let lane = before.and_then(|before| Some(before.get(&(draft.first_run + run))?.1));
            found[place] = lane.filter(|&lane| may_use(member, lane) && is_free(&found, member, lane));
        }
        for (place, &member) in members.iter().enumerate().filter(|(place, _)| turned.get(*place).is_some()) {
            if found[place].is_none() {
                let mut others = std::iter::once(turned[place]).chain(lanes.iter().copied());
                found[place] = others.find(|&lane| may_use(member, lane) && is_free(&found, member, lane));
            }
        }
        found.into_iter().collect()
    }
}
