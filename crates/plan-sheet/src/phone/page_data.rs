//! What the script knows of the sessions of a page.
//!
//! The script reads no text of its own page: every number that it reckons with, and every word about the plan
//! that it says or saves, is a value of this data. What many runs have in common stands once.

use lane_distance::Track;
use serde_json::{Value, json};
use session_plan::ConeLabel;

use super::block::PageBlock;
use super::first_screen::Bar;
use super::run::{Run, TimeBox};
use super::session::PageSession;
use super::value_table::ValueTable;
use crate::drawing::ink::number;
use crate::map::run_picture::RunPicture;
use crate::sheet::sheet_row::SheetRow;
use crate::words::block_words;
use crate::words::caution::ROW_NOTE;

/// The columns of the saved times, named as in the CSV of the plan where they hold the same. Their cells come
/// from the session, the block, the run, the box, the lane and what was timed, in this order.
const COLUMNS: &str = "session,date,track,block,text,group,set,rep,wave,athletes,lane,metres,run_in,start_cone,start,\
                       finish_cone,finish,the_other_way,go,target,time,time_s,note,timed_on,timed_at";

/// What the runs of a session have in common.
#[derive(Default)]
struct Common {
    /// Words and picture of a run.
    scenes: ValueTable,
    /// The cells of a lane that say where its run is.
    places: ValueTable,
    /// Whose boxes there are.
    people: ValueTable,
    passes: ValueTable,
}

/// The sessions as JSON that can stand in a script element.
pub(super) fn page_data(sessions: &[PageSession]) -> String {
    let columns: Vec<&str> = COLUMNS.split(',').collect();
    let sessions: Vec<Value> = sessions.iter().map(session_data).collect();
    // No text of a plan can end the element.
    json!({ "columns": columns, "sessions": sessions }).to_string().replace('<', "\\u003c")
}

fn session_data(session: &PageSession) -> Value {
    let sheet = &session.sheet;
    let mut common = Common::default();
    let blocks: Vec<Value> =
        session.blocks.iter().map(|block| block_data(session, block, &mut common)).collect();
    let track = &session.track_picture;
    json!({
        "id": format!("s{}", session.number),
        "key": session.key,
        "old_key": session.old_key,
        "title": sheet.title,
        "day": session.day,
        "opening": session.opening(),
        "is_high": session.has_long_opening(),
        "beside": session.beside(),
        "file": session.file_name(),
        "note": ROW_NOTE,
        "is_alone": session.is_alone,
        "cells": [&sheet.title, session.day.as_deref().unwrap_or_default(), &session.track],
        "track": { "height": number(track.height), "surfaces": track.surfaces, "places": track.places },
        "blocks": blocks,
        "scenes": common.scenes.into_values(),
        "places": common.places.into_values(),
        "people": common.people.into_values(),
        "passes": common.passes.into_values(),
    })
}

fn block_data(session: &PageSession, block: &PageBlock, common: &mut Common) -> Value {
    let sheet = &block.sheet;
    let bar = Bar::of(&session.blocks, block.stage);
    json!({
        "id": format!("b{}", sheet.number),
        "number": sheet.number,
        "heading": block_words::title(sheet),
        "head": block.head(),
        "group": sheet.group,
        "lasts": sheet.lasts,
        "stage": block.stage,
        "names": bar.names,
        "overlaps": bar.overlaps,
        "warning": block.warning(),
        "cells": [sheet.number.to_string(), sheet.text.clone(), sheet.group.clone().unwrap_or_default()],
        "runs": block.runs.iter().map(|run| run_data(session, run, common)).collect::<Vec<_>>(),
    })
}

fn run_data(session: &PageSession, run: &Run, common: &mut Common) -> Value {
    let first = run.first();
    let passes = run.passes.iter().map(|pass| {
        let words = format!("{}: {}", pass.place, pass.time);
        json!({ "time_s": pass.time_s, "words": words, "is_heard": pass.is_round })
    });
    let passes = passes.collect::<Vec<_>>();
    let lanes: Vec<Value> = run.rows.iter().map(|row| lane_data(row, common)).collect();
    json!({
        "name": run.name,
        "set": first.set,
        "rep": first.rep,
        "wave": first.wave,
        "metres": first.distance_m,
        "go": first.go,
        "go_s": first.go_s,
        "done_s": run.done_s(),
        "run_in_s": first.clock_after_s,
        "rest_s": run.rest_s,
        "scene": common.scenes.number(scene(&session.ground, run)),
        "passes": common.passes.number(json!(passes)),
        "lanes": lanes,
    })
}

/// Words and picture of a run.
pub(crate) fn scene(ground: &Track, run: &Run) -> Value {
    let ends: Vec<[&str; 2]> = run.ends.iter().map(|end| [end.word, end.place.as_str()]).collect();
    let picture = run.picture(ground).map(|picture| {
        let RunPicture { ways, run_ins, arrow, stands, finishes, stand_at, finish_at } = picture;
        let at = |point: kurbo::Point| [number(point.x), number(point.y)];
        json!({
            "ways": ways, "run_ins": run_ins, "arrow": arrow, "stands": stands, "finishes": finishes,
            "stand_at": at(stand_at), "finish_at": at(finish_at),
        })
    });
    json!({ "what": run.what, "ends": ends, "picture": picture })
}

/// A lane: its number, where it runs, its target, then for each box whose it is and what is to be run.
fn lane_data(row: &SheetRow, common: &mut Common) -> Value {
    let cone = |cone: Option<ConeLabel>| cone.map(|cone| cone.to_string());
    let cells: [Option<String>; 7] = [
        Some(row.metres.clone()),
        row.run_in.clone(),
        cone(row.start_cone),
        Some(row.start.clone()),
        cone(row.finish_cone),
        Some(row.finish.clone()),
        row.the_other_way.then(|| "yes".to_owned()),
    ];
    let place = common.places.number(json!(cells.map(Option::unwrap_or_default)));
    let boxes = TimeBox::of_row(row).into_iter().map(|one| {
        let (from_s, to_s) = one.target_s.unzip();
        json!([common.people.number(json!([one.called, one.written])), from_s, to_s])
    });
    json!([row.lane.get(), place, row.target.clone().unwrap_or_default(), boxes.collect::<Vec<_>>()])
}
