//! Before scripts, without them, and while they come: the page can be read and nothing moves. It stays light.

use std::fs;

use serde_json::json;

use crate::browser::{LOW, PHONE, Set, Shown, show};
use crate::made::{CLUB_EVENING, GROUND, LONE, Made, SPRINTERS, made, made_of, plan_of};
use crate::said::said;
use crate::stub::CLOCK;
use crate::wrenbeck::{WRENBECK, session};

const WITHOUT_SCRIPTS: Set = Set { scripts: &[], without_scripts: true, dark: false };

/// Everything that a plan says can be read.
fn says_everything(page: &Shown, arguments: &[&str]) {
    let seen = page.text("document.body.innerText.replace(/\\s+/g, ' ')");
    let said = said(&plan_of(arguments));
    assert!(said.len() > 10);
    let missing: Vec<&String> = said.iter().filter(|words| !seen.contains(words.as_str())).collect();
    assert_eq!(missing, [""; 0], "{arguments:?}");
}

fn buttons_seen(page: &Shown) -> serde_json::Value {
    page.value("[...document.querySelectorAll('button, select, input')].filter((one) => one.offsetHeight > 0).map((one) => one.outerHTML)")
}

#[test]
fn without_scripts_every_word_of_every_plan_is_there() {
    for name in WRENBECK {
        let arguments = ["plan", &session(name)];
        let page = show!(made(&arguments), PHONE, WITHOUT_SCRIPTS);
        assert_eq!(page.text("document.documentElement.className"), "", "no script has run");
        says_everything(&page, &arguments);
        let maps = "[...document.querySelectorAll('section.map svg')].filter((one) => one.clientWidth > 0)";
        assert_eq!(page.value(&format!("{maps}.length")), 1);
        assert_eq!(buttons_seen(&page), json!([]), "what cannot be used is not shown");
        assert_eq!(
            page.words("#run .notice:not([hidden])"),
            "No clock here, as no script runs. Open this file in a browser to time with it; everything to read is below."
        );
    }
}

#[test]
fn the_splits_of_a_run_are_shown_without_scripts() {
    let page = show!(made(&LONE), PHONE, WITHOUT_SCRIPTS);
    let seen = page.text("document.body.innerText.replace(/\\s+/g, ' ')");
    // 34 s for 200 m at an even pace.
    assert!(seen.contains("Splits of 200 m: 100 m 17 s"), "{seen}");
    assert!(seen.contains("Distances assume the measure line"), "{seen}");
}

#[test]
fn the_lanes_are_drawn_without_scripts() {
    let page = show!(made(&SPRINTERS), PHONE, WITHOUT_SCRIPTS);
    let drawn = "[...document.querySelectorAll('.strips svg')].filter((one) => one.clientWidth > 0).length";
    assert!(page.value(drawn).as_u64() > Some(0));
}

#[test]
fn with_scripts_every_word_is_in_the_whole_plan() {
    for name in ["tuesday-sprints", "saturday-club-evening"] {
        let arguments = ["plan", &session(name)];
        let page = show!(made(&arguments), PHONE, Set::default());
        page.part("plan");
        says_everything(&page, &arguments);
        let drawn =
            "[...document.querySelectorAll('.strips svg')].filter((one) => one.clientWidth > 0).length";
        assert_eq!(page.value(drawn), 0, "the lanes are drawn when they are asked for");
        page.tap(".open-strips");
        assert!(page.value(drawn).as_u64() > Some(0));
    }
}

/// A page whose script comes to no good end.
fn broken(made: Made) -> Made {
    let page = fs::read_to_string(&made.path).expect("the page was written");
    let spoiled = page.replacen("id=\"data\">{", "id=\"data\">!", 1);
    assert_ne!(spoiled, page);
    fs::write(&made.path, spoiled).expect("the folder can be written");
    made
}

#[test]
fn should_the_script_fail_the_plan_can_still_be_read() {
    let page = show!(broken(made(&SPRINTERS)), PHONE, Set::default());
    assert_eq!(page.text("document.documentElement.className"), "");
    says_everything(&page, &SPRINTERS);
    assert_eq!(buttons_seen(&page), json!([]), "what cannot be used is not shown");
}

