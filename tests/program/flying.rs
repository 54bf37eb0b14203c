//! Flying runs: the go is when they set off, and the time is taken from the start of the run.

use snapbox::str;

use crate::answer::{list, number, parsed};
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
    folder.toeline(&["plan", "flying.yaml"]).assert().success().stdout_eq(str![[r#"
Top speed
Track: standard
Lasts 4:26.8

Block 1, sprinters: 2 × flying 30 m with 20 m run-in in lanes 4, 5, 4 min rest
───────────────────────────────────────────────────────────────────────────
 Reps   Lane      Metres   Stand                    Finish
═══════════════════════════════════════════════════════════════════════════
 1, 2   4 and 5       30   on the 80 m start line   on the 50 m start line
───────────────────────────────────────────────────────────────────────────
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
- Run-in in lanes 4 and 5: on the 100 m start line
- Coach: outside lane 8, level with the finish in lane 4: on the 50 m start
  line.
! To finish on the finish line in lane 4, start 2.30 m past the 8th blue tick.
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
