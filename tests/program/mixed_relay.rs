//! Blocks that mix exchanges with other runs: teams hand on, and everybody does the other runs.

use snapbox::str;

use crate::answer::texts;
use crate::folder::Folder;
use crate::venue::plan_of;

const SQUAD: &str = "\
title: Batons and sprints
groups:
  - name: sprinters
    bests: { 100: 12.0, 200: 24.6 }
    athletes: [{ name: Ada, target: 8.1 }, Bea, Cyd, Dan, Eve]
blocks:
  - 2 x (exchange zone 2 + 60) in lanes 4-6 rest 2min / 5min
";

#[test]
fn teams_hand_on_and_everybody_runs_the_rest_of_the_block() {
    let folder = Folder::with("mixed.yaml", SQUAD);
    folder.toeline(&["plan", "--full", "mixed.yaml"]).assert().success().stdout_eq(str![[r#"
Batons and sprints
Track: standard
Lasts about 9:56

Block 1, sprinters: 2 × (exchange in zone 2, 60 m) in lanes 4-6, 2 min rest, 5 min between sets
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane      Metres   Stand                          Finish
════════════════════════════════════════════════════════════════════════════════
 1, 3   4 and 5       30   on the entry of yellow zone    on the exit of yellow
                           2                              zone 2
 2, 4   4 to 6        60   on the 60 m start line         on the finish line
────────────────────────────────────────────────────────────────────────────────

Who goes when
───────────────────────────────────────────────────────────────────────────────
 Go      Rep   Wave   Lane: who                      From                In at
═══════════════════════════════════════════════════════════════════════════════
 ~0 s    1     1      4: Ada to Bea; 5: Cyd to Dan   run-in, 40 m back   9 s
 ~2:09   2     1      4: Ada; 5: Bea; 6: Cyd         60 m start line     2:18
 ~2:19   2     2      4: Dan; 5: Eve                 60 m start line     2:28
 ~7:28   3     1      4: Bea to Ada; 5: Eve to Cyd   run-in, 40 m back   7:37
 ~9:37   4     1      4: Ada; 5: Bea; 6: Cyd         60 m start line     9:46
 ~9:47   4     2      4: Dan; 5: Eve                 60 m start line     9:56
───────────────────────────────────────────────────────────────────────────────
- Ada to Bea: wave 1, run 1, lane 4
- Cyd to Dan: wave 1, run 1, lane 5
- Ada: wave 1, runs 2, 4, lane 4
- Bea: wave 1, runs 2, 4, lane 5
- Cyd: wave 1, runs 2, 4, lane 6
- Bea to Ada: wave 1, run 3, lane 4
- Eve to Cyd: wave 1, run 3, lane 5
- Dan: wave 2, runs 2, 4, lane 4
- Eve: wave 2, runs 2, 4, lane 5
- Run-in of run 1, 3 in lanes 4 and 5: cones 1–2, 10.00 m back from the 4th
  green tick
- Zone 2, 30 m: outgoing waits at its entry, incoming starts 40 m back.
- Check mark 7.5 m back, 25 feet, baton over about 11 m on: Ada to Bea and Bea
  to Ada (lane 4, cone 3); Cyd to Dan and Eve to Cyd (lane 5, cone 4).
- Coach: outside lane 8, level with the finish line.
! Runs 1, 3: 2 teams at once in lanes 4 and 5.
! Go times are about right only: no target given.
! Check marks are a start, from the two speeds: tune them on the track. Feet of
  0.30 m; tape, not a cone.
! Runs 2, 4: 2 waves: 3 and 2 in lanes 4 to 6.

Please note
- Start by arm, not by whistle: sound takes 0.2 s to the 60 m start.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
   Cone   Lane      Where                           Steps   For
════════════════════════════════════════════════════════════════════════════════
 1 to 2   4 and 5   10.00 m back from the 4th       13½     exchange run-in
                    green tick
 3 to 4   4 and 5   7.50 m back from the entry of   10      exchange check mark
                    yellow zone 2
────────────────────────────────────────────────────────────────────────────────
4 cones, 427 m, 6 min without taping.
1 step is 0.75 m.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Look both ways before you step on to the track; give way to runners.
- Keep clear of throws and jumps in use, and of kerb and water-jump edges.
- Baton practice: keep the lane clear, shout before you hand on, look behind
  before you slow down or leave the lane. The coach decides.
- Venue rules and staff come first. A qualified coach or a doctor judges load
  and pace.

"#]]);
}

#[test]
fn after_a_late_change_teams_and_athletes_are_counted_for_what_they_are() {
    let folder = Folder::with("mixed.yaml", SQUAD);
    let args = ["plan", "--full", "mixed.yaml", "--without", "Ada", "--reps", "Bea=2"];
    folder.toeline(&args).assert().success().stdout_eq(str![[r#"
Changed: without Ada; Bea does 2 reps.

Batons and sprints
Track: standard
Lasts about 9:46

Block 1, sprinters: 2 × (exchange in zone 2, 60 m) in lanes 4-6, 2 min rest, 5 min between sets
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane     Metres   Stand                    Finish
════════════════════════════════════════════════════════════════════════════════
 1, 3   4            30   on the entry of yellow   on the exit of yellow zone 2
                          zone 2
 1      5            30   on the entry of yellow   on the exit of yellow zone 2
                          zone 2
 2, 4   4 to 6       60   on the 60 m start line   on the finish line
────────────────────────────────────────────────────────────────────────────────

Who goes when
───────────────────────────────────────────────────────────────────────────────
 Go      Rep   Wave   Lane: who                      From                In at
═══════════════════════════════════════════════════════════════════════════════
 ~0 s    1     1      4: Bea to Cyd; 5: Dan to Eve   run-in, 40 m back   9 s
 ~2:09   2     1      5: Bea; 6: Cyd                 60 m start line     2:18
 ~2:19   2     2      4: Dan; 5: Eve                 60 m start line     2:28
 ~7:28   3     1      4: Eve to Dan                  run-in, 40 m back   7:37
 ~9:37   4     1      4: Dan; 5: Eve; 6: Cyd         60 m start line     9:46
───────────────────────────────────────────────────────────────────────────────
- Bea to Cyd: wave 1, run 1, lane 4
- Dan to Eve: wave 1, run 1, lane 5
- Bea: wave 1, run 2, lane 5
- Cyd: wave 1, runs 2, 4, lane 6
- Eve to Dan: wave 1, run 3, lane 4
- Dan: wave 1, run 4, lane 4
- Eve: wave 1, run 4, lane 5
- Dan: wave 2, run 2, lane 4
- Eve: wave 2, run 2, lane 5
- Run-in of run 1, 3 in lane 4: cone 1, 10.00 m back from the 4th green tick
- Run-in of run 1 in lane 5: cone 2, 10.00 m back from the 4th green tick
- Zone 2, 30 m: outgoing waits at its entry, incoming starts 40 m back.
- Check mark 7.5 m back, 25 feet, baton over about 11 m on: Bea to Cyd and Eve
  to Dan (lane 4, cone 3); Dan to Eve (lane 5, cone 4).
- Coach: outside lane 8, level with the finish line.
! Run 1: 2 teams at once in lanes 4 and 5.
! Go times are about right only: no target given.
! Check marks are a start, from the two speeds: tune them on the track. Feet of
  0.30 m; tape, not a cone.
! Run 2: 2 waves of 2 in lanes 4 to 6.
! Run 3: 1 team at once in lane 4.
! Cyd hands on no more after run 1, as Bea does no more.
! Run 4: 3 abreast in lanes 4 to 6.

Please note
- Start by arm, not by whistle: sound takes 0.2 s to the 60 m start.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
   Cone   Lane      Where                           Steps   For
════════════════════════════════════════════════════════════════════════════════
 1 to 2   4 and 5   10.00 m back from the 4th       13½     exchange run-in
                    green tick
 3 to 4   4 and 5   7.50 m back from the entry of   10      exchange check mark
                    yellow zone 2
────────────────────────────────────────────────────────────────────────────────
4 cones, 427 m, 6 min without taping.
1 step is 0.75 m.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Look both ways before you step on to the track; give way to runners.
- Keep clear of throws and jumps in use, and of kerb and water-jump edges.
- Baton practice: keep the lane clear, shout before you hand on, look behind
  before you slow down or leave the lane. The coach decides.
- Venue rules and staff come first. A qualified coach or a doctor judges load
  and pace.

"#]]);
}

#[test]
fn no_house_rule_for_runs_holds_in_a_takeover_zone() {
    let rules = "\nhouse_rules:\n  lanes: [{ from: 120, up_to: 400, lanes: [2, 3, 4, 5] }]\n";
    let session = SQUAD.replace("groups:", "track: track.yaml\ngroups:");
    let plan = plan_of(rules, &session);
    assert!(
        !texts(&plan["warnings"]).iter().any(|warning| warning.contains("house rule")),
        "{}",
        plan["warnings"]
    );
}
