//! The buttons for late changes.

use askama::Template;
use lane_distance::HazardKind;
use session_plan::Group;
use workout_notation::Block;

use crate::evening::Evening;
use crate::late_request::AthleteReps;
use crate::plan_request::PlanRequest;

/// What can change late in an evening: who is there, which lanes are open, what is in use, what is left out.
#[derive(Template)]
#[template(path = "late.html")]
struct Controls {
    groups: Vec<GroupControls>,
    hazards: Vec<HazardControl>,
    blocks: Vec<BlockControl>,
}

struct GroupControls {
    name: String,
    /// When it comes, where it comes late.
    late: String,
    athletes: Vec<AthleteControl>,
    /// The most repetitions of a block of its own.
    most_reps: u32,
    /// Those who do fewer.
    fewer: Vec<AthleteReps>,
}

struct AthleteControl {
    name: String,
    is_absent: bool,
}

struct HazardControl {
    name: String,
    is_in_use: bool,
}

struct BlockControl {
    number: usize,
    text: String,
    is_skipped: bool,
}

/// The buttons for late changes to an evening, as HTML.
///
/// # Errors
///
/// What is wrong with the template.
pub(crate) fn controls(evening: &Evening, request: &PlanRequest) -> Result<String, String> {
    let late = |name: &str| {
        let group = request.late.groups.iter().find(|group| group.group == name);
        group.map_or_else(String::new, |group| group.begins.clone())
    };
    let is_of = |group: &Group, name: &str| group.athletes.iter().any(|athlete| athlete.name == name);
    let groups = evening.session.groups.iter().map(|group| GroupControls {
        most_reps: evening.session.blocks_of(group).map(Block::count).max().unwrap_or(0),
        fewer: request.late.reps.iter().filter(|one| is_of(group, &one.name)).cloned().collect(),
        name: group.name.clone(),
        late: late(&group.name),
        athletes: group
            .athletes
            .iter()
            .map(|athlete| AthleteControl {
                name: athlete.name.clone(),
                is_absent: evening.session.late.without.contains(&athlete.name),
            })
            .collect(),
    });
    let mut kinds: Vec<HazardKind> = Vec::new();
    for hazard in evening.venue.track().hazards() {
        if !kinds.contains(&hazard.kind) {
            kinds.push(hazard.kind);
        }
    }
    let hazards = kinds.into_iter().map(|kind| HazardControl {
        name: kind.to_string(),
        is_in_use: evening.session.late.hazards.iter().any(|begun| begun.hazard == kind),
    });
    let blocks = (1..).zip(&evening.blocks).map(|(number, text)| BlockControl {
        number,
        text: text.clone(),
        is_skipped: request.late.skip.contains(&number),
    });
    let controls =
        Controls { groups: groups.collect(), hazards: hazards.collect(), blocks: blocks.collect() };
    controls.render().map_err(|error| error.to_string())
}
