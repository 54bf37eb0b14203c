//! Any text is a session or has problems that can be shown; a session can be laid out or says where
//! it cannot.

#![no_main]

use std::sync::LazyLock;

use lane_distance::Track;
use libfuzzer_sys::fuzz_target;
use session_plan::{FileKind, SessionFile, Venue, YamlText};
use workout_notation::SourceText;

static VENUE: LazyLock<Venue> =
    LazyLock::new(|| Venue::from(Track::built_in("standard").expect("it comes with the crate")));

fuzz_target!(|text: &str| {
    let source = SourceText::new("session.yaml", text);
    // What no screen should obey is replaced in it.
    let shown = source.text().to_owned();
    let yaml = YamlText::read(source);
    let _ = FileKind::of(&yaml);
    match SessionFile::from_yaml(yaml) {
        Ok(file) => {
            let Ok(venue) = VENUE.clone().with_closed(&file.closed_lanes) else { return };
            if let Err(errors) = session_plan::plan(&venue, &file.session) {
                assert!(!file.locate(errors).faults.is_empty());
            }
        }
        Err(found) => {
            assert!(!found.faults.is_empty(), "{text:?} is refused without a word");
            for fault in &found.faults {
                assert!(shown.get(fault.span.clone()).is_some(), "{fault:?} lies outside {shown:?}");
            }
        }
    }
});
