//! Each go is counted down to and heard, and so is each split.

use serde_json::json;

use crate::browser::{PHONE, Shown, show};
use crate::kept::as_planned_before;
use crate::made::{LONE, made};
use crate::stopwatch::start_at;
use crate::stub::STUBS;

/// When which tones are heard, in milliseconds from when the page was first shown; those that were taken
/// back are left out.
fn tones(page: &Shown) -> serde_json::Value {
    page.value("tones.filter((tone) => !tone.hushed).map((tone) => [tone.at, tone.pitch])")
}

#[test]
fn the_first_go_is_ten_seconds_after_the_tap_and_is_heard() {
    let page = show!(made(&LONE), PHONE, STUBS);
    assert_eq!(page.go_words(), "Start: go in 10 s");
    page.tap("#go");
    assert_eq!(page.go_words(), "Go in 10 s tap: go now");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(6_500);
    assert_eq!(tones(&page), json!([[7_000, 660], [8_000, 660], [9_000, 660], [10_000, 1320]]));
    assert_eq!(page.go_words(), "Go in 4 s tap: go now");
}

#[test]
fn a_go_starts_the_clock_of_its_run_and_the_rest_is_said() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    // The page looks a little late: the clock runs from the go all the same.
    page.set_clock(10_070);
    assert_eq!(page.go_words(), "Stop 0.0");
    page.set_clock(40_000);
    assert_eq!(page.go_words(), "Stop 30.0");
    assert_eq!(page.words("#ticker"), "Rest 3:00 from your stop");
    page.tap_go_at(44_500);
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.5");
}

#[test]
fn sound_is_switched_off_even_for_a_go_that_is_near_and_stays_off() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(6_500);
    assert_eq!(page.value("tones.length"), 4);
    page.choose("choose-sound", "off");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(10_100);
    assert_eq!(page.go_words(), "Stop 0.1");
    assert_eq!(tones(&page), json!([]));
    page.reload();
    page.tap_go_at(44_000);
    page.set_clock(222_000);
    assert_eq!(page.go_words(), "Go in 2 s tap: go now");
    assert_eq!(tones(&page), json!([]));
}

#[test]
fn a_countdown_is_delayed_stopped_and_continued_with_the_next_run() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(6_500);
    assert_eq!(page.value("tones.length"), 4);
    page.tap("#menu-open");
    page.tap_words("#menu", "10 s later");
    assert_eq!(page.go_words(), "Go in 14 s tap: go now");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(20_050);
    page.tap_go_at(54_000);
    page.set_clock(100_000);
    assert_eq!(page.go_words(), "Go in 2:14 tap: go now");
    page.menu("Stop the countdown");
    assert_eq!(page.go_words(), "Start: go in 10 s");
    assert_eq!(page.words("#rep"), "Rep 2 of 6");
    page.set_clock(300_000);
    assert_eq!(page.go_words(), "Start: go in 10 s", "nothing goes by itself");
    page.tap("#go");
    assert_eq!(page.go_words(), "Go in 10 s tap: go now");
}

/// Who runs does not read: what stops a countdown is nowhere in view.
#[test]
fn while_somebody_runs_nothing_but_stop_is_red_or_large() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(12_000);
    let buttons = page.value(
        "[...document.querySelectorAll('button, a')].filter((one) => one.getClientRects().length > 0)
           .map((one) => [one.id, getComputedStyle(one).backgroundColor])",
    );
    let others = "rgba(0, 0, 0, 0)";
    assert_eq!(
        buttons,
        json!([["go", "rgb(163, 0, 27)"], ["menu-open", others], ["to-times", others], ["to-plan", others]])
    );
}

#[test]
fn a_countdown_goes_on_over_a_reload() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(4_000);
    page.reload();
    assert_eq!(page.go_words(), "Go in 6 s tap: go now");
}

