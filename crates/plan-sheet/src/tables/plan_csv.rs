//! The runs of a plan as rows.

use session_plan::{Plan, PlanBlock, Rep, Split};

use crate::tables::columns::Columns;
use crate::tables::csv_table::{Cell, CsvTable};
use crate::words::caution;
use crate::words::names::called;
use crate::words::numbers::{clock, metres};
use crate::words::reading::reading;
use crate::words::spot::spot;

/// A run, with the number of its block.
type Row<'a> = (u32, &'a PlanBlock, &'a Rep);

/// A row for each run in each lane.
pub(crate) fn csv(plan: &Plan) -> CsvTable {
    let blocks = (1_u32..).zip(&plan.blocks);
    let rows: Vec<Row<'_>> =
        blocks.flat_map(|(number, block)| block.reps.iter().map(move |rep| (number, block, rep))).collect();
    Columns::new()
        .with("session", |_: &Row<'_>| plan.title.as_str())
        .with("date", |_| plan.date.map(|date| date.to_string()))
        .with("track", |_| plan.track.name.as_str())
        .with("block", |row| row.0)
        .with("text", |row| row.1.text())
        .with("reading", |row| reading(&row.1.read))
        .with("not_read", |row| row.1.read.not_read.join(", "))
        .with("group", |row| row.2.groups.join(", "))
        .with("set", |row| row.2.set)
        .with("rep", |row| row.2.rep)
        .with("wave", |row| row.2.wave)
        .with("athletes", |row| row.2.athletes.join(", "))
        .with("lane", |row| row.2.lane)
        .with("guides", |row| guides(row.2))
        .with("course", |row| row.2.course.to_string())
        .with("distance_m", |row| row.2.distance_m)
        .with("plus_minus_m", |row| row.2.plus_minus_m)
        .with("start_cone", |row| plan.cone_on(&row.2.start).map(|cone| cone.to_string()))
        .with_spot("start", |row| &row.2.start)
        .with("finish_cone", |row| plan.cone_on(&row.2.finish).map(|cone| cone.to_string()))
        .with_spot("finish", |row| &row.2.finish)
        .with("run_in", |row| row.2.run_in.as_ref().map(spot))
        .with("incoming", |row| row.2.handover.as_ref().map(|handover| handover.incoming.clone()))
        .with("outgoing", |row| row.2.handover.as_ref().map(|handover| handover.outgoing.clone()))
        .with("check_mark", |row| row.2.handover.as_ref().map(|handover| spot(&handover.spot)))
        .with("check_mark_back_m", |row| row.2.handover.as_ref().map(|handover| handover.check_mark.back_m))
        .with("check_mark_feet", |row| row.2.handover.as_ref().map(|handover| handover.check_mark.feet))
        .with("the_other_way", |row| row.2.the_other_way.then_some("yes"))
        .with("target_s", |row| row.2.target_s)
        .with("target_from_s", |row| row.2.target_from_s)
        .with("go_s", |row| row.2.go_s)
        .with("done_s", |row| row.2.done_s)
        .with("rest_s", |row| row.2.rest_s)
        .with("splits", |row| splits(row.2))
        // For the time that was run.
        .with("time_s", |_| Cell::default())
        .with("cautions", |row| caution::all(&row.2.cautions).join("; "))
        .table(&rows)
}

/// Such as `Ben (lane 4)`.
fn guides(rep: &Rep) -> String {
    let guides = rep.guides.iter().map(|guided| format!("{} (lane {})", guided.guide, guided.lane));
    guides.collect::<Vec<_>>().join(", ")
}

fn splits(rep: &Rep) -> String {
    let of = |splits: &[Split]| {
        let round = splits.iter().filter(|split| split.round);
        let splits = round.map(|split| format!("{} m {}", metres(split.from_start_m), clock(split.time_s)));
        splits.collect::<Vec<_>>().join("; ")
    };
    if rep.own_times.is_empty() {
        return of(&rep.splits);
    }
    let own = rep.own_times.iter().map(|own| format!("{}: {}", called(&own.athlete), of(&own.splits)));
    own.collect::<Vec<_>>().join("; ")
}
