//! Names that look like something else are shown as they are written.

use serde_json::json;

use crate::browser::{PHONE, show};
use crate::made::{GROUND, made_of};
use crate::stub::STUBS;

const NAMES: [&str; 6] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(2)>",
    "#include <stdio.h>",
    "=HYPERLINK(\"http://127.0.0.1/\")",
    "</script><script>alert(3)</script>",
    "</title></style>&amp; 'n' {{ 7 * 7 }}",
];

#[test]
fn no_name_becomes_an_element() {
    let quoted = |name: &str| format!("'{}'", name.replace('\'', "''"));
    let athletes: Vec<String> = NAMES.iter().map(|name| quoted(name)).collect();
    let session = format!(
        "title: {}\ntrack: track.yaml\nwind: {}\nnotes: [{}]\ngroups:\n  - name: {}\n    athletes: [{}]\nblocks: [{}, '1 x 100 in lanes 2-7 @ 14']\n",
        athletes[5],
        athletes[1],
        athletes.join(", "),
        athletes[0],
        athletes.join(", "),
        quoted("warm-up <b>bold</b> </option>"),
    );
    let track = format!(
        "closed_lanes: {{ lanes: [1], reason: {} }}\nhazards: [{{ kind: gate, from: 60, to: 50, side: outside, note: {} }}]\n",
        athletes[0], athletes[1]
    );
    let track = GROUND.replace("Ground", &athletes[4]) + &track;
    let page = show!(made_of(&track, &session), PHONE, STUBS);
    assert_eq!(page.text("document.title"), NAMES[5]);
    assert_eq!(page.text("document.querySelector('#plan h1').textContent"), NAMES[5]);
    let sorted = |names: &str| {
        page.value(&format!("[...document.querySelectorAll('{names}')].map((one) => one.textContent).sort()"))
    };
    let mut names = NAMES;
    names.sort_unstable();
    assert_eq!(sorted("#names .who"), json!(names));
    assert_eq!(
        page.value("[...document.querySelectorAll('.notes')][0].querySelectorAll('li').length >= 6"),
        true
    );
    let facts = page.text("document.querySelector('.facts').textContent");
    assert!(facts.contains(NAMES[4]) && facts.contains(NAMES[1]), "{facts}");
    assert!(page.text("document.querySelector('.care').textContent").contains(NAMES[0]));
    let strange =
        || page.value("[...document.querySelectorAll('img, b, iframe, script')].map((one) => one.type)");
    let own = json!(["", "application/json", ""]);
    assert_eq!(strange(), own, "only the page's own data and scripts");
    let known = page.value("JSON.parse(document.getElementById('data').textContent).sessions[0].title");
    assert_eq!(known, NAMES[5]);
    // What the script writes is text too: in the menu, on the screen, beside the boxes, in the lanes.
    page.tap("#menu-open");
    assert_eq!(
        page.text("document.querySelector('#choose option').textContent"),
        "Block 1, <script>alert(1)</script>: warm-up <b>bold</b> </option>"
    );
    page.tap("#menu-close");
    page.tap("#go");
    page.set_clock(10_000);
    page.tap_go_at(24_000);
    assert!(page.text("document.getElementById('said').textContent").contains(NAMES[0]));
    page.set_clock(40_000);
    assert!(page.text("document.getElementById('ticker').textContent").contains(NAMES[0]));
    page.times("s1-b2");
    assert_eq!(sorted("#tables .who"), json!(names));
    page.part("plan");
    page.tap(".open-strips");
    assert_eq!(strange(), own);
    page.part("times");
    page.tap("#clear");
    assert!(page.question().contains(NAMES[5]), "{}", page.question());
    assert_eq!(strange(), own);
    assert_eq!(page.dialogs(), [""; 0]);
}
