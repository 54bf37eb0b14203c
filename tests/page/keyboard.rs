//! Everything can be done with keys alone.

use crate::browser::{PHONE, Shown, show};
use crate::made::{SPRINTERS, made};
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
fn a_block_is_chosen_a_run_clocked_and_a_time_typed_with_keys_alone() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    go_to(&page, "#next");
    page.press("Enter");
    assert_eq!(page.text("document.getElementById('choose').value"), "s1-b3");
    // Back over the list of blocks.
    page.press_with_shift("Tab");
    page.press_with_shift("Tab");
    page.press("Enter");
    assert_eq!(page.text("document.getElementById('choose').value"), "s1-b2");
    go_to(&page, "#s1-b2-r1 .start");
    page.press("Enter");
    // The key that started the run is where it can be stopped.
    assert_eq!(page.value("document.activeElement.matches('#s1-b2-r1 .stop-all')"), true);
    go_to(&page, "#s1-b2-r1 tr:nth-child(2) .stop");
    page.set_clock(8_200);
    page.press("Enter");
    assert_eq!(page.in_box("s1-b2-r1-l2-1"), "8.2");
    assert_eq!(page.value("document.activeElement.matches('#s1-b2-r1 .take-back')"), true);
    page.press_with_shift("Tab");
    page.set_clock(8_400);
    page.press("Enter");
    assert_eq!(page.in_box("s1-b2-r1-l1-1"), "8.4");
    assert_eq!(page.value("document.activeElement.matches('#s1-b2-r1 .start')"), true);
    go_to(&page, "#s1-b2-r2-l1-1");
    page.type_in("8.3");
    assert_eq!(page.in_box("s1-b2-r2-l1-1"), "8.3");
}
