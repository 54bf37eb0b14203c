//! What every view in words says of a block.

use lane_distance::LaneList;

use crate::sheet::place_row::PlaceRow;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::joined;
use crate::words::cone::at_cones;
use crate::words::numbers::{listed, to_cm};

/// Its number, its group and how it was read: `Block 1, sprinters: 4 × 150 m`.
pub(crate) fn title(block: &SheetBlock) -> String {
    let group = block.group.as_ref().map_or_else(String::new, |group| format!(", {group}"));
    format!("Block {}{group}: {}", block.number, block.reading)
}

/// What is said of some blocks, with their numbers behind it.
pub(crate) fn of_blocks(words: &str, blocks: &[usize]) -> String {
    let noun = if blocks.len() == 1 { "block" } else { "blocks" };
    format!("{words} ({noun} {})", listed(blocks))
}

/// Where its coach stands.
pub(crate) fn coach(place: &str) -> String {
    format!("Coach: {place}.")
}

/// That runs go towards the start of a straight, where they do.
pub(crate) fn the_other_way(places: &[PlaceRow]) -> Option<String> {
    let is_so = places.iter().any(|place| place.run.the_other_way);
    is_so.then(|| "Run the other way: towards the start of the straight.".to_owned())
}

/// Where run-ins begin that have no column, and what changes on the way.
pub(crate) fn ways(block: &SheetBlock, places: &[PlaceRow]) -> Vec<String> {
    let run_in = |place: &PlaceRow| {
        let run_in = place.run.run_in.as_ref().filter(|_| place.run.fast_from.is_none())?;
        let of = if place.is_throughout { String::new() } else { format!(" of run {}", joined(&place.reps)) };
        let cones = at_cones(&place.run_in_cones).filter(|_| block.has_handovers);
        let cones = cones.map_or_else(String::new, |cones| format!("{cones}, "));
        Some(format!("Run-in{of} in {}: {cones}{run_in}", LaneList(&place.lanes)))
    };
    places.iter().filter_map(run_in).chain(block.on_the_way.iter().cloned()).collect()
}

/// What stands beside the runs of a block: where they change, where the coach stands, what the plan has to say.
#[cfg(feature = "pdf")]
pub(crate) fn beside(block: &SheetBlock) -> Vec<String> {
    let coach = block.coach.iter().map(|place| coach(place));
    block.on_the_way.iter().cloned().chain(coach).chain(block.remarks.iter().cloned()).collect()
}

/// More splits than this are left to other views.
const MOST_SPLITS: usize = 12;

/// The splits at round distances, once for each distance: of runs with other targets the times of each, in order; of a
/// pack that is not of one speed, each athlete's.
pub(crate) fn splits(block: &SheetBlock) -> Vec<String> {
    let mut alike: Vec<Vec<&SheetRow>> = Vec::new();
    let has_splits = |row: &&SheetRow| (1..=MOST_SPLITS).contains(&row.splits.len());
    for row in block.places.iter().map(|place| &place.run).filter(has_splits) {
        let is_like = |other: &SheetRow| {
            other.distance_m == row.distance_m
                && other.splits.len() == row.splits.len()
                && other.splits.iter().zip(&row.splits).all(|(a, b)| a.place == b.place)
        };
        match alike.iter_mut().find(|rows| is_like(rows[0])) {
            Some(rows) if rows.iter().any(|known| known.splits == row.splits) => {}
            Some(rows) => rows.push(row),
            None => alike.push(vec![row]),
        }
    }
    let mut lines: Vec<String> = alike.iter().map(|rows| splits_of(rows)).collect();
    for row in &block.rows {
        // Those who have the same target share a line.
        for alike in row.own_times.chunk_by(|a, b| a.target == b.target) {
            let names: Vec<&str> = alike.iter().map(|own| own.athlete.as_str()).collect();
            let times: Vec<String> =
                alike[0].splits.iter().map(|split| format!("{} {}", split.place, split.time)).collect();
            let distance = to_cm(row.distance_m);
            let (names, target) = (listed(&names), &alike[0].target);
            let line = format!("Splits of {distance} m for {names} in {target}: {}", times.join(", "));
            if (1..=MOST_SPLITS).contains(&times.len()) && !lines.contains(&line) {
                lines.push(line);
            }
        }
    }
    lines
}

/// The splits of runs with the same places and other targets: `Splits of 400 m in 1:12 / 1:10: 100 m 18 s / 17.5 s`.
fn splits_of(rows: &[&SheetRow]) -> String {
    let targets: Vec<&str> = rows.iter().filter_map(|row| row.target_time()).collect();
    let within = if rows.len() > 1 { format!(" in {}", targets.join(" / ")) } else { String::new() };
    let of_place = |place: usize| {
        let times: Vec<&str> = rows.iter().map(|row| row.splits[place].time.as_str()).collect();
        format!("{} {}", rows[0].splits[place].place, times.join(" / "))
    };
    let times: Vec<String> = (0..rows[0].splits.len()).map(of_place).collect();
    format!("Splits of {} m{within}: {}", to_cm(rows[0].distance_m), times.join(", "))
}
