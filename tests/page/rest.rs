//! The rest counts from the finish of one who runs alone, or keeps to the timetable.

use crate::browser::{PHONE, Shown, show};
use crate::made::{LONE, SPRINTERS, made};
use crate::stub::STUBS;

/// The first run goes at 10 s and is in at a moment; planned are 34 s, and 3 min of rest.
fn first_in_at(page: &Shown, ms: u64) {
    page.tap("#go");
    page.set_clock(10_000);
    page.tap_go_at(ms);
    page.set_clock(100_000);
}

#[test]
fn a_slow_run_eats_no_rest() {
    let page = show!(made(&LONE), PHONE, STUBS);
    first_in_at(&page, 49_000);
    assert_eq!(page.go_words(), "Go in 2:09 tap: go now");
    page.set_clock(229_050);
    assert_eq!(page.words("#rep"), "Rep 2 of 6");
    assert_eq!(page.go_words(), "Stop 0.0");
    // All that follow move too.
    page.tap_go_at(263_000);
    page.set_clock(300_000);
    assert_eq!(page.go_words(), "Go in 2:23 tap: go now");
}

#[test]
fn after_a_fast_run_the_next_goes_earlier() {
    let page = show!(made(&LONE), PHONE, STUBS);
    first_in_at(&page, 40_000);
    assert_eq!(page.go_words(), "Go in 2:00 tap: go now");
}

#[test]
fn by_the_timetable_a_slow_run_moves_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.choose("choose-rest", "by the timetable");
    first_in_at(&page, 49_000);
    assert_eq!(page.go_words(), "Go in 2:04 tap: go now");
    page.reload();
    assert_eq!(page.go_words(), "Go in 2:04 tap: go now");
}

#[test]
fn by_the_timetable_a_start_by_hand_moves_what_follows() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.choose("choose-rest", "by the timetable");
    page.tap("#go");
    // One second early.
    page.tap_go_at(9_000);
    page.tap_go_at(44_000);
    page.set_clock(60_000);
    assert_eq!(page.go_words(), "Go in 2:43 tap: go now");
}

#[test]
fn no_run_goes_while_the_one_before_is_not_in() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_000);
    page.set_clock(300_000);
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
    assert_eq!(page.go_words(), "Stop 4:50.0");
    assert_eq!(page.words("#ticker"), "Rest 3:00 from your stop");
}

#[test]
fn a_stop_that_is_undone_puts_the_timetable_back() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_000);
    page.tap_go_at(49_000);
    page.tap_go_at(51_000);
    page.tap_go_at(60_000);
    page.set_clock(100_000);
    assert_eq!(page.go_words(), "Go in 2:20 tap: go now");
}

#[test]
fn the_rest_counts_from_where_a_run_was_given_up() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_000);
    page.set_clock(30_000);
    page.menu("Did not finish (DNF)");
    page.set_clock(100_000);
    assert_eq!(page.words("#ticker"), "Rep 1: DNF");
    assert_eq!(page.go_words(), "Go in 1:50 tap: go now");
}

#[test]
fn a_run_without_a_countdown_is_followed_by_its_rest_too() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.menu("Start now, without a countdown");
    page.tap_go_at(35_000);
    page.set_clock(60_000);
    assert_eq!(page.go_words(), "Go in 2:35 tap: go now");
}

#[test]
fn several_keep_to_the_timetable_until_another_rest_is_chosen() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_000);
    // Planned are 8.2 s and 3 min.
    page.tap_go_at(28_200);
    page.set_clock(100_000);
    assert_eq!(page.go_words(), "Go in 1:39 tap: go now");
    page.choose("choose-rest", "from each finish");
    page.set_clock(198_300);
    page.tap_go_at(216_400);
    page.set_clock(300_000);
    assert_eq!(page.go_words(), "Go in 1:37 tap: go now");
}
