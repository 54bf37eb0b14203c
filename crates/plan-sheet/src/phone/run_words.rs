//! A run in the few words that fit on a phone's first screen.

use session_plan::ConeLabel;

use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::{cone_ranges, lane_ranges};
use crate::words::numbers::to_cm;

/// Where a run begins, where it ends, or what lies between.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Ends {
    /// `Stand`, `Fast from` or `Finish`.
    pub(crate) word: &'static str,
    /// Where that is.
    pub(crate) place: String,
}

/// What a run is, and where it begins and ends in all its lanes.
///
/// Who runs alone measures with a tape what others have cones for.
pub(super) fn run_words(rows: &[SheetRow]) -> (String, Vec<Ends>) {
    let has_cones = rows.len() > 1 || rows[0].athletes.len() > 1;
    let words = |cone: Option<ConeLabel>, full: &'_ str, near: &'_ str| match cone {
        Some(_) if has_cones => near.to_owned(),
        _ => full.to_owned(),
    };
    let stand = place(rows, |row| (words(row.stand_cone, &row.stand, &row.stand_near), row.stand_cone));
    let fast = rows[0]
        .fast_from
        .is_some()
        .then(|| place(rows, |row| (row.fast_from.clone().unwrap_or_default(), row.start_cone)));
    let finish = place(rows, |row| (words(row.finish_cone, &row.finish, &row.finish_near), row.finish_cone));
    let ends = [("Stand", Some(stand)), ("Fast from", fast), ("Finish", Some(finish))];
    let ends = ends.into_iter().filter_map(|(word, place)| Some(Ends { word, place: place? }));
    (what(rows), ends.collect())
}

/// `200 m in 34 s, rest 1:30`, as far as it is the same in all lanes.
fn what(rows: &[SheetRow]) -> String {
    let first = &rows[0];
    let is_common = |same: &dyn Fn(&SheetRow) -> bool| rows.iter().all(same);
    let mut what = format!("{} m", to_cm(first.distance_m));
    match &first.target {
        Some(target) if is_common(&|row| row.target == first.target) => {
            what += if first.target_s.is_some() { " in " } else { ", " };
            what += target;
        }
        _ => {
            // Where targets differ, from the fastest to the slowest.
            let slowest = rows.iter().max_by(|a, b| of(a).total_cmp(&of(b)));
            let fastest = rows.iter().min_by(|a, b| of(a).total_cmp(&of(b)));
            if let (Some(from), Some(to)) =
                (fastest.and_then(SheetRow::target_time), slowest.and_then(SheetRow::target_time))
            {
                what += &format!(" in {from} to {to}");
            }
        }
    }
    if first.the_other_way {
        what += ", the other way";
    }
    if let Some(rest) = first.rest.as_ref().filter(|_| is_common(&|row| row.rest == first.rest)) {
        what += &format!(", rest {rest}");
    }
    what
}

fn of(row: &SheetRow) -> f64 {
    row.target_s.unwrap_or(f64::NAN)
}

/// A place in all lanes: in words where those are the same; else by cones; else lane by lane.
fn place(rows: &[SheetRow], of: impl Fn(&SheetRow) -> (String, Option<ConeLabel>)) -> String {
    let places: Vec<(String, Option<ConeLabel>)> = rows.iter().map(&of).collect();
    let mut cones: Vec<ConeLabel> = places.iter().filter_map(|(_, cone)| *cone).collect();
    cones.dedup();
    let noun = if cones.len() == 1 { "cone" } else { "cones" };
    let words = &places[0].0;
    if places.iter().all(|(other, _)| other == words) {
        return if cones.is_empty() {
            words.clone()
        } else {
            format!("{noun} {}: {words}", cone_ranges(cones))
        };
    }
    if places.iter().all(|(_, cone)| cone.is_some()) {
        return format!("{noun} {}", cone_ranges(cones));
    }
    let mut alike: Vec<(&String, Option<ConeLabel>, Vec<_>)> = Vec::new();
    for (row, (words, cone)) in rows.iter().zip(&places) {
        match alike.iter_mut().find(|(known, ..)| *known == words) {
            Some((.., lanes)) => lanes.push(row.lane),
            None => alike.push((words, *cone, vec![row.lane])),
        }
    }
    let in_lanes = alike.iter().map(|(words, cone, lanes)| match cone {
        Some(cone) => format!("{}: cone {cone}", lane_ranges(lanes)),
        None => format!("{}: {words}", lane_ranges(lanes)),
    });
    in_lanes.collect::<Vec<_>>().join("; ")
}
