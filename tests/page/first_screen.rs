//! The first screen answers where to stand and where to finish, and its one button stays where it is.

use serde_json::{Value, json};

use crate::browser::{LOW, PHONE, Set, Shown, TALL, show};
use crate::made::{CLUB_EVENING, LONE, SPRINTERS, made, made_of_wrenbeck};
use crate::stub::{CLOCK, STUBS};
use crate::wrenbeck::WRENBECK;

const SCREENS: [(u32, u32); 3] = [LOW, PHONE, TALL];

/// Where the button is, once it is seen that all of it can be tapped and that nothing scrolls.
fn go_at(page: &Shown, when: &str) -> Value {
    let found = page.value(
        "(() => {
            const go = document.getElementById('go');
            const { left, top, right, bottom, height } = go.getBoundingClientRect();
            const corners = [[left, top], [right, top], [left, bottom], [right, bottom]];
            // Round corners are no part of it.
            const inwards = ([x, y]) => [x + (x === left ? 20 : -20), y + (y === top ? 20 : -20)];
            const isHit = ([x, y]) => go.contains(document.elementFromPoint(x, y));
            const isIn = left >= 0 && top >= 0 && right <= innerWidth && bottom <= innerHeight;
            const fits = go.scrollWidth <= go.clientWidth;
            return {
                at: [left, top, right, bottom],
                is_seen: isIn && corners.map(inwards).every(isHit),
                is_large: height >= 72,
                fits,
                scrolls: document.scrollingElement.scrollHeight - innerHeight,
            };
        })()",
    );
    assert_eq!(found["is_seen"], true, "{when}: all of it is seen: {found}");
    assert_eq!(found["is_large"], true, "{when}: {found}");
    assert_eq!(found["fits"], true, "{when}: its words fit: {}", page.go_words());
    assert_eq!(found["scrolls"], 0, "{when}: nothing scrolls");
    found["at"].clone()
}

#[test]
fn the_button_of_a_lone_workout_never_moves() {
    for screen in SCREENS {
        let page = show!(made(&LONE), screen, STUBS);
        let first = go_at(&page, "opened");
        let stays = |when: &str| assert_eq!(go_at(&page, when), first, "{when} {screen:?}");
        page.tap("#go");
        stays("a countdown");
        page.set_clock(10_000);
        stays("a go");
        page.set_clock(4_000_000);
        stays("an hour on the clock");
        page.reload();
        stays("a reload while it runs");
        page.tap("#go");
        stays("a stop");
        page.menu("Stop the countdown");
        page.set_clock(4_020_000);
        stays("the next run");
        page.type_into("s1-b1-r2-l1-1", "34.2");
        stays("a typed time");
        page.menu("Start now, without a countdown");
        stays("a start by hand");
        page.menu("False start: cancel this clock");
        stays("a cancelled clock");
        page.reload();
        stays("a reload");
    }
}

#[test]
fn the_button_of_a_club_evening_never_moves() {
    for screen in SCREENS {
        let page = show!(made(&CLUB_EVENING), screen, STUBS);
        let first = go_at(&page, "opened");
        let stays = |when: &str| assert_eq!(go_at(&page, when), first, "{when} {screen:?}");
        page.tap("#go");
        stays("a countdown");
        page.set_clock(10_000);
        stays("a go");
        page.set_clock(25_000);
        stays("a wave that overlaps");
        page.tap("#others button");
        stays("the other wave is chosen");
        page.reload();
        stays("a reload while two waves run");
        page.tap_name_at(221_000, "Otis");
        stays("a name is tapped");
        page.set_clock(232_000);
        page.tap("#go");
        stays("the rest is stopped");
        page.type_into("s1-b4-r2-l1-1", "3:31.4");
        stays("a typed time");
        page.set_clock(310_000);
        page.set_clock(335_000);
        stays("three waves and another group");
        page.set_clock(345_000);
        stays("four waves");
    }
}

#[test]
fn nothing_moves_under_a_thumb_while_a_clock_runs() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    let places = || {
        page.value(
            "[...document.querySelectorAll('#names .name, #go, #ends, #rep, .sketch svg, #menu-open')]
               .map((one) => JSON.stringify(one.getBoundingClientRect()))",
        )
    };
    let before = places();
    page.tap("#go");
    page.set_clock(10_000);
    page.set_clock(22_300);
    assert_eq!(page.go_words(), "Stop all 12.3");
    assert_eq!(places(), before);
    page.tap_name_at(23_000, "Bela");
    assert_eq!(places(), before);
    page.set_clock(3_733_400);
    assert_eq!(page.go_words(), "Stop the rest 62:03.4");
    assert_eq!(places(), before);
}

