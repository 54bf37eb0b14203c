//! A repetition of a plan.

use std::sync::Arc;

use lane_distance::{Course, LaneNumber, Pair, Placement, Spot, Track};
use serde::Serialize;
use workout_notation::{RunKind, Step};

use crate::plan::caution::{self, Caution};
use crate::plan::handover::Handover;
use crate::plan::nominal::{self, Nominal};
use crate::plan::own_time::OwnTime;
use crate::plan::pace_change::{PaceChange, pace_changes};
use crate::plan::pairing;
use crate::plan::split::{Split, splits};

/// How fast sound travels at about 20 °C, in metres a second.
const SOUND_M_PER_S: f64 = 343.0;

/// One repetition in one lane.
///
/// Serialised, it is its numbers; views add its places and remarks in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rep {
    /// Its number within the block, from 1.
    pub rep: u32,
    /// The set that it belongs to, from 1.
    pub set: u32,
    /// The training group that runs it; nothing where several do.
    pub group: Option<String>,
    /// The training groups that run it, each once.
    pub groups: Vec<String>,
    /// The athletes who run it.
    pub athletes: Vec<String>,
    /// The training group of each of them.
    #[serde(skip)]
    pub athlete_groups: Vec<Option<String>>,
    /// Their guides, each in the next lane on the outside.
    pub guides: Vec<Guide>,
    /// The wave that runs it, from 1.
    pub wave: u32,
    /// The lane.
    pub lane: LaneNumber,
    /// The course.
    pub course: Course,
    /// How far it is, in metres.
    pub distance_m: f64,
    /// What the numbers in the workout alone would count.
    #[serde(skip)]
    pub nominal: Nominal,
    /// How much of it lies on bends, in metres.
    pub bend_m: f64,
    /// How many bends it runs, wholly or in part.
    pub bends: u32,
    /// Where it starts.
    #[serde(skip)]
    pub start: Placement,
    /// Where it finishes.
    #[serde(skip)]
    pub finish: Placement,
    /// Where the run-in of a flying run begins, or of the incoming runner of an exchange.
    #[serde(skip)]
    pub run_in: Option<Placement>,
    /// Where it changes from fast to easy, or back.
    #[serde(skip)]
    pub pace_changes: Vec<PaceChange>,
    /// How long that run-in is, in metres.
    pub run_in_m: Option<f64>,
    /// Who hands the baton to whom, in an exchange of two: its athletes, in this order.
    #[serde(skip)]
    pub handover: Option<Handover>,
    /// Its target time, in seconds; for a range, the slower.
    pub target_s: Option<f64>,
    /// Of a range the faster, in seconds.
    pub target_from_s: Option<f64>,
    /// How hard it is, in a word.
    pub effort: Option<String>,
    /// When its runners set off, in seconds from the start of the session: with a run-in, when that begins.
    pub go_s: Option<f64>,
    /// When it is done, in seconds from the start of the session.
    pub done_s: Option<f64>,
    /// The rest after it, in seconds; nothing after the last of its block.
    pub rest_s: Option<f64>,
    /// Whether a time that it shows was estimated, as nobody gave it.
    #[serde(rename = "about")]
    pub is_about: bool,
    /// How far the runners jog or walk on after it, in metres.
    pub recovery_m: Option<f64>,
    /// How long sound needs from the finish to the start, in seconds: a whistle blown at the finish is
    /// heard so much late.
    pub sound_s: f64,
    /// Whether it is run on a straight the other way.
    pub the_other_way: bool,
    /// The uncertainty of its distance, in metres, plus or minus.
    pub plus_minus_m: f64,
    /// When the runner should pass the round distances and the paint on the way.
    pub splits: Arc<[Split]>,
    /// Each athlete's own target and splits, the fastest first, where some of them run it together and their targets
    /// differ by more than a second a lap.
    pub own_times: Vec<OwnTime>,
    /// What it comes by.
    #[serde(skip)]
    pub cautions: Vec<Caution>,
}

impl Rep {
    /// A run between two spots, which nobody does yet; a stride tells its tapes in steps.
    pub(crate) fn of(
        track: &Track,
        kind: RunKind,
        pair: &Pair,
        target_s: Option<f64>,
        stride_m: Option<f64>,
    ) -> Self {
        let with_strides = |placement: Placement| match stride_m {
            Some(stride_m) => placement.with_strides(stride_m),
            None => placement,
        };
        let run_in_m = nominal::run_in_m(kind);
        let run_in = run_in_m.and_then(|run_in_m| pairing::run_in(track, pair, run_in_m));
        let place = |spot: Spot, reading| with_strides(Placement::from_reading(track, spot, reading));
        let start = place(pair.start, pair.start_reading);
        let finish = place(pair.finish, pair.finish_reading);
        let on_bends = track.bend_share(pair.start, pair.distance_m, pair.against);
        Self {
            rep: 0,
            set: 0,
            group: None,
            groups: Vec::new(),
            athletes: Vec::new(),
            athlete_groups: Vec::new(),
            guides: Vec::new(),
            wave: 1,
            lane: pair.start.lane,
            course: pair.start.course,
            distance_m: pair.distance_m,
            nominal: Nominal::of(track, kind, pair.start.lane, pair.distance_m),
            bend_m: on_bends.metres,
            bends: on_bends.bends,
            sound_s: libm::hypot(start.x_m - finish.x_m, start.y_m - finish.y_m) / SOUND_M_PER_S,
            start,
            finish,
            run_in: run_in.map(|spot| with_strides(Placement::of(track, spot))),
            run_in_m,
            pace_changes: pace_changes(track, kind, pair, stride_m),
            handover: None,
            target_s,
            target_from_s: None,
            effort: None,
            go_s: None,
            done_s: None,
            rest_s: None,
            is_about: false,
            recovery_m: None,
            the_other_way: pair.against,
            plus_minus_m: track.uncertainty_m(pair),
            splits: target_s.map_or_else(Arc::default, |target_s| splits(track, pair, kind, target_s).into()),
            own_times: Vec::new(),
            cautions: caution::of_run(track, &pairing::whole_way(track, pair, run_in_m.unwrap_or(0.0))),
        }
    }

    /// How far its runners go from its start time to its end, in metres.
    pub(crate) fn way_m(&self) -> f64 {
        self.distance_m + self.run_in_m.unwrap_or(0.0)
    }

    /// Makes it the run of a step between its spots, with its number and its times.
    pub(crate) fn set_step(&mut self, step: &Step<'_>, index: usize, times: &RepTimes) {
        self.rep = index as u32 + 1;
        self.set = step.set;
        self.target_from_s = times.target_from_s;
        self.effort = step.effort.map(|effort| effort.value.clone());
        self.go_s = times.go_s;
        self.done_s = times.done_s;
        self.rest_s = times.rest_s;
        self.is_about = times.is_about && (times.go_s.is_some() || times.done_s.is_some());
    }
}

/// Who guides an athlete, and in which lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Guide {
    /// The athlete.
    pub athlete: String,
    /// The guide.
    pub guide: String,
    /// The guide's lane.
    pub lane: u8,
}

/// When a run starts and ends.
pub(crate) struct RepTimes {
    pub(crate) target_from_s: Option<f64>,
    pub(crate) go_s: Option<f64>,
    pub(crate) done_s: Option<f64>,
    pub(crate) rest_s: Option<f64>,
    /// Whether one of these was estimated.
    pub(crate) is_about: bool,
}
