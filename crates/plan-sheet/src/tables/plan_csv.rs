//! The runs of a plan as rows.

use crate::words::numbers::{clock, metres};
use session_plan::Plan;

use crate::tables::csv_table::{Cell, CsvTable};
use crate::tables::spot_columns::{cells, header};
use crate::words::caution::{self, ROW_NOTE};
use crate::words::spot::spot;

/// A row for each run in each lane.
pub(crate) fn csv(plan: &Plan) -> CsvTable {
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    let columns = [
        names(&["session", "date", "track", "block", "text", "group", "set", "rep", "wave", "athletes"]),
        names(&["lane", "course", "distance_m", "plus_minus_m", "start_cone"]),
        header("start").collect(),
        names(&["finish_cone"]),
        header("finish").collect(),
        names(&[
            "run_in",
            "the_other_way",
            "target_s",
            "target_from_s",
            "go_s",
            "done_s",
            "rest_s",
            "splits",
        ]),
        names(&["time_s", "cautions", "note"]),
    ];
    let mut table = CsvTable::new(columns.concat().iter().map(String::as_str));
    for (number, block) in (1_u32..).zip(&plan.blocks) {
        for rep in &block.reps {
            let round = rep.splits.iter().filter(|split| split.round);
            let splits: Vec<String> = round
                .map(|split| format!("{} m {}", metres(split.from_start_m), clock(split.time_s)))
                .collect();
            let who: [Cell; 10] = [
                plan.title.as_str().into(),
                plan.date.map(|date| date.to_string()).into(),
                plan.track.name.as_str().into(),
                number.into(),
                block.text.trim().into(),
                rep.group.as_deref().into(),
                rep.set.into(),
                rep.rep.into(),
                rep.wave.into(),
                rep.athletes.join(", ").into(),
            ];
            let what = [
                rep.lane.into(),
                rep.course.to_string().into(),
                rep.distance_m.into(),
                rep.plus_minus_m.into(),
                plan.cone_on(&rep.start).into(),
            ];
            let times = [
                rep.run_in.as_ref().map(spot).into(),
                rep.the_other_way.then_some("yes").into(),
                rep.target_s.into(),
                rep.target_from_s.into(),
                rep.go_s.into(),
                rep.done_s.into(),
                rep.rest_s.into(),
                splits.join("; ").into(),
                // For the time that was run.
                Cell::default(),
                caution::all(&rep.cautions).join("; ").into(),
                ROW_NOTE.into(),
            ];
            let finish_cone = [plan.cone_on(&rep.finish).into()];
            let row: [&[Cell]; 6] =
                [&who, &what, &cells(&rep.start), &finish_cone, &cells(&rep.finish), &times];
            table.row(row.concat());
        }
    }
    table
}