/// What is wrong with the screen of the run that is next, as a list of words.
const FAULTS: &str = "
    const screenFaults = () => {
        const faults = [];
        const byId = (id) => document.getElementById(id);
        const bar = byId('bar').getBoundingClientRect().top;
        const isIn = ({ left, top, right, bottom }) => left >= 0 && top >= 0 && right <= innerWidth && bottom <= bar + 0.5;
        for (const one of document.querySelectorAll('#rep, #what, #ends dt, #ends dd, #warning:not([hidden])')) {
            if (one.textContent !== '' && !isIn(one.getBoundingClientRect())) faults.push(`${one.textContent} is cut`);
        }
        for (const one of document.querySelectorAll('#ends dd')) {
            if (parseFloat(getComputedStyle(one).fontSize) < 19) faults.push(`${one.textContent} is small`);
        }
        const words = [...document.querySelectorAll('#ends dt')].map((one) => one.textContent);
        if (!words.includes('Stand') || !words.includes('Finish')) faults.push(`rows: ${words}`);
        const go = byId('go').getBoundingClientRect();
        if (go.bottom > innerHeight || go.height < 72) faults.push('the button is cut');
        const picture = byId('picture');
        const isShown = picture.getClientRects().length > 0;
        if (byId('ways').getAttribute('d') === '') faults.push('no way is drawn');
        if (isShown) {
            const scale = picture.getScreenCTM().a;
            const [stand, finish] = ['stand-word', 'finish-word'].map(byId);
            for (const word of [stand, finish]) {
                const size = parseFloat(getComputedStyle(word).fontSize) * scale;
                if (size < 14) faults.push(`${word.textContent} is ${size} px`);
                const { left, top, right, bottom } = word.getBoundingClientRect();
                const sketch = picture.getBoundingClientRect();
                if (left < sketch.left - 0.5 || top < sketch.top - 0.5 || right > sketch.right + 0.5 || bottom > sketch.bottom + 0.5)
                    faults.push(`${word.textContent} is cut`);
            }
            const [a, b] = [stand.getBoundingClientRect(), finish.getBoundingClientRect()];
            // Half of the line above and below the letters is empty.
            const lead = a.height / 4;
            if (a.left < b.right && b.left < a.right && a.top + lead < b.bottom - lead && b.top + lead < a.bottom - lead)
                faults.push('the words of the picture overlap');
        }
        return { faults, isShown };
    };";

/// Every run of a page in turn, as it is next: its block and name, what is wrong, whether the picture is shown.
fn every_run(page: &Shown) -> Vec<(String, Vec<String>, bool)> {
    let found = page.value(&format!(
        "(() => {{
            {FAULTS}
            const byId = (id) => document.getElementById(id);
            const listed = (list) => {{
                byId('menu-open').click();
                const values = [...(byId(list)?.options ?? [])].map((one) => one.value);
                byId('menu-close').click();
                return values;
            }};
            const pick = (list, value) => {{
                byId('menu-open').click();
                byId(list).value = value;
                byId(list).dispatchEvent(new Event('change'));
                byId('menu-close').click();
            }};
            const found = [];
            const look = () => {{
                const {{ faults, isShown }} = screenFaults();
                found.push([`${{byId('head').textContent}}: ${{byId('rep').textContent}}`, faults, isShown]);
            }};
            for (const block of listed('choose')) {{
                pick('choose', block);
                if (byId('go').dataset.kind === 'done') continue;
                const runs = listed('choose-run');
                if (runs.length === 0) look();
                for (const run of runs) {{
                    pick('choose-run', run);
                    look();
                }}
            }}
            return found;
        }})()"
    ));
    serde_json::from_value(found).expect("it is as it was asked for")
}

fn answers(names: &[&str], screen: (u32, u32), needs_picture: bool) {
    let mut found: Vec<String> = Vec::new();
    for name in names {
        let page = show!(made_of_wrenbeck(name), screen, STUBS);
        let runs = every_run(&page);
        assert!(!runs.is_empty() || *name == "sunday-easy", "{name} has runs");
        for (run, faults, has_picture) in runs {
            found.extend(faults.iter().map(|fault| format!("{name}, {run}: {fault}")));
            if needs_picture && !has_picture {
                found.push(format!("{name}, {run}: no picture"));
            }
        }
    }
    assert_eq!(found, [""; 0], "{screen:?}");
}

#[test]
fn stand_and_finish_are_on_the_first_screen_of_every_run() {
    answers(&WRENBECK, PHONE, true);
}

