//! One block at a time.

use crate::browser::{PHONE, Set, Shown, show};
use crate::made::{SPRINTERS, made};

/// The blocks that can be seen.
fn seen(page: &Shown) -> serde_json::Value {
    page.value("[...document.querySelectorAll('.block')].filter((block) => block.offsetHeight > 0).map((block) => block.id)")
}

#[test]
fn blocks_are_turned_with_buttons_and_chosen_from_the_list() {
    let page = show!(made(&SPRINTERS), PHONE, Set::default());
    // The first with runs, after the warm-up.
    assert_eq!(seen(&page), serde_json::json!(["s1-b2"]));
    page.tap("#previous");
    assert_eq!(seen(&page), serde_json::json!(["s1-b1"]));
    assert_eq!(page.value("document.getElementById('previous').disabled"), true);
    page.tap("#next");
    assert_eq!(seen(&page), serde_json::json!(["s1-b2"]));
    assert_eq!(page.text("document.getElementById('choose').value"), "s1-b2");
    page.value(
        "document.getElementById('choose').value = 's1-b4'; \
         document.getElementById('choose').dispatchEvent(new Event('change'))",
    );
    assert_eq!(seen(&page), serde_json::json!(["s1-b4"]));
    assert_eq!(page.value("document.getElementById('next').disabled"), true);
    page.reload();
    assert_eq!(seen(&page), serde_json::json!(["s1-b4"]));
    page.tap("#previous");
    assert_eq!(seen(&page), serde_json::json!(["s1-b3"]));
}

#[test]
fn a_page_of_several_sessions_shows_the_session_of_the_block() {
    let page = show!(made(&["week", "sessions/wrenbeck"]), PHONE, Set::default());
    assert_eq!(page.text("document.querySelector('h1').textContent"), "8 sessions");
    assert_eq!(page.value("document.querySelectorAll('section.session > h2').length"), 8);
    assert_eq!(page.value("document.querySelectorAll('#choose optgroup').length"), 8);
    page.tap(".contents li:nth-child(3) a");
    page.wait(
        "document.querySelector('#s3').offsetHeight > 0 && document.querySelector('#s1').offsetHeight === 0",
    );
    assert_eq!(seen(&page), serde_json::json!(["s3-b2"]));
    let twice = page.value(
        "[...document.querySelectorAll('[id]')].map((one) => one.id).filter((id, at, ids) => ids.indexOf(id) !== at)",
    );
    assert_eq!(twice, serde_json::json!([]), "every id is there once");
}
