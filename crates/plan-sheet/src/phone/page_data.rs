//! What the script knows of the sessions of a page.
//!
//! The script reads no text of its own page: every number that it reckons with, and every word about the plan
//! that it says or saves, is a value of this data.

use serde_json::{Value, json};
use session_plan::ConeLabel;

use super::run::{Run, RunLane};
use super::session::{PageBlock, PageSession};
use crate::words::block_words;
use crate::words::caution::ROW_NOTE;

/// The columns of the saved times, named as in the CSV of the plan where they hold the same. Their cells come
/// from the session, the block, the run, the box, the lane and what was timed, in this order.
const COLUMNS: &str = "session,date,track,block,text,group,set,rep,wave,athletes,lane,metres,run_in,start_cone,start,\
                       finish_cone,finish,the_other_way,go,target,time,time_s,note";

/// The sessions as JSON that can stand in a script element.
pub(super) fn page_data(sessions: &[PageSession]) -> String {
    let block_count: usize = sessions.iter().map(|session| session.blocks.len()).sum();
    let sessions: Vec<Value> =
        sessions.iter().map(|session| session_data(session, block_count > 1)).collect();
    // No text of a plan can end the element.
    let columns: Vec<&str> = COLUMNS.split(',').collect();
    json!({ "columns": columns, "sessions": sessions }).to_string().replace('<', "\\u003c")
}

fn session_data(session: &PageSession, has_blocks: bool) -> Value {
    let sheet = &session.sheet;
    json!({
        "id": format!("s{}", session.number),
        "key": session.key,
        "old_key": session.old_key,
        "title": sheet.title,
        "file": session.file_name(),
        "note": ROW_NOTE,
        "cells": [&sheet.title, session.day.as_deref().unwrap_or_default(), &session.track],
        "blocks": session.blocks.iter().map(|block| block_data(block, has_blocks)).collect::<Vec<_>>(),
    })
}

fn block_data(block: &PageBlock, is_one_of_several: bool) -> Value {
    let sheet = &block.sheet;
    let id = format!("b{}", sheet.number);
    let runs: Vec<Value> = (1..)
        .zip(&block.runs)
        .map(|(number, run)| {
            let title = match is_one_of_several {
                true => format!("Block {}, {}", sheet.number, run.label()),
                false => run.name.clone(),
            };
            run_data(run, &format!("{id}-r{number}"), &title)
        })
        .collect();
    json!({
        "id": id,
        "number": sheet.number,
        "heading": block_words::title(sheet),
        "cells": [sheet.number.to_string(), sheet.text.clone(), sheet.group.clone().unwrap_or_default()],
        "runs": runs,
    })
}

fn run_data(run: &Run, id: &str, title: &str) -> Value {
    let first = run.first();
    let passes = run.passes.iter().map(|pass| {
        let words = format!("{}: {}", pass.place, pass.time);
        json!({ "time_s": pass.time_s, "words": words, "is_heard": pass.is_round })
    });
    let lanes = (1..).zip(&run.lanes).map(|(number, lane)| lane_data(lane, &format!("{id}-l{number}")));
    json!({
        "id": id,
        "title": title,
        "label": run.label(),
        "set": first.set,
        "rep": first.rep,
        "wave": first.wave,
        "go_s": first.go_s,
        "run_in_s": first.clock_after_s,
        "passes": passes.collect::<Vec<_>>(),
        "lanes": lanes.collect::<Vec<_>>(),
    })
}

fn lane_data(lane: &RunLane, id: &str) -> Value {
    let row = &lane.row;
    let cone = |cone: Option<ConeLabel>| cone.map(|cone| cone.to_string());
    let cells: [Option<String>; 10] = [
        Some(row.lane.to_string()),
        Some(row.metres.clone()),
        row.run_in.clone(),
        cone(row.start_cone),
        Some(row.start.clone()),
        cone(row.finish_cone),
        Some(row.finish.clone()),
        row.the_other_way.then(|| "yes".to_owned()),
        row.go.clone(),
        row.target.clone(),
    ];
    let boxes = (1..).zip(lane.boxes()).map(|(number, who)| {
        let lane = format!("lane {}", row.lane);
        let (called, written) = who.unwrap_or((&lane, ""));
        json!({ "id": format!("{id}-{number}"), "who": called, "name": written })
    });
    json!({
        "cells": cells.map(Option::unwrap_or_default),
        "boxes": boxes.collect::<Vec<_>>(),
    })
}
