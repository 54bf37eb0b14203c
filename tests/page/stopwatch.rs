//! Runs are clocked: the one button starts, stops and undoes.

use crate::browser::{PHONE, Shown, show};
use crate::made::{LONE, SPRINTERS, made};
use crate::stub::STUBS;

const BY_HAND: &str = "Start now, without a countdown";

/// Starts the run that is next at a moment.
pub(crate) fn start_at(page: &Shown, ms: u64) {
    page.set_clock(ms);
    page.menu(BY_HAND);
}

#[test]
fn a_time_is_rounded_up_to_the_tenth() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.set_clock(34_160);
    assert_eq!(page.go_words(), "Stop 34.1");
    page.tap("#go");
    // Times taken by hand are read to the next longer tenth: World Athletics Technical Rule 19.
    assert_eq!(page.go_words(), "Undo 34.2");
    assert_eq!(page.text("document.getElementById('said').textContent"), "Rep 1 of 6: 34.2");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.2");
}

#[test]
fn a_time_is_shown_against_its_target_when_the_next_run_comes() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_go_at(34_400);
    page.set_clock(50_000);
    assert_eq!(page.words("#rep"), "Rep 2 of 6");
    assert_eq!(page.words("#ticker"), "Rep 1: 34.4 (+0.4)");
    assert_eq!(page.words("#to-times"), "Times 1/6 runs");
}

#[test]
fn a_stop_by_mistake_is_undone() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_go_at(20_000);
    assert_eq!(page.go_words(), "Undo 20.0");
    page.tap_go_at(21_500);
    assert_eq!(page.go_words(), "Stop 21.5");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    page.tap_go_at(72_400);
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "1:12.4");
}

#[test]
fn a_second_tap_right_after_the_start_stops_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_go_at(300);
    assert_eq!(page.go_words(), "Stop 0.3");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
}

#[test]
fn a_tap_that_comes_as_the_button_changes_its_meaning_does_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.tap_go_at(900);
    assert_eq!(page.go_words(), "Go in 10 s tap: go now", "the second tap of a thumb starts nothing");
    // Meant to start it by hand, but it has just gone.
    page.tap_go_at(10_400);
    assert_eq!(page.go_words(), "Stop 0.4");
    page.tap_go_at(44_000);
    page.tap_go_at(44_700);
    assert_eq!(page.go_words(), "Undo 34.0", "the second tap of a stop undoes nothing");
    // Meant to undo it, but its time is over.
    page.tap_go_at(52_100);
    assert_eq!(page.go_words(), "Go in 2:52 tap: go now");
}

#[test]
fn each_athlete_of_a_run_has_a_stop_of_their_own() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    assert_eq!(page.names_running(), serde_json::json!(["Ada", "Bela", "Cleo"]));
    assert_eq!(page.go_words(), "Stop all 0.0");
    for (name, at_ms) in [("Bela", 8_010), ("Cleo", 8_290), ("Ada", 8_400)] {
        page.tap_name_at(at_ms, name);
    }
    assert_eq!(page.go_words(), "Undo Ada 8.4");
    assert_eq!(page.times("s1-b2-r1"), ["8.4", "8.1", "8.3"]);
    page.set_clock(20_000);
    assert_eq!(page.words("#rep"), "Rep 2 of 4");
    assert_eq!(page.words("#ticker"), "Rep 1: Ada 8.4 (+0.2), Bela 8.1 (−0.1), Cleo 8.3 (+0.1)");
}

#[test]
fn a_second_tap_on_a_name_stops_nobody_else() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_name_at(8_000, "Ada");
    page.tap_name_at(8_200, "Ada");
    assert_eq!(page.names_running(), serde_json::json!(["Bela", "Cleo"]));
    assert_eq!(page.times("s1-b2-r1"), ["8.0", "", ""]);
}

#[test]
fn a_running_clock_goes_on_over_a_reload() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_name_at(8_000, "Ada");
    page.reload();
    page.set_clock(8_500);
    assert_eq!(page.go_words(), "Stop the rest 8.5");
    page.tap("#go");
    assert_eq!(page.times("s1-b2-r1"), ["8.0", "8.5", "8.5"]);
}

#[test]
fn the_screen_stays_lit_while_a_clock_runs() {
    let page = show!(made(&LONE), PHONE, STUBS);
    assert_eq!(page.value("lit"), false);
    start_at(&page, 0);
    page.wait("lit");
    page.tap_go_at(30_000);
    // The next go is counted down to.
    page.menu("Stop the countdown");
    page.wait("!lit");
}

#[test]
fn a_time_typed_while_others_run_is_not_stopped_over() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.set_clock(8_050);
    page.type_into("s1-b2-r1-l1-1", "7.95");
    page.tap_go_at(9_000);
    assert_eq!(page.times("s1-b2-r1"), ["7.95", "9.0", "9.0"]);
}

