//! Cones side by side.

use session_plan::{Cone, Plan};

use crate::words::spot::spot;
use crate::words::walk_words;

/// Cones that follow each other on the walk and are told in the same words, but for their lanes.
pub(crate) struct ConeGroup<'a> {
    /// The first of them.
    pub(crate) first: &'a Cone,
    /// The number of the last.
    last: u32,
    /// Their lanes.
    pub(crate) lanes: Vec<u8>,
    /// How many steps they are from the paint, where that is to be told.
    pub(crate) steps: Option<String>,
}

impl<'a> ConeGroup<'a> {
    /// All cones of a plan, in the order of the walk.
    pub(crate) fn of(plan: &'a Plan) -> Vec<Self> {
        let mut groups: Vec<Self> = Vec::new();
        for item in &plan.setup {
            match groups.last_mut() {
                Some(group)
                    if group.first.uses == item.uses && spot(&group.first.spot) == spot(&item.spot) =>
                {
                    group.lanes.push(item.spot.lane);
                    group.last = item.order;
                }
                _ => groups.push(Self {
                    first: item,
                    last: item.order,
                    lanes: vec![item.spot.lane],
                    steps: walk_words::steps(plan, item),
                }),
            }
        }
        groups
    }

    /// Their numbers, one by one.
    pub(crate) fn orders(&self) -> impl Iterator<Item = u32> {
        self.first.order..=self.last
    }

    /// Their numbers: `5`, or `5 to 7`.
    pub(crate) fn numbers(&self) -> String {
        if self.first.order == self.last {
            self.last.to_string()
        } else {
            format!("{} to {}", self.first.order, self.last)
        }
    }
}
