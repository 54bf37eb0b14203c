//! Everything that there is to read is there without scripts, and nothing is asked of anywhere.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::browser::{PHONE, Set, Shown, show};
use crate::made::{LONE, made, plan_of};
use crate::stub::STUBS;
use crate::wrenbeck::{WRENBECK, session};

/// Everything that a plan says: its places, its cones, its notes.
pub(crate) fn said(plan: &Value) -> BTreeSet<String> {
    let mut said = BTreeSet::new();
    let mut say = |value: &Value| {
        if let Some(words) = value.as_str() {
            said.insert(words.trim().to_owned());
        }
    };
    say(&plan["title"]);
    say(&plan["track"]["name"]);
    let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
    for key in ["notes", "etiquette", "cautions", "warnings"] {
        list(&plan[key]).iter().for_each(&mut say);
    }
    for cone in list(&plan["setup"]) {
        say(&cone["spot"]["words"]);
        say(&cone["for"]);
    }
    for block in list(&plan["blocks"]) {
        say(&block["text"]);
        say(&block["coach"]["words"]);
        list(&block["remarks"]).iter().for_each(&mut say);
        for rep in list(&block["reps"]) {
            say(&rep["start"]["words"]);
            say(&rep["finish"]["words"]);
            say(&rep["run_in"]["words"]);
            list(&rep["athletes"]).iter().for_each(&mut say);
            list(&rep["cautions"]).iter().for_each(&mut say);
        }
    }
    said
}

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
fn the_splits_of_a_run_are_told_without_scripts() {
    let page = show!(made(&LONE), PHONE, Set { without_scripts: true, ..Set::default() });
    // 34 s for 200 m at an even pace.
    assert!(seen(&page).contains("100 m: 17 s"));
    assert!(seen(&page).contains("Distances assume the measure line"));
}

#[test]
fn nothing_is_asked_of_anywhere() {
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
