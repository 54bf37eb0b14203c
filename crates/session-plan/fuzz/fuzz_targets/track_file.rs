//! Any text is a track or has problems that can be shown; every track that is read can be run on, or
//! says why not.

#![no_main]

use std::sync::LazyLock;

use libfuzzer_sys::fuzz_target;
use session_plan::{Session, Venue};
use workout_notation::{Block, SourceText};

static SESSION: LazyLock<Session> = LazyLock::new(|| {
    let blocks = [
        "2 x 200 in lanes 1,2 @ 32 rest 90s",
        "flying 30 with 20 run-in",
        "60 on the home straight the other way",
        "100 on the bend jog 100",
        "110h to hurdle 2",
        "exchange zone 2",
        "2 laps starting together",
    ];
    let blocks = blocks.map(|text| Block::parse(text).unwrap_or_else(|problems| panic!("{problems:?}")));
    Session::of_blocks("fuzz", blocks.to_vec())
});

fuzz_target!(|text: &str| {
    let source = SourceText::new("track.yaml", text);
    // What no screen should obey is replaced in it.
    let shown = source.text();
    match Venue::read(&source) {
        Ok(venue) => {
            // Block by block, so that one that does not fit hides no other.
            for block in &SESSION.blocks {
                let _ = session_plan::plan(&venue, &Session::of_block("fuzz", block.clone()));
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
