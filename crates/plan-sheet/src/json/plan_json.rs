//! A plan as the JSON that other programs rely on.

use serde::Serialize;
use session_plan::{CoachPlace, Cone, Handover, Nominal, Overrun, PaceChange, Plan, PlanBlock, Rep, SpotUse};

use crate::json::care::WithCare;
use crate::json::doubt_json::DoubtJson;
use crate::json::finding::{Finding, words};
use crate::words::names::called;
use crate::words::reading::reading;
use crate::words::spot::{Worded, WordedSpot};
use crate::words::warning::warnings;
use crate::words::wind::wind_words;
use crate::words::{coach, cone, handover, house_rule, overrun, run_name};

/// A plan with every sentence about it.
#[derive(Serialize)]
pub(crate) struct PlanJson<'a> {
    #[serde(flatten)]
    plan: &'a Plan,
    changes: Vec<Finding<'a>>,
    overrun: Option<OverrunJson<'a>>,
    wind: Option<String>,
    reading: String,
    not_read: Vec<&'a str>,
    blocks: Vec<BlockJson<'a>>,
    setup: Vec<ConeJson<'a>>,
    etiquette: Vec<String>,
    cautions: Vec<String>,
    warnings: Vec<String>,
    findings: Vec<Finding<'a>>,
}

#[derive(Serialize)]
struct OverrunJson<'a> {
    #[serde(flatten)]
    numbers: &'a Overrun,
    remedies: Vec<Finding<'a>>,
    words: String,
}

#[derive(Serialize)]
struct BlockJson<'a> {
    text: &'a str,
    reading: String,
    not_read: &'a [String],
    doubts: Vec<DoubtJson>,
    group: Option<&'a str>,
    groups: &'a [String],
    reps: Vec<WithCare<'a, RepJson<'a>>>,
    timed_s: &'a [f64],
    note: Option<&'a str>,
    lasts_s: Option<f64>,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    lasts_about: bool,
    coach: Option<Worded<&'a CoachPlace>>,
    remarks: Vec<String>,
    findings: Vec<Finding<'a>>,
}

#[derive(Serialize)]
struct RepJson<'a> {
    #[serde(flatten)]
    numbers: &'a Rep,
    nominal: NominalJson,
    start: WordedSpot,
    finish: WordedSpot,
    run_in: Option<WordedSpot>,
    pace_changes: Vec<PaceChangeJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    handover: Option<HandoverJson<'a>>,
}

#[derive(Serialize)]
struct HandoverJson<'a> {
    #[serde(flatten)]
    numbers: &'a Handover,
    spot: WordedSpot,
    words: String,
}

#[derive(Serialize)]
struct PaceChangeJson {
    from_start_m: f64,
    spot: WordedSpot,
}

#[derive(Serialize)]
struct NominalJson {
    text: String,
    distance_m: f64,
    why: Option<String>,
}

#[derive(Serialize)]
struct ConeJson<'a> {
    order: u32,
    label: String,
    what: String,
    #[serde(rename = "for")]
    serves: String,
    uses: &'a [SpotUse],
    spot: WordedSpot,
    strides: f64,
}

impl<'a> From<&'a Plan> for PlanJson<'a> {
    fn from(plan: &'a Plan) -> Self {
        let mut findings: Vec<Finding<'a>> =
            warnings(plan).into_iter().map(|(value, words)| Finding::warning(plan, value, words)).collect();
        let warnings = words(&findings);
        findings.extend(plan.cautions.iter().map(Finding::caution));
        let blocks: Vec<BlockJson<'a>> = plan.blocks.iter().map(BlockJson::from).collect();
        let readings: Vec<&str> = blocks.iter().map(|block| block.reading.as_str()).collect();
        Self {
            plan,
            changes: plan.changes.iter().map(|change| Finding::change(plan, change)).collect(),
            overrun: plan.overrun.as_ref().map(OverrunJson::from),
            wind: plan.wind.as_ref().map(wind_words),
            reading: readings.join("\n"),
            not_read: plan.blocks.iter().flat_map(|block| &block.read.not_read).map(String::as_str).collect(),
            blocks,
            setup: plan.setup.iter().map(ConeJson::from).collect(),
            etiquette: house_rule::etiquette(&plan.rules),
            cautions: words(&findings[warnings.len()..]),
            warnings,
            findings,
        }
    }
}

impl<'a> From<&'a Overrun> for OverrunJson<'a> {
    fn from(overrun: &'a Overrun) -> Self {
        Self {
            numbers: overrun,
            remedies: overrun.remedies.iter().map(Finding::remedy).collect(),
            words: overrun::overran(overrun),
        }
    }
}

impl<'a> From<&'a PlanBlock> for BlockJson<'a> {
    fn from(block: &'a PlanBlock) -> Self {
        let findings: Vec<Finding<'a>> = block.remarks.iter().map(Finding::remark).collect();
        Self {
            text: &block.read.text,
            reading: reading(&block.read),
            not_read: &block.read.not_read,
            doubts: block.read.doubts.iter().map(DoubtJson::from).collect(),
            group: block.group.as_deref(),
            groups: &block.groups,
            reps: block.reps.iter().map(|rep| WithCare::of(RepJson::from(rep), &rep.cautions)).collect(),
            timed_s: &block.timed_s,
            note: block.note.as_deref(),
            lasts_s: block.lasts_s,
            lasts_about: block.lasts_about,
            coach: block.coach.as_ref().map(|value| Worded { value, words: coach::coach(value) }),
            remarks: words(&findings),
            findings,
        }
    }
}

impl<'a> From<&'a Rep> for RepJson<'a> {
    fn from(rep: &'a Rep) -> Self {
        Self {
            numbers: rep,
            nominal: NominalJson::from(rep.nominal),
            start: rep.start.clone().into(),
            finish: rep.finish.clone().into(),
            run_in: rep.run_in.clone().map(WordedSpot::from),
            pace_changes: rep.pace_changes.iter().map(PaceChangeJson::from).collect(),
            handover: rep.handover.as_ref().map(HandoverJson::from),
        }
    }
}

impl<'a> From<&'a Handover> for HandoverJson<'a> {
    fn from(handover: &'a Handover) -> Self {
        let who = handover::handing(handover, called);
        Self {
            numbers: handover,
            spot: handover.spot.clone().into(),
            words: format!("{who}: {}, a start to be tuned", handover::check_mark(&handover.check_mark)),
        }
    }
}

impl From<&PaceChange> for PaceChangeJson {
    fn from(change: &PaceChange) -> Self {
        Self { from_start_m: change.from_start_m, spot: change.spot.clone().into() }
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

impl<'a> From<&'a Cone> for ConeJson<'a> {
    fn from(cone: &'a Cone) -> Self {
        Self {
            order: cone.order,
            label: cone.label.to_string(),
            what: cone::marks(&cone.uses),
            serves: cone::serves(&cone.uses),
            uses: &cone.uses,
            spot: cone.spot.clone().into(),
            strides: cone.strides,
        }
    }
}
