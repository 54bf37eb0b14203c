//! What a phone keeps outlives a new page.

use serde_json::{Value, json};
use tempfile::TempDir;

use crate::browser::{PHONE, Set, show};
use crate::made::{LONE, Made, SPRINTERS, made};
use crate::stub::STUBS;
use crate::wrenbeck::session;

/// What the script knows of the first session of a page.
fn data(made: &Made) -> Value {
    let page = std::fs::read_to_string(&made.path).expect("the page was written");
    let data = page.split("id=\"data\">").nth(1).and_then(|rest| rest.split("</script>").next());
    let data: Value = serde_json::from_str(data.expect("there is a data block")).expect("it is JSON");
    data["sessions"][0].clone()
}

/// A session of Wrenbeck, whose file asks for the places that it had before runs finished on the finish line and
/// recoveries went on to places that are there.
pub(crate) fn as_planned_before(name: &str) -> TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let text = std::fs::read_to_string(session(name)).expect("it is there").replace(" jog ", " jog exactly ");
    let prefer = if text.contains("prefer:") { "" } else { "prefer: fewest tapes\n" };
    std::fs::write(folder.path().join("session.yaml"), text + prefer).expect("the folder can be written");
    let track = folder.path().join("track.yaml");
    std::fs::copy("sessions/wrenbeck/track.yaml", track).expect("the folder can be written");
    folder
}

/// The keys that pages had when they were made from the words of a plan, as such pages had them.
#[test]
fn the_old_key_is_found_whatever_is_said_of_a_place_today() {
    // Monday's groups have another plan since each has its own clock, and nothing kept for it is asked for again.
    let sessions = [
        ("tuesday-sprints", "1f03291424807cf04536e770"),
        ("wednesday-hurdles-and-relay", "6eb56531222a914be883aa74"),
        ("thursday-middle-distance", "0e5b7d3737ad89afb576a491"),
        ("friday-starts", "ede5653c8017ca6e2983d01e"),
        ("saturday-alone", "2c3e6a329d5588c1eba91561"),
        ("sunday-easy", "881aef422e59c5657df4e1c9"),
    ];
    for (name, old_key) in sessions {
        let folder = as_planned_before(name);
        let file = folder.path().join("session.yaml");
        let page = made(&["plan", file.to_str().expect("the path is UTF-8")]);
        assert_eq!(data(&page)["old_key"], old_key, "{name}");
    }
    let workouts = [
        ("150 in lane 4", "0736167d25bd7e7ee9502eed"),
        ("4 x 120 in lane 3 from the finish line", "2e2c2085c56157d5c2b01720"),
    ];
    for (text, old_key) in workouts {
        assert_eq!(data(&made(&["plan", text]))["old_key"], old_key, "{text}");
    }
}

/// What such a page of Tuesday's sprints wrote: four boxes were filled, and a clock ran for a second.
const BEFORE: &str = r#"{"times":{"b2-r1-l3-1":"8.1","b2-r1-l2-1":"DNS","b2-r1-l1-1":"8.4","b3-r1-l1-1":"19.9"},"clocks":{"b3-r2":{"start":1800000020000,"stopped":[]}},"zeros":{},"gone":{"b2-r1":true,"b3-r2":true}}"#;

#[test]
fn times_that_an_earlier_page_kept_are_taken_over_once() {
    // Pages in files share what the browser keeps.
    let page = show!(made(&LONE), PHONE, STUBS);
    let keep = format!("localStorage.setItem('toeline:1f03291424807cf04536e770', '{BEFORE}')");
    page.value(&keep);
    page.set_clock(21_000);
    page.reload();
    assert!(page.kept().starts_with("0 of 6 times taken"), "another plan");
    let folder = as_planned_before("tuesday-sprints");
    let file = folder.path().join("session.yaml");
    let sprints = made(&["plan", file.to_str().expect("the path is UTF-8")]);
    let new_key = format!("toeline:{}", data(&sprints)["key"].as_str().expect("it has a key"));
    page.go(&sprints.path);
    let times =
        || ["s1-b2-r1-l1-1", "s1-b2-r1-l2-1", "s1-b2-r1-l3-1", "s1-b3-r1-l1-1"].map(|id| page.in_box(id));
    assert_eq!(page.go_words(), "Stop all 1.0");
    assert_eq!(times(), ["8.4", "DNS", "8.1", "19.9"]);
    assert_eq!(page.value("Object.keys(localStorage)"), json!([new_key]));
    page.type_into("s1-b2-r1-l1-1", "8.3");
    // An old page that is still open in another tab keeps them again.
    page.value(&keep);
    page.reload();
    assert_eq!(times(), ["8.3", "DNS", "8.1", "19.9"]);
    page.part("times");
    page.tap("#clear");
    page.tap_words("#menu", "A new session");
    page.reload();
    assert_eq!(times(), [""; 4]);
}

#[test]
fn a_time_that_was_typed_is_still_there_after_a_reload_and_only_in_its_own_plan() {
    let (lone, other) = (made(&LONE), made(&["plan", "6 x 200 in lane 3 @ 34 rest 3min"]));
    let page = show!(lone, PHONE, Set::default());
    page.type_into("s1-b1-r2-l1-1", "33.9");
    page.reload();
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "33.9");
    assert_eq!(page.kept(), "1 of 6 times taken. Kept on this device.");
    page.go(&other.path);
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "");
    page.go(&page.made.path);
    assert_eq!(page.in_box("s1-b1-r2-l1-1"), "33.9");
}

#[test]
fn a_session_that_is_given_twice_has_two_sets_of_times() {
    let page = show!(made(&["plan", "200 in lane 2", "200 in lane 2"]), PHONE, Set::default());
    page.type_into("s1-b1-r1-l1-1", "33.9");
    page.reload();
    assert_eq!(page.in_box("s1-b1-r1-l1-1"), "33.9");
    page.part("plan");
    page.tap("#s2 .run-block");
    page.wait("document.documentElement.getAttribute('data-part') === 'run'");
    assert_eq!(page.in_box("s2-b1-r1-l1-1"), "");
}

#[test]
fn what_cannot_be_read_as_times_does_no_harm() {
    let made = made(&LONE);
    let key = format!("toeline:{}", data(&made)["key"].as_str().expect("it has a key"));
    let page = show!(made, PHONE, STUBS);
    let spoiled = [
        "no JSON",
        "[1, 2]",
        r#"{"times": {"b1-r1-l1-1": 3}, "clocks": {"b1-r1": "now", "b9-r9": {"start": 1}}, "zeros": {"b1": "x"}, "goes": {"b1-r2": null}, "choices": {"run": 7, "skipped": 3, "block": {}}, "earlier": [1, {"day": 3}]}"#,
    ];
    for spoiled in spoiled {
        page.value(&format!("localStorage.setItem('{key}', {spoiled:?})"));
        page.reload();
        assert_eq!(page.go_words(), "Start: go in 10 s", "{spoiled}");
        assert_eq!(page.times("s1-b1"), [""; 6], "{spoiled}");
    }
}

#[test]
fn cones_that_are_set_out_stay_ticked() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    page.part("plan");
    assert!(page.value("document.querySelectorAll('.set').length").as_u64() > Some(1));
    page.tap(".cones li:nth-child(2) label");
    page.reload();
    let ticked =
        page.value("[...document.querySelectorAll('.set')].flatMap((one, at) => (one.checked ? [at] : []))");
    assert_eq!(ticked, json!([1]));
}
