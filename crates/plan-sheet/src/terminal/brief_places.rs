//! Where runs start and finish, each place once: at cones, of which the walk says where they stand, or at paint.

use session_plan::ConeLabel;

use crate::sheet::place_row::PlaceRow;
use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::ranges;
use crate::terminal::packed_table::PackedTable;
use crate::words::cone::at_cones;

/// The places of all blocks of a session.
pub(crate) fn places(sheet: &Sheet) -> PackedTable {
    let has_blocks = sheet.blocks.len() > 1;
    let of_block = |block: &SheetBlock| -> Vec<Vec<String>> {
        // A squad's times are its athletes', and stand with them; those that change from run to run stand here, and one of
        // all that is nowhere else.
        let targets = || block.places.iter().map(|place| place.run.target_time());
        let is_one = !block.has_own_targets && !block.writes_targets;
        let has_times =
            !block.has_names() || is_one || targets().any(|target| Some(target) != targets().next());
        let row = |(index, place): (usize, &PlaceRow)| {
            let run = &place.run;
            let fast_from = run.fast_from.as_ref().map(|_| at(&place.start_cones, &run.in_table.start));
            let target = run.target_time().filter(|_| has_times).unwrap_or_default();
            vec![
                if has_blocks && index == 0 { block.number.to_string() } else { String::new() },
                ranges(place.reps.iter().copied()),
                ranges(place.lanes.iter().map(|lane| lane.get().into())),
                run.metres.clone(),
                at(&place.stand_cones, &run.in_table.stand),
                fast_from.unwrap_or_default(),
                at(&place.finish_cones, &run.in_table.finish),
                target.to_owned(),
            ]
        };
        side_by_side(&block.places).iter().enumerate().map(row).collect()
    };
    let rows: Vec<Vec<String>> = sheet.blocks.iter().flat_map(of_block).collect();
    PackedTable::new(&["Block", "Reps", "Lane", "Metres", "Stand", "Fast from", "Finish", "Target"], &rows)
}

/// The cones of a place, or the paint.
fn at(cones: &[ConeLabel], paint: &str) -> String {
    at_cones(cones).unwrap_or_else(|| paint.to_owned())
}

/// Rows that differ in nothing but where their cones stand, as one: the walk says where.
fn side_by_side(places: &[PlaceRow]) -> Vec<PlaceRow> {
    let mut rows: Vec<PlaceRow> = Vec::new();
    for place in places {
        let is_alike = |row: &PlaceRow| {
            let [own, other] = [&row.run, &place.run];
            let ends = |of: &PlaceRow| {
                [of.stand_cones.is_empty(), of.start_cones.is_empty(), of.finish_cones.is_empty()]
            };
            let at_paint = |cones: &[ConeLabel], own: &str, other: &str| !cones.is_empty() || own == other;
            (&row.reps, &own.metres, own.target_time()) == (&place.reps, &other.metres, other.target_time())
                && own.fast_from.is_some() == other.fast_from.is_some()
                && ends(row) == ends(place)
                && at_paint(&row.stand_cones, &own.stand, &other.stand)
                && at_paint(&row.start_cones, &own.start, &other.start)
                && at_paint(&row.finish_cones, &own.finish, &other.finish)
        };
        match rows.iter_mut().find(|row| is_alike(row)) {
            Some(row) => {
                row.lanes.extend(&place.lanes);
                row.stand_cones.extend(&place.stand_cones);
                row.start_cones.extend(&place.start_cones);
                row.finish_cones.extend(&place.finish_cones);
            }
            None => rows.push(place.clone()),
        }
    }
    rows
}
