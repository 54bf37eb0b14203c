//! A run as the sheets print it.

use crate::words::numbers::{clock, metres, to_cm};
use lane_distance::{LaneNumber, Mark, Placement, Spot};
use serde::Serialize;
use session_plan::{ConeLabel, Plan, Rep};

use crate::words::day::time_at;
use crate::words::handover::{check_mark, handing};
use crate::words::names::called;
use crate::words::spot::{from_paint, near, past, spot};
use crate::words::target::target;

/// A run of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct SheetRow {
    /// The number of the repetition.
    pub(crate) rep: u32,
    /// The number of its set.
    pub(crate) set: u32,
    /// The number of its wave.
    pub(crate) wave: u32,
    /// The lane.
    pub(crate) lane: LaneNumber,
    /// The group of those who run.
    #[serde(skip)]
    pub(crate) group: Option<String>,
    /// The groups of those who run, each once.
    #[serde(skip)]
    pub(crate) groups: Vec<String>,
    /// The group of each of them alone.
    #[serde(skip)]
    pub(crate) member_groups: Vec<Option<String>>,
    /// Who runs, as they are called; of an exchange who hands to whom.
    pub(crate) athletes: Vec<String>,
    /// Each of them alone, as they are called: both of an exchange, who are one entry otherwise.
    #[serde(skip)]
    pub(crate) members: Vec<String>,
    /// Who runs, as they are written.
    #[serde(skip)]
    pub(crate) names: Vec<String>,
    /// The baton that is handed on in it.
    #[serde(skip)]
    pub(crate) baton: Option<SheetBaton>,
    /// How far, in metres.
    pub(crate) metres: String,
    /// The same, as a number.
    #[serde(skip)]
    pub(crate) distance_m: f64,
    /// Where it starts; of a flying run where the fast part does.
    pub(crate) start: String,
    /// Where its runner stands before it; of an exchange where the one who takes the baton does.
    pub(crate) stand: String,
    /// The same by a cone, to be found and not measured.
    #[serde(skip)]
    pub(crate) stand_near: String,
    /// What the cone there is called.
    pub(crate) stand_cone: Option<ConeLabel>,
    /// Where the fast part of a flying run begins: nothing for other runs.
    pub(crate) fast_from: Option<String>,
    /// The same where it is clear that somebody starts there: paint is named alone. Of an exchange, where the one with
    /// the baton starts.
    #[serde(skip)]
    pub(crate) from: String,
    /// The same on the track, for pictures.
    #[serde(skip)]
    pub(crate) start_spot: Spot,
    /// What the cone there is called.
    pub(crate) start_cone: Option<ConeLabel>,
    /// Where it finishes.
    pub(crate) finish: String,
    /// The same by a cone, to be found and not measured.
    #[serde(skip)]
    pub(crate) finish_near: String,
    /// The same on the track, for pictures.
    #[serde(skip)]
    pub(crate) finish_spot: Spot,
    /// What the cone there is called.
    pub(crate) finish_cone: Option<ConeLabel>,
    /// Where its runner stands, where it starts and where it finishes, in a table that says which: paint is named alone.
    #[serde(skip)]
    pub(crate) in_table: SheetPlaces,
    /// Where the run-in begins.
    pub(crate) run_in: Option<String>,
    /// The same on the track, for pictures, and how long the run-in is, in metres.
    #[serde(skip)]
    pub(crate) run_in_spot: Option<(Spot, f64)>,
    /// What the cone there is called.
    pub(crate) run_in_cone: Option<ConeLabel>,
    /// Whether it is run on a straight towards its start.
    pub(crate) the_other_way: bool,
    /// The target time, or the range of them, or the effort.
    pub(crate) target: Option<String>,
    /// The target time in seconds, for a clock; for a range, the slower.
    pub(crate) target_s: Option<f64>,
    /// Of a range the faster.
    #[serde(skip)]
    pub(crate) target_from_s: Option<f64>,
    /// When it goes: the time of day where that is known, else from the start of the session.
    pub(crate) go: Option<String>,
    /// When it goes, in seconds from the start of the session.
    pub(crate) go_s: Option<f64>,
    /// When the fastest who run are in, in seconds from the start of the session.
    #[serde(skip)]
    pub(crate) in_from_s: Option<f64>,
    /// How long after the go a flying run is at its start, from where it is timed, in seconds: nothing for other runs.
    pub(crate) clock_after_s: Option<f64>,
    /// When it is done, in seconds from the start of the session.
    #[serde(skip)]
    pub(crate) done_s: Option<f64>,
    /// The rest after it.
    pub(crate) rest: Option<String>,
    /// The same in seconds.
    #[serde(skip)]
    pub(crate) rest_s: Option<f64>,
    /// How far it is on to the next run by a jog or a walk.
    pub(crate) recovery: Option<String>,
    /// When to pass what, at round distances.
    pub(crate) splits: Vec<SheetSplit>,
    /// When to pass what, at the paint on the way.
    pub(crate) paint: Vec<SheetSplit>,
    /// What each who runs it is to run, the fastest first, where they are not of one speed: it has no common splits.
    #[serde(skip)]
    pub(crate) own_times: Vec<SheetTime>,
}

