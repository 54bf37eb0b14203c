//! The plan: what every view shows.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::{NaiveDate, NaiveTime};
use lane_distance::{Course, LaneList, Placement, Track};
use serde::Serialize;

use crate::people::timezone::Timezone;
use crate::plan::coach_place::CoachPlace;
use crate::plan::nominal::Nominal;
use crate::plan::setup_walk::{SetupItem, SetupWalk};
use crate::plan::split::Split;

/// A session laid out on a track: for every repetition, where it starts and finishes.
///
/// Serialised, it is the JSON that other programs rely on.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// What the session is called.
    pub title: String,
    /// The day, if it is known.
    pub date: Option<NaiveDate>,
    /// The time of day at which it begins, if it is known.
    pub begins: Option<NaiveTime>,
    /// The time of day until which the track is booked, if it is known.
    pub booked_until: Option<NaiveTime>,
    /// The time of day at which the last run is done, if it is known.
    pub ends: Option<NaiveTime>,
    /// How long it lasts, in seconds, if that is known.
    pub lasts_s: Option<f64>,
    /// The wind, in words.
    pub wind: Option<String>,
    /// The track.
    pub track: PlanTrack,
    /// The training groups, in the order of the session file.
    pub groups: Vec<String>,
    /// The blocks, in the order they are run.
    pub blocks: Vec<PlanBlock>,
    /// What to set out before the session, in the order met on one lap from the finish line.
    pub setup: Vec<SetupItem>,
    /// How far that lap is to walk.
    pub walk: SetupWalk,
    /// Anything else for the sheet.
    pub notes: Vec<String>,
    /// How people behave on this track: the venue's rules.
    pub etiquette: Vec<String>,
    /// What to take care of.
    pub cautions: Vec<String>,
    /// What the plan had to decide or could not do.
    pub warnings: Vec<String>,
}

/// The track of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanTrack {
    /// What it is called.
    pub name: String,
    /// The time zone of its clocks, if it is known.
    pub timezone: Option<Timezone>,
    /// The lanes that are closed.
    pub closed_lanes: Vec<u8>,
    /// The lanes of the oval.
    pub lanes: Vec<PlanLane>,
    /// The track itself as the plan used it, for pictures: with what is closed and in use.
    #[serde(skip)]
    pub ground: Arc<Track>,
}

impl Plan {
    /// What plans are put in order by, from Monday morning to Sunday evening; those without a day come last.
    pub fn order(&self) -> impl Ord + use<> {
        (self.date.is_none(), self.date, self.begins)
    }
}

impl PlanTrack {
    /// What is closed, as `lanes 1 and 2 closed`; nothing where all is open.
    pub fn closed_words(&self) -> Option<String> {
        let closed = self.closed_lanes.as_slice();
        (!closed.is_empty()).then(|| format!("{} closed", LaneList(closed)))
    }
}

/// A lane of the oval.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanLane {
    /// Its number.
    pub lane: u8,
    /// A lap along its measure line, in metres.
    pub lap_m: f64,
}

/// A block of repetitions.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanBlock {
    /// The block as it was written.
    pub text: String,
    /// The training group that does it; nothing where several or all do.
    pub group: Option<String>,
    /// Its repetitions; where several lanes run side by side, each has its own.
    pub reps: Vec<Rep>,
    /// Its runs by time, in seconds: no plan can know how far they go.
    pub timed_s: Vec<f64>,
    /// What is done where it has no runs that start and finish somewhere.
    pub note: Option<String>,
    /// How long that lasts, in seconds, if it is said.
    pub lasts_s: Option<f64>,
    /// Where to stand to see most of its finishes; nothing where it has none.
    pub coach: Option<CoachPlace>,
    /// What is to be said of the block: how starts creep, walks back, rests that are too short.
    pub remarks: Vec<String>,
}

impl PlanBlock {
    /// What its runs come by, each caution once.
    pub fn cautions(&self) -> impl Iterator<Item = &str> {
        self.reps
            .iter()
            .flat_map(|rep| &rep.cautions)
            .map(String::as_str)
            .collect::<BTreeSet<_>>()
            .into_iter()
    }
}

/// One repetition in one lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rep {
    /// Its number within the block, from 1.
    pub rep: u32,
    /// The set that it belongs to, from 1.
    pub set: u32,
    /// The training group that runs it.
    pub group: Option<String>,
    /// The athletes who run it.
    pub athletes: Vec<String>,
    /// The wave that runs it, from 1.
    pub wave: u32,
    /// The lane.
    pub lane: u8,
    /// The course.
    pub course: Course,
    /// How far it is, in metres.
    pub distance_m: f64,
    /// What the numbers in the workout alone would count.
    pub nominal: Nominal,
    /// How much of it lies on bends, in metres.
    pub bend_m: f64,
    /// How many bends it runs, wholly or in part.
    pub bends: u32,
    /// Where it starts.
    pub start: Placement,
    /// Where it finishes.
    pub finish: Placement,
    /// Where the run-in of a flying run begins.
    pub run_in: Option<Placement>,
    /// How long that run-in is, in metres.
    pub run_in_m: Option<f64>,
    /// Its target time, in seconds; of a range the slower.
    pub target_s: Option<f64>,
    /// Of a range the faster, in seconds.
    pub target_from_s: Option<f64>,
    /// How hard it is, in a word.
    pub effort: Option<String>,
    /// When it starts, in seconds from the start of the session.
    pub go_s: Option<f64>,
    /// When it is done, in seconds from the start of the session.
    pub done_s: Option<f64>,
    /// The rest after it, in seconds; nothing after the last of its block.
    pub rest_s: Option<f64>,
    /// How far the runners jog or walk on after it, in metres.
    pub recovery_m: Option<f64>,
    /// How long sound needs from the finish to the start, in seconds: a whistle blown at the finish is
    /// heard so much late.
    pub sound_s: f64,
    /// Whether it is run on a straight the other way.
    pub the_other_way: bool,
    /// How sure its distance is, in metres, plus or minus.
    pub plus_minus_m: f64,
    /// When the runner should pass the round distances and the paint on the way.
    pub splits: Vec<Split>,
    /// What it comes by.
    pub cautions: Vec<String>,
}

impl Plan {
    /// The cone that stands on a spot, by its number on the walk that sets everything out.
    pub fn cone_on(&self, spot: &Placement) -> Option<u32> {
        self.setup.iter().find(|item| item.stands_on(spot)).map(|item| item.order)
    }
}
