//! A block of a plan.

use workout_notation::Block;

use crate::plan::block_at::BlockAt;
use crate::plan::caution::Caution;
use crate::plan::coach_place::CoachPlace;
use crate::plan::remark::Remark;
use crate::plan::rep::Rep;

/// A block of repetitions.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanBlock {
    /// Its place in the session.
    pub at: BlockAt,
    /// The block as it was written and read.
    pub read: Block,
    /// The training group that does it; nothing where several or all do.
    pub group: Option<String>,
    /// The training groups that do it, in the order of the session; none where nobody is named.
    pub groups: Vec<String>,
    /// Its repetitions; where several lanes run side by side, each has its own.
    pub reps: Vec<Rep>,
    /// Its runs by time, in seconds: no plan can know how far they go.
    pub timed_s: Vec<f64>,
    /// What is done where it has no runs that start and finish somewhere.
    pub note: Option<String>,
    /// How long that lasts, in seconds, if given.
    pub lasts_s: Option<f64>,
    /// Where to stand to see most of its finishes; nothing where it has none.
    pub coach: Option<CoachPlace>,
    /// Remarks on the block: how starts creep, walks back, rests that are too short.
    pub remarks: Vec<Remark>,
}

impl PlanBlock {
    /// A block of those who do it, with nothing in it yet.
    pub(crate) fn empty(at: BlockAt, block: &Block, group: Option<String>, groups: Vec<String>) -> Self {
        Self {
            at,
            read: block.clone(),
            group,
            groups,
            reps: Vec::new(),
            timed_s: Vec::new(),
            note: None,
            lasts_s: None,
            coach: None,
            remarks: Vec::new(),
        }
    }

    /// The block as it was written, without the spaces around it.
    pub fn text(&self) -> &str {
        self.read.text.trim()
    }

    /// What its runs come by, each caution once.
    pub fn cautions(&self) -> Vec<&Caution> {
        let mut cautions: Vec<&Caution> = Vec::new();
        for caution in self.reps.iter().flat_map(|rep| &rep.cautions) {
            if !cautions.contains(&caution) {
                cautions.push(caution);
            }
        }
        cautions
    }
}
