//! One session of one group, at a glance.

use chrono::{NaiveDate, NaiveTime};
use serde::Serialize;

use crate::plan::plan::{Plan, PlanBlock, Rep};
use crate::plan::plan_words::clock;
use crate::week::week_load::{Load, runs};

/// One session of one group, at a glance.
#[derive(Clone, Debug, PartialEq, Serialize)]
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
    pub runs: Vec<RunRow>,
    /// What one runner runs.
    pub load: Load,
    /// Where the ground differs from plain addition.
    pub differences: Vec<Difference>,
    /// What is done besides, and not counted: it has no distance that a plan can know.
    pub not_counted: Vec<String>,
}

/// The runs of one block.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunRow {
    /// The block as it was written.
    pub text: String,
    /// Its runs in short, such as `6 x 200` or `2 x (300 + 200)`.
    pub short: String,
    /// How many runs.
    pub reps: u32,
    /// The distance of each run, in metres, in the order run.
    pub distances_m: Vec<f64>,
}

/// Where the ground differs from plain addition of the numbers in a workout.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Difference {
    /// How many runs.
    pub runs: u32,
    /// The run as it is written, such as `1 lap`.
    pub text: String,
    /// What the numbers alone would count for all of them, in metres.
    pub nominal_m: f64,
    /// What is really run, in metres.
    pub metres: f64,
    /// Why.
    pub why: String,
}

impl WeekEntry {
    /// What a plan asks of each of its groups, in its order.
    pub(crate) fn of(plan: &Plan) -> Vec<Self> {
        let mut entries: Vec<Self> = Vec::new();
        for group in groups(plan) {
            let mut entry = Self::empty(plan, group.map(str::to_owned));
            for block in &plan.blocks {
                entry.add(block);
            }
            entries.push(entry);
        }
        entries
    }

    fn empty(plan: &Plan, group: Option<String>) -> Self {
        Self {
            date: plan.date,
            begins: plan.begins,
            ends: plan.booked_until.or(plan.ends),
            title: plan.title.clone(),
            track: plan.track.name.clone(),
            group,
            runs: Vec::new(),
            load: Load::default(),
            differences: Vec::new(),
            not_counted: Vec::new(),
        }
    }

    /// Adds a block, as far as it is the group's: a block that names no group is everybody's.
    fn add(&mut self, block: &PlanBlock) {
        let runs = runs(block, self.group.as_deref());
        if runs.is_empty() && (!block.reps.is_empty() || block.group.is_some() && block.group != self.group) {
            return;
        }
        for rep in &runs {
            self.load.add_run(rep);
            self.add_difference(rep);
        }
        if !runs.is_empty() {
            self.runs.push(RunRow {
                text: block.text.trim().to_owned(),
                short: short(&runs),
                reps: runs.len() as u32,
                distances_m: runs.iter().map(|rep| rep.distance_m).collect(),
            });
        }
        match (block.timed_s.as_slice(), &block.note) {
            // A line that is done by time is named as it was written.
            (_, Some(_)) => self.not_counted.push(block.text.trim().to_owned()),
            ([], None) => {}
            (timed_s, None) => {
                let times: Vec<String> = timed_s.iter().map(|seconds| clock(*seconds)).collect();
                self.not_counted.push(format!("{} of `{}`", times.join(", "), block.text.trim()));
            }
        }
    }

    fn add_difference(&mut self, rep: &Rep) {
        let Some(why) = &rep.nominal.why else { return };
        let metres = rep.distance_m + rep.run_in_m.unwrap_or(0.0);
        let alike = |known: &&mut Difference| known.why == *why && known.text == rep.nominal.text;
        match self.differences.iter_mut().find(alike) {
            Some(known) => {
                known.runs += 1;
                known.nominal_m += rep.nominal.distance_m;
                known.metres += metres;
            }
            None => self.differences.push(Difference {
                runs: 1,
                text: rep.nominal.text.clone(),
                nominal_m: rep.nominal.distance_m,
                metres,
                why: why.clone(),
            }),
        }
    }
}

/// The groups that a plan gives something to do; nothing stands for everybody where there are none.
fn groups(plan: &Plan) -> Vec<Option<&str>> {
    let does = |group: &&String| {
        plan.blocks.iter().any(|block| {
            block.group.as_ref() == Some(group)
                || block.reps.iter().any(|rep| rep.group.as_ref() == Some(group))
        })
    };
    let groups: Vec<Option<&str>> =
        plan.groups.iter().filter(does).map(|group| Some(group.as_str())).collect();
    if groups.is_empty() { vec![None] } else { groups }
}

/// Runs in short: what comes again and again is written once.
fn short(runs: &[&Rep]) -> String {
    let texts: Vec<&str> = runs.iter().map(|rep| rep.nominal.text.as_str()).collect();
    let count = texts.len();
    let again = (1..=count)
        .find(|turn| count.is_multiple_of(*turn) && texts.chunks(*turn).all(|part| part == &texts[..*turn]));
    let turn = &texts[..again.unwrap_or(count)];
    let once = turn.chunk_by(|a, b| a == b).map(|alike| times(alike.len(), alike[0]));
    let once = once.collect::<Vec<_>>().join(" + ");
    match count / turn.len().max(1) {
        1 => once,
        turns if turn.len() == 1 => times(turns, &once),
        turns => format!("{turns} x ({once})"),
    }
}

fn times(count: usize, text: &str) -> String {
    if count == 1 { text.to_owned() } else { format!("{count} x {text}") }
}
