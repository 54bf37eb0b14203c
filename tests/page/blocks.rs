//! One block after the other, and any block when it is wanted.

use crate::browser::{PHONE, show};
use crate::made::{SPRINTERS, made, made_of_wrenbeck};
use crate::stub::STUBS;

#[test]
fn a_page_opens_on_the_first_block_with_runs_and_another_can_be_chosen() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    assert_eq!(page.block_on(), "s1 b2", "after the warm-up");
    let blocks = page.blocks();
    assert_eq!(blocks.len(), 4);
    page.choose("choose", &blocks[3]);
    assert_eq!(page.block_on(), "s1 b4");
    page.reload();
    assert_eq!(page.block_on(), "s1 b4");
    page.choose("choose", &blocks[2]);
    assert_eq!(page.block_on(), "s1 b3");
}

#[test]
fn a_block_without_runs_says_how_long_it_lasts_and_is_done_with_a_tap() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    let blocks = page.blocks();
    page.choose("choose", &blocks[0]);
    assert_eq!(page.go_words(), "Done: next");
    assert!(page.words("#what").starts_with("Lasts 20"), "{}", page.words("#what"));
    assert_eq!(page.words("#ends"), "");
    page.tap_go_at(1_200_000);
    assert_eq!(page.block_on(), "s1 b2");
    page.reload();
    assert_eq!(page.block_on(), "s1 b2");
}

#[test]
fn after_the_last_run_of_a_block_comes_the_next_block_and_at_last_the_end() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    let type_all = |block: &str| {
        page.times(&format!("s1-{block}"));
        let boxes = page.value(&format!(
            "[...document.querySelectorAll('#tables input[id^=s1-{block}-]')].map((one) => one.id)"
        ));
        for id in boxes.as_array().expect("it is a list").iter().filter_map(|id| id.as_str()) {
            page.value(&format!(
                "(() => {{ const box = document.getElementById('{id}'); box.value = '21.0'; box.dispatchEvent(new Event('input')); }})()"
            ));
        }
    };
    type_all("b2");
    assert_eq!(page.block_on(), "s1 b3");
    type_all("b3");
    type_all("b4");
    page.set_clock(90_000);
    assert_eq!(page.go_words(), "All done see the times");
    page.tap("#go");
    page.wait("document.documentElement.getAttribute('data-part') === 'times'");
    assert!(page.words("#kept").starts_with("30 of 30 times taken."), "{}", page.words("#kept"));
}

#[test]
fn a_block_is_run_from_the_whole_plan() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.part("plan");
    page.tap("#s1-b3 .run-block");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    assert_eq!(page.block_on(), "s1 b3");
    assert!(page.words("#head").contains("150 m"), "{}", page.words("#head"));
}

/// What the menu offers belongs to the block that was just chosen in it.
#[test]
fn the_menu_keeps_up_with_what_is_chosen_in_it() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.tap("#menu-open");
    page.value(
        "(() => { const list = document.getElementById('choose'); list.value = 's1 b4';
                  list.dispatchEvent(new Event('change')); })()",
    );
    let is_of = page.value(
        "document.getElementById('menu').open
           ? [...document.querySelectorAll('#choose-run option')].map((one) => one.value.split('-')[0]) : ['b4']",
    );
    assert!(is_of.as_array().is_some_and(|runs| runs.iter().all(|run| run == "b4")), "{is_of}");
}

#[test]
fn each_part_is_a_tap_away_and_leads_back() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    for part in ["times", "plan"] {
        page.tap(&format!("#to-{part}"));
        page.wait(&format!("document.documentElement.getAttribute('data-part') === '{part}'"));
        page.tap(&format!("#{part} .back a"));
        page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    }
    page.tap("#to-times");
    page.wait("document.documentElement.getAttribute('data-part') === 'times'");
    page.tap("details[data-block=b3] summary");
    page.wait("document.querySelector('#s1-b3-r1-l1-1') !== null");
}

#[test]
fn the_address_names_the_part_and_back_leads_back() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.part("times");
    page.value("history.back()");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    page.part("plan");
    page.tap("#s1 .jump a[href='#s1-map']");
    page.wait("location.hash === '#s1-map'");
    assert_eq!(page.text("document.documentElement.getAttribute('data-part')"), "plan");
    let top = page.value("document.getElementById('s1-map').getBoundingClientRect().top");
    assert!(top.as_f64().is_some_and(|top| (0.0..664.0).contains(&top)), "{top}");
    page.reload();
    assert_eq!(page.text("document.documentElement.getAttribute('data-part')"), "plan");
}

#[test]
fn a_page_of_several_sessions_shows_the_session_that_is_chosen() {
    let page = show!(made(&["week", "sessions/wrenbeck"]), PHONE, STUBS);
    page.part("plan");
    assert_eq!(page.words("#plan > h1"), "The week at a glance, Monday 12 April to Sunday 18 April 2027");
    assert_eq!(page.value("document.querySelectorAll('section.session > h2').length"), 8);
    page.tap(".contents li:nth-child(3) a");
    page.wait("location.hash === '#s3'");
    page.tap("#s3-b2 .run-block");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    assert_eq!(page.block_on(), "s3 b2");
    assert_eq!(page.in_menu("document.querySelectorAll('#choose optgroup').length"), 8);
}

#[test]
fn a_session_of_words_alone_can_be_gone_through() {
    let page = show!(made_of_wrenbeck("sunday-easy"), PHONE, STUBS);
    for tap in 1..20_u64 {
        if page.go_words().starts_with("All done") {
            return;
        }
        page.tap_go_at(20_000 * tap);
        if page.go_words().starts_with("Go in") {
            page.tap_go_at(20_000 * tap + 1_500);
        }
    }
    panic!("it never comes to its end: {}", page.go_words());
}
