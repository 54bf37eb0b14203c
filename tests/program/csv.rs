//! CSV: a row for each run, choice, lane or mark, that says what the JSON says.

use std::collections::BTreeMap;
use std::fs;

use crate::answer::{json, list, number, printed, texts};
use crate::folder::Folder;
use crate::run::toeline;
use serde_json::Value;

const MEASURE_LINE: &str = "distances assume the measure line";

type Row = BTreeMap<String, String>;

/// The rows as the csv crate reads them, by the names in the header.
fn rows(arguments: &[&str]) -> Vec<Row> {
    let arguments = [arguments, &["--format", "csv"]].concat();
    let written = printed(&toeline(&arguments).assert().success());
    let mut reader = csv::Reader::from_reader(written.as_bytes());
    reader.deserialize().map(|row| row.expect("it is well formed")).collect()
}

fn is_near(cell: &str, value: &Value) -> bool {
    match value.as_f64() {
        Some(number) => cell.parse::<f64>().is_ok_and(|read| (read - number).abs() < 1e-6),
        None => cell.is_empty(),
    }
}

#[test]
fn each_run_of_the_week_has_a_row_that_says_what_the_json_says() {
    for session in fs::read_dir("sessions/wrenbeck").expect("the demonstration is there") {
        let path = session.expect("it can be read").path();
        if path.ends_with("track.yaml") {
            continue;
        }
        let name = path.to_str().expect("the path is UTF-8");
        let (rows, plan) = (rows(&["plan", name]), json(&["plan", name]));
        let blocks = (1..).zip(list(&plan["blocks"]));
        let reps: Vec<(usize, &Value)> = blocks
            .flat_map(|(number, block)| list(&block["reps"]).iter().map(move |rep| (number, rep)))
            .collect();
        assert_eq!(rows.len(), reps.len(), "{name}");
        for (row, (block, rep)) in rows.iter().zip(reps) {
            assert_eq!(row["block"], block.to_string());
            assert_eq!(row["session"], plan["title"].as_str().expect("text"));
            for end in ["start", "finish"] {
                assert_eq!(row[end], rep[end]["words"].as_str().expect("text"));
                for (column, key) in [
                    ("past_mark_m", "past_mark_m"),
                    ("tape_m", "tape_m"),
                    ("x_m", "x_m"),
                    ("y_m", "y_m"),
                    ("from_finish_line_m", "from_finish_line_m"),
                ] {
                    assert!(is_near(&row[&format!("{end}_{column}")], &rep[end][key]), "{name} {row:?}");
                }
                let label = &row[&format!("{end}_cone")];
                let is_on_paint = number(&rep[end]["past_mark_m"]).abs() <= 0.05;
                assert_eq!(label.is_empty(), is_on_paint, "{name}: only what is off paint has a cone");
                let Some(cone) = list(&plan["setup"]).iter().find(|cone| cone["label"] == label.as_str())
                else {
                    assert!(is_on_paint, "{name}: {label}");
                    continue;
                };
                let cone = &cone["spot"];
                for key in ["x_m", "y_m"] {
                    let far = number(&cone[key]) - number(&rep[end][key]);
                    assert!(far.abs() < 0.001, "{name}: {cone} {rep}");
                }
            }
            for key in ["distance_m", "target_s", "go_s", "done_s", "rest_s", "lane", "rep", "wave", "set"] {
                assert!(is_near(&row[key], &rep[key]), "{key}: {row:?}");
            }
            assert_eq!(row["athletes"], texts(&rep["athletes"]).join(", "));
            assert!(row["note"].starts_with(MEASURE_LINE), "{row:?}");
        }
    }
}

#[test]
fn answers_about_the_track_have_rows_too() {
    let lanes = rows(&["lanes"]);
    let told = json(&["lanes"]);
    assert_eq!(lanes.len(), 8);
    assert!(is_near(&lanes[1]["lap_m"], &told["lanes"][1]["lap_m"]));
    assert!(is_near(&lanes[7]["stagger_4x400_m"], &told["lanes"][7]["stagger_4x400_m"]));
    for arguments in [
        &["lanes"][..],
        &["marks", "--lane", "2"],
        &["spots", "150 in lane 2"],
        &["measure", "--lane", "2", "--from", "400 m start", "--to", "200 m start"],
        &["curve", "1500"],
        &["week", "sessions/wrenbeck"],
    ] {
        let rows = rows(arguments);
        assert!(!rows.is_empty(), "{arguments:?}");
        assert!(rows.iter().all(|row| row["note"].starts_with(MEASURE_LINE)), "{arguments:?}");
    }
    let measured = &rows(&["measure", "--lane", "2", "--from", "400 m start", "--to", "200 m start"])[0];
    assert_eq!(measured["distance_m"], "200");
}

#[test]
fn several_sessions_share_one_header() {
    let (tuesday, friday) =
        ("sessions/wrenbeck/tuesday-sprints.yaml", "sessions/wrenbeck/friday-starts.yaml");
    let alone = rows(&["plan", tuesday]).len() + rows(&["plan", friday]).len();
    assert_eq!(rows(&["plan", tuesday, friday]).len(), alone);
}

#[test]
fn a_name_is_never_a_formula() {
    let session = "
title: '=HYPERLINK(\"x\")'
groups:
  - { name: '+group', athletes: ['@SUM(1+1)', '-2', '<script>', '#include'] }
blocks: ['2 x 200 @ 34 rest 3min']
";
    let folder = Folder::with("session.yaml", session);
    let rows = rows(&["plan", &folder.at("session.yaml")]);
    let mut names: Vec<&str> = rows.iter().map(|row| row["athletes"].as_str()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names, ["#include", "'-2", "'@SUM(1+1)", "<script>"]);
    assert!(rows.iter().all(|row| row["session"] == "'=HYPERLINK(\"x\")" && row["group"] == "'+group"));
}
