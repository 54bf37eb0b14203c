//! The page can be used by everyone: WCAG 2.2 AA as far as a program can check it.

use serde_json::json;

use crate::browser::{DESKTOP, NARROWEST, PHONE, Set, Shown, show};
use crate::made::{GROUND, LONE, Made, made, made_of};
use crate::wrenbeck::{self, WRENBECK};

/// axe-core 4.14 by Deque Systems, the usual checker of these rules.
const AXE: &str = include_str!("../vendor/axe.min.js");

fn session(name: &str) -> Made {
    made(&["plan", &wrenbeck::session(name)])
}

/// Shows every block in turn.
fn turn_blocks(page: &Shown, mut check: impl FnMut(&Shown, &str)) {
    let ids = page.value("[...document.querySelectorAll('.block')].map((block) => block.id)");
    for id in ids.as_array().expect("it is a list").iter().filter_map(|id| id.as_str()) {
        page.value(&format!(
            "document.getElementById('choose').value = '{id}'; \
             document.getElementById('choose').dispatchEvent(new Event('change'))"
        ));
        check(page, id);
    }
}

/// The rules that are checked.
const RULES: &str = "['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']";

/// In the dark only the colours are others.
const RULES_OF_COLOURS: &str = "['color-contrast']";

fn breaks_no_rule(page: &Shown, rules: &str, where_: &str) {
    let broken = page.value(&format!(
        "axe.run(document, {{ runOnly: {rules}, resultTypes: ['violations'] }}).then((found) => found.violations.map((rule) =>
             [rule.id, rule.help, rule.nodes.slice(0, 3).map((node) => node.html + ' ' + node.failureSummary)]))"
    ));
    assert_eq!(broken, json!([]), "{where_}: {broken:#}");
}

fn break_no_rule(names: &[&str], screen: (u32, u32), dark: bool) {
    for name in names {
        let page = show!(session(name), screen, Set { dark, ..Set::default() });
        page.value(AXE);
        assert!(page.value("axe.getRules().length").as_u64() > Some(80), "the checker is there");
        page.value("document.querySelectorAll('.block').forEach((block) => block.classList.add('is-shown'))");
        let rules = if dark { RULES_OF_COLOURS } else { RULES };
        breaks_no_rule(&page, rules, &format!("{name} {screen:?}"));
        page.value("document.querySelector('.start').click(); document.querySelector('.count-down').click()");
        breaks_no_rule(&page, rules, &format!("{name} while it runs {screen:?}"));
    }
}

#[test]
fn no_session_breaks_a_rule_on_a_phone() {
    break_no_rule(&WRENBECK, PHONE, false);
}

#[test]
fn no_rule_is_broken_on_a_phone_in_the_dark() {
    break_no_rule(&WRENBECK[1..3], PHONE, true);
}

#[test]
fn no_rule_is_broken_on_a_desk() {
    break_no_rule(&WRENBECK[..2], DESKTOP, false);
}

#[test]
fn no_rule_is_broken_on_a_desk_in_the_dark() {
    break_no_rule(&WRENBECK[3..4], DESKTOP, true);
}

#[test]
fn a_page_of_several_sessions_breaks_no_rule() {
    let page = show!(made(&["week", "sessions/wrenbeck"]), PHONE, Set::default());
    page.value(AXE);
    breaks_no_rule(&page, RULES, "the week");
}

#[test]
fn the_checker_finds_what_is_wrong() {
    let page = show!(made(&LONE), PHONE, Set::default());
    page.value(AXE);
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
    let pages = WRENBECK.iter().map(|name| session(name)).chain([named]);
    for made in pages {
        let page = show!(made, NARROWEST, Set::default());
        turn_blocks(&page, |page, id| {
            assert_eq!(page.value("document.documentElement.scrollWidth"), 320, "{id}");
            let wide = page.value(
                "[...document.querySelectorAll('main *')]
                   .filter((one) => !one.closest('svg') && one.getBoundingClientRect().right > 320.5)
                   .map((one) => one.outerHTML.slice(0, 200))",
            );
            assert_eq!(wide, json!([]), "{id}");
        });
    }
}

/// WCAG 2.2, 2.5.8, asks for 24 px; 44 px is its 2.5.5, for wet thumbs.
#[test]
fn everything_to_tap_is_as_large_as_a_thumb() {
    let page = show!(session("tuesday-sprints"), PHONE, Set::default());
    page.tap("#s1-b2 .count-down");
    page.tap("#s1-b2-r1 .start");
    let small = page.value(
        "[...document.querySelectorAll('button, select, input[type=text], label.check, a')]
           .map((one) => [one, one.getBoundingClientRect()])
           .filter(([, { width, height }]) => width > 0 && (width < 44 || height < 44))
           .map(([one, { width, height }]) => `${width} x ${height}: ${one.outerHTML}`)",
    );
    assert_eq!(small, json!([]));
    assert!(page.value("document.querySelectorAll('button').length").as_u64() > Some(20));
}
