//! What has changed since a session was written.

use chrono::NaiveTime;
use lane_distance::{HazardKind, LaneNumber};
use serde::Serialize;

use crate::people::lane_closure::LaneClosure;
use crate::people::session::Session;
use crate::people::wind::Wind;
use crate::plan::lane_move::LaneMove;

/// What has changed since a session was written.
///
/// In JSON its `kind` names it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind")]
pub enum Change {
    /// The session starts at another time.
    #[serde(rename = "start")]
    Start {
        /// When.
        at: NaiveTime,
    },
    /// A group comes later than the others.
    #[serde(rename = "late")]
    Late {
        /// The group.
        group: String,
        /// When it begins.
        at: NaiveTime,
    },
    /// Somebody is absent.
    #[serde(rename = "without")]
    Without {
        /// Who it is.
        athletes: Vec<String>,
    },
    /// A guide is absent.
    #[serde(rename = "without guide")]
    WithoutGuide {
        /// Who it is.
        guide: String,
        /// Who is to be guided.
        athlete: String,
    },
    /// An athlete does fewer repetitions.
    #[serde(rename = "reps")]
    Reps {
        /// The athlete.
        athlete: String,
        /// The most that are done of each block.
        reps: u32,
    },
    /// Lanes have been closed.
    #[serde(rename = "closed")]
    Closed {
        /// The lanes.
        lanes: Vec<LaneNumber>,
        /// From when on, where they are closed for a part of the evening.
        #[serde(skip_serializing_if = "Option::is_none")]
        from: Option<NaiveTime>,
        /// Until when, where that is so.
        #[serde(skip_serializing_if = "Option::is_none")]
        until: Option<NaiveTime>,
        /// What the blocks that name them run in instead.
        moved: Vec<LaneMove>,
    },
    /// A hazard has come into use.
    #[serde(rename = "hazard")]
    Hazard {
        /// What it is.
        hazard: HazardKind,
        /// From when on; from the start of the session unless given.
        from: Option<NaiveTime>,
    },
    /// The wind has turned.
    #[serde(rename = "wind")]
    Wind {
        /// The wind now.
        #[serde(skip)]
        wind: Wind,
    },
    /// A block is left out.
    #[serde(rename = "skip")]
    Skip {
        /// Its number in the plan that had it, from 1.
        number: usize,
        /// The block as it was written.
        block: String,
        /// The group that would have done it, where it is one.
        group: Option<String>,
    },
}

/// What has changed in a session, with the lanes that its blocks moved to.
pub(crate) fn changes(session: &Session, mut moved: Vec<LaneMove>) -> Vec<Change> {
    let late = &session.late;
    let mut changes = Vec::new();
    let booked_from = session.hours.map(|hours| hours.from).or(session.starts);
    changes.extend(late.start.filter(|start| Some(*start) != booked_from).map(|at| Change::Start { at }));
    for group in &session.groups {
        let comes = group.late.filter(|late| session.begins().is_some_and(|begins| *late > begins));
        changes.extend(comes.map(|at| Change::Late { group: group.name.clone(), at }));
    }
    let athletes = || session.groups.iter().flat_map(|group| &group.athletes);
    let is_absent = |name: &String| late.without.contains(name);
    let is_athlete = |name: &&String| athletes().any(|athlete| athlete.name == **name);
    let absent: Vec<String> = late.without.iter().filter(is_athlete).cloned().collect();
    if !absent.is_empty() {
        changes.push(Change::Without { athletes: absent });
    }
    for athlete in athletes().filter(|athlete| !is_absent(&athlete.name)) {
        let guide = athlete.guide.clone().filter(is_absent);
        changes.extend(guide.map(|guide| Change::WithoutGuide { guide, athlete: athlete.name.clone() }));
        let fewer = athlete.reps.map(|reps| Change::Reps { athlete: athlete.name.clone(), reps });
        changes.extend(fewer);
    }
    // Each move is told once, with the first closing that makes it.
    let mut moved_from =
        |lanes: &[LaneNumber]| moved.extract_if(.., |moved| lanes.contains(&moved.from)).collect::<Vec<_>>();
    if !late.closed.is_empty() {
        let moved = moved_from(&late.closed);
        changes.push(Change::Closed { lanes: late.closed.clone(), from: None, until: None, moved });
    }
    for LaneClosure { lanes, from, until } in &late.closures {
        let lanes: Vec<LaneNumber> = lanes.iter().copied().filter_map(LaneNumber::new).collect();
        let moved = moved_from(&lanes);
        changes.push(Change::Closed { lanes, from: *from, until: *until, moved });
    }
    changes
        .extend(late.hazards.iter().map(|begun| Change::Hazard { hazard: begun.hazard, from: begun.from }));
    changes.extend(late.wind.clone().map(|wind| Change::Wind { wind }));
    changes.extend(late.skipped.iter().map(|skipped| Change::Skip {
        number: skipped.number,
        block: skipped.text.clone(),
        group: skipped.group.clone(),
    }));
    changes
}
