//! Everything can be done with keys alone.

use serde_json::json;

use crate::browser::{PHONE, Shown, show};
use crate::made::{LONE, SPRINTERS, made};
use crate::stub::STUBS;

/// Goes on with Tab until the focus is where it is wanted; on the way it can always be seen.
fn go_to(page: &Shown, selector: &str) {
    for _ in 0..60 {
        page.press("Tab");
        let outline = page.text("getComputedStyle(document.activeElement).outlineStyle");
        assert_ne!(outline, "none", "the focus can be seen on the way to {selector}");
        if page.value(&format!("document.activeElement.matches('{selector}')")) == true {
            return;
        }
    }
    panic!("Tab never comes to {selector}");
}

#[test]
fn a_lone_workout_is_timed_with_keys_alone() {
    let page = show!(made(&LONE), PHONE, STUBS);
    // The first key leads to what is wanted most.
    page.press("Tab");
    assert_eq!(page.text("document.activeElement.id"), "go");
    page.press("Enter");
    assert_eq!(page.go_words(), "Go in 10 s tap: go now");
    for rep in 1..=6_u64 {
        // A go, 34 s, 3 min of rest.
        let go_ms = 10_000 + (rep - 1) * 214_000;
        page.set_clock(go_ms);
        assert_eq!(page.go_words(), "Stop 0.0");
        assert_eq!(page.text("document.activeElement.id"), "go", "the key that started it stops it");
        page.set_clock(go_ms + 34_000);
        page.press("Enter");
        assert_eq!(page.go_words(), "Undo 34.0");
        page.set_clock(go_ms + 50_000);
    }
    page.set_clock(2_000_000);
    assert_eq!(page.go_words(), "All done see the times");
    page.press("Enter");
    page.wait("document.documentElement.getAttribute('data-part') === 'times'");
    assert_eq!(page.times("s1-b1"), ["34.0"; 6]);
}

#[test]
fn a_squad_is_timed_by_name_and_a_time_is_typed_with_keys_alone() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    go_to(&page, "#menu-open");
    page.press("Enter");
    assert_eq!(page.text("document.activeElement.textContent"), "Start now, without a countdown");
    page.press("Enter");
    assert_eq!(page.go_words(), "Stop all 0.0");
    page.set_clock(8_000);
    // Back over the button to the last of the names.
    page.press_with_shift("Tab");
    page.press_with_shift("Tab");
    assert_eq!(page.words(":focus .who"), "Cleo");
    page.press("Enter");
    assert_eq!(page.names_running(), json!(["Ada", "Bela"]));
    page.set_clock(8_600);
    page.press_with_shift("Tab");
    assert_eq!(page.words(":focus .who"), "Bela");
    page.press("Enter");
    go_to(&page, "#to-times");
    page.press("Enter");
    page.wait("document.documentElement.getAttribute('data-part') === 'times'");
    go_to(&page, "#s1-b2-r2-l1-1");
    page.type_in("8.3");
    assert_eq!(page.times("s1-b2-r1"), ["", "8.6", "8.0"]);
    assert_eq!(page.in_box("s1-b2-r2-l1-1"), "8.3");
}

#[test]
fn the_menu_keeps_the_focus_while_it_is_open_and_gives_it_back() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    go_to(&page, "#menu-open");
    page.press("Enter");
    for _ in 0..15 {
        page.press("Tab");
        let is_within = page.value(
            "document.getElementById('menu').contains(document.activeElement) || document.activeElement === document.body",
        );
        assert_eq!(is_within, true);
    }
    page.press("Escape");
    assert_eq!(page.question(), "");
    assert_eq!(page.text("document.activeElement.id"), "menu-open");
}

#[test]
fn the_parts_of_the_page_are_reached_and_left_with_keys_alone() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    go_to(&page, "#to-plan");
    page.press("Enter");
    page.wait("document.documentElement.getAttribute('data-part') === 'plan'");
    go_to(&page, "#s1-b3 .run-block");
    page.press("Enter");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    assert!(page.words("#head").contains("150 m"), "{}", page.words("#head"));
    go_to(&page, "#to-times");
    page.press("Enter");
    page.wait("document.documentElement.getAttribute('data-part') === 'times'");
    go_to(&page, ".back a");
    page.press("Enter");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
}
