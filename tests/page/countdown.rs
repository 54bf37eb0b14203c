//! Each go is counted down to and heard, and so is each split.

use serde_json::json;

use crate::browser::{PHONE, Shown, show};
use crate::kept::as_planned_before;
use crate::made::{LONE, made};
use crate::stub::STUBS;

/// When which tones are heard, in milliseconds from when the page was first shown; those that were taken
/// back are left out.
fn tones(page: &Shown) -> serde_json::Value {
    page.value("tones.filter((tone) => !tone.hushed).map((tone) => [tone.at, tone.pitch])")
}

fn next_go(page: &Shown) -> String {
    page.text("document.getElementById('next-go').innerText.replace(/\\s+/g, ' ').trim()")
}

#[test]
fn the_first_go_is_ten_seconds_after_the_start_of_its_block_and_is_heard() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    assert_eq!(next_go(&page), "Rep 1 goes in 10 s");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(6_500);
    page.wait("tones.length === 4");
    assert_eq!(tones(&page), json!([[7_000, 660], [8_000, 660], [9_000, 660], [10_000, 1320]]));
    assert_eq!(next_go(&page), "Rep 1 goes in 4 s");
}

#[test]
fn a_go_starts_the_clock_of_its_run_and_the_next_follows_after_run_and_rest() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    // The page looks a little late: the clock runs from the go all the same.
    page.set_clock(10_070);
    page.wait("document.querySelector('#s1-b1-r1').classList.contains('is-running')");
    page.set_clock(40_000);
    page.wait("document.querySelector('#s1-b1-r1 .watch').textContent === '30.0'");
    // 34 s and 3 min after the first go, 30 s of which have gone by.
    page.wait("document.getElementById('next-go-time').textContent === '3:04'");
    page.tap_at(44_500, "#s1-b1-r1 .stop-all");
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.5");
    page.set_clock(10_000 + 214_000);
    page.wait("document.querySelector('#s1-b1-r2').classList.contains('is-running')");
}

#[test]
fn sound_is_switched_off_even_for_a_go_that_is_near() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.set_clock(6_500);
    page.wait("tones.length === 4");
    page.tap("#s1-b1 .sound");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(10_100);
    page.wait("document.querySelector('#s1-b1-r1').classList.contains('is-running')");
    assert_eq!(tones(&page), json!([]));
}

#[test]
fn a_countdown_is_delayed_stopped_and_continued_with_the_next_run() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.set_clock(6_500);
    page.wait("tones.length === 4");
    page.tap("#s1-b1 .count-later");
    page.wait("document.getElementById('next-go-time').textContent === '14 s'");
    assert_eq!(tones(&page), json!([]));
    page.set_clock(20_050);
    page.wait("document.querySelector('#s1-b1-r1').classList.contains('is-running')");
    page.tap("#s1-b1 .count-down");
    page.wait("document.getElementById('next-go').hidden");
    assert_eq!(
        page.text("document.querySelector('#s1-b1 .count-down').textContent"),
        "Continue with rep 2: go in 10 s"
    );
    page.tap_at(60_000, "#s1-b1 .count-down");
    assert_eq!(next_go(&page), "Rep 2 goes in 10 s");
}

#[test]
fn a_run_started_by_hand_moves_the_goes_that_follow() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.tap_at(9_000, "#s1-b1-r1 .start");
    // One second early: 34 s and 3 min from now.
    page.wait("document.getElementById('next-go-time').textContent === '3:34'");
}

#[test]
fn a_countdown_goes_on_over_a_reload() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.set_clock(4_000);
    page.reload();
    assert_eq!(next_go(&page), "Rep 1 goes in 6 s");
}

#[test]
fn the_next_split_is_counted_down_to_and_heard() {
    let folder = as_planned_before("tuesday-sprints");
    let file = folder.path().join("session.yaml");
    let sprints = made(&["plan", file.to_str().expect("the path is UTF-8")]);
    let page = show!(sprints, PHONE, STUBS);
    page.tap("#next");
    page.tap("#s1-b3-r1 .start");
    let split = "document.getElementById('next-split').innerText.replace(/\\s+/g, ' ').trim()";
    // 150 m in 20 s at an even pace: 45 m to the 1st green tick in 6 s, 100 m in 13.3 s.
    page.wait(&format!("{split} === '1st green tick: 6 s in 6 s'"));
    page.set_clock(8_000);
    page.wait(&format!("{split} === '100 m: 13.3 s in 6 s'"));
    assert_eq!(tones(&page), json!([]));
    page.set_clock(13_400);
    page.wait("tones.length === 1");
    assert_eq!(tones(&page), json!([[13_400, 990]]));
    assert_eq!(page.text("document.getElementById('said').textContent"), "100 m: 13.3 s");
    page.wait(&format!("{split} === 'Last split passed.'"));
}

