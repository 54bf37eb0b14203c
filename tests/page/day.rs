//! What a page does that is opened on another day, and a page of the week.

use serde_json::json;

use crate::browser::{PHONE, Shown, show};
use crate::made::{GROUND, LONE, made, made_of_several};
use crate::stopwatch::start_at;
use crate::stub::STUBS;

const HOUR_MS: u64 = 3_600_000;

/// A time was taken, and the page is opened again a day later.
fn opened_a_day_later(page: &Shown) {
    page.set_clock(1_000);
    page.type_into("s1-b1-r1-l1-1", "33.9");
    page.set_clock(24 * HOUR_MS);
    page.reload();
    assert_eq!(page.question(), "The times kept here are of 2027-01-15.");
}

#[test]
fn on_the_same_day_nothing_is_asked() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.type_into("s1-b1-r1-l1-1", "33.9");
    page.set_clock(HOUR_MS);
    page.reload();
    assert_eq!(page.question(), "");
    assert_eq!(page.words("#rep"), "Rep 2 of 6");
}

#[test]
fn times_of_another_day_are_gone_on_with() {
    let page = show!(made(&LONE), PHONE, STUBS);
    opened_a_day_later(&page);
    page.tap_words("#menu", "Go on with them");
    assert_eq!(page.words("#rep"), "Rep 2 of 6");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "33.9");
}

#[test]
fn times_of_another_day_are_put_away_and_can_be_saved() {
    let page = show!(made(&LONE), PHONE, STUBS);
    opened_a_day_later(&page);
    page.tap_words("#menu", "A new session");
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
    assert_eq!(page.times("s1-b1"), [""; 6]);
    page.reload();
    assert_eq!(page.question(), "", "it is asked once");
    page.part("times");
    let rows = crate::csv::saved_by(&page, |page| page.tap_words("#earlier", "Save those of 2027-01-15"));
    assert_eq!(rows.len(), 1 + 6);
    assert_eq!(rows[1][20..22], ["33.9", "33.9"]);
    assert_eq!(rows[1][23..], ["2027-01-15", "08:00:01"]);
}

#[test]
fn a_session_is_begun_anew_after_asking() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.type_into("s1-b1-r2-l1-1", "33.9");
    page.part("times");
    page.tap("#clear");
    assert_eq!(
        page.question(),
        "Put away the times of “6 x 200 in lane 2 @ 34 rest 3min”? They can still be saved."
    );
    page.tap_words("#menu", "Keep them");
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "33.9");
    page.part("times");
    page.tap("#clear");
    page.tap_words("#menu", "A new session");
    assert_eq!(page.words("#earlier"), "Save those of 2027-01-15");
    page.reload();
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "");
    page.part("times");
    assert_eq!(page.words("#earlier"), "Save those of 2027-01-15");
}

#[test]
fn what_was_chosen_for_good_outlives_a_new_session() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.choose("choose-rest", "by the timetable");
    page.choose("choose-sound", "off");
    page.part("times");
    page.tap("#clear");
    page.tap_words("#menu", "A new session");
    page.part("run");
    let chosen =
        page.in_menu("['choose-rest', 'choose-sound'].map((list) => document.getElementById(list).value)");
    assert_eq!(chosen, json!(["timetable", "off"]));
}

#[test]
fn a_clock_that_ran_for_hours_is_dropped_and_said() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.set_clock(3 * HOUR_MS - 1_000);
    page.reload();
    assert_eq!(page.notice(), "");
    assert_eq!(page.go_words(), "Stop 179:59.0");
    page.set_clock(3 * HOUR_MS + 1_000);
    page.reload();
    assert_eq!(page.notice(), "The clock of Rep 1 of 6 ran for more than three hours: it is dropped.");
    assert_eq!(page.go_words(), "Start: go in 10 s");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    page.tap("#notice-ok");
    assert_eq!(page.notice(), "");
    page.reload();
    assert_eq!(page.notice(), "", "it is said once");
}

#[test]
fn a_countdown_of_yesterday_starts_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.value(&format!("sessionStorage.setItem('test clock', {})", 24 * HOUR_MS));
    page.reload();
    assert_eq!(page.go_words(), "Start: go in 10 s");
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
}

/// Sessions of these days, each called by its day.
fn days(days: &[&str]) -> crate::made::Made {
    let sessions: Vec<String> = days
        .iter()
        .map(|day| format!("title: {day}\ndate: {day}\ntrack: track.yaml\nblocks: [6 x 200 in lane 2 @ 34 rest 3min, 2 x 100 in lane 3]\n"))
        .collect();
    made_of_several(GROUND, &sessions.iter().map(String::as_str).collect::<Vec<_>>())
}

/// The title of the session that is on.
fn session_on(page: &Shown) -> String {
    let on = page.in_menu("document.getElementById('choose').selectedOptions[0].parentElement.label");
    on.as_str().map(str::to_owned).unwrap_or_default()
}

#[test]
fn a_page_of_the_week_opens_on_today() {
    let page = show!(days(&["2027-01-13", "2027-01-15", "2027-01-17"]), PHONE, STUBS);
    assert_eq!(session_on(&page), "2027-01-15");
    // The day after none is planned; then comes the one of Sunday.
    page.set_clock(24 * HOUR_MS);
    page.reload();
    assert_eq!(session_on(&page), "2027-01-17");
    page.set_clock(100 * HOUR_MS);
    page.reload();
    assert_eq!(session_on(&page), "2027-01-13");
}

#[test]
fn a_page_of_the_week_opens_on_the_session_whose_clock_runs() {
    let page = show!(days(&["2027-01-13", "2027-01-15", "2027-01-17"]), PHONE, STUBS);
    page.part("plan");
    page.tap("#s3-b1 .run-block");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    start_at(&page, 0);
    page.set_clock(5_000);
    page.reload();
    assert_eq!(session_on(&page), "2027-01-17");
    assert_eq!(page.go_words(), "Stop 5.0");
}

#[test]
fn each_session_of_a_page_keeps_its_own_times() {
    let page = show!(days(&["2027-01-15", "2027-01-16"]), PHONE, STUBS);
    page.type_into("s1-b1-r1-l1-1", "33.9");
    page.set_clock(24 * HOUR_MS);
    page.reload();
    assert_eq!(page.question(), "", "the session of today has no times of another day");
    assert_eq!(page.times("s2-b1"), [""; 6]);
    page.part("plan");
    page.tap("#s1-b1 .run-block");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    assert_eq!(page.times("s1-b1"), ["33.9", "", "", "", "", ""]);
}