#[test]
fn stand_and_finish_are_on_the_lowest_screen_too() {
    answers(&WRENBECK, LOW, false);
}

#[test]
fn stand_and_finish_are_on_a_tall_screen_too() {
    answers(&WRENBECK[..6], TALL, true);
}

#[test]
fn the_first_screen_says_what_is_run() {
    let page = show!(made(&LONE), PHONE, STUBS);
    assert_eq!(page.words("#head"), "6 × 200 m @ 34 s in lane 2, 3 min rest");
    assert_eq!(page.words("#rep"), "Rep 1 of 6");
    assert_eq!(page.words("#what"), "200 m in 34 s, rest 3:00");
    let ends = page.value(
        "[...document.querySelectorAll('#ends div')].map((one) => one.innerText.split('\\n').join(' '))",
    );
    assert_eq!(ends, json!(["Stand on the 200 m start line", "Finish on the finish line"]));
    let words = page.value("[...document.querySelectorAll('#picture text')].map((one) => one.textContent)");
    assert_eq!(words, json!(["STAND", "FINISH"]));
}

#[test]
fn before_any_time_it_says_what_changed_and_what_is_done_first() {
    let late = [SPRINTERS[0], SPRINTERS[1], "--without", "Cleo", "--closed", "8"];
    for screen in SCREENS {
        let page = show!(made(&late), screen, STUBS);
        let words = page.words("#ticker");
        assert!(words.starts_with("Changed: without Cleo; lane 8 closed"), "{words}");
        assert!(words.contains(" First: "), "{words}");
        // Two lines of it are seen, and it stays as high when it gives way to a time.
        let line = "document.getElementById('line').clientHeight";
        let before = page.value(line);
        page.tap("#go");
        page.set_clock(10_000);
        page.tap_go_at(44_000);
        page.set_clock(70_000);
        assert!(!page.words("#ticker").contains("Changed"), "{}", page.words("#ticker"));
        assert_eq!(page.value(line), before, "{screen:?}");
    }
}

#[test]
fn the_one_warning_is_what_breaks_the_plan_and_stands_above_the_button() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    let warning = page.words("#warning");
    assert!(
        warning.starts_with("Lane 2: 2:00 rest is too short to walk 186 m to the next start"),
        "{warning}"
    );
    let is_above = "document.getElementById('warning').getBoundingClientRect().bottom <= document.getElementById('bar').getBoundingClientRect().top";
    assert_eq!(page.value(is_above), true);
    // Nothing breaks the plan of one who passes a gate; where nothing is to be said nothing is.
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    assert!(page.words("#warning").starts_with("Take care: "), "{}", page.words("#warning"));
    let page = show!(made(&LONE), PHONE, STUBS);
    assert_eq!(page.words("#warning"), "");
}

/// WCAG 2.2, 1.4.4: with text of twice the size nothing is lost.
#[test]
fn with_text_twice_as_large_nothing_is_lost_and_nothing_moves_sideways() {
    const TWICE: Set = Set {
        scripts: &[
            CLOCK,
            "addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '200%'; })",
        ],
        without_scripts: false,
        dark: false,
    };
    for arguments in [&LONE, &CLUB_EVENING] {
        let page = show!(made(arguments), PHONE, TWICE);
        page.tap("#go");
        page.set_clock(10_000);
        for part in ["run", "times", "plan"] {
            page.part(part);
            let width = page.value("document.documentElement.scrollWidth");
            assert_eq!(width, 390, "{part} of {arguments:?}");
            let wide = page.value(
                "[...document.querySelectorAll('body *')]
                   .filter((one) => !one.closest('svg, .line, .head, .name') && one.getBoundingClientRect().right > 390.5)
                   .map((one) => one.outerHTML.slice(0, 200))",
            );
            assert_eq!(wide, json!([]), "{part} of {arguments:?}");
        }
        page.part("run");
        let lost = page.value(
            "[...document.querySelectorAll('#rep, #what, #ends dd, #names .name, #go, #menu-open, #to-times, #to-plan')]
               .filter((one) => one.getClientRects().length > 0)
               .filter((one) => {
                   one.scrollIntoView({ block: 'center', behavior: 'instant' });
                   const { top, bottom, height, left, width } = one.getBoundingClientRect();
                   const hit = document.elementFromPoint(left + width / 2, top + height / 2);
                   return top < -0.5 || bottom > innerHeight + 0.5 || !(one.contains(hit) || hit?.contains(one));
               }).map((one) => one.outerHTML.slice(0, 200))",
        );
        assert_eq!(lost, json!([]), "{arguments:?}");
    }
}