#[test]
fn the_next_split_is_counted_down_to_and_heard() {
    let folder = as_planned_before("tuesday-sprints");
    let file = folder.path().join("session.yaml");
    let sprints = made(&["plan", file.to_str().expect("the path is UTF-8")]);
    let page = show!(sprints, PHONE, STUBS);
    page.choose("choose", &page.blocks()[2]);
    start_at(&page, 0);
    // 150 m in 20 s at an even pace: 45 m to the 1st green tick in 6 s, 100 m in 13.3 s.
    assert_eq!(page.words("#ticker"), "1st green tick: 6 s (in 6 s)");
    page.set_clock(8_000);
    assert_eq!(page.words("#ticker"), "100 m: 13.3 s (in 6 s)");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(13_400);
    assert_eq!(tones(&page), json!([[13_400, 990]]));
    assert_eq!(page.text("document.getElementById('said').textContent"), "100 m: 13.3 s");
    assert_eq!(page.words("#ticker"), "");
}

#[test]
fn a_flying_run_is_timed_from_its_start() {
    let page = show!(made(&["plan", "3 x flying 30 with 30 run-in in lane 5 @ 3.6 rest 4min"]), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_100);
    assert_eq!(page.go_words(), "Start the clock as they pass");
    page.tap_go_at(15_200);
    assert_eq!(page.go_words(), "Stop 0.0");
    page.tap_go_at(18_700);
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "3.5");
}

#[test]
fn a_run_started_out_of_its_turn_starts_no_other() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.choose("choose-run", "Rep 3 of 6");
    page.menu("Start rep 3 now");
    page.set_clock(11_000);
    assert_eq!(page.words("#rep"), "Rep 3 of 6");
    assert_eq!(page.go_words(), "Stop 11.0");
    assert_eq!(page.value("document.querySelectorAll('#others button').length"), 0);
    page.tap_go_at(34_000);
    page.set_clock(214_000);
    assert_eq!(page.words("#rep"), "Rep 4 of 6");
    assert_eq!(page.go_words(), "Stop 0.0");
}

#[test]
fn a_start_of_the_wrong_run_moves_no_go() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    page.choose("choose-run", "Rep 4 of 6");
    page.set_clock(3_000);
    page.menu("Start rep 4 now");
    page.set_clock(5_000);
    page.menu("Undo the start");
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
    assert_eq!(page.go_words(), "Go in 5 s tap: go now");
    page.set_clock(10_500);
    assert_eq!(page.go_words(), "Stop 0.5");
}

#[test]
fn a_run_is_left_out_and_the_next_comes() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.menu("Leave out rep 1 of 6");
    page.set_clock(9_000);
    assert_eq!(page.words("#rep"), "Rep 2 of 6");
    page.menu("Undo rep 1 of 6 is left out");
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
}

#[test]
fn a_sound_card_that_stands_still_gets_no_sound_and_the_page_says_so() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.value("window.card = 'interrupted'");
    page.tap("#go");
    page.set_clock(8_000);
    assert_eq!(page.words("#ticker"), "Tap anywhere for sound.");
    assert_eq!(tones(&page), json!([]));
    page.value("window.card = 'running'");
    page.set_clock(8_100);
    assert_ne!(page.words("#ticker"), "Tap anywhere for sound.");
    assert_eq!(tones(&page), json!([[9_000, 660], [10_000, 1320]]));
}

#[test]
fn what_was_timed_does_not_go_again_by_itself() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.set_clock(1_000);
    page.type_into("s1-b1-r2-l1-1", "34.0");
    assert_eq!(page.words("#rep"), "Rep 3 of 6");
    for rep in 3..=6 {
        page.type_into(&format!("s1-b1-r{rep}-l1-1"), "34.0");
    }
    // The first was left out.
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
    page.tap_go_at(3_000);
    page.set_clock(13_500);
    assert_eq!(page.go_words(), "Stop 0.5");
    page.tap_go_at(47_000);
    page.set_clock(400_000);
    assert_eq!(page.go_words(), "All done see the times");
    assert_eq!(page.times("s1-b1"), ["34.0"; 6]);
}

#[test]
fn a_go_that_was_due_long_ago_starts_no_clock() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#go");
    // Ten minutes after the last of them.
    page.value("sessionStorage.setItem('test clock', 1700000)");
    page.reload();
    assert_eq!(page.go_words(), "Start: go in 10 s");
}
