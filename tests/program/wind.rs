//! Runs with the wind and against it: the wind decides which way they go.

use serde_json::Value;
use snapbox::str;

use crate::answer::{list, texts};
use crate::console::refused;
use crate::folder::Folder;

/// The plan of a block under a wind, as the session file writes it.
fn plan(wind: &str, block: &str) -> Value {
    let session = format!("title: Wind\n{wind}\nblocks: [{block}]\n");
    Folder::with("session.yaml", session).json(&["plan", "session.yaml"])
}

/// Whether all runs of a plan go the other way; they all go one way.
fn goes_the_other_way(plan: &Value) -> bool {
    let ways = list(&plan["blocks"][0]["reps"]).iter().map(|rep| rep["the_other_way"] == true);
    let ways: Vec<bool> = ways.collect();
    assert!(ways.iter().all(|way| *way == ways[0]), "{plan}");
    ways[0]
}

#[test]
fn the_wind_decides_which_way_a_straight_is_run() {
    for (wind, against, with) in [
        ("wind: { on: home straight, from: ahead, m_s: 3 }", false, true),
        ("wind: { on: home straight, from: behind }", true, false),
        // What is from ahead on one straight is from behind on the other.
        ("wind: { on: back straight, from: behind, m_s: 1.5 }", false, true),
        ("wind: 3 m/s against on the home straight", false, true),
        ("wind: light, from behind on the home straight", true, false),
        ("wind: headwind on the back straight", true, false),
    ] {
        for (block, the_other_way) in
            [("4 x 60 in lane 4 against the wind", against), ("4 x 60 in lane 4 with the wind", with)]
        {
            let plan = plan(wind, block);
            assert_eq!(goes_the_other_way(&plan), the_other_way, "{wind}, {block}");
            assert!(!texts(&plan["warnings"]).iter().any(|words| words.contains("wind")), "{wind}: {plan}");
        }
    }
}

#[test]
fn a_wind_that_is_not_known_is_assumed_and_said() {
    for wind in ["", "wind: gusty", "wind: from behind on the home straight, later against"] {
        for (block, the_other_way) in
            [("60 in lane 4 into the wind", true), ("60 in lane 4 with the wind", false)]
        {
            let plan = plan(wind, block);
            assert_eq!(goes_the_other_way(&plan), the_other_way, "{wind}, {block}");
            assert!(
                texts(&plan["warnings"]).iter().any(|words| words.contains("assumes a wind from behind")),
                "{wind}: {plan}"
            );
        }
    }
}

#[test]
fn a_run_too_long_for_a_straight_goes_anticlockwise_and_says_so() {
    let plan = plan("wind: { on: home straight, from: ahead }", "200 in lane 4 with the wind");
    assert!(!goes_the_other_way(&plan));
    assert!(texts(&plan["warnings"]).iter().any(|words| words.contains("too long")), "{plan}");
}

#[test]
fn a_wind_that_turns_is_a_late_change() {
    let session = "title: Wind\nwind: { on: home straight, from: behind }\nblocks: [4 x 60 in lane 4 against the wind]\n";
    let folder = Folder::with("session.yaml", session);
    assert!(goes_the_other_way(&folder.json(&["plan", "session.yaml"])));
    let turned = folder.json(&["plan", "session.yaml", "--wind", "3 m/s against on the home straight"]);
    assert!(!goes_the_other_way(&turned));
    assert_eq!(turned["changes"][0]["kind"], "wind");
    folder.toeline(&["plan", "session.yaml", "--wind", "gusty"]).assert().code(2);
}

#[test]
fn a_wind_that_makes_no_sense_is_refused() {
    refused(str![[r#"
# a straight that is none
$ cat session.yaml
title: Wind
wind: { on: bend, from: ahead }
blocks: [60 against the wind]
$ toeline plan session.yaml
error: `bend` is not a valid `on`
 --> session.yaml:2:13
  |
2 | wind: { on: bend, from: ahead }
  |             ^^^^
  |
help: write one of `home straight`, `back straight`

# from neither end
$ cat session.yaml
title: Wind
wind: { on: home straight, from: left }
blocks: [60 against the wind]
$ toeline plan session.yaml
error: `left` is not a valid `from`
 --> session.yaml:2:34
  |
2 | wind: { on: home straight, from: left }
  |                                  ^^^^
  |
help: write one of `ahead`, `behind`

# a strength that no wind has
$ cat session.yaml
title: Wind
wind: { on: home straight, from: ahead, m_s: -3 }
blocks: [60 against the wind]
$ toeline plan session.yaml
error: a wind of -3 m/s is out of range: 0 m/s to 40 m/s
 --> session.yaml:2:7
  |
2 | wind: { on: home straight, from: ahead, m_s: -3 }
  |       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^

# a number alone
$ cat session.yaml
title: Wind
wind: 3
blocks: [60 against the wind]
$ toeline plan session.yaml
error: `wind` must be text, not `3`
 --> session.yaml:2:7
  |
2 | wind: 3
  |       ^

"#]]);
}
