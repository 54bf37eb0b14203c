//! One coach who times groups that finish in several places.

use serde_json::Value;

use crate::answer::{list, texts};
use crate::folder::Folder;

/// Hurdlers whose runs end at the third hurdle, and milers on the finish line, at the same time or one after the other.
fn plan(timers: &str, late: &str) -> Value {
    let text = format!(
        "\
title: One coach
hours: 18:00-19:00
squad: {{ timers: {timers} }}
groups:
  - name: hurdlers
    athletes: [Ada, Bela]
    blocks: [4 x 110h to hurdle 3 in lanes 6-7 @ 6.5 rest 2min]
  - name: milers
    {late}
    athletes: [Cy, Di]
    blocks: [4 x 200 in lane 2 @ 34 rest 2min]
"
    );
    Folder::with("s.yaml", text).json(&["plan", "s.yaml"])
}

/// Whether a block says that nobody times it, and whether it has a place for the coach.
fn of_block(plan: &Value, group: &str) -> (bool, bool) {
    let block = list(&plan["blocks"]).iter().find(|block| block["group"] == group).expect("it is there");
    let says = texts(&block["remarks"])
        .iter()
        .any(|words| words.starts_with("Nobody times it: the one coach is at"));
    (says, !block["coach"].is_null())
}

#[test]
fn one_coach_is_sent_to_one_finish_at_a_time() {
    let together = plan("one", "");
    assert_eq!(of_block(&together, "hurdlers"), (true, false), "{together}");
    assert_eq!(of_block(&together, "milers"), (false, true));
    for plan in [plan("each group", ""), plan("one", "late: 18:30")] {
        assert_eq!(of_block(&plan, "hurdlers"), (false, true));
        assert_eq!(of_block(&plan, "milers"), (false, true));
    }
}

#[test]
fn the_coach_of_the_club_evening_stays_at_the_finish_line() {
    let plan = crate::answer::json(&["plan", "sessions/wrenbeck/saturday-club-evening.yaml"]);
    for block in list(&plan["blocks"]).iter().filter(|block| !block["coach"].is_null()) {
        assert!(
            block["coach"]["words"]
                .as_str()
                .is_some_and(|words| words.ends_with("level with the finish line"))
        );
    }
    let alone: Vec<&str> = list(&plan["blocks"])
        .iter()
        .flat_map(|block| texts(&block["remarks"]))
        .filter(|words| words.starts_with("Nobody times it"))
        .collect();
    assert_eq!(
        alone,
        [
            "Nobody times it: the one coach is at another finish with blocks 4 and 5. With a coach for each group, say so (a watch for each group; timers in a session file).",
            "Nobody times it: the one coach is at another finish with blocks 8 and 9. With a coach for each group, say so (a watch for each group; timers in a session file)."
        ]
    );
}
