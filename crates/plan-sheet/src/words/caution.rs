//! What to take care of, in sentences.

use lane_distance::{HazardKind, LaneList, LaneNumber, Side};
#[cfg(feature = "pdf")]
use session_plan::Plan;
use session_plan::{Caution, PlanBlock};

#[cfg(feature = "pdf")]
use crate::sheet::spans::joined;

/// The note in every row of a CSV table, which has no footer.
pub(crate) const ROW_NOTE: &str = "distances assume the measure line; closed lanes stay closed; look both ways before \
                                   stepping on; keep clear of throws and jumps; venue rules come first";

/// Cautions as sentences.
pub(crate) fn all(cautions: &[Caution]) -> Vec<String> {
    cautions.iter().map(caution).collect()
}

/// What the runs of a block come by, each caution once.
pub(crate) fn of_block(block: &PlanBlock) -> Vec<String> {
    block.cautions().into_iter().map(caution).collect()
}

/// A caution as a sentence.
pub(crate) fn caution(caution: &Caution) -> String {
    match caution {
        Caution::MeasureLine { has_kerb } => {
            let kerb = if *has_kerb { ", 0.30 m outside the kerb in lane 1" } else { "" };
            format!("Distances assume the measure line: 0.20 m outside a lane's inner line{kerb}.")
        }
        Caution::Scaled { scale, lap_m } => {
            format!("All distances are scaled by {scale:.6} to the surveyed lap of {lap_m:.3} m in lane 1.")
        }
        Caution::ClosedLanes { lanes, because } => {
            let (verb, pronoun) = if lanes.len() == 1 { ("stays", "it") } else { ("stay", "them") };
            let because = because.as_ref().map_or_else(String::new, |reason| format!(" ({reason})"));
            let closed = LaneList(lanes);
            format!("Closed {closed} {verb} closed{because}: do not run, walk or wait in {pronoun}.")
        }
        Caution::LookBothWays => {
            "Look both ways before you step on to the track; give way to runners.".to_owned()
        }
        Caution::KeepAway => {
            "Keep clear of throws and jumps in use, and of kerb and water-jump edges.".to_owned()
        }
        Caution::BatonPractice => {
            "Baton practice: keep the lane clear, shout before you hand on, look behind before \
                                   you slow down or leave the lane. The coach decides."
                .to_owned()
        }
        Caution::VenueFirst => {
            "Venue rules and staff come first. A qualified coach or a doctor judges load and pace.".to_owned()
        }
        Caution::PassesHazard { hazard, side, note } => passes("Passes", *hazard, *side, note),
    }
}

/// That something comes by a hazard, and what to do there.
fn passes(who: &str, hazard: HazardKind, side: Side, note: &Option<String>) -> String {
    let note = note.as_ref().map_or_else(String::new, |note| format!(" ({note})"));
    format!("{who} the {hazard} {side}{note}: {}.", what_to_do(hazard))
}

/// What to take care of, in short: for what is carried on the track.
pub(crate) fn in_short(closed: &[LaneNumber]) -> String {
    let closed = match closed {
        [] => String::new(),
        closed => format!(" Stay out of {}.", LaneList(closed)),
    };
    format!(
        "Distances assume the measure line.{closed} Look both ways before you step on; keep clear of throws and \
         jumps. Venue rules come first."
    )
}

/// Whether a caution holds on every track.
pub(crate) fn is_usual(caution: &Caution) -> bool {
    use Caution::{KeepAway, LookBothWays, MeasureLine, VenueFirst};
    matches!(caution, MeasureLine { .. } | LookBothWays | KeepAway | VenueFirst)
}

/// What always holds, where it is asked how far something is.
pub(crate) fn usual_in_short(usual: &[&Caution]) -> String {
    let line =
        usual.iter().find(|usual| matches!(usual, Caution::MeasureLine { .. })).map(|line| caution(line));
    let line = line.map_or_else(String::new, |line| line + " ");
    format!("{line}Look both ways; mind throws and jumps; venue rules come first.")
}

/// The same in a line of a terminal, which leads to the rest; what is closed stands with the track.
pub(crate) const IN_A_LINE: &str =
    "Look both ways; mind throws and jumps; venue rules come first. More: --full";

/// What all distances assume.
pub(crate) const MEASURE_LINE: &str = "Distances assume the measure line";

/// What stands once on a page of paper: the cautions in short, and what the runs of some blocks pass.
#[cfg(feature = "pdf")]
pub(crate) fn on_paper(plan: &Plan) -> Vec<String> {
    let is_long = |caution: &&Caution| matches!(caution, Caution::Scaled { .. } | Caution::BatonPractice);
    let mut lines = vec![in_short(&plan.track.closed_lanes)];
    lines.extend(plan.cautions.iter().filter(is_long).map(caution));
    let mut passed: Vec<(&Caution, Vec<u32>)> = Vec::new();
    for (number, block) in (1..).zip(&plan.blocks) {
        for caution in block.cautions() {
            match passed.iter_mut().find(|(known, _)| *known == caution) {
                Some((_, blocks)) => blocks.push(number),
                None => passed.push((caution, vec![number])),
            }
        }
    }
    lines.extend(passed.into_iter().map(|(passed, blocks)| {
        let (noun, verb) = if blocks.len() == 1 { ("Block", "passes") } else { ("Blocks", "pass") };
        let of = format!("{noun} {}", joined(&blocks));
        match passed {
            Caution::PassesHazard { hazard, side, note } => {
                passes(&format!("{of} {verb}"), *hazard, *side, note)
            }
            other => format!("{of}: {}", caution(other)),
        }
    }));
    lines
}

const fn what_to_do(hazard: HazardKind) -> &'static str {
    match hazard {
        HazardKind::JavelinRunway => "look for a thrower on the run-up; wait until the throw has landed",
        HazardKind::CageSector => "do not pass while a throw is being prepared; throwers have right of way",
        HazardKind::WaterJump => "keep clear of its edge and of the barrier",
        HazardKind::SteeplechaseBarrier => "check that it stands clear of your lane",
        HazardKind::LongJumpPit => "look for a jumper on the run-up, and for sand on the lane",
        HazardKind::KerbEdge => "do not step on it; run outside it",
        HazardKind::Gate => "look for people stepping on to the track",
        HazardKind::ClosedStretch => "do not run, walk or wait there",
    }
}
