//! The page loads nothing else and runs no script but its own; its words and maps can be read.

use serde_json::json;

use crate::browser::{NARROWEST, PHONE, Set, show};
use crate::made::{CLUB_EVENING, LONE, made};
use crate::stub::{STUBS, STUBS_IN_THE_DARK};

#[test]
fn the_page_loads_nothing_else() {
    let made = made(&LONE);
    let page = show!(made, PHONE, STUBS);
    page.tap("#go");
    page.set_clock(10_000);
    assert_eq!(page.go_words(), "Stop 0.0");
    page.type_into("s1-b1-r2-l1-1", "34.0");
    page.part("plan");
    let own = format!("file://{}", page.made.path.display());
    let requests = page.requests();
    assert!(requests.iter().all(|address| address.split('#').next() == Some(&own)), "{requests:?}");
    assert_eq!(page.value("performance.getEntriesByType('resource').length"), 0);
    let addresses = page.value(
        "[...document.querySelectorAll('[src], [href], [srcset], [action]')]
           .map((one) => one.getAttribute('href') ?? one.outerHTML).filter((address) => !address.startsWith('#'))",
    );
    assert_eq!(addresses, json!([]));
}

#[test]
fn every_link_leads_somewhere_and_every_id_is_there_once() {
    for arguments in [&CLUB_EVENING[..], &["week", "sessions/wrenbeck"]] {
        let page = show!(made(arguments), PHONE, STUBS);
        let astray = page.value(
            "[...document.querySelectorAll('a')].map((one) => one.getAttribute('href'))
               .filter((address) => document.querySelector(address) === null)",
        );
        assert_eq!(astray, json!([]));
        let twice = page.value(
            "[...document.querySelectorAll('[id]')].map((one) => one.id).filter((id, at, ids) => ids.indexOf(id) !== at)",
        );
        assert_eq!(twice, json!([]));
    }
}

/// Adds a script that the page did not bring.
const ADD_SCRIPT: &str = "(() => { const script = document.createElement('script');
                                   script.textContent = 'window.strange = true';
                                   document.body.append(script); })()";

#[test]
fn no_script_but_the_page_s_own_can_run() {
    let page = show!(made(&LONE), PHONE, Set::default());
    page.value(ADD_SCRIPT);
    assert_eq!(page.value("window.strange === undefined"), true);
    assert_eq!(page.text("document.documentElement.className"), "js ready", "its own has run");
}

#[test]
fn the_policy_of_the_page_refuses_nothing_of_its_own() {
    let refusals = Set {
        scripts: &["window.refused = []; \
                    addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective))"],
        ..Set::default()
    };
    let page = show!(made(&CLUB_EVENING), PHONE, refusals);
    assert_eq!(page.text("document.documentElement.className"), "js ready");
    page.times("s1-b4");
    page.part("plan");
    page.tap(".open-strips");
    page.part("run");
    page.choose("choose-sound", "off");
    assert_eq!(page.value("refused"), json!([]));
    page.value(ADD_SCRIPT);
    page.wait("refused.length > 0");
    assert_eq!(page.text("refused[0]"), "script-src-elem", "what is refused is noticed");
}

#[test]
fn no_number_is_broken_over_two_lines() {
    for screen in [NARROWEST, PHONE] {
        let page = show!(made(&CLUB_EVENING), screen, STUBS);
        page.part("plan");
        let found = page.value(
            "(() => {
                const texts = document.createTreeWalker(document.getElementById('plan'), NodeFilter.SHOW_TEXT);
                const range = document.createRange();
                const broken = [];
                let count = 0;
                while (texts.nextNode()) {
                    const text = texts.currentNode;
                    if (text.parentElement.closest('svg, noscript') !== null) continue;
                    for (const number of text.data.matchAll(/\\d+[.:]\\d+/g)) {
                        range.setStart(text, number.index);
                        range.setEnd(text, number.index + number[0].length);
                        count += 1;
                        const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top)));
                        if (lines.size > 1) broken.push(text.data);
                    }
                }
                return { broken, count };
            })()",
        );
        assert_eq!(found["broken"], json!([]), "{screen:?}");
        assert!(found["count"].as_u64() > Some(40), "{found}");
    }
}

#[test]
fn maps_are_dark_in_the_dark() {
    for (set, is_dark) in [(STUBS, false), (STUBS_IN_THE_DARK, true)] {
        let page = show!(made(&LONE), PHONE, set);
        page.part("plan");
        let filter = page.text("getComputedStyle(document.querySelector('.map figure')).filter");
        assert_eq!(filter.contains("invert"), is_dark, "{filter}");
        let ground = page.text("getComputedStyle(document.body).backgroundColor");
        assert_eq!(ground, if is_dark { "rgb(16, 18, 20)" } else { "rgb(255, 255, 255)" });
    }
}
