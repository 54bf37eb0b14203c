//! Who does which blocks of a text.

use workout_notation::Workout;

/// Who does which blocks of a text: their places among all its blocks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Shares {
    /// The blocks above the first group, which all do together.
    pub(crate) before: Vec<usize>,
    /// The blocks behind the last group, which all do together.
    pub(crate) after: Vec<usize>,
    /// The blocks of each group in the order of the text, with those of everybody that stand between two groups.
    pub(crate) groups: Vec<(String, Vec<usize>)>,
}

impl Shares {
    pub(crate) fn of(workout: &Workout) -> Self {
        let mut shares = Self::default();
        let parts = &workout.parts;
        for name in parts.iter().filter_map(|part| part.group.as_ref()) {
            if shares.groups.iter().all(|(known, _)| known != name) {
                shares.groups.push((name.clone(), Vec::new()));
            }
        }
        let is_group = |place: &usize| parts[*place].group.is_some();
        let first = (0..parts.len()).find(is_group).unwrap_or(parts.len());
        let last = (0..parts.len()).rfind(is_group).unwrap_or(parts.len());
        let mut next = 0;
        for (place, part) in parts.iter().enumerate() {
            let blocks = next..next + part.blocks.len();
            next = blocks.end;
            if place < first {
                shares.before.extend(blocks);
            } else if place > last {
                shares.after.extend(blocks);
            } else {
                let does = |name: &String| part.group.as_ref().is_none_or(|group| group == name);
                let groups = shares.groups.iter_mut().filter(|(name, _)| does(name));
                groups.for_each(|(_, own)| own.extend(blocks.clone()));
            }
        }
        shares
    }

    /// The places of the blocks that all do together.
    pub(crate) fn everybody(&self) -> impl Iterator<Item = usize> {
        self.before.iter().chain(&self.after).copied()
    }

    /// The place of a block of a group, counted from 0, or of the session.
    pub(crate) fn place(&self, group: Option<usize>, block: usize) -> Option<usize> {
        match group {
            Some(group) => self.groups.get(group)?.1.get(block).copied(),
            None => self.everybody().nth(block),
        }
    }
}
