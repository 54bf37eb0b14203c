//! Every view of every plan is written: none panics.

use std::fs;

use crate::folder::Folder;

/// Sessions that have had a view fail, or could: each as the keys of a session file.
const SESSIONS: [&str; 10] = [
    // The first go is known and no end is.
    "hours: 18:00-19:30, groups: [{ name: g, athletes: [Ada, Bela] }], blocks: [300 + 200 rest 5min]",
    "hours: 23:50-23:59, groups: [{ name: g, athletes: [Ada, Bela, 7] }], blocks: [3 x 300 in lanes 2-3 jog 200]",
    "hours: 18:00-19:30, groups: [{ name: g, athletes: [{ name: Ada, target: 50 }, Bela] }], blocks: [2 x 300]",
    "hours: 18:00-19:30, blocks: [300 + 200 rest 5min, 4 x flying 30 with 30 run-in, drills, 20 min steady]",
    "blocks: [warm-up]",
    "blocks: [20 min steady, 2 laps in-and-out 50s in lane 3, 4 x exchange zone 2 in lanes 3-4]",
    "hours: 18:00-19:30, groups: [{ name: g, athletes: [Ada, Bela, Cyd] }], \
     blocks: ['3 laps: sprint the straights, walk the bends', '2 x (4 x bend, jog straights) rest 3min']",
    "date: 2027-04-13, blocks: [3 x (4 x 200 rest 1min) rest 5min, 4 x 60 against the wind]",
    "groups: [{ name: a, athletes: [A] }, { name: b, athletes: [B] }], blocks: [4 x 60 rest 30s, 1 x 1000]",
    "groups: [{ name: a, athletes: [A, B, C, D, E, F, G, H, I] }], \
     blocks: [400 @ 70 + 800 @ 2:30 + 400 @ 70 in lanes 1-2 rest 3min, 40 x 400 @ 70 off 3min, 110h to hurdle 5]",
];

#[test]
fn every_view_of_every_session_is_written() {
    let folder = Folder::new();
    for (number, keys) in (1..).zip(SESSIONS) {
        let session = format!("{number}.yaml");
        folder.write(&session, format!("{{ title: Views, {keys} }}"));
        let endings = plan_sheet::FORMATS.iter().filter(|format| {
            // A calendar needs a date, and a build without `pdf` cannot print.
            (format.ending != "ics" || keys.contains("date:"))
                && (cfg!(feature = "pdf") || !matches!(format.ending, "pdf" | "png"))
        });
        for format in endings {
            let view = format!("{number}.{}", format.ending);
            folder.toeline(&["plan", &session, "--out", &view]).assert().success();
            assert!(fs::metadata(folder.at(&view)).expect("it was written").len() > 100, "{keys}: {view}");
        }
        folder.toeline(&["week", &session]).assert().success();
    }
}
