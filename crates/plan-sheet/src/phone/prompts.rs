//! The places that a run passes and that a coach has time to look at.

use lane_distance::{LaneList, LaneNumber};

use crate::sheet::sheet_row::{SheetRow, SheetSplit, SheetTime};

/// The least time between two places, in seconds: to read one, look up and see a runner pass it.
const LEAST_GAP_S: f64 = 4.0;

/// The most places of a long run in addition to its round distances.
const MOST_BETWEEN: f64 = 8.0;

/// The splits at round distances, with the paint there, and between them the paint that leaves time to look.
pub(super) fn prompts(row: &SheetRow) -> Vec<SheetSplit> {
    let round = row.splits.iter().map(|split| {
        let there = row.paint.iter().find(|paint| paint.time_s == split.time_s);
        let paint = there.map_or_else(String::new, |paint| format!(", {}", paint.place));
        SheetSplit { place: format!("{}{paint}", split.place), ..split.clone() }
    });
    let mut prompts: Vec<SheetSplit> = round.chain(of_pack(row)).collect();
    let gap_s = LEAST_GAP_S.max(row.target_s.unwrap_or_default() / MOST_BETWEEN);
    for paint in &row.paint {
        let end_s = row.target_s.unwrap_or(f64::INFINITY);
        let is_clear = paint.time_s >= gap_s
            && end_s - paint.time_s >= gap_s
            && prompts.iter().all(|other| (other.time_s - paint.time_s).abs() >= gap_s);
        if is_clear {
            prompts.push(paint.clone());
        }
    }
    prompts.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    prompts
}

/// The round distances of a pack that is not of one speed, when its fastest comes by, with everybody's time.
fn of_pack(row: &SheetRow) -> impl Iterator<Item = SheetSplit> + '_ {
    let first = row.own_times.first().map_or([].as_slice(), |own| own.splits.as_slice());
    first.iter().enumerate().map(|(index, split)| {
        let time = |own: &SheetTime| Some(format!("{} {}", own.athlete, own.splits.get(index)?.time));
        let times: Vec<String> = row.own_times.iter().filter_map(time).collect();
        SheetSplit { place: format!("{}: {}", split.place, times.join(", ")), ..split.clone() }
    })
}

/// The prompts of all lanes of a run, in the order of their times; where lanes differ, with the lanes.
pub(super) fn passes(lanes: &[(LaneNumber, Vec<SheetSplit>)]) -> Vec<SheetSplit> {
    let mut passes: Vec<(SheetSplit, Vec<LaneNumber>)> = Vec::new();
    for (lane, prompts) in lanes {
        for prompt in prompts {
            match passes.iter_mut().find(|(known, _)| is_alike(known, prompt)) {
                Some((_, alike)) => alike.push(*lane),
                None => passes.push((prompt.clone(), vec![*lane])),
            }
        }
    }
    passes.sort_by(|(a, _), (b, _)| a.time_s.total_cmp(&b.time_s));
    let with_lanes = |(prompt, alike): (SheetSplit, Vec<LaneNumber>)| {
        if alike.len() == lanes.len() {
            return prompt;
        }
        SheetSplit { place: format!("{}: {}", LaneList(&alike), prompt.place), ..prompt }
    };
    passes.into_iter().map(with_lanes).collect()
}

/// Whether two have the same words.
pub(super) fn is_alike(a: &SheetSplit, b: &SheetSplit) -> bool {
    (&a.place, &a.time) == (&b.place, &b.time)
}
