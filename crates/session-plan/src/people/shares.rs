//! Who does which blocks of a text.

use workout_notation::Workout;

/// Who does which blocks of a text: their places among all its blocks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Shares {
    /// The blocks under no heading.
    pub(crate) everybody: Vec<usize>,
    /// The blocks of each group with everybody's, in the order of the text.
    pub(crate) groups: Vec<(String, Vec<usize>)>,
}

impl Shares {
    pub(crate) fn of(workout: &Workout) -> Self {
        let mut shares = Self::default();
        let names = workout.parts.iter().filter_map(|part| part.group.as_ref());
        for name in names {
            if shares.groups.iter().all(|(known, _)| known != name) {
                shares.groups.push((name.clone(), Vec::new()));
            }
        }
        let mut next = 0;
        for part in &workout.parts {
            let places = next..next + part.blocks.len();
            next = places.end;
            if part.group.is_none() {
                shares.everybody.extend(places.clone());
            }
            let does = |name: &String| part.group.as_ref().is_none_or(|group| group == name);
            let groups = shares.groups.iter_mut().filter(|(name, _)| does(name));
            groups.for_each(|(_, blocks)| blocks.extend(places.clone()));
        }
        shares
    }

    /// The places of the blocks of a group, counted from 0, or of the session.
    pub(crate) fn list(&self, group: Option<usize>) -> &[usize] {
        match group {
            Some(group) => self.groups.get(group).map_or(&[], |(_, places)| places),
            None => &self.everybody,
        }
    }
}
