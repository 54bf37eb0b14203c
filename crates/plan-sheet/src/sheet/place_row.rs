//! Where the runs of a block start and finish, each place said once.

use std::collections::HashMap;

use lane_distance::LaneList;
use serde::Serialize;

use crate::sheet::sheet_row::{SheetRow, SheetSplit};
use crate::sheet::spans::spans;

/// Runs of a block that start and finish at places said in the same words, in one lane or several.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlaceRow {
    /// The repetitions, as `1 to 4`; nothing where each lane keeps its places throughout the block.
    pub reps: Option<String>,
    /// The lanes, as `3 to 5`.
    pub lanes: String,
    /// How far, in metres.
    pub metres: String,
    /// Where they start.
    pub start: String,
    /// The cones there, in the order of the lanes.
    pub start_cones: Vec<u32>,
    /// Where they finish.
    pub finish: String,
    /// The cones there, in the order of the lanes.
    pub finish_cones: Vec<u32>,
    /// Where the run-in begins.
    pub run_in: Option<String>,
    /// The cones there, in the order of the lanes.
    pub run_in_cones: Vec<u32>,
    /// Whether they are run on a straight towards its start.
    pub the_other_way: bool,
    /// The target, where it is one for all of them.
    pub target: Option<String>,
    /// When to pass what, at round distances, where that is one for all of them.
    pub splits: Vec<SheetSplit>,
}

/// What one lane does in some repetitions.
struct Lane<'a> {
    lane: u8,
    reps: Vec<u32>,
    first: &'a SheetRow,
}

impl Lane<'_> {
    /// Whether a run is at the same places, with the same to say of it.
    fn is_like(&self, row: &SheetRow, with_targets: bool) -> bool {
        let has_aims_of = |other: &SheetRow| (&row.target, &row.splits) == (&other.target, &other.splits);
        self.first.has_places_of(row) && (!with_targets || has_aims_of(self.first))
    }
}

/// Whether targets can be told with the places: they are the same for all who run there.
pub(crate) fn has_one_target(rows: &[SheetRow]) -> bool {
    let mut aims = HashMap::new();
    rows.iter().all(|row| {
        let aim = (&row.target, &row.splits);
        *aims.entry((row.rep, &row.metres)).or_insert(aim) == aim
    })
}

/// The places of some runs, in the order in which they are met.
pub(crate) fn place_rows(rows: &[SheetRow]) -> Vec<PlaceRow> {
    let with_targets = has_one_target(rows);
    let mut lanes: Vec<Lane<'_>> = Vec::new();
    for row in rows {
        match lanes.iter_mut().find(|known| known.lane == row.lane && known.is_like(row, with_targets)) {
            Some(known) if known.reps.contains(&row.rep) => {}
            Some(known) => known.reps.push(row.rep),
            None => lanes.push(Lane { lane: row.lane, reps: vec![row.rep], first: row }),
        }
    }
    let has_reps = lanes.iter().any(|one| lanes.iter().filter(|other| other.lane == one.lane).count() > 1);
    let mut groups: Vec<Vec<Lane<'_>>> = Vec::new();
    for lane in lanes {
        let joins = |group: &&mut Vec<Lane<'_>>| {
            group[0].is_like(lane.first, with_targets) && (!has_reps || group[0].reps == lane.reps)
        };
        match groups.iter_mut().find(joins) {
            Some(group) => group.push(lane),
            None => groups.push(vec![lane]),
        }
    }
    for group in &mut groups {
        group.sort_by_key(|lane| lane.lane);
    }
    groups.sort_by_key(|group| (has_reps.then(|| group[0].reps[0]), group[0].lane));
    groups.iter().map(|group| place_row(group, has_reps, with_targets)).collect()
}

fn place_row(group: &[Lane<'_>], has_reps: bool, with_targets: bool) -> PlaceRow {
    let first = group[0].first;
    let lanes: Vec<u8> = group.iter().map(|lane| lane.lane).collect();
    let cones = |of: fn(&SheetRow) -> Option<u32>| group.iter().filter_map(|lane| of(lane.first)).collect();
    PlaceRow {
        reps: has_reps.then(|| joined(&group[0].reps)),
        lanes: LaneList(&lanes).numbers(),
        metres: first.metres.clone(),
        start: first.start.clone(),
        start_cones: cones(|row| row.start_cone),
        finish: first.finish.clone(),
        finish_cones: cones(|row| row.finish_cone),
        run_in: first.run_in.clone(),
        run_in_cones: cones(|row| row.run_in_cone),
        the_other_way: first.the_other_way,
        target: first.target.clone().filter(|_| with_targets),
        splits: if with_targets { first.splits.clone() } else { Vec::new() },
    }
}

/// Numbers in rising order, those that follow each other joined: `1 to 4, 6`.
fn joined(numbers: &[u32]) -> String {
    let words = spans(numbers.iter().copied()).into_iter().map(|(from, to)| match to - from {
        0 => from.to_string(),
        1 => format!("{from}, {to}"),
        _ => format!("{from} to {to}"),
    });
    words.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::joined;

    #[test]
    fn numbers_that_follow_each_other_are_joined() {
        assert_eq!(joined(&[1, 2, 3, 5, 7, 8]), "1 to 3, 5, 7, 8");
    }
}