/// Notes where everything is before the main script runs, and every shift of the layout.
const WATCH: &str = "
    window.shifts = [];
    window.seeShifts = new PerformanceObserver((list) => shifts.push(...list.getEntries().map((entry) => entry.value)));
    seeShifts.observe({ type: 'layout-shift', buffered: true });
    window.places = () => [...document.querySelectorAll('#run, #run *')]
        .filter((one) => one.getClientRects().length > 0)
        .map((one) => {
            const { x, y, width, height } = one.getBoundingClientRect();
            return `${one.tagName} ${one.id || (one.getAttribute('class') ?? one.textContent).split(' ')[0]}: ${[x, y, width, height].map(Math.round)}`;
        });
    new MutationObserver(() => {
        if (window.before === undefined && document.getElementById('data') !== null) window.before = places();
    }).observe(document, { childList: true, subtree: true });";

const WATCHED: Set = Set { scripts: &[CLOCK, WATCH], without_scripts: false, dark: false };

/// What is elsewhere than before the script ran.
fn moved(page: &Shown) -> serde_json::Value {
    assert!(page.value("before.length").as_u64() > Some(20), "it was looked at before");
    page.value("(() => { const after = places(); return before.filter((one) => !after.includes(one)).concat(after.filter((one) => !before.includes(one))); })()")
}

/// How far the layout shifted, once two more pictures have been drawn.
fn shifted(page: &Shown) -> f64 {
    page.value("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50))))");
    page.value("(shifts.push(...seeShifts.takeRecords().map(({ value }) => value)), shifts.reduce((a, b) => a + b, 0))")
        .as_f64()
        .expect("it is a number")
}

#[test]
fn nothing_moves_while_the_page_loads() {
    for arguments in [&["plan", "sessions/wrenbeck/monday-two-groups.yaml"], &CLUB_EVENING, &LONE] {
        for screen in [LOW, PHONE] {
            let page = show!(made(arguments), screen, WATCHED);
            assert_eq!(moved(&page), json!([]), "{arguments:?} {screen:?}");
            assert!(shifted(&page) == 0.0, "{arguments:?} {screen:?}");
        }
    }
}

#[test]
fn the_watch_sees_what_moves() {
    let page = show!(made(&LONE), PHONE, WATCHED);
    assert!(shifted(&page) == 0.0);
    page.value("document.getElementById('run').style.paddingTop = '90px'");
    assert_ne!(moved(&page), json!([]));
    assert!(shifted(&page) > 0.0);
}

/// While a clock runs, a page that is opened again has other words, and the button where it was.
#[test]
fn nothing_to_tap_moves_while_a_page_loads_whose_clock_runs() {
    let page = show!(made(&CLUB_EVENING), PHONE, WATCHED);
    page.tap("#go");
    page.set_clock(10_000);
    page.set_clock(25_000);
    page.reload();
    assert_eq!(page.go_words(), "Stop all 15.0");
    let moved =
        page.value("before.filter((one) => /^BUTTON/.test(one)).filter((one) => !places().includes(one))");
    assert_eq!(moved, json!([]));
}

/// Forty athletes and twelve blocks, each of its own kind.
fn large() -> Made {
    let athletes: Vec<String> = (1..=40).map(|number| format!("Athlete {number}")).collect();
    let distances = [200, 300, 150, 400, 250, 120, 600, 100, 350, 180, 500, 220];
    let blocks: Vec<String> = distances
        .iter()
        .map(|metres| format!("6 x {metres} in lanes 2-6 @ {} rest 3min", metres / 5))
        .collect();
    made_of(
        GROUND,
        &format!(
            "title: Forty\ntrack: track.yaml\ngroups: [{{ name: all, athletes: [{}] }}]\nblocks: [{}]\n",
            athletes.join(", "),
            blocks.join(", ")
        ),
    )
}

#[test]
fn a_page_of_forty_athletes_and_twelve_blocks_is_light() {
    let made = large();
    let bytes = fs::metadata(&made.path).expect("the page was written").len();
    assert!(bytes <= 1_000_000, "{bytes} bytes");
    let page = show!(made, PHONE, Set::default());
    let elements = page.value("document.querySelectorAll('*').length").as_u64().expect("it is a number");
    assert!(elements < 5_000, "{elements} elements");
    assert_eq!(page.words("#rep"), "Rep 1 of 6, wave 1");
    assert_eq!(page.value("document.querySelectorAll('#names .name:not([hidden])').length"), 5);
}
