//! The boxes for times: what is written there, and what the page thinks of it.

use serde_json::json;

use crate::browser::{PHONE, show};
use crate::made::{LONE, SPRINTERS, made};
use crate::stub::STUBS;

fn both(against: &str, meant: &str) -> (String, String) {
    (against.to_owned(), meant.to_owned())
}

#[test]
fn a_time_is_said_against_its_target() {
    let page = show!(made(&LONE), PHONE, STUBS);
    let id = "s1-b1-r1-l1-1";
    for (written, against) in
        [("34.4", "+0.4"), ("33.5", "−0.5"), ("34", "on target"), ("1:35", "+1:01.0"), ("a note", "")]
    {
        page.type_into(id, written);
        assert_eq!(page.beside_box(id), both(against, ""), "{written}");
    }
}

#[test]
fn one_point_twelve_for_a_lap_is_questioned() {
    let page = show!(made(&["plan", "3 x 400 in lane 2 @ 72 rest 3min"]), PHONE, STUBS);
    let id = "s1-b1-r1-l1-1";
    page.type_into(id, "1.12");
    assert_eq!(page.beside_box(id).1, "1:12?");
    page.take_meant(id);
    assert_eq!(page.in_box(id), "1:12");
    assert_eq!(page.beside_box(id), both("on target", ""));
    page.reload();
    assert_eq!(page.in_box(id), "1:12");
    // What can be meant as it is is not questioned.
    for written in ["72.5", "1:12.5", "1.12.5", "59.9"] {
        page.type_into("s1-b1-r2-l1-1", written);
        assert_eq!(page.beside_box("s1-b1-r2-l1-1").1, "", "{written}");
    }
}

#[test]
fn words_are_chosen_where_a_keypad_has_no_letters() {
    let page = show!(made(&LONE), PHONE, STUBS);
    page.give_word("s1-b1-r1-l1-1", "DNF");
    page.give_word("s1-b1-r2-l1-1", "DNS");
    assert_eq!(page.times("s1-b1"), ["DNF", "DNS", "", "", "", ""]);
    assert!(page.kept().starts_with("0 of 6 times taken"));
    assert_eq!(page.words("#rep"), "Rep 3 of 6");
    // A note has letters.
    assert_eq!(page.text("document.getElementById('s1-b1-r3-l1-1').inputMode"), "decimal");
    page.give_word("s1-b1-r3-l1-1", "note");
    assert_eq!(page.text("document.getElementById('s1-b1-r3-l1-1').inputMode"), "text");
}

#[test]
fn words_in_a_box_are_not_a_time() {
    let page = show!(made(&LONE), PHONE, STUBS);
    for (rep, words) in [(1, "DNF"), (2, "33.9"), (3, "DNS"), (4, " "), (5, "tight calf")] {
        page.type_into(&format!("s1-b1-r{rep}-l1-1"), words);
    }
    assert_eq!(page.words("#rep"), "Rep 6 of 6");
    assert!(page.kept().starts_with("1 of 6 times taken"));
    page.reload();
    assert_eq!(page.times("s1-b1"), ["DNF", "33.9", "DNS", " ", "tight calf", ""]);
    assert_eq!(page.words("#rep"), "Rep 6 of 6");
}

#[test]
fn every_box_is_named_by_who_and_by_run() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.times("s1-b2");
    let labels = page.value(
        "['s1-b2-r1-l1-1', 's1-b2-r2-l3-1'].map((id) => document.querySelector(`label[for=${id}]`).textContent)",
    );
    assert_eq!(labels, json!(["Ada, rep 1 of 4", "Bela, rep 2 of 4"]));
}

#[test]
fn boxes_are_made_when_their_block_is_opened() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    let boxes = "document.querySelectorAll('#tables input').length";
    assert_eq!(page.value(boxes), 0);
    page.part("times");
    assert_eq!(page.value(boxes), 12, "those of the block that is on");
    page.part("run");
    page.times("s1-b3");
    assert_eq!(page.value(boxes), 24);
}
