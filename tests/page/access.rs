//! The page can be used by everyone: WCAG 2.2 AA as far as a program can check it.

use serde_json::json;

use crate::browser::{DESKTOP, NARROWEST, PHONE, Shown, show};
use crate::made::{CLUB_EVENING, GROUND, LONE, made, made_of, made_of_wrenbeck};
use crate::stub::{STUBS, STUBS_IN_THE_DARK};
use crate::wrenbeck::WRENBECK;

/// axe-core 4.14 by Deque Systems, the usual checker of these rules.
const AXE: &str = include_str!("../vendor/axe.min.js");

/// The rules that are checked.
const RULES: &str = "['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']";

/// In the dark only the colours are others.
const RULES_OF_COLOURS: &str = "['color-contrast']";

fn with_axe(page: &Shown) {
    page.value(AXE);
    assert!(page.value("axe.getRules().length").as_u64() > Some(80), "the checker is there");
}

/// The rules that a page breaks as it is, with where.
fn broken(page: &Shown, rules: &str) -> Vec<String> {
    let broken = page.value(&format!(
        "axe.run(document, {{ runOnly: {rules}, resultTypes: ['violations'] }}).then((found) => found.violations.map((rule) =>
             `${{rule.id}}: ${{rule.help}}: ${{rule.nodes.slice(0, 3).map((node) => node.html.slice(0, 300)).join(' ')}}`))"
    ));
    serde_json::from_value(broken).expect("it is as it was asked for")
}

fn breaks_no_rule(page: &Shown, rules: &str, where_: &str) {
    assert_eq!(broken(page, rules), [""; 0], "{where_}");
}

/// Goes through every state of a page whose runs have names, and checks each.
fn every_state(page: &Shown, rules: &str, name: &str) {
    with_axe(page);
    let mut found = Vec::new();
    let mut check =
        |state: &str| found.extend(broken(page, rules).into_iter().map(|rule| format!("{state}: {rule}")));
    check("before the start");
    page.tap("#go");
    check("a countdown");
    page.tap_go_at(2_000);
    page.set_clock(5_000);
    check("a run");
    page.tap("#names .name.is-open");
    check("one is in");
    page.set_clock(20_000);
    page.tap("#go");
    check("all are in");
    page.tap("#menu-open");
    check("the menu");
    page.tap("#menu-close");
    page.part("times");
    check("the times");
    page.part("run");
    page.type_into("s1-b4-r1-l1-1", "1.12");
    page.part("times");
    check("the times, with a question");
    page.tap("#clear");
    check("a question in the dialog");
    page.tap_words("#menu", "A new session");
    check("the times, with earlier ones");
    page.part("plan");
    check("the whole plan");
    page.tap(".open-strips");
    check("the whole plan with its lanes");
    assert_eq!(found, [""; 0], "{name}");
}

#[test]
fn no_state_of_two_groups_breaks_a_rule() {
    let page = show!(made_of_wrenbeck("monday-two-groups"), PHONE, STUBS);
    every_state(&page, RULES, "Monday");
}

#[test]
fn no_state_of_two_groups_breaks_a_rule_in_the_dark() {
    let page = show!(made_of_wrenbeck("monday-two-groups"), PHONE, STUBS_IN_THE_DARK);
    every_state(&page, RULES_OF_COLOURS, "Monday in the dark");
}

#[test]
fn no_state_of_a_club_evening_breaks_a_rule() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    every_state(&page, RULES, "the club evening");
    page.part("run");
    page.tap_go_at(100_000);
    page.set_clock(110_000);
    page.set_clock(125_000);
    assert_eq!(page.value("document.querySelectorAll('#others button').length"), 1);
    breaks_no_rule(&page, RULES, "waves that overlap");
}

#[test]
fn no_session_breaks_a_rule_where_it_is_run_and_where_it_is_read() {
    for name in WRENBECK {
        let page = show!(made_of_wrenbeck(name), PHONE, STUBS);
        with_axe(&page);
        breaks_no_rule(&page, RULES, &format!("{name} is run"));
        page.part("plan");
        breaks_no_rule(&page, RULES, &format!("{name} is read"));
    }
}

#[test]
fn no_rule_is_broken_on_a_desk() {
    for (set, rules) in [(STUBS, RULES), (STUBS_IN_THE_DARK, RULES_OF_COLOURS)] {
        let page = show!(made_of_wrenbeck("tuesday-sprints"), DESKTOP, set);
        with_axe(&page);
        for part in ["run", "times", "plan"] {
            page.part(part);
            breaks_no_rule(&page, rules, part);
        }
    }
}

