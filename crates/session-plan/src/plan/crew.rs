//! Who does a list of blocks.

use std::collections::BTreeSet;

use crate::people::age_group::AgeGroup;
use crate::people::bests::{Bests, TargetError};
use crate::people::session::{Athlete, Group, Session};
use crate::plan::block_at::BlockAt;
use crate::plan::trial::{Trial, TrialChange};
use wave_plan::Timers;
use workout_notation::{Block, Pace};

/// The parts of an evening: each begins when all who do it are done with those before.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Part {
    /// What all groups do together before their own.
    Before,
    /// What each group does.
    Own,
    /// What all groups do together after their own.
    After,
}

/// Those who do a list of blocks together, on a clock of their own.
pub(crate) struct Crew<'a> {
    pub(crate) session: &'a Session,
    /// The group whose own blocks they are, counted from 0; nothing for those of the session.
    pub(crate) own: Option<usize>,
    /// The groups that it is made of; none where the session names nobody.
    pub(crate) groups: Vec<&'a Group>,
    pub(crate) blocks: &'a [Block],
    /// The place of the first of them in its list.
    pub(crate) first_block: usize,
    /// Which part of the evening it is.
    pub(crate) part: Part,
    /// When it begins, in seconds from the start of the session.
    pub(crate) begins_s: f64,
    /// Whether that was estimated.
    pub(crate) begins_about: bool,
    /// Whether it is the crew in front of it, which goes on to these blocks.
    pub(crate) goes_on: bool,
    /// What is tried, to see what it would bring.
    pub(crate) trial: Option<&'a Trial>,
    /// Whether the one who times it times others as well.
    pub(crate) shares_watch: bool,
    /// The lanes that others have who are there at once.
    pub(crate) taken: BTreeSet<u8>,
}

/// Somebody of a crew; nobody by name where a group, or everybody, runs as one.
#[derive(Clone, Copy)]
pub(crate) struct Entrant<'a> {
    pub(crate) group: Option<&'a Group>,
    pub(crate) athlete: Option<&'a Athlete>,
}

/// Cuts a session into crews: the groups with athletes that share the session's blocks, each group with blocks
/// of its own, and each group that has no athletes, or comes late. What all do together has a crew of its own; those
/// who come late do it when they come, while the others are at their own blocks, and then go on to theirs.
pub(crate) fn crews<'a>(session: &'a Session, trial: Option<&'a Trial>) -> Vec<Crew<'a>> {
    let crew = |own: Option<usize>, groups: Vec<&'a Group>, blocks| Crew {
        begins_s: groups.iter().map(|group| session.late_s(group)).fold(0.0, f64::max),
        begins_about: false,
        goes_on: false,
        trial,
        session,
        own,
        groups,
        blocks,
        first_block: if own.is_none() { session.parts()[0].len() } else { 0 },
        part: Part::Own,
        shares_watch: false,
        taken: BTreeSet::new(),
    };
    if session.groups.is_empty() {
        return vec![Crew { first_block: 0, ..crew(None, Vec::new(), &session.blocks) }];
    }
    let [before, shared_blocks, after] = session.parts();
    let named = |group: &&Group| !group.athletes.is_empty();
    let (shared, late): (Vec<&Group>, Vec<&Group>) = (session.groups.iter())
        .filter(|group| group.blocks.is_none())
        .filter(named)
        .partition(|group| session.late_s(group) == 0.0);
    let mut crews = Vec::new();
    if !shared.is_empty() {
        crews.push(crew(None, shared, shared_blocks));
    }
    crews.extend(late.into_iter().map(|group| crew(None, vec![group], shared_blocks)));
    let (with, without): (Vec<_>, Vec<_>) =
        session.groups.iter().enumerate().partition(|(_, group)| named(group));
    for (index, group) in with {
        if let Some(blocks) = &group.blocks {
            crews.push(crew(Some(index), vec![group], blocks));
        }
    }
    for (index, group) in without {
        match &group.blocks {
            Some(blocks) => crews.push(crew(Some(index), vec![group], blocks)),
            None => crews.push(crew(None, vec![group], shared_blocks)),
        }
    }
    let is_shared = session.squad.timing.timers == Timers::One
        && crews.iter().filter(|crew| crew.has_names()).count() > 1;
    crews.iter_mut().for_each(|crew| crew.shares_watch = is_shared);
    let is_there =
        |group: &&Group| named(group) || group.blocks.as_ref().is_none_or(|blocks| !blocks.is_empty());
    let everybody: Vec<&Group> = session.groups.iter().filter(is_there).collect();
    let together =
        |blocks, first_block, part| move |groups| Crew { first_block, part, ..crew(None, groups, blocks) };
    let mut all = Vec::with_capacity(crews.len() + 2);
    if !before.is_empty() {
        let (late, in_time): (Vec<_>, Vec<_>) =
            everybody.iter().partition(|group| session.late_s(group) > 0.0);
        let in_time = Some(in_time).filter(|groups| !groups.is_empty());
        all.extend(in_time.map(together(before, 0, Part::Before)));
        for group in late {
            let is_own = |crew: &Crew<'_>| matches!(crew.groups[..], [own] if std::ptr::eq(own, group));
            let own = crews.iter().position(is_own);
            own.into_iter().for_each(|own| crews[own].goes_on = true);
            let first = Crew { shares_watch: is_shared, ..together(before, 0, Part::Own)(vec![group]) };
            crews.insert(own.unwrap_or(crews.len()), first);
        }
    }
    all.append(&mut crews);
    if !after.is_empty() {
        let first = session.blocks.len() - after.len();
        // Whoever begins at another time ends at another: for a cool-down nobody waits for them.
        let needs_all = after.iter().any(|block| block.count() > 0);
        let is_as_late =
            |a: &&Group, b: &&Group| needs_all || session.late_s(a).total_cmp(&session.late_s(b)).is_eq();
        let mut parties: Vec<Vec<&Group>> = Vec::new();
        for group in everybody {
            match parties.iter_mut().find(|party| is_as_late(&party[0], &group)) {
                Some(party) => party.push(group),
                None => parties.push(vec![group]),
            }
        }
        all.extend(parties.into_iter().map(together(after, first, Part::After)));
    }
    all
}

