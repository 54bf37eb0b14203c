//! Where the runs of a block start and finish, each place said once.

use lane_distance::LaneNumber;
use std::collections::HashMap;

use serde::Serialize;
use session_plan::ConeLabel;

use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::{lanes_in_words, reps_in_words};

/// Runs of a block with the same places, in one lane or several.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct PlaceRow {
    /// The repetitions, in rising order.
    #[serde(serialize_with = "reps_in_words")]
    pub(crate) reps: Vec<u32>,
    /// Whether those are several.
    pub(crate) has_several_reps: bool,
    /// Whether each lane keeps its places throughout the block, so that the repetitions need not be listed.
    pub(crate) is_throughout: bool,
    /// The lanes, in rising order.
    #[serde(serialize_with = "lanes_in_words")]
    pub(crate) lanes: Vec<LaneNumber>,
    /// The first of the runs; it has targets and splits where those are the same for all of them.
    #[serde(flatten)]
    pub(crate) run: SheetRow,
    /// The cones where they start, in the order of the lanes.
    pub(crate) start_cones: Vec<ConeLabel>,
    /// The cones where their runners stand before it, in the order of the lanes.
    pub(crate) stand_cones: Vec<ConeLabel>,
    /// The cones where they finish, in the order of the lanes.
    pub(crate) finish_cones: Vec<ConeLabel>,
    /// The cones where the run-in begins, in the order of the lanes.
    pub(crate) run_in_cones: Vec<ConeLabel>,
}

/// What the runs of a row have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Alike {
    /// Where they start and finish.
    Places,
    /// Places, targets and splits.
    Aims,
    /// Places, targets, sets and rests; and they follow each other.
    Times,
}

/// What one lane does in some repetitions.
struct Lane<'a> {
    lane: LaneNumber,
    reps: Vec<u32>,
    first: &'a SheetRow,
}

/// Whether everybody who runs a repetition of a block has the same target.
pub(crate) fn has_one_target(rows: &[SheetRow]) -> bool {
    let mut aims = HashMap::new();
    rows.iter().all(|row| {
        let aim = (&row.target, &row.splits);
        *aims.entry((row.rep, &row.metres)).or_insert(aim) == aim
    })
}

/// The places of some runs, in the order in which they are met.
pub(crate) fn place_rows(rows: &[SheetRow], alike: Alike) -> Vec<PlaceRow> {
    let is_timed = alike == Alike::Times;
    let mut lanes: Vec<Lane<'_>> = Vec::new();
    for row in rows {
        let goes_on = |lane: &&mut Lane<'_>| {
            lane.lane == row.lane
                && is_alike(lane.first, row, alike)
                && (!is_timed || lane.reps.last().is_some_and(|last| row.rep - last <= 1))
        };
        match lanes.iter_mut().find(goes_on) {
            Some(lane) if lane.reps.contains(&row.rep) => {}
            Some(lane) => lane.reps.push(row.rep),
            None => lanes.push(Lane { lane: row.lane, reps: vec![row.rep], first: row }),
        }
    }
    let is_throughout =
        lanes.iter().all(|one| lanes.iter().filter(|other| other.lane == one.lane).count() == 1);
    let shows_reps = is_timed || !is_throughout;
    let mut groups: Vec<Vec<Lane<'_>>> = Vec::new();
    for lane in lanes {
        let joins = |group: &&mut Vec<Lane<'_>>| {
            is_alike(group[0].first, lane.first, alike) && (!shows_reps || group[0].reps == lane.reps)
        };
        match groups.iter_mut().find(joins) {
            Some(group) => group.push(lane),
            None => groups.push(vec![lane]),
        }
    }
    for group in &mut groups {
        group.sort_by_key(|lane| lane.lane);
    }
    groups.sort_by_key(|group| (shows_reps.then(|| group[0].reps[0]), group[0].lane));
    groups.iter().map(|group| PlaceRow::of(group, is_throughout, alike)).collect()
}

fn is_alike(a: &SheetRow, b: &SheetRow, alike: Alike) -> bool {
    a.has_places_of(b)
        && match alike {
            Alike::Places => true,
            Alike::Aims => (&a.target, &a.splits) == (&b.target, &b.splits),
            // The last repetition has no rest after it; that needs no row of its own.
            Alike::Times => {
                (&a.target, a.set) == (&b.target, b.set) && (a.rest == b.rest || b.rest.is_none())
            }
        }
}

impl PlaceRow {
    fn of(group: &[Lane<'_>], is_throughout: bool, alike: Alike) -> Self {
        let mut run = group[0].first.clone();
        if alike == Alike::Places {
            (run.target, run.target_s, run.splits) = (None, None, Vec::new());
        }
        run.paint = Vec::new();
        let mut reps: Vec<u32> = group.iter().flat_map(|lane| lane.reps.iter().copied()).collect();
        reps.sort_unstable();
        reps.dedup();
        let cones =
            |of: fn(&SheetRow) -> Option<ConeLabel>| group.iter().filter_map(|lane| of(lane.first)).collect();
        Self {
            has_several_reps: reps.len() > 1,
            reps,
            is_throughout,
            lanes: group.iter().map(|lane| lane.lane).collect(),
            run,
            start_cones: cones(|row| row.start_cone),
            stand_cones: cones(|row| row.stand_cone),
            finish_cones: cones(|row| row.finish_cone),
            run_in_cones: cones(|row| row.run_in_cone),
        }
    }
}