#[test]
fn a_page_of_several_sessions_breaks_no_rule() {
    let page = show!(made(&["week", "sessions/wrenbeck"]), PHONE, STUBS);
    with_axe(&page);
    breaks_no_rule(&page, RULES, "the week is run");
    page.part("plan");
    breaks_no_rule(&page, RULES, "the week is read");
}

#[test]
fn a_notice_breaks_no_rule() {
    for (set, rules) in [(STUBS, RULES), (STUBS_IN_THE_DARK, RULES_OF_COLOURS)] {
        let page = show!(made(&LONE), PHONE, set);
        with_axe(&page);
        page.value("window.refuses = true");
        page.tap("#go");
        page.wait("asked === 1");
        page.set_clock(100);
        page.tap_go_at(2_000);
        assert_ne!(page.notice(), "");
        breaks_no_rule(&page, rules, "a notice");
    }
}

#[test]
fn the_checker_finds_what_is_wrong() {
    let page = show!(made(&LONE), PHONE, STUBS);
    with_axe(&page);
    page.part("times");
    page.value("document.querySelector('label[for=s1-b1-r1-l1-1]').remove()");
    let broken = page.value("axe.run().then((found) => found.violations.map((rule) => rule.id))");
    assert_eq!(broken, json!(["label"]));
}

/// WCAG 2.2, 1.4.10: at 320 CSS pixels, which is 1280 at 400 %, nothing has to be moved sideways.
#[test]
fn nothing_is_wider_than_the_narrowest_screen() {
    let long = "Threelongnamesinone".repeat(4);
    let named = made_of(
        GROUND,
        &format!(
            "title: {long}\ntrack: track.yaml\ngroups: [{{ name: all, athletes: [{long}, Ada] }}]\nblocks: [{long} 5 min, 1 x 100 in lanes 2-3 @ 14]\n"
        ),
    );
    let pages = WRENBECK.iter().map(|name| made_of_wrenbeck(name)).chain([named]);
    for made in pages {
        let page = show!(made, NARROWEST, STUBS);
        let title = page.text("document.title");
        for part in ["run", "times", "plan"] {
            page.part(part);
            if part == "times" {
                page.value(
                    "document.querySelectorAll('#tables details').forEach((one) => (one.open = true))",
                );
                page.wait("document.querySelectorAll('#tables details').length === document.querySelectorAll('#tables .runs').length");
            }
            assert_eq!(page.value("document.documentElement.scrollWidth"), 320, "{part} of {title}");
            // A line that is cut with an ellipsis ends inside of what holds it.
            let wide = page.value(
                "[...document.querySelectorAll('body *')]
                   .filter((one) => !one.closest('svg, .unseen, #others, .name, .head') && one.getBoundingClientRect().right > 320.5)
                   .map((one) => one.outerHTML.slice(0, 200))",
            );
            assert_eq!(wide, json!([]), "{part} of {title}");
        }
        page.part("run");
        page.tap("#menu-open");
        let wide = page.value(
            "document.getElementById('menu').scrollWidth > document.getElementById('menu').clientWidth",
        );
        assert_eq!(wide, false, "the menu of {title}");
    }
}

/// What can be seen and tapped and is smaller than so many pixels.
fn smaller_than(page: &Shown, px: u32) -> serde_json::Value {
    page.value(&format!(
        "[...document.querySelectorAll('button, select, input[type=text], .cones label, summary, a')]
           .map((one) => [one, one.getBoundingClientRect()])
           .filter(([, {{ width, height }}]) => width > 0 && (width < {px} || height < {px}))
           .map(([one, {{ width, height }}]) => `${{width}} x ${{height}}: ${{one.outerHTML.slice(0, 200)}}`)"
    ))
}

/// WCAG 2.2, 2.5.8, asks for 24 px; 44 px is its 2.5.5, for wet thumbs.
#[test]
fn everything_to_tap_is_as_large_as_a_thumb() {
    let page = show!(made_of_wrenbeck("monday-two-groups"), PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_000);
    page.set_clock(25_000);
    for part in ["run", "times", "plan"] {
        page.part(part);
        assert_eq!(smaller_than(&page, 44), json!([]), "{part}");
    }
    page.part("run");
    page.tap("#menu-open");
    assert_eq!(smaller_than(&page, 44), json!([]), "the menu");
    assert!(page.value("document.querySelectorAll('button').length").as_u64() > Some(10));
}
