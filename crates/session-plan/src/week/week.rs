//! A week of training at a glance.

use chrono::NaiveDate;

use crate::plan::caution::Caution;
use crate::plan::plan::Plan;
use crate::week::week_entry::WeekEntry;
use crate::week::week_load::Load;

/// A week of training at a glance: what each session asks of each group. Nothing holds it to seven
/// days.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Session, Venue, Week};
/// use workout_notation::Block;
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let block = Block::parse("4 x 1 lap to the finish line in lane 2 @ 80s rest 2min").expect("it is well formed");
/// let plan = session_plan::plan(&venue, &Session::of_block("Tuesday", block)).expect("lane 2 is open");
/// let week = Week::of(&[plan]);
/// let load = &week.entries[0].load;
/// assert_eq!((load.runs, load.nominal_m, load.bends), (4, 1600.0, 8));
/// assert!((load.metres - 4.0 * 407.038).abs() < 0.01); // a lap of lane 2 is not 400 m
/// assert_eq!((load.recoveries, load.recovery_s), (3, 360.0));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// The first day, if any is known.
    pub from: Option<NaiveDate>,
    /// The last day, if any is known.
    pub to: Option<NaiveDate>,
    /// How many sessions.
    pub sessions: u32,
    /// Each session of each group, in order of time; those without a date come last.
    pub entries: Vec<WeekEntry>,
    /// What the groups that train more than once run in all.
    pub groups: Vec<GroupLoad>,
    /// What to take care of, on each of its tracks.
    pub cautions: Vec<Caution>,
}

/// What a group runs in all.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupLoad {
    /// What it is called.
    pub group: String,
    /// How many sessions it has.
    pub sessions: u32,
    /// What one runner runs.
    pub load: Load,
}

impl Week {
    /// The week that plans make.
    pub fn of(plans: &[Plan]) -> Self {
        let mut ordered: Vec<&Plan> = plans.iter().collect();
        ordered.sort_by_key(|plan| plan.order());
        let entries: Vec<WeekEntry> = ordered.iter().flat_map(|plan| WeekEntry::of(plan)).collect();
        let mut groups: Vec<GroupLoad> = Vec::new();
        for entry in &entries {
            let Some(group) = &entry.group else { continue };
            match groups.iter_mut().find(|known| known.group == *group) {
                Some(known) => {
                    known.sessions += 1;
                    known.load.add(&entry.load);
                }
                None => {
                    groups.push(GroupLoad { group: group.clone(), sessions: 1, load: entry.load.clone() })
                }
            }
        }
        groups.retain(|group| group.sessions > 1);
        let mut cautions: Vec<Caution> = Vec::new();
        for caution in ordered.iter().flat_map(|plan| &plan.cautions) {
            if !cautions.contains(caution) {
                cautions.push(caution.clone());
            }
        }
        Self {
            cautions,
            from: plans.iter().filter_map(|plan| plan.date).min(),
            to: plans.iter().filter_map(|plan| plan.date).max(),
            sessions: plans.len() as u32,
            entries,
            groups,
        }
    }
}
