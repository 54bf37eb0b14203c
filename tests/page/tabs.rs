//! One session in several tabs, of which some sleep.

use crate::browser::{PHONE, Set, show};
use crate::made::{LONE, made};
use crate::stopwatch::start_at;
use crate::stub::STUBS;

#[test]
fn two_tabs_with_one_plan_keep_the_times_of_both() {
    let page = show!(made(&LONE), PHONE, Set::default());
    page.type_into("s1-b1-r1-l1-1", "33.9");
    page.type_in_another_tab("s1-b1-r2-l1-1", "34.1");
    page.wait("document.getElementById('s1-b1-r2-l1-1').value === '34.1'");
    page.type_into("s1-b1-r3-l1-1", "34.4");
    page.reload();
    assert_eq!(page.times("s1-b1"), ["33.9", "34.1", "34.4", "", "", ""]);
}

/// What another tab keeps of which this one, asleep, has not been told.
const KEPT_ELSEWHERE: &str = "(() => {
    const key = `toeline:${JSON.parse(document.getElementById('data').textContent).sessions[0].key}`;
    const kept = JSON.parse(localStorage.getItem(key) ?? '{}');
    localStorage.setItem(key, JSON.stringify({ ...kept, times: { ...kept.times, 'b1-r6-l1-1': '33.3' } }));
    return true;
})()";

#[test]
fn a_tab_that_slept_overwrites_nothing_of_another() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.value(KEPT_ELSEWHERE);
    // The go of the first run.
    page.set_clock(10_500);
    assert_eq!(page.go_words(), "Stop 0.5");
    page.reload();
    assert_eq!(page.in_box("s1-b1-r6-l1-1"), "33.3");
    page.type_into("s1-b1-r6-l1-1", "32.0");
    page.value(KEPT_ELSEWHERE);
    page.type_into("s1-b1-r5-l1-1", "34.0");
    page.tap_go_at(44_100);
    page.reload();
    assert_eq!(page.times("s1-b1"), ["34.1", "", "", "", "34.0", "33.3"]);
}

#[test]
fn what_another_tab_kept_is_shown_whoever_reads_it_first() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.value(KEPT_ELSEWHERE);
    page.tap_go_at(34_400);
    assert_eq!(page.times("s1-b1"), ["34.4", "", "", "", "", "33.3"]);
}

#[test]
fn a_clock_that_runs_in_another_tab_is_not_started_anew() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.value(
        "(() => {
            const key = `toeline:${JSON.parse(document.getElementById('data').textContent).sessions[0].key}`;
            localStorage.setItem(key, JSON.stringify({ clocks: { 'b1-r1': { start: Date.now(), stopped: [] } } }));
        })()",
    );
    page.tap_go_at(10_000);
    assert_eq!(page.go_words(), "Stop 10.0");
    page.tap_go_at(34_400);
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn a_start_in_the_menu_starts_no_clock_anew_that_runs_in_another_tab() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#menu-open");
    page.value(
        "(() => {
            const key = `toeline:${JSON.parse(document.getElementById('data').textContent).sessions[0].key}`;
            localStorage.setItem(key, JSON.stringify({ clocks: { 'b1-r1': { start: Date.now(), stopped: [] } } }));
        })()",
    );
    page.set_clock(10_000);
    page.tap_words("#menu", "Start now, without a countdown");
    assert_eq!(page.go_words(), "Stop 10.0");
}
