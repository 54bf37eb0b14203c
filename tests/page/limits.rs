//! What a browser will not do is said, and the page does the rest.

use crate::browser::{PHONE, Set, show};
use crate::made::{LONE, made};
use crate::stopwatch::start_at;
use crate::stub::CLOCK;

const KEEPS_NOTHING: &str = "This browser keeps no times: save them as CSV before you leave the page.";
const GOES_DARK: &str = "This browser lets the screen go dark: set the phone to stay on while you time.";

const fn with(scripts: &'static [&'static str]) -> Set {
    Set { scripts, without_scripts: false, dark: false }
}

const DENIED: &str = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError') } });";

const FULL: &str = "Storage.prototype.setItem = new Proxy(Storage.prototype.setItem, {
    apply(set, storage, values) {
        if (storage === window.localStorage) throw new DOMException('full', 'QuotaExceededError');
        return set.apply(storage, values);
    },
});";

#[test]
fn where_a_browser_keeps_nothing_the_page_says_so_and_clocks_all_the_same() {
    for set in [with(&[CLOCK, DENIED]), with(&[CLOCK, FULL])] {
        let page = show!(made(&LONE), PHONE, set);
        assert_eq!(page.notice(), KEEPS_NOTHING);
        page.tap("#notice-ok");
        assert_eq!(page.notice(), "");
        start_at(&page, 0);
        page.tap_go_at(34_200);
        assert_eq!(page.in_box("s1-b1-r1-l1-1"), "34.2");
        assert_eq!(
            page.kept(),
            "1 of 6 times taken. This browser keeps nothing: save the times before you leave the page."
        );
    }
}

#[test]
fn a_browser_that_can_do_everything_says_nothing() {
    let page = show!(made(&LONE), PHONE, with(&[CLOCK]));
    assert_eq!(page.notice(), "");
    start_at(&page, 0);
    page.wait("lit");
    page.tap_go_at(34_200);
    assert_eq!(page.notice(), "");
}

#[test]
fn where_the_screen_cannot_be_kept_lit_the_page_says_so_once_it_matters() {
    let unable = with(&[CLOCK, "delete navigator.wakeLock; delete Navigator.prototype.wakeLock;"]);
    let page = show!(made(&LONE), PHONE, unable);
    assert_eq!(page.value("'wakeLock' in navigator"), false);
    assert_eq!(page.notice(), "");
    start_at(&page, 0);
    assert_eq!(page.notice(), GOES_DARK);
    page.tap("#notice-ok");
    page.tap_go_at(34_200);
    assert_eq!(page.notice(), "", "it is said once");
}

#[test]
fn a_browser_that_refuses_to_stay_lit_is_asked_once_a_tap() {
    let page = show!(made(&LONE), PHONE, with(&[CLOCK, "window.refuses = true"]));
    page.tap("#go");
    page.wait("asked === 1");
    for ms in 1..=50 {
        page.set_clock(100 * ms);
    }
    assert_eq!(page.value("asked"), 1);
    assert_eq!(page.notice(), GOES_DARK);
    page.tap("#notice-ok");
    page.tap_go_at(6_000);
    page.wait("asked === 2");
    page.set_clock(6_100);
    page.set_clock(6_200);
    assert_eq!(page.value("asked"), 2);
    assert_eq!(page.notice(), "", "it is said once");
}

/// Old phones get no new browsers: none of these functions is needed.
const OLDER: &str = "
    for (const name of ['at', 'findLast', 'findLastIndex', 'toReversed', 'toSorted', 'toSpliced', 'with']) delete Array.prototype[name];
    for (const name of ['at', 'matchAll', 'replaceAll', 'isWellFormed']) delete String.prototype[name];
    delete Element.prototype.replaceChildren; delete Document.prototype.replaceChildren;
    delete Element.prototype.checkVisibility;
    delete Object.hasOwn; delete Object.groupBy; delete Promise.any; delete Promise.allSettled;
    delete window.structuredClone; delete window.queueMicrotask; delete crypto.randomUUID;";

#[test]
fn a_browser_without_newer_functions_shows_and_clocks_all_the_same() {
    let page = show!(made(&LONE), PHONE, with(&[CLOCK, OLDER]));
    page.tap("#go");
    assert_eq!(page.go_words(), "Go in 10 s tap: go now");
    page.tap_go_at(5_000);
    page.tap_go_at(39_200);
    assert_eq!(page.times("s1-b1")[0], "34.2");
    page.part("plan");
    page.part("run");
    page.menu("Undo 34.2");
    page.choose("choose-rest", "by the timetable");
    page.reload();
    assert_eq!(page.go_words(), "Stop 34.2");
}

/// The page with the device's own clock, sounds and screen.
#[test]
fn the_device_s_own_clock_is_read() {
    let page = show!(made(&LONE), PHONE, Set::default());
    page.menu("Start now, without a countdown");
    page.wait("parseFloat(document.getElementById('go-beside').textContent) > 1.1");
    page.tap("#go");
    let taken: f64 = page.in_box("s1-b1-r1-l1-1").parse().expect("it is a time");
    assert!(taken > 1.1 && taken < 60.0, "{taken}");
}
