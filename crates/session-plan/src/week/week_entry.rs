//! One session of one group, at a glance.

use chrono::{NaiveDate, NaiveTime};
use serde::Serialize;
use workout_notation::{Block, RunKind};

use crate::plan::nominal::OtherLength;
use crate::plan::plan::Plan;
use crate::plan::plan_block::PlanBlock;
use crate::plan::rep::Rep;
use crate::week::week_load::{Load, runs};

/// One session of one group, at a glance.
///
/// Serialised, it is what needs no words; whoever writes it adds the rest.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct WeekEntry {
    /// The day, if it is known.
    pub date: Option<NaiveDate>,
    /// When it begins, if that is known.
    pub begins: Option<NaiveTime>,
    /// When the booking, or else the last run, is over, if that is known.
    pub ends: Option<NaiveTime>,
    /// What the session is called.
    pub title: String,
    /// What the track is called.
    pub track: String,
    /// The training group; nothing where everybody does the same.
    pub group: Option<String>,
    /// Its runs, block by block.
    #[serde(skip)]
    pub runs: Vec<RunRow>,
    /// What one runner runs.
    #[serde(skip)]
    pub load: Load,
    /// Where the ground differs from plain addition.
    #[serde(skip)]
    pub differences: Vec<Difference>,
    /// What else is done, and not counted: it has no distance that a plan can know.
    #[serde(skip)]
    pub not_counted: Vec<NotCounted>,
}

/// Something that has no distance that a plan can know.
#[derive(Clone, Debug, PartialEq)]
pub enum NotCounted {
    /// A line as it was written.
    Line(String),
    /// The runs by time of a block that has other runs too.
    Timed {
        /// How long each is, in seconds.
        times_s: Vec<f64>,
        /// The block as it was written.
        block: String,
    },
}

/// The runs of one block.
#[derive(Clone, Debug, PartialEq)]
pub struct RunRow {
    /// The block as it was written and read.
    pub read: Block,
    /// Each run as it is written, in the order run.
    pub runs: Vec<RunKind>,
    /// The distance of each run, in metres, in the order run.
    pub distances_m: Vec<f64>,
}

/// Where the ground differs from plain addition of the numbers in a workout.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// How many runs.
    pub runs: u32,
    /// The run as it is written.
    pub run: RunKind,
    /// What the numbers alone would count for all of them, in metres.
    pub nominal_m: f64,
    /// What is really run, in metres.
    pub metres: f64,
    /// Why.
    pub why: OtherLength,
}

impl WeekEntry {
    /// What a plan asks of each of its groups, in its order.
    pub(crate) fn of(plan: &Plan) -> Vec<Self> {
        let entry = |group: Option<&str>| {
            let mut entry = Self {
                date: plan.date,
                begins: plan.begins,
                ends: plan.booked_until.or(plan.ends),
                title: plan.title.clone(),
                track: plan.track.name.clone(),
                group: group.map(str::to_owned),
                ..Self::default()
            };
            plan.blocks.iter().for_each(|block| entry.add(block));
            entry
        };
        groups(plan).into_iter().map(entry).collect()
    }

    /// Adds a block, as far as it is the group's: a block that names no group is everybody's.
    fn add(&mut self, block: &PlanBlock) {
        let runs = runs(block, self.group.as_deref());
        if runs.is_empty() && (!block.reps.is_empty() || block.group.is_some() && block.group != self.group) {
            return;
        }
        for rep in &runs {
            let is_lane = |other: &&Rep| other.rep == rep.rep && other.groups == rep.groups;
            let lanes: Vec<&Rep> = block.reps.iter().filter(is_lane).collect();
            self.load.add_run(rep, &lanes);
            self.add_difference(&lanes);
        }
        if !runs.is_empty() {
            self.runs.push(RunRow {
                read: block.read.clone(),
                runs: runs.iter().map(|rep| rep.nominal.run).collect(),
                distances_m: runs.iter().map(|rep| rep.distance_m).collect(),
            });
        }
        let text = block.text().to_owned();
        if block.note.is_some() {
            // A line that is done by time is named as it was written.
            self.not_counted.push(NotCounted::Line(text));
        } else if !block.timed_s.is_empty() {
            self.not_counted.push(NotCounted::Timed { times_s: block.timed_s.clone(), block: text });
        }
    }

    /// Adds a run, of which `lanes` are all those side by side and in waves.
    fn add_difference(&mut self, lanes: &[&Rep]) {
        let Some(rep) = lanes.first() else { return };
        let whys = lanes.iter().filter_map(|rep| rep.nominal.why);
        let Some(why) = whys.reduce(|why, other| why.with(other).unwrap_or(why)) else { return };
        let runners = |rep: &Rep| rep.athletes.len().max(1) as f64;
        let all: f64 = lanes.iter().map(|rep| runners(rep)).sum();
        let metres = lanes.iter().map(|rep| rep.distance_m * runners(rep)).sum::<f64>() / all
            + rep.run_in_m.unwrap_or(0.0);
        let both = |known: &Difference| known.why.with(why).filter(|_| known.run == rep.nominal.run);
        match self.differences.iter_mut().find_map(|known| Some((both(known)?, known))) {
            Some((why, known)) => {
                known.why = why;
                known.runs += 1;
                known.nominal_m += rep.nominal.distance_m;
                known.metres += metres;
            }
            None => self.differences.push(Difference {
                runs: 1,
                run: rep.nominal.run,
                nominal_m: rep.nominal.distance_m,
                metres,
                why,
            }),
        }
    }
}

/// The groups that a plan gives something to do; nothing stands for everybody where there are none.
fn groups(plan: &Plan) -> Vec<Option<&str>> {
    let does = |group: &&String| {
        plan.blocks.iter().any(|block| {
            block.group.as_ref() == Some(group) || block.reps.iter().any(|rep| rep.groups.contains(group))
        })
    };
    let groups: Vec<Option<&str>> =
        plan.groups.iter().filter(does).map(|group| Some(group.as_str())).collect();
    if groups.is_empty() { vec![None] } else { groups }
}
