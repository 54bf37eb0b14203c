//! Flying runs: the go is when they set off, and the time is taken from the start of the run.

use snapbox::str;

use crate::answer::{json, list, number, parsed};
use crate::folder::Folder;

const FLYING: &str = "\
title: Top speed
groups:
  - name: sprinters
    athletes: [{ name: Ada, target: 3.4 }, { name: Bea, target: 3.9 }, { name: Cyd, target: 4.4 }]
blocks:
  - 2 x flying 30 with 20 run-in in lanes 4,5 rest 4min
";

#[test]
fn a_flying_run_goes_when_its_runners_set_off() {
    let folder = Folder::with("flying.yaml", FLYING);
    folder.toeline(&["plan", "--full", "flying.yaml"]).assert().success().stdout_eq(str![[r#"
Top speed
Track: standard
Lasts 4:26.8

Block 1, sprinters: 2 × flying 30 m with 20 m run-in in lanes 4, 5, 4 min rest
─────────────────────────────────────────────────────────────────────────────
 Reps   Lane      Metres   Stand          Fast from        Finish
═════════════════════════════════════════════════════════════════════════════
 1, 2   4 and 5       30   on the 100 m   the 80 m start   on the 50 m start
                           start line     line             line
─────────────────────────────────────────────────────────────────────────────
Total 60 m for each athlete.

Who goes when
────────────────────────────────────────────────────────────────────────────
 Go       Rep   Wave   Lane: who        From               In at
════════════════════════════════════════════════════════════════════════════
 0 s      1     1      4: Bea; 5: Cyd   100 m start line   7.9 s to 9.4 s
 10 s     1     2      4: Ada           100 m start line   17.4 s
 4:09.4   2     1      4: Cyd; 5: Bea   100 m start line   4:17.3 to 4:18.8
 4:19.4   2     2      5: Ada           100 m start line   4:26.8
────────────────────────────────────────────────────────────────────────────
- Bea 3.9 s: wave 1, lanes 4-5
- Cyd 4.4 s: wave 1, lanes 5-4
- Ada 3.4 s: wave 2, lanes 4-5
- Coach: outside lane 8, level with the finish in lane 4: on the 50 m start
  line.
! To finish on the finish line in lane 4, stand on the 50 m start line, fast
  from 2.30 m past the 8th blue tick.
! Go is when they set off: 4 to 5 s for the 20 m run-in.
! 2 waves: 2 and 1 in lanes 4 and 5, 4½ min.

Please note
- Start by arm, not by whistle: sound takes 0.1 s to the 30 m start.

No cones: paint shows every place.

[CAUTIONS]

"#]]);
}

#[test]
fn the_rest_after_a_flying_run_is_kept_whole() {
    let folder = Folder::with("flying.yaml", FLYING);
    let plan = parsed(&folder.toeline(&["plan", "flying.yaml", "--format", "json"]).assert());
    for rep in list(&plan["blocks"][0]["reps"]) {
        let lasts_s = number(&rep["done_s"]) - number(&rep["go_s"]);
        let target_s = number(&rep["target_s"]);
        // From standing, 20 m take longer than at the speed of the run.
        assert!(lasts_s > target_s + target_s / 30.0 * 20.0, "{rep}");
        assert!(lasts_s < target_s + 5.001, "{rep}");
        if rep["rep"] == 1 {
            assert!(number(&rep["rest_s"]) >= 240.0 - 1e-6, "{rep}");
        }
    }
}

#[test]
fn a_cycle_shorter_than_a_flying_run_with_its_run_in_is_questioned() {
    let session = FLYING.replace("rest 4min", "off 7s");
    let folder = Folder::with("flying.yaml", &session);
    folder.toeline(&["plan", "flying.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: a cycle of 7 s is shorter than Ada's run, which takes 7.4 s
 --> flying.yaml:6:9
  |
6 |   - 2 x flying 30 with 20 run-in in lanes 4,5 off 7s
  |         ^^^^^^^^^^^^^^^^^^^^^^^^
  |
help: write a longer cycle, or a rest; to plan it all the same, use `--force`, or `force: true` in a session file

"#]]);
}

#[test]
fn a_jog_before_a_flying_run_ends_where_its_runner_stands() {
    let plan = json(&["plan", "2 x flying 60 with 20 run-in on the oval in lane 3 jog exactly 100"]);
    let reps = list(&plan["blocks"][0]["reps"]);
    let from_line_m = |spot: &serde_json::Value| number(&spot["from_finish_line_m"]);
    // Lane 3 is 414.70 m round; the first finishes on the finish line.
    assert_eq!(from_line_m(&reps[0]["finish"]), 0.0);
    assert!((from_line_m(&reps[1]["run_in"]) - 100.0).abs() < 1e-6, "{}", reps[1]);
    assert!((from_line_m(&reps[1]["start"]) - 120.0).abs() < 1e-6, "{}", reps[1]);
    assert_eq!(number(&reps[0]["recovery_m"]), 100.0);
}

#[test]
fn a_jog_moves_no_hurdles() {
    let plan = json(&["plan", "2 x 100h to hurdle 3 in lane 4 jog 350"]);
    let reps = list(&plan["blocks"][0]["reps"]);
    assert_eq!(reps[0]["start"], reps[1]["start"]);
    assert_eq!(reps[1]["start"]["words"], "on the 100 m start line");
}

#[test]
fn every_view_says_where_to_stand_and_where_the_fast_part_begins() {
    let folder = Folder::with("flying.yaml", FLYING);
    for (file, words) in [
        (
            "plan.md",
            "stand on the 100 m start line, fast from the 80 m start line, finish on the 50 m start line",
        ),
        ("plan.html", "<dt>Stand</dt><dd>on the 100 m start line</dd>"),
        ("plan.html", "<dt>Fast from</dt><dd>the 80 m start line</dd>"),
    ] {
        folder.toeline(&["plan", "flying.yaml", "--out", file]).assert().success();
        let text = folder.read(file);
        assert!(text.contains(words), "{file}: {text}");
    }
}
