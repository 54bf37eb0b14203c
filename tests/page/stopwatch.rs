//! Runs are clocked, and their times are kept.

use crate::browser::{PHONE, Set, show};
use crate::made::{LONE, SPRINTERS, made};
use crate::stub::STUBS;

#[test]
fn a_time_is_rounded_up_to_the_tenth() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.set_clock(34_160);
    page.wait("document.querySelector('#s1-b1-r1 .watch').textContent === '34.1'");
    page.tap("#s1-b1-r1 .stop-all");
    // Times taken by hand are read to the next longer tenth: World Athletics Technical Rule 19.
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.2");
    assert_eq!(page.text("document.getElementById('said').textContent"), "Rep 1, lane 2: 34.2");
    page.wait("document.getElementById('now').hidden");
}

#[test]
fn a_stop_by_mistake_is_taken_back() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.tap_at(20_000, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "20.0");
    page.tap_at(21_500, "#s1-b1-r1 .take-back");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    page.tap_at(72_400, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "1:12.4");
}

#[test]
fn a_second_tap_right_after_the_start_stops_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.tap_at(300, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .start').hidden"), true);
}

#[test]
fn each_athlete_of_a_run_has_a_stop_of_their_own() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    for (lane, at_ms) in [(2, 8_010), (3, 8_290), (1, 8_400)] {
        page.tap_at(at_ms, &format!("#s1-b2-r1 tr:nth-child({lane}) .stop"));
    }
    assert_eq!(page.times("s1-b2-r1"), ["8.4", "8.1", "8.3"]);
    assert_eq!(page.text("document.querySelector('label[for=s1-b2-r1-l1-1] .who').textContent"), "Ada");
    assert_eq!(page.value("document.querySelector('#s1-b2-r1 .stop-all').hidden"), true);
}

#[test]
fn a_running_clock_goes_on_over_a_reload() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    page.tap_at(8_000, "#s1-b2-r1 tr:nth-child(1) .stop");
    page.reload();
    page.set_clock(8_500);
    page.wait("document.querySelector('#s1-b2-r1 .watch').textContent === '8.5'");
    page.tap("#s1-b2-r1 .stop-all");
    assert_eq!(page.times("s1-b2-r1"), ["8.0", "8.5", "8.5"]);
}

#[test]
fn a_time_that_was_typed_is_still_there_after_a_reload_and_only_in_its_own_plan() {
    let (lone, other) = (made(&LONE), made(&["plan", "6 x 200 in lane 3 @ 34 rest 3min"]));
    let page = show!(lone, PHONE, Set::default());
    page.type_into("s1-b1-r2-l1-1", "33.9");
    page.reload();
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "33.9");
    assert!(
        page.text("document.querySelector('.kept').textContent")
            .starts_with("1 of 6 times taken. Kept on this device")
    );
    page.go(&other.path);
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "");
    page.go(&page.made.path);
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "33.9");
}

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

#[test]
fn where_a_browser_keeps_nothing_the_page_says_so_and_clocks_all_the_same() {
    let denied = Set {
        script: Some(
            "for (const name of ['localStorage', 'sessionStorage']) \
             Object.defineProperty(window, name, { get() { throw new DOMException('denied', 'SecurityError') } });",
        ),
        ..Set::default()
    };
    let page = show!(made(&LONE), PHONE, denied);
    assert!(page.text("document.querySelector('.kept').textContent").contains("This browser keeps nothing"));
    page.tap("#s1-b1-r1 .start");
    page.wait("parseFloat(document.querySelector('#s1-b1-r1 .watch').textContent) > 0.6");
    page.tap("#s1-b1-r1 .stop-all");
    assert_ne!(page.in_box("s1-b1-r1-l1-1"), "");
}

#[test]
fn a_session_that_is_given_twice_has_two_sets_of_times() {
    let page = show!(made(&["plan", "200 in lane 2", "200 in lane 2"]), PHONE, Set::default());
    page.type_into("s1-b1-r1-l1-1", "33.9");
    page.reload();
    assert_eq!([1, 2].map(|session| page.in_box(&format!("s{session}-b1-r1-l1-1"))), ["33.9", ""]);
}