/// The places of a run, each in as few words as say it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SheetPlaces {
    pub(crate) stand: String,
    pub(crate) start: String,
    pub(crate) finish: String,
}

/// A baton handed on in a run.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SheetBaton {
    /// Who brings it, as they are called.
    pub(crate) incoming: String,
    /// Who takes it.
    pub(crate) outgoing: String,
    /// How far back the check mark lies.
    pub(crate) check_mark: String,
    /// The same in metres.
    pub(crate) back_m: f64,
    /// What the cone there is called.
    pub(crate) cone: Option<ConeLabel>,
}

/// What one who runs with others is to run.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SheetTime {
    /// Who it is, as they are called.
    pub(crate) athlete: String,
    /// The target time.
    pub(crate) target: String,
    /// The same in seconds.
    pub(crate) target_s: f64,
    /// When to pass what, at round distances.
    pub(crate) splits: Vec<SheetSplit>,
}

/// A place on the way of a run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct SheetSplit {
    /// The place.
    pub(crate) place: String,
    /// The time from the start.
    pub(crate) time: String,
    /// The same in seconds.
    pub(crate) time_s: f64,
    /// Whether its distance from the start is round.
    pub(crate) is_round: bool,
}

impl SheetRow {
    pub(crate) fn of(plan: &Plan, rep: &Rep) -> Self {
        let at = |seconds: f64| time_at(plan.begins, seconds);
        let split = |split: &session_plan::Split, place: String| SheetSplit {
            place,
            time: clock(split.time_s),
            time_s: split.time_s,
            is_round: split.round,
        };
        let round = |splits: &[session_plan::Split]| {
            let round = splits.iter().filter(|split| split.round);
            round.map(|round| split(round, format!("{} m", metres(round.from_start_m)))).collect()
        };
        let own_time = |own: &session_plan::OwnTime| SheetTime {
            athlete: with_guide(rep, &own.athlete),
            target: clock(own.target_s),
            target_s: own.target_s,
            splits: round(&own.splits),
        };
        let is_flying = rep.run_in.is_some() && rep.handover.is_none();
        let stand = rep.run_in.as_ref().filter(|_| is_flying).unwrap_or(&rep.start);
        let common = if rep.own_times.is_empty() { &*rep.splits } else { &[] };
        Self {
            rep: rep.rep,
            set: rep.set,
            wave: rep.wave,
            lane: rep.lane,
            group: rep.group.clone(),
            groups: rep.groups.clone(),
            member_groups: rep.athlete_groups.clone(),
            athletes: match &rep.handover {
                Some(handover) => vec![handing(handover, |name| with_guide(rep, name))],
                None => rep.athletes.iter().map(|name| with_guide(rep, name)).collect(),
            },
            names: match &rep.handover {
                Some(handover) => vec![handing(handover, str::to_owned)],
                None => rep.athletes.clone(),
            },
            baton: rep.handover.as_ref().map(|handover| SheetBaton {
                incoming: with_guide(rep, &handover.incoming),
                outgoing: with_guide(rep, &handover.outgoing),
                check_mark: check_mark(&handover.check_mark),
                back_m: handover.check_mark.back_m,
                cone: plan.cone_on(&handover.spot),
            }),
            members: rep.athletes.iter().map(|name| with_guide(rep, name)).collect(),
            metres: distance(rep.distance_m, rep.plus_minus_m),
            distance_m: rep.distance_m,
            start: spot(&rep.start),
            from: match (&rep.handover, rep.run_in_m) {
                (Some(_), Some(run_in_m)) => format!("run-in, {} m back", metres(run_in_m)),
                _ => from_paint(rep.run_in.as_ref().unwrap_or(&rep.start)),
            },
            stand: spot(stand),
            stand_near: near(stand),
            stand_cone: plan.cone_on(stand),
            fast_from: is_flying.then(|| past(&rep.start)),
            start_spot: rep.start.spot(),
            start_cone: plan.cone_on(&rep.start),
            finish: spot(&rep.finish),
            finish_near: near(&rep.finish),
            finish_spot: rep.finish.spot(),
            finish_cone: plan.cone_on(&rep.finish),
            in_table: SheetPlaces {
                stand: from_paint(stand),
                start: from_paint(&rep.start),
                finish: from_paint(&rep.finish),
            },
            run_in: rep.run_in.as_ref().map(spot),
            run_in_spot: rep.run_in.as_ref().map(Placement::spot).zip(rep.run_in_m),
            run_in_cone: rep.run_in.as_ref().and_then(|run_in| plan.cone_on(run_in)),
            the_other_way: rep.the_other_way,
            target: target(rep).or_else(|| rep.effort.clone()),
            target_s: rep.target_s,
            target_from_s: rep.target_from_s,
            go: rep.go_s.map(|go_s| if rep.is_about { format!("~{}", at(go_s)) } else { at(go_s) }),
            go_s: rep.go_s,
            in_from_s: (rep.done_s.zip(rep.target_s))
                .filter(|_| rep.handover.is_none())
                .map(|(done_s, target_s)| done_s - target_s + rep.target_from_s.unwrap_or(target_s)),
            clock_after_s: (rep.run_in_m.filter(|_| rep.handover.is_none()))
                .map(|_| run_in_s(rep).unwrap_or_default()),
            done_s: rep.done_s,
            rest: rep.rest_s.map(clock),
            rest_s: rep.rest_s,
            recovery: rep.recovery_m.map(|on_m| format!("{} m", metres(on_m.round()))),
            splits: round(common),
            own_times: rep.own_times.iter().map(own_time).collect(),
            paint: (common.iter())
                .filter_map(|painted| Some(split(painted, spoken(plan, painted.mark.as_ref()?))))
                .collect(),
        }
    }

