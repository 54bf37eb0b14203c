//! What to take care of.

use lane_distance::{HazardKind, LINE_MEASURE_M, LaneNumber, Pair, Side, Track};
use serde::Serialize;

/// What to take care of, on a track or in a run.
///
/// In JSON its `kind` names it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind")]
pub enum Caution {
    /// Distances assume that everybody runs on the measure line.
    #[serde(rename = "measure line")]
    MeasureLine {
        /// Whether lane 1 has a kerb, and is measured 0.30 m outside it.
        has_kerb: bool,
    },
    /// All distances are scaled to a surveyed lap.
    #[serde(rename = "scaled to the survey")]
    Scaled {
        /// The factor.
        scale: f64,
        /// The surveyed lap of lane 1, in metres.
        lap_m: f64,
    },
    /// Closed lanes stay closed.
    #[serde(rename = "closed lanes")]
    ClosedLanes {
        /// The lanes.
        lanes: Vec<LaneNumber>,
        /// Why they are closed, as the track file says it.
        because: Option<String>,
    },
    /// Look both ways before stepping on.
    #[serde(rename = "look both ways")]
    LookBothWays,
    /// Keep away from throws, jumps and edges.
    #[serde(rename = "keep away")]
    KeepAway,
    /// Batons are handed on in a lane.
    #[serde(rename = "baton practice")]
    BatonPractice,
    /// The venue, and those who are qualified, come first.
    #[serde(rename = "venue first")]
    VenueFirst,
    /// A run comes by something in use.
    #[serde(rename = "passes a hazard")]
    PassesHazard {
        /// What it is.
        hazard: HazardKind,
        /// On which side of the lanes it lies.
        side: Side,
        /// What the track file says of it.
        note: Option<String>,
    },
}

/// The cautions that every plan and every answer about a track carries.
pub fn cautions(track: &Track) -> Vec<Caution> {
    let has_kerb = track.layout().lanes().first().is_some_and(|lane| lane.measure_m > LINE_MEASURE_M);
    let mut cautions = vec![Caution::MeasureLine { has_kerb }];
    let scale = track.layout().scale();
    if scale != 1.0 {
        cautions.push(Caution::Scaled { scale, lap_m: track.lap_m(LaneNumber::FIRST).unwrap_or_default() });
    }
    let reason = track.closed_because();
    if let Some((lanes, because)) = reason {
        cautions.push(Caution::ClosedLanes { lanes: lanes.to_vec(), because: Some(because.to_owned()) });
    }
    // What is closed besides, as late, is not closed for the track's reason.
    let has_no_reason = |lane: &&LaneNumber| reason.is_none_or(|(lanes, _)| !lanes.contains(lane));
    let others: Vec<LaneNumber> = track.closed_lanes().iter().filter(has_no_reason).copied().collect();
    if !others.is_empty() {
        cautions.push(Caution::ClosedLanes { lanes: others, because: None });
    }
    cautions.extend([Caution::LookBothWays, Caution::KeepAway, Caution::VenueFirst]);
    cautions
}

/// The cautions of one run: what it comes by.
pub(crate) fn of_run(track: &Track, pair: &Pair) -> Vec<Caution> {
    let hazards = track.hazards_of(pair);
    hazards
        .map(|hazard| Caution::PassesHazard {
            hazard: hazard.kind,
            side: hazard.side,
            note: hazard.note.clone(),
        })
        .collect()
}