#[test]
fn times_are_cleared_after_asking() {
    let page = show!(made(&LONE), PHONE, Set::default());
    page.type_into("s1-b1-r2-l1-1", "33.9");
    page.tap(".clear");
    page.wait("document.getElementById('s1-b1-r2-l1-1').value === ''");
    assert_eq!(page.dialogs(), ["Clear all times and clocks of “6 x 200 in lane 2 @ 34 rest 3min”?"]);
    page.reload();
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "");
}

#[test]
fn the_screen_stays_lit_while_a_clock_runs() {
    let page = show!(made(&LONE), PHONE, STUBS);
    assert_eq!(page.value("lit"), false);
    page.tap("#s1-b1-r1 .start");
    page.wait("lit");
    page.tap_at(30_000, "#s1-b1-r1 .stop-all");
    page.wait("!lit");
}

#[test]
fn a_time_typed_while_others_run_is_not_stopped_over() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    page.set_clock(8_050);
    page.type_into("s1-b2-r1-l1-1", "7.95");
    page.tap_at(9_000, "#s1-b2-r1 .stop-all");
    assert_eq!(page.times("s1-b2-r1"), ["7.95", "9.0", "9.0"]);
}

#[test]
fn a_second_tap_after_a_stop_was_taken_back_cancels_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.tap_at(20_000, "#s1-b1-r1 .stop-all");
    page.tap_at(22_000, "#s1-b1-r1 .take-back");
    page.tap("#s1-b1-r1 .take-back");
    page.set_clock(30_000);
    page.wait("document.querySelector('#s1-b1-r1 .watch').textContent === '30.0'");
    page.tap("#s1-b1-r1 .take-back");
    page.wait("document.querySelector('#s1-b1-r1 .start').hidden === false");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
}

#[test]
fn a_clock_that_was_cancelled_by_mistake_runs_on() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.tap_at(5_000, "#s1-b1-r1 .take-back");
    page.set_clock(7_000);
    assert_eq!(page.text("document.querySelector('#s1-b1-r1 .take-back').textContent"), "Undo cancel");
    page.tap("#s1-b1-r1 .take-back");
    page.tap_at(34_400, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn a_clock_is_cancelled_after_a_reload() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.set_clock(5_000);
    page.reload();
    page.tap_at(7_000, "#s1-b1-r1 .take-back");
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .watch').hidden"), true);
    assert_eq!(page.value("document.getElementById('now').hidden"), true);
    page.tap_at(9_000, "#s1-b1-r1 .take-back");
    page.tap_at(34_400, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn several_stops_are_taken_back_one_by_one() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    page.tap_at(8_000, "#s1-b2-r1 tr:nth-child(1) .stop");
    page.tap_at(8_200, "#s1-b2-r1 tr:nth-child(2) .stop");
    page.tap_at(10_000, "#s1-b2-r1 .take-back");
    page.tap_at(12_000, "#s1-b2-r1 .take-back");
    assert_eq!(page.times("s1-b2-r1"), [""; 3]);
    page.tap_at(13_000, "#s1-b2-r1 .stop-all");
    assert_eq!(page.times("s1-b2-r1"), ["13.0"; 3]);
}

#[test]
fn a_thumb_that_comes_too_late_for_a_stop_takes_no_clock_away() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    page.tap_at(8_000, "#s1-b2-r1 tr:nth-child(1) .stop");
    page.tap_at(28_050, "#s1-b2-r1 .take-back");
    assert_eq!(page.value("document.querySelector('#s1-b2-r1 .take-back').hidden"), true);
    assert_eq!(page.value("document.querySelector('#s1-b2-r1 .watch').hidden"), false);
    assert_eq!(page.in_box("s1-b2-r1-l1-1"), "8.0");
}

