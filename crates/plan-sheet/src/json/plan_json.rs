//! A plan as the JSON that other programs rely on.

use chrono::{NaiveDate, NaiveTime};
use lane_distance::{Placement, Side};
use serde::Serialize;
use session_plan::{CoachPlace, Cone, ConeUse, Nominal, Plan, PlanBlock, PlanTrack, Rep, SetupWalk};

use crate::json::finding::{Finding, words};
use crate::words::spot::spot;
use crate::words::{coach, cone, house_rule, run_name};

/// A plan with every sentence about it.
#[derive(Serialize)]
pub(crate) struct PlanJson<'a> {
    title: &'a str,
    date: Option<NaiveDate>,
    begins: Option<NaiveTime>,
    booked_until: Option<NaiveTime>,
    ends: Option<NaiveTime>,
    lasts_s: Option<f64>,
    wind: Option<&'a str>,
    track: &'a PlanTrack,
    groups: &'a [String],
    blocks: Vec<BlockJson<'a>>,
    setup: Vec<ConeJson<'a>>,
    walk: SetupWalk,
    notes: &'a [String],
    etiquette: Vec<String>,
    cautions: Vec<String>,
    warnings: Vec<String>,
    findings: Vec<Finding<'a>>,
}

#[derive(Serialize)]
struct BlockJson<'a> {
    text: &'a str,
    group: Option<&'a str>,
    reps: Vec<RepJson<'a>>,
    timed_s: &'a [f64],
    note: Option<&'a str>,
    lasts_s: Option<f64>,
    coach: Option<CoachJson>,
    remarks: Vec<String>,
    findings: Vec<Finding<'a>>,
}

#[derive(Serialize)]
struct CoachJson {
    x_m: f64,
    y_m: f64,
    side: Side,
    lane: u8,
    words: String,
}

#[derive(Serialize)]
struct RepJson<'a> {
    #[serde(flatten)]
    numbers: &'a Rep,
    nominal: NominalJson,
    start: SpotJson<'a>,
    finish: SpotJson<'a>,
    run_in: Option<SpotJson<'a>>,
    cautions: Vec<String>,
    findings: Vec<Finding<'a>>,
}

#[derive(Serialize)]
struct NominalJson {
    text: String,
    distance_m: f64,
    why: Option<String>,
}

#[derive(Serialize)]
struct SpotJson<'a> {
    #[serde(flatten)]
    spot: &'a Placement,
    words: String,
}

#[derive(Serialize)]
struct ConeJson<'a> {
    order: u32,
    what: String,
    #[serde(rename = "for")]
    serves: String,
    uses: &'a [ConeUse],
    spot: SpotJson<'a>,
    strides: f64,
}

impl<'a> From<&'a Plan> for PlanJson<'a> {
    fn from(plan: &'a Plan) -> Self {
        let mut findings: Vec<Finding<'a>> =
            plan.warnings.iter().map(|warning| Finding::warning(warning, plan.begins)).collect();
        let warnings = words(&findings);
        findings.extend(plan.cautions.iter().map(Finding::caution));
        Self {
            title: &plan.title,
            date: plan.date,
            begins: plan.begins,
            booked_until: plan.booked_until,
            ends: plan.ends,
            lasts_s: plan.lasts_s,
            wind: plan.wind.as_deref(),
            track: &plan.track,
            groups: &plan.groups,
            blocks: plan.blocks.iter().map(BlockJson::from).collect(),
            setup: plan.setup.iter().map(ConeJson::from).collect(),
            walk: plan.walk,
            notes: &plan.notes,
            etiquette: house_rule::etiquette(&plan.rules),
            cautions: words(&findings[warnings.len()..]),
            warnings,
            findings,
        }
    }
}

impl<'a> From<&'a PlanBlock> for BlockJson<'a> {
    fn from(block: &'a PlanBlock) -> Self {
        let findings: Vec<Finding<'a>> = block.remarks.iter().map(Finding::remark).collect();
        Self {
            text: &block.text,
            group: block.group.as_deref(),
            reps: block.reps.iter().map(RepJson::from).collect(),
            timed_s: &block.timed_s,
            note: block.note.as_deref(),
            lasts_s: block.lasts_s,
            coach: block.coach.as_ref().map(CoachJson::from),
            remarks: words(&findings),
            findings,
        }
    }
}

impl From<&CoachPlace> for CoachJson {
    fn from(place: &CoachPlace) -> Self {
        Self {
            x_m: place.x_m,
            y_m: place.y_m,
            side: place.side,
            lane: place.lane,
            words: coach::coach(place),
        }
    }
}

impl<'a> From<&'a Rep> for RepJson<'a> {
    fn from(rep: &'a Rep) -> Self {
        let findings: Vec<Finding<'a>> = rep.cautions.iter().map(Finding::caution).collect();
        Self {
            numbers: rep,
            nominal: NominalJson::from(rep.nominal),
            start: SpotJson::from(&rep.start),
            finish: SpotJson::from(&rep.finish),
            run_in: rep.run_in.as_ref().map(SpotJson::from),
            cautions: words(&findings),
            findings,
        }
    }
}

impl From<Nominal> for NominalJson {
    fn from(nominal: Nominal) -> Self {
        Self {
            text: run_name::run(nominal.run),
            distance_m: nominal.distance_m,
            why: nominal.why.map(run_name::why),
        }
    }
}

impl<'a> From<&'a Placement> for SpotJson<'a> {
    fn from(place: &'a Placement) -> Self {
        Self { spot: place, words: spot(place) }
    }
}

impl<'a> From<&'a Cone> for ConeJson<'a> {
    fn from(cone: &'a Cone) -> Self {
        Self {
            order: cone.order,
            what: cone::marks(cone),
            serves: cone::serves(cone),
            uses: &cone.uses,
            spot: SpotJson::from(&cone.spot),
            strides: cone.strides,
        }
    }
}