    /// The target where it is a time, not an effort.
    pub(crate) fn target_time(&self) -> Option<&str> {
        self.target.as_deref().filter(|_| self.target_s.is_some())
    }

    /// Whether it starts and finishes where another run does, and is as long.
    pub(crate) fn has_places_of(&self, other: &Self) -> bool {
        (&self.start, &self.finish, &self.run_in) == (&other.start, &other.finish, &other.run_in)
            && (&self.metres, self.the_other_way) == (&other.metres, other.the_other_way)
    }
}

/// How long the run-in of a run with a target takes, in seconds.
fn run_in_s(rep: &Rep) -> Option<f64> {
    Some(rep.done_s? - rep.go_s? - rep.target_s?)
}

/// What a walker looks for to find a mark.
fn spoken(plan: &Plan, mark: &str) -> String {
    let known = plan.track.ground.marks().iter().find(|known| *known.name == *mark);
    known.map_or_else(|| mark.to_owned(), Mark::spoken)
}

/// What an athlete is called, with the guide.
fn with_guide(rep: &Rep, name: &str) -> String {
    let alone = called(name);
    match rep.guides.iter().find(|guided| guided.athlete == name) {
        Some(guided) => format!("{alone} with {}", called(&guided.guide)),
        None => alone,
    }
}

/// A distance, with its uncertainty where that matters on the ground.
pub(crate) fn distance(distance_m: f64, plus_minus_m: f64) -> String {
    /// A plus or minus is shown from here on, in metres.
    const SHOWN_FROM_M: f64 = 0.1;
    if plus_minus_m < SHOWN_FROM_M {
        to_cm(distance_m)
    } else {
        format!("{} ±{plus_minus_m:.1}", to_cm(distance_m))
    }
}
