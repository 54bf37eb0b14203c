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
    /// When it begins, in seconds from the start of the session, where it has no runs that start and finish somewhere.
    pub begins_s: Option<f64>,
    /// Whether that is about.
    pub begins_about: bool,
    /// How long that lasts, in seconds, if given, or if it says how far it goes.
    pub lasts_s: Option<f64>,
    /// Whether that is about, as it follows from how far it goes.
    pub lasts_about: bool,
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
            begins_s: None,
            begins_about: false,
            lasts_s: None,
            lasts_about: false,
            coach: None,
            remarks: Vec::new(),
        }
    }

    /// The block with when it begins, in seconds, where it has no runs that start and finish somewhere.
    pub(crate) fn beginning(mut self, begins_s: f64, is_about: bool) -> Self {
        self.begins_s = Some(begins_s).filter(|_| self.reps.is_empty());
        self.begins_about = self.begins_s.is_some() && is_about;
        self
    }

    /// Adds the part of the block that follows, with how long both last.
    pub(crate) fn join(&mut self, next: Self, lasts_s: f64) {
        let last = self.reps.iter().map(|rep| rep.rep).max();
        for rep in self.reps.iter_mut().filter(|rep| Some(rep.rep) == last) {
            let is_theirs = |next: &&Rep| next.athletes.iter().any(|name| rep.athletes.contains(name));
            let next_s = next.reps.iter().filter(is_theirs).filter_map(|next| next.go_s).reduce(f64::min);
            let until_next_s = next_s.zip(rep.done_s).map(|(next_s, done_s)| next_s - done_s);
            rep.rest_s = rep.rest_s.and(until_next_s);
        }
        self.reps.extend(next.reps);
        self.timed_s.extend(next.timed_s);
        self.note = self.note.take().filter(|_| self.reps.is_empty());
        self.lasts_s = Some(lasts_s);
        next.remarks.into_iter().for_each(|remark| join(&mut self.remarks, remark));
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

/// Adds a remark on another part of a block, unless it is made already.
fn join(remarks: &mut Vec<Remark>, remark: Remark) {
    for known in remarks.iter_mut() {
        match (known, &remark) {
            (known, remark) if known == remark => return,
            (Remark::DoneWithPartner { athlete, .. }, Remark::DoneWithPartner { athlete: other, .. })
                if athlete == other =>
            {
                return;
            }
            (
                Remark::Waves { runs, sizes, lanes, .. },
                Remark::Waves { runs: more, sizes: others, lanes: their_lanes, .. },
            )
            | (
                Remark::RelayWaves { runs, sizes, lanes, .. },
                Remark::RelayWaves { runs: more, sizes: others, lanes: their_lanes, .. },
            ) if (&*sizes, &*lanes) == (others, their_lanes) => {
                runs.extend(more);
                return;
            }
            (
                Remark::TimesEstimated { targets, athletes, rests },
                Remark::TimesEstimated { targets: more_targets, athletes: more, rests: more_rests },
            ) => {
                *targets |= more_targets;
                *rests |= more_rests;
                let new = more.iter().filter(|name| !athletes.contains(name)).cloned().collect::<Vec<_>>();
                athletes.extend(new);
                return;
            }
            _ => {}
        }
    }
    remarks.push(remark);
}
