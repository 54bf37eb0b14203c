//! Everything there is to read is there without scripts, and the page loads nothing else.

use serde_json::json;

use crate::browser::{PHONE, Set, Shown, show};
use crate::made::{LONE, made, plan_of};
use crate::said::said;
use crate::stub::STUBS;
use crate::wrenbeck::{WRENBECK, session};

/// The words that can be seen, with single spaces.
fn seen(page: &Shown) -> String {
    page.text("document.body.innerText.replace(/\\s+/g, ' ')")
}

#[test]
fn without_scripts_every_word_of_every_plan_is_there() {
    for name in WRENBECK {
        let arguments = ["plan", &session(name)];
        let page = show!(made(&arguments), PHONE, Set { without_scripts: true, ..Set::default() });
        assert_eq!(page.text("document.documentElement.className"), "", "no script has run");
        let seen = seen(&page);
        let said = said(&plan_of(&arguments));
        assert!(said.len() > 10);
        for words in said {
            assert!(seen.contains(&words), "{name}: `{words}` is missing");
        }
        let maps = "[...document.querySelectorAll('section.map svg')].filter((one) => one.clientWidth > 0)";
        assert_eq!(page.value(&format!("{maps}.length")), 1);
        let buttons = page
            .value("[...document.querySelectorAll('button')].filter((one) => one.offsetHeight > 0).length");
        assert_eq!(buttons, 0, "what cannot be used is not shown");
    }
}

#[test]
fn the_splits_of_a_run_are_shown_without_scripts() {
    let page = show!(made(&LONE), PHONE, Set { without_scripts: true, ..Set::default() });
    // 34 s for 200 m at an even pace.
    assert!(seen(&page).contains("100 m: 17 s"));
    assert!(seen(&page).contains("Distances assume the measure line"));
}

#[test]
fn the_page_loads_nothing_else() {
    let made = made(&LONE);
    let page = show!(made, PHONE, STUBS);
    page.tap("#s1-b1 .count-down");
    page.set_clock(10_000);
    page.wait("document.querySelector('#s1-b1-r1').classList.contains('is-running')");
    assert_eq!(page.requests(), [format!("file://{}", page.made.path.display())]);
    assert_eq!(page.value("performance.getEntriesByType('resource').length"), 0);
    let addresses = page.value(
        "[...document.querySelectorAll('[src], [href], [srcset], [action]')]
           .map((one) => one.getAttribute('href') ?? one.outerHTML).filter((address) => !address.startsWith('#'))",
    );
    assert_eq!(addresses, json!([]));
}

#[test]
fn no_script_but_the_page_s_own_can_run() {
    let page = show!(made(&LONE), PHONE, Set::default());
    page.value(
        "(() => { const script = document.createElement('script');
                  script.textContent = 'window.strange = true';
                  document.body.append(script); })()",
    );
    assert_eq!(page.value("window.strange === undefined"), true);
    assert_eq!(page.text("document.documentElement.className"), "js", "its own has run");
}

#[test]
fn the_policy_of_the_page_refuses_nothing_of_its_own() {
    let refusals = Set {
        script: Some(
            "window.refused = []; \
             addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective))",
        ),
        ..Set::default()
    };
    let page = show!(made(&LONE), PHONE, refusals);
    assert_eq!(page.text("document.documentElement.className"), "js");
    assert_eq!(page.value("refused"), json!([]));
    page.value(
        "(() => { const script = document.createElement('script');
                  script.textContent = 'window.strange = true';
                  document.body.append(script); })()",
    );
    page.wait("refused.length > 0");
    assert_eq!(page.text("refused[0]"), "script-src-elem", "what is refused is noticed");
}

/// Old phones get no new browsers: none of these functions is needed.
#[test]
fn a_browser_without_newer_functions_shows_and_clocks_all_the_same() {
    let older = Set {
        script: Some(concat!(
            "for (const name of ['at', 'findLast', 'findLastIndex', 'toReversed', 'toSorted', 'toSpliced', 'with']) ",
            "delete Array.prototype[name]; ",
            "for (const name of ['at', 'matchAll', 'replaceAll', 'isWellFormed']) delete String.prototype[name]; ",
            "delete Element.prototype.replaceChildren; delete Document.prototype.replaceChildren; ",
            "delete Element.prototype.checkVisibility; ",
            "delete Object.hasOwn; delete Object.groupBy; delete Promise.any; delete Promise.allSettled; ",
            "delete window.structuredClone; delete window.queueMicrotask; delete crypto.randomUUID;",
        )),
        ..Set::default()
    };
    let page = show!(made(&LONE), PHONE, older);
    assert_eq!(page.value("document.querySelector('.block').offsetHeight > 0"), true);
    page.tap("#s1-b1 .count-down");
    assert_eq!(page.text("document.querySelector('#s1-b1 .count-down').textContent"), "Stop the countdown");
    page.tap("#s1-b1-r1 .start");
    page.wait("parseFloat(document.querySelector('#s1-b1-r1 .watch').textContent) > 0.6");
    page.tap("#s1-b1-r1 .stop-all");
    assert_ne!(page.in_box("s1-b1-r1-l1-1"), "");
    assert!(page.text("document.querySelector('.kept').textContent").starts_with("1 of 6"));
}