#[test]
fn nothing_moves_under_a_thumb_while_a_clock_runs() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    // From the head of the run, as the page may be scrolling.
    let top = || {
        page.value(
            "document.querySelector('#s1-b2-r1 tr:nth-child(3) .stop').getBoundingClientRect().top \
             - document.querySelector('#s1-b2-r1').getBoundingClientRect().top",
        )
    };
    page.set_clock(12_300);
    page.wait("document.querySelector('#s1-b2-r1 .watch').textContent === '12.3'");
    let before = top();
    page.set_clock(3_723_400);
    page.wait("document.querySelector('#s1-b2-r1 .watch').textContent === '62:03.4'");
    assert_eq!(top(), before);
    page.value(
        "document.querySelector('#s1-b2-r1 tr:nth-child(1) .stop').scrollIntoView({ block: 'center' })",
    );
    let before = top();
    let hit = "(() => {
        const stop = document.querySelector('#s1-b2-r1 tr:nth-child(1) .stop');
        const { left, top, width, height } = stop.getBoundingClientRect();
        stop.click();
        return document.elementFromPoint(left + width / 2, top + height / 2).tagName;
    })()";
    assert_ne!(page.text(hit), "INPUT");
    assert_eq!(top(), before);
}

#[test]
fn a_second_tap_right_after_the_stop_starts_no_clock() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.tap_at(34_400, "#s1-b1-r1 .stop-all");
    page.tap("#s1-b1-r1 .start");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .watch').hidden"), true);
    page.tap_at(40_000, "#s1-b1-r1 .start");
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .watch').hidden"), false);
}

#[test]
fn times_that_were_corrected_after_a_stop_are_not_taken_back() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#s1-b2-r1 .start");
    page.tap_at(8_400, "#s1-b2-r1 .stop-all");
    page.type_into("s1-b2-r1-l2-1", "8.1");
    assert_eq!(page.value("document.querySelector('#s1-b2-r1 .take-back').hidden"), true);
    assert_eq!(page.times("s1-b2-r1"), ["8.4", "8.1", "8.4"]);
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
    page.tap("#s1-b1 .count-down");
    page.value(KEPT_ELSEWHERE);
    // The go of the first run.
    page.set_clock(10_500);
    page.wait("document.querySelector('#s1-b1-r1 .watch').hidden === false");
    page.reload();
    assert_eq!(page.in_box("s1-b1-r6-l1-1"), "33.3");
    page.type_into("s1-b1-r6-l1-1", "32.0");
    page.value(KEPT_ELSEWHERE);
    page.type_into("s1-b1-r5-l1-1", "34.0");
    page.tap_at(44_100, "#s1-b1-r1 .stop-all");
    page.reload();
    assert_eq!(page.times("s1-b1"), ["34.1", "", "", "", "34.0", "33.3"]);
}

#[test]
fn what_another_tab_kept_is_shown_whoever_reads_it_first() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.value(KEPT_ELSEWHERE);
    page.tap_at(34_400, "#s1-b1-r1 .stop-all");
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
    page.tap_at(10_000, "#s1-b1-r1 .start");
    page.tap_at(34_400, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn a_stop_is_taken_back_only_for_a_while() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.tap_at(34_400, "#s1-b1-r1 .stop-all");
    page.tap_at(60_000, "#s1-b1-r1 .take-back");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .watch').hidden"), true);
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .take-back').hidden"), true);
}

/// Whether a coach sees that the clock of the device was set back.
const IS_SET_BACK_SHOWN: &str = "document.getElementById('set-back').checkVisibility()";

#[test]
fn a_device_whose_clock_is_set_back_says_so() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap_at(60_000, "#s1-b1-r1 .start");
    page.tap_at(10_000, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    assert_eq!(page.value(IS_SET_BACK_SHOWN), true);
    page.tap("#s1-b1-r1 .start");
    assert_eq!(page.value("document.querySelector('#s1-b1-r1 .watch').hidden"), false);
    assert_eq!(page.value(IS_SET_BACK_SHOWN), false);
}

#[test]
fn a_clock_that_is_set_back_a_little_is_noticed_too() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1-r1 .start");
    page.set_clock(30_000);
    page.wait("document.querySelector('#s1-b1-r1 .watch').textContent === '30.0'");
    assert_eq!(page.value(IS_SET_BACK_SHOWN), false);
    page.value("sessionStorage.setItem('set back', 3000); setClock(27_100)");
    page.wait(IS_SET_BACK_SHOWN);
}
