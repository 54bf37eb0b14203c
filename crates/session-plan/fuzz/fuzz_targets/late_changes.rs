//! Whatever changes late, the session is planned anew or something says why not; and its JSON says what has changed.
//!
//! Each line of a text is a change: its name as the flags have it, and its value.

#![no_main]

use std::sync::LazyLock;

use lane_distance::Track;
use libfuzzer_sys::fuzz_target;
use plan_sheet::{View, late_fault_words};
use session_plan::{LaneClosure, LateFault, Plan, Session, SessionFile, Since, TimeOfDay, Venue, Wind};
use workout_notation::SourceText;

const EVENING: &str = "
title: Evening
date: 2027-04-13
hours: 18:00-19:30
groups:
- name: sprinters
  lanes: [4, 5, 6]
  athletes: [Ada, Ben, { name: Cleo, bests: { 200: 28 } }]
  blocks: ['4 x 60 rest 2min', '300 + 200 @ 85% rest 5min']
- name: hurdlers
  lanes: [7, 8]
  athletes: [{ name: Dora, guide: Emil }, Finn]
  blocks: ['3 x 110h to hurdle 3 rest 3min', '4 x 200 @ 32s rest 90s']
- name: runners
  athletes: [Gus, Hana, Ivo]
  blocks: ['6 x 400 off 2:30', '200-400-200 jog 200']
";

static VENUE: LazyLock<Venue> =
    LazyLock::new(|| Venue::from(Track::built_in("standard").expect("it comes with the crate")));

static SESSION: LazyLock<(Session, Plan)> = LazyLock::new(|| {
    let read = SessionFile::read(SourceText::new("evening.yaml", EVENING));
    let session = read.unwrap_or_else(|problems| panic!("{problems}")).session;
    let plan = session_plan::plan(&VENUE, &session).unwrap_or_else(|errors| panic!("{errors:?}"));
    (session, plan)
});

/// Makes the change of a line; a line that is none changes nothing.
fn change(session: &mut Session, line: &str) -> Result<(), LateFault> {
    let Some((flag, value)) = line.split_once(' ') else { return Ok(()) };
    let named = value.rsplit_once('=').unwrap_or((value, ""));
    match flag {
        "start" => value.parse().map_or(Ok(()), |TimeOfDay(time)| session.start_at(time)),
        "late" => {
            named.1.parse().map_or(Ok(()), |TimeOfDay(time)| session.come_late(&[(named.0.to_owned(), time)]))
        }
        "without" => session.leave_out(value),
        "reps" => named.1.parse().map_or(Ok(()), |reps| session.do_fewer(&[(named.0.to_owned(), reps)])),
        "hazard" => {
            let begun = |Since(from)| session.begin_hazards(&VENUE, &[(named.0.to_owned(), from)]);
            named.1.parse().map_or(Ok(()), begun)
        }
        "wind" => {
            session.turn_wind(Wind::from_text(value));
            Ok(())
        }
        "closed" => {
            let lanes: Vec<u8> = value.split(',').filter_map(|lane| lane.parse().ok()).collect();
            session.close_lanes(&VENUE, &lanes)
        }
        "closed_for" => {
            let time = |text: &str| text.parse().ok().map(|TimeOfDay(time)| time);
            let (from, until) = named.1.split_once('-').unwrap_or((named.1, ""));
            let lanes = named.0.split(',').filter_map(|lane| lane.parse().ok()).collect();
            session.close_for(&VENUE, &[LaneClosure { lanes, from: time(from), until: time(until) }])
        }
        "skip" => {
            let numbers: Vec<usize> = value.split(',').filter_map(|number| number.parse().ok()).collect();
            session.skip_blocks(&SESSION.1, &numbers)
        }
        _ => Ok(()),
    }
}

fuzz_target!(|text: &str| {
    let mut session = SESSION.0.clone();
    for line in text.lines().take(12) {
        let before = session.clone();
        if let Err(fault) = change(&mut session, line) {
            assert!(!late_fault_words(&fault).is_empty());
            session = before;
        }
    }
    if let Ok(plan) = session_plan::plan(&VENUE, &session) {
        let json = plan.json().expect("it can be written");
        serde_json::from_str::<serde_json::Value>(&json).expect("it can be read");
    }
});
