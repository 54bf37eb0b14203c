//! Every view of a session that can be planned can be rendered, and what another program reads, it can read back:
//! JSON, tables, calendars and drawings. No view has a control character that its kind of file does not own.

#![no_main]

use std::sync::LazyLock;

use lane_distance::Track;
use libfuzzer_sys::fuzz_target;
use plan_sheet::{FORMATS, RenderError, RenderSettings};
use session_plan::{SessionFile, Venue, Week};
use workout_notation::SourceText;

static VENUE: LazyLock<Venue> =
    LazyLock::new(|| Venue::from(Track::built_in("standard").expect("it comes with the crate")));

/// Reads a view as another program would.
fn read_back(ending: &str, text: &str) {
    let hidden = |letter: char| letter.is_control() && !(letter == '\n' || letter == '\r');
    match ending {
        "json" => {
            serde_json::from_str::<serde_json::Value>(text).expect("it can be read");
        }
        "csv" => {
            for row in csv::Reader::from_reader(text.as_bytes()).into_records() {
                row.expect("each row has all columns");
            }
        }
        "ics" => {
            assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
            assert!(!text.replace("\r\n", "").contains(['\r', '\n']), "{text}");
        }
        "svg" => {
            roxmltree::Document::parse(text).expect("it can be read");
        }
        // What a terminal shows has its colours.
        "txt" => return,
        _ => {}
    }
    assert_eq!(text.chars().find(|letter| hidden(*letter)), None, "{ending}: {text}");
}

fuzz_target!(|text: &str| {
    let Ok(file) = SessionFile::read(SourceText::new("session.yaml", text)) else { return };
    let Ok(plan) = session_plan::plan(&VENUE, &file.session) else { return };
    let plans = [plan];
    let week = [Week::of(&plans)];
    let settings = RenderSettings::default();
    // What is set on paper takes a thousand times as long.
    for format in FORMATS.iter().filter(|format| !matches!(format.ending, "pdf" | "png")) {
        for rendered in [format.render(&plans, Some(&plans), &settings), format.render(&week, Some(&plans), &settings)] {
            match rendered {
                Ok(rendered) => {
                    for file in rendered.files {
                        read_back(format.ending, std::str::from_utf8(&file).expect("it is UTF-8"));
                    }
                }
                Err(RenderError::Mistake(mistake)) => panic!("{mistake}"),
                Err(_) => {}
            }
        }
    }
});