impl<'a> Crew<'a> {
    /// Everybody by name; one nameless entrant where nobody has a name.
    pub(crate) fn entrants(&self) -> Vec<Entrant<'a>> {
        let named = self.groups.iter().flat_map(|&group| {
            group.athletes.iter().map(move |athlete| Entrant { group: Some(group), athlete: Some(athlete) })
        });
        let named: Vec<Entrant<'a>> = named.collect();
        if named.is_empty() {
            vec![Entrant { group: self.groups.first().copied(), athlete: None }]
        } else {
            named
        }
    }

    /// Whether it has athletes by name, whom somebody times.
    pub(crate) fn has_names(&self) -> bool {
        self.groups.iter().any(|group| !group.athletes.is_empty())
    }

    /// Its name, where it is one group.
    pub(crate) fn name(&self) -> Option<String> {
        match self.groups.as_slice() {
            [one] => Some(one.name.clone()),
            _ => None,
        }
    }

    /// What is tried with one of its blocks.
    pub(crate) fn tried(&self, at: BlockAt) -> Option<&'a TrialChange> {
        self.trial?.of(at, self.name().as_deref())
    }

    /// The names of its groups.
    pub(crate) fn group_names(&self) -> Vec<String> {
        self.groups.iter().map(|group| group.name.clone()).collect()
    }

    /// The lanes of its groups, and those that its blocks name.
    pub(crate) fn named_lanes(&self) -> BTreeSet<u8> {
        let steps = self.blocks.iter().flat_map(Block::steps);
        let of_blocks = steps.filter_map(|step| step.lanes).flat_map(|lanes| &lanes.value);
        let of_groups = self.groups.iter().filter_map(|group| group.lanes.as_ref()).flatten().copied();
        of_groups.chain(of_blocks.map(|lane| lane.get())).collect()
    }

    /// Whether one of its groups has lanes of its own.
    pub(crate) fn has_lanes(&self) -> bool {
        self.groups.iter().any(|group| group.lanes.is_some())
    }

    /// The lanes that it runs in where a block names none.
    pub(crate) fn own_lanes(&self) -> Option<Vec<u8>> {
        let of_group = self.groups.iter().find_map(|group| group.lanes.clone());
        of_group.or_else(|| self.session.squad.lanes.clone().filter(|_| self.has_names()))
    }
}

impl Entrant<'_> {
    /// How many lanes it needs next to its own, for a guide.
    pub(crate) fn lanes_beside(&self) -> u8 {
        u8::from(self.athlete.is_some_and(|athlete| athlete.guide.is_some()))
    }

    pub(crate) fn name(&self) -> &str {
        self.athlete.map_or("", |athlete| &athlete.name)
    }

    /// How old the one who runs is, where that is given or the group is called by it.
    pub(crate) fn age(&self) -> Option<AgeGroup> {
        let of_group = |group: &Group| group.age.or_else(|| AgeGroup::in_name(&group.name));
        self.athlete.and_then(|athlete| athlete.age).or(self.group.and_then(of_group))
    }

    /// The bests that targets are taken from, the nearest in front: their own, the group's, the session's.
    pub(crate) fn bests<'b>(&'b self, session: &'b Session) -> impl Iterator<Item = &'b Bests> + Clone {
        let own = self.athlete.map(|athlete| &athlete.bests);
        let of_group = self.group.map(|group| &group.bests);
        own.into_iter().chain(of_group).chain([&session.bests]).filter(|bests| !bests.is_empty())
    }

    /// The target of a run by its pace: its time, or the faster and the slower of two. The nearest bests that it can
    /// be had from are used.
    ///
    /// # Errors
    ///
    /// [`TargetError`] where the pace needs a best that is not known or cannot be carried over.
    pub(crate) fn target(
        &self,
        session: &Session,
        pace: &Pace,
        distance_m: f64,
    ) -> Result<(f64, Option<f64>), TargetError> {
        let mut known = self.bests(session).map(|bests| bests.target(pace, distance_m));
        let first = known.next().unwrap_or_else(|| Bests::default().target(pace, distance_m));
        if first.is_ok() { first } else { known.find(Result::is_ok).unwrap_or(first) }
    }
}