#[test]
fn a_run_started_out_of_its_turn_starts_no_other() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.tap("#s1-b1-r3 .start");
    page.set_clock(1_000);
    page.wait("document.querySelector('#s1-b1-r3 .watch').textContent === '1.0'");
    let running = "[...document.querySelectorAll('.is-running')].map((run) => run.id)";
    assert_eq!(page.value(running), json!(["s1-b1-r3"]));
    // The fourth follows it after 34 s and 3 min.
    page.set_clock(214_000);
    page.wait("document.querySelector('#s1-b1-r4').classList.contains('is-running')");
}

#[test]
fn after_a_false_start_the_run_can_go_again() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.set_clock(10_500);
    page.wait("document.querySelector('#s1-b1-r1 .watch').hidden === false");
    page.tap_at(12_000, "#s1-b1-r1 .take-back");
    page.tap("#s1-b1 .count-down");
    assert_eq!(
        page.text("document.querySelector('#s1-b1 .count-down').textContent"),
        "Start block 1: first go in 10 s"
    );
}

#[test]
fn a_sound_card_that_stands_still_gets_no_sound_and_the_page_says_so() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.value("window.card = 'interrupted'");
    page.tap("#s1-b1 .count-down");
    page.set_clock(8_000);
    page.wait("document.getElementById('wake-sound').hidden === false");
    assert_eq!(tones(&page), json!([]));
    page.value("window.card = 'running'");
    page.wait("document.getElementById('wake-sound').hidden");
    page.wait("tones.length > 0");
}

#[test]
fn a_second_tap_on_the_countdown_stops_nothing() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap_at(1_000, "#s1-b1 .count-down");
    page.tap("#s1-b1 .count-down");
    assert_eq!(page.text("document.querySelector('#s1-b1 .count-down').textContent"), "Stop the countdown");
    page.tap_at(3_000, "#s1-b1 .count-down");
    page.tap("#s1-b1 .count-down");
    assert_ne!(page.text("document.querySelector('#s1-b1 .count-down').textContent"), "Stop the countdown");
}

#[test]
fn what_was_timed_does_not_go_again_by_itself() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.set_clock(1_000);
    page.type_into("s1-b1-r2-l1-1", "34.0");
    let offered = || page.text("document.querySelector('#s1-b1 .count-down').textContent");
    assert_eq!(offered(), "Continue with rep 3: go in 10 s");
    for rep in 3..=6 {
        page.type_into(&format!("s1-b1-r{rep}-l1-1"), "34.0");
    }
    // The first was left out.
    assert_eq!(offered(), "Start block 1: first go in 10 s");
    page.tap("#s1-b1 .count-down");
    page.set_clock(11_500);
    page.wait("document.querySelector('#s1-b1-r1').classList.contains('is-running')");
    page.set_clock(400_000);
    page.wait("document.getElementById('next-go').hidden");
    assert_eq!(page.value("document.querySelector('#s1-b1-r2').classList.contains('is-running')"), false);
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "34.0");
}

#[test]
fn a_start_in_the_wrong_row_moves_no_go() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.tap_at(3_000, "#s1-b1-r4 .start");
    page.tap_at(5_000, "#s1-b1-r4 .take-back");
    page.wait("document.getElementById('next-go-name').textContent.startsWith('Rep 1 ')");
    page.set_clock(10_500);
    page.wait("document.querySelector('#s1-b1-r1').classList.contains('is-running')");
}

#[test]
fn words_in_a_box_are_not_a_time() {
    let page = show!(made(&LONE), PHONE, STUBS);
    let offered = || page.text("document.querySelector('#s1-b1 .count-down').textContent");
    let kept = || page.text("document.querySelector('.kept').textContent");
    page.type_into("s1-b1-r1-l1-1", "DNF");
    assert_eq!(offered(), "Start block 1: first go in 10 s");
    assert_eq!(page.text("document.querySelector('#s1-b1-r1 .start').textContent"), "Start");
    assert!(kept().starts_with("0 of 6 times taken"), "{}", kept());
    for (rep, words) in [(2, "33.9"), (3, "DNS"), (4, " "), (5, "tight calf")] {
        page.type_into(&format!("s1-b1-r{rep}-l1-1"), words);
    }
    assert_eq!(offered(), "Continue with rep 3: go in 10 s");
    assert!(kept().starts_with("1 of 6 times taken"), "{}", kept());
    page.reload();
    assert_eq!(page.times("s1-b1"), ["DNF", "33.9", "DNS", " ", "tight calf", ""]);
    assert_eq!(offered(), "Continue with rep 3: go in 10 s");
}