#[test]
fn times_that_were_corrected_after_a_stop_are_not_undone() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_go_at(8_400);
    page.type_into("s1-b2-r1-l2-1", "8.1");
    page.tap_go_at(11_000);
    assert_eq!(page.times("s1-b2-r1"), ["", "8.1", ""]);
}

#[test]
fn a_false_start_is_cancelled_and_the_run_goes_again() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(12_000);
    assert_eq!(page.go_words(), "Stop 2.0");
    page.menu("False start: cancel this clock");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    page.set_clock(20_000);
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
    assert_eq!(page.go_words(), "Start: go in 10 s");
    page.tap_go_at(21_000);
    page.set_clock(31_500);
    assert_eq!(page.go_words(), "Stop 0.5");
}

#[test]
fn a_clock_that_was_cancelled_by_mistake_runs_on() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.set_clock(5_000);
    page.menu("False start: cancel this clock");
    assert_eq!(page.go_words(), "Undo the cancelled clock");
    page.tap_go_at(7_000);
    page.tap_go_at(34_400);
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn a_clock_is_cancelled_after_a_reload() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.set_clock(5_000);
    page.reload();
    page.menu("False start: cancel this clock");
    page.set_clock(14_000);
    assert_eq!(page.go_words(), "Start: go in 10 s");
    page.menu("Undo the cancelled clock");
    page.tap_go_at(34_400);
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn several_stops_are_undone_one_by_one() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_name_at(8_000, "Ada");
    page.tap_name_at(8_200, "Bela");
    assert_eq!(page.go_words(), "Stop the rest 8.2", "others still run");
    page.menu("Undo Bela 8.2");
    page.menu("Undo Ada 8.0");
    assert_eq!(page.times("s1-b2-r1"), [""; 3]);
    page.tap_go_at(13_000);
    assert_eq!(page.times("s1-b2-r1"), ["13.0"; 3]);
}

#[test]
fn a_thumb_that_comes_too_late_to_undo_takes_no_time_away() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_go_at(34_400);
    assert_eq!(page.go_words(), "Undo 34.4");
    page.tap_go_at(42_450);
    assert_eq!(page.go_words(), "Go in 2:52 tap: go now", "nothing is undone, and nothing starts");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn who_was_stopped_by_mistake_runs_on_after_a_second_tap() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_name_at(8_000, "Ada");
    // A wet thumb taps twice.
    page.tap_name_at(8_200, "Ada");
    assert_eq!(page.times("s1-b2-r1"), ["8.0", "", ""]);
    page.tap_name_at(9_500, "Ada");
    assert_eq!(page.names_running(), serde_json::json!(["Ada", "Bela", "Cleo"]));
    page.tap_name_at(10_300, "Ada");
    assert_eq!(page.times("s1-b2-r1"), ["10.3", "", ""]);
    // Later it is no mistake any more.
    page.tap_name_at(19_000, "Ada");
    assert_eq!(page.times("s1-b2-r1"), ["10.3", "", ""]);
}

#[test]
fn a_stop_is_undone_in_the_menu_for_a_minute() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_go_at(34_400);
    page.set_clock(94_300);
    assert!(page.offered().contains(&"Undo 34.4".to_owned()));
    page.set_clock(94_500);
    assert!(!page.offered().iter().any(|words| words.starts_with("Undo")));
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.4");
}

#[test]
fn who_does_not_come_in_is_written_down_and_the_next_run_comes() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    start_at(&page, 0);
    page.tap_name_at(8_000, "Bela");
    page.set_clock(9_000);
    page.menu("The rest did not finish (DNF)");
    assert_eq!(page.times("s1-b2-r1"), ["DNF", "8.0", "DNF"]);
    page.set_clock(20_000);
    assert_eq!(page.words("#rep"), "Rep 2 of 4");
    page.menu("Undo DNF");
    assert_eq!(page.times("s1-b2-r1"), ["", "8.0", ""]);
    assert_eq!(page.go_words(), "Stop the rest 20.0");
}

/// Whether a coach is told that the clock of the device was set back.
fn is_told_of_set_back(page: &Shown) -> bool {
    page.notice().contains("clock was set back")
}

#[test]
fn a_device_whose_clock_is_set_back_says_so() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 60_000);
    page.tap_go_at(10_000);
    assert!(is_told_of_set_back(&page));
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "");
    page.tap("#notice-ok");
    assert_eq!(page.notice(), "");
    start_at(&page, 20_000);
    page.set_clock(25_000);
    assert_eq!(page.go_words(), "Stop 5.0");
    assert_eq!(page.notice(), "");
}

#[test]
fn a_clock_that_is_set_back_a_little_is_noticed_too() {
    let page = show!(made(&LONE), PHONE, STUBS);
    start_at(&page, 0);
    page.set_clock(30_000);
    assert_eq!(page.notice(), "");
    page.value("sessionStorage.setItem('set back', 3000); setClock(27_100)");
    assert!(is_told_of_set_back(&page));
}
