//! `toeline plan`: where each repetition starts and finishes.

use crate::answer::printed;
use crate::run::toeline;
use crate::transcript::answered;
use snapbox::str;

#[test]
fn where_to_stand() {
    answered(str![[r#"
# on the standard track
$ toeline plan '6 x 200 in lane 2' --closed 1
6 x 200 in lane 2
Track: standard, lane 1 closed

Block 1: 6 x 200 in lane 2
───────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish
═══════════════════════════════════════════════════════════════════════
 1 to 6   2         200   on the 200 m start line   on the finish line
───────────────────────────────────────────────────────────────────────
Total 1200 m.
- Coach: outside lane 8, level with the finish line.

Setting out: one lap from the finish line
────────────────────────────────────────────────────
 Cone   Lane   Where                     For
════════════════════════════════════════════════════
    1   2      on the finish line        200 finish
    2   2      on the 200 m start line   200 start
────────────────────────────────────────────────────
2 cones, 407 m, 5 min without taping.

[CAUTIONS_LANE_ONE_CLOSED]

# with no lane named the innermost open lane is used, and said
$ toeline plan '3 x 300 @ 48s rest 3min' --closed 1,2
3 x 300 @ 48s rest 3min
Track: standard, lanes 1 and 2 closed
Lasts 8:24

Block 1: 3 x 300 @ 48s rest 3min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                   Finish          Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   3         300   9.96 m back along the   on the finish   48 s     3:00
                          inner line from the     line
                          exit of yellow zone 1
────────────────────────────────────────────────────────────────────────────────
Total 900 m.
- Splits of 300 m: 100 m 16 s, 200 m 32 s
- Coach: outside lane 8, level with the finish line.

Please note
- 3 x 300 @ 48s rest 3min: no lane named, so lane 3, the innermost open.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                         Steps   For
════════════════════════════════════════════════════════════════════════════════
    1   3      on the finish line                                    300 finish
    2   3      9.96 m back along the inner line from the     13½     300 start
               exit of yellow zone 1
────────────────────────────────────────────────────────────────────────────────
2 cones, 415 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS_LANES_ONE_AND_TWO_CLOSED]

# lanes side by side share a row where their words are the same
$ toeline plan '4 × 150 in lanes 2-5'
4 × 150 in lanes 2-5
Track: standard

Block 1: 4 × 150 in lanes 2-5
────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                     Finish
════════════════════════════════════════════════════════════════════════════
 1 to 4   2 to 5      150   on the 400 m start line   on the 4th green tick
────────────────────────────────────────────────────────────────────────────
Total 600 m in each lane.
- Coach: outside lane 8, level with the finish in lane 2: on the 4th green tick.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────
   Cone   Lane     Where                     For
════════════════════════════════════════════════════════
 1 to 4   2 to 5   on the 400 m start line   150 start
 5 to 8   2 to 5   on the 4th green tick     150 finish
────────────────────────────────────────────────────────
8 cones, 425 m, 6 min without taping.

[CAUTIONS]

"#]]);
}

#[test]
fn no_line_is_wider_than_80_columns() {
    for workout in [
        "6 x 200",
        "4 x 150 in lanes 2-5",
        "10000 in lane 8 @ 55:00",
        "sessions/wrenbeck/saturday-alone.yaml",
        "sessions/wrenbeck/wednesday-hurdles-and-relay.yaml",
    ] {
        for command in ["plan", "spots"] {
            if command == "spots" && (workout.contains("lanes") || workout.ends_with(".yaml")) {
                continue;
            }
            for line in printed(&toeline(&[command, workout]).assert().success()).lines() {
                assert!(line.chars().count() <= 80, "{command} {workout}: {line}");
            }
        }
    }
}
