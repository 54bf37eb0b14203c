//! `toeline plan`: where each repetition starts and finishes.

use crate::answer::{json, list, printed};
use crate::console::answered;
use crate::run::toeline;
use snapbox::str;

#[test]
fn recoveries_bend_to_places_that_are_there_already() {
    answered(str![[r#"
# a jog that comes back to the start
$ toeline plan --full '4 x 300 jog 100 in lane 2'
4 x 300 jog 100 in lane 2
Track: standard

Block 1: 4 × 300 m in lane 2, 100 m jog
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                              Finish
════════════════════════════════════════════════════════════════════════════════
 1 to 4   2         300   9.95 m back along the inner line   on the finish line
                          from the exit of yellow zone 1
────────────────────────────────────────────────────────────────────────────────
Total 1200 m.
- Coach: outside lane 8, level with the finish line.
! Lane 2: jog 107 m, not 100; the same start each time.

Setting out: one lap from the finish line
─────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                       Steps   For
═════════════════════════════════════════════════════════════════════════════
    S   2      9.95 m back along the inner line from the   13½     300 start
               exit of yellow zone 1
─────────────────────────────────────────────────────────────────────────────
1 cone, 407 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS]

# laps and jogs: few places, and paint where it is near
$ toeline plan --full '12 x 400 jog 100 in lane 2'
12 x 400 jog 100 in lane 2
Track: standard

Block 1: 12 × 400 m in lane 2, 100 m jog
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane   Metres   Stand                        Finish
════════════════════════════════════════════════════════════════════════════════
 1      2         400   on the 400 m start line      on the finish line
 2      2         400   on the exit of yellow zone   7.00 m back along the
                        1                            inner line from the exit
                                                     of yellow zone 1
 3      2         400   on the 200 m start line      7.02 m back along the
                                                     inner line from the 200 m
                                                     start line
 4      2         400   on the exit of yellow zone   7.00 m back along the
                        3                            inner line from the exit
                                                     of yellow zone 3
 5      2         400   on the 400 m start line      on the finish line
 6      2         400   on the exit of yellow zone   7.00 m back along the
                        1                            inner line from the exit
                                                     of yellow zone 1
 7      2         400   on the 200 m start line      7.02 m back along the
                                                     inner line from the 200 m
                                                     start line
 8      2         400   on the exit of yellow zone   7.00 m back along the
                        3                            inner line from the exit
                                                     of yellow zone 3
 9      2         400   on the 400 m start line      on the finish line
 10     2         400   on the exit of yellow zone   7.00 m back along the
                        1                            inner line from the exit
                                                     of yellow zone 1
 11     2         400   on the 200 m start line      7.02 m back along the
                                                     inner line from the 200 m
                                                     start line
 12     2         400   on the exit of yellow zone   7.00 m back along the
                        3                            inner line from the exit
                                                     of yellow zone 3
────────────────────────────────────────────────────────────────────────────────
Total 4800 m.
- Coach: outside lane 8, level with the finish line.
! Lane 2: jog 97 to 117 m, not 100; 4 starts in turn.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                         Steps   For
════════════════════════════════════════════════════════════════════════════════
   F1   2      7.00 m back along the inner line from the     9½      400 finish
               exit of yellow zone 1
   F2   2      7.02 m back along the inner line from the     9½      400 finish
               200 m start line
   F3   2      7.00 m back along the inner line from the     9½      400 finish
               exit of yellow zone 3
────────────────────────────────────────────────────────────────────────────────
3 cones, 407 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS]

# to the metre
$ toeline plan --full '3 x 300 jog exactly 100 in lane 2'
3 x 300 jog exactly 100 in lane 2
Track: standard

Block 1: 3 × 300 m in lane 2, jog exactly 100 m
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane   Metres   Stand                        Finish
════════════════════════════════════════════════════════════════════════════════
 1      2         300   9.95 m back along the        on the finish line
                        inner line from the exit
                        of yellow zone 1
 2      2         300   12.89 m past the entry of    2.96 m past the later
                        yellow zone 1 along the      4x400 m takeover zone
                        inner line                   entry line
 3      2         300   5.89 m past the entry of     0.06 m back from the 10th
                        yellow zone 1 along the      blue tick
                        inner line
────────────────────────────────────────────────────────────────────────────────
Total 900 m.
- Coach: outside lane 8, level with the finish line.
! Lane 2: each start is 7.04 m further back; jog 107.04 m for the same start
  each time.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                         Steps   For
════════════════════════════════════════════════════════════════════════════════
   S1   2      5.89 m past the entry of yellow zone 1        8       300 start
               along the inner line
   S2   2      12.89 m past the entry of yellow zone 1       17      300 start
               along the inner line
   S3   2      9.95 m back along the inner line from the     13½     300 start
               exit of yellow zone 1
   F1   2      0.06 m back from the 10th blue tick                   300 finish
   F2   2      2.96 m past the later 4x400 m takeover zone   4       300 finish
               entry line
────────────────────────────────────────────────────────────────────────────────
5 cones, 407 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS]

# a jog that cannot be done in its rest
$ toeline plan --full '4 x 300 jog 100 in 15s in lanes 2-3'
4 x 300 jog 100 in 15s in lanes 2-3
Track: standard

Block 1: 4 × 300 m in lanes 2-3, 100 m jog in 15 s
! Lane 3: 15 s rest is too short to jog 115 m, which takes 29 s; rest 30 s, or
  jog 60 m.
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                       Finish               Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   2         300   9.95 m back along the       on the finish line   15 s
                          inner line from the exit
                          of yellow zone 1
 1 to 4   3         300   9.96 m back along the       on the finish line   15 s
                          inner line from the exit
                          of yellow zone 1
────────────────────────────────────────────────────────────────────────────────
Total 1200 m in each lane.
- Coach: outside lane 8, level with the finish line.
! Lanes 2 and 3: jog 107 to 115 m, not 100; the same start each time.

Setting out: one lap from the finish line
─────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                       Steps   For
═════════════════════════════════════════════════════════════════════════════
    1   2      9.95 m back along the inner line from the   13½     300 start
               exit of yellow zone 1
    2   3      9.96 m back along the inner line from the   13½     300 start
               exit of yellow zone 1
─────────────────────────────────────────────────────────────────────────────
2 cones, 411 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS]

"#]]);
}

#[test]
fn where_to_stand() {
    answered(str![[r#"
# on the standard track
$ toeline plan --full '6 x 200 in lane 2' --closed 1
6 x 200 in lane 2
Track: standard, lane 1 closed

Block 1: 6 × 200 m in lane 2
───────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish
═══════════════════════════════════════════════════════════════════════
 1 to 6   2         200   on the 200 m start line   on the finish line
───────────────────────────────────────────────────────────────────────
Total 1200 m.
- Coach: outside lane 8, level with the finish line.

No cones: paint shows every place.

[CAUTIONS_LANE_ONE_CLOSED]

# with no lane named the innermost open lane is used, and said
$ toeline plan --full '3 x 300 @ 48s rest 3min' --closed 1-2
3 x 300 @ 48s rest 3min
Track: standard, lanes 1 and 2 closed
Lasts 8:24

Block 1: 3 × 300 m @ 48 s, 3 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                   Finish          Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   3         300   9.96 m back along the   on the finish   48 s     3:00
                          inner line from the     line
                          exit of yellow zone 1
────────────────────────────────────────────────────────────────────────────────
Total 900 m.
Go at 0 s, every 3:48 to 7:36.
- Splits of 300 m: 100 m 16 s, 200 m 32 s
- Coach: outside lane 8, level with the finish line.

Please note
- 3 x 300 @ 48s rest 3min: no lane named, so lane 3, the innermost open.

Setting out: one lap from the finish line
─────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                       Steps   For
═════════════════════════════════════════════════════════════════════════════
    S   3      9.96 m back along the inner line from the   13½     300 start
               exit of yellow zone 1
─────────────────────────────────────────────────────────────────────────────
1 cone, 415 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS_LANES_ONE_AND_TWO_CLOSED]

# lanes side by side share a row where their words are the same
$ toeline plan --full '4 × 150 in lanes 2-5'
4 × 150 in lanes 2-5
Track: standard

Block 1: 4 × 150 m in lanes 2-5
────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                     Finish
════════════════════════════════════════════════════════════════════════════
 1 to 4   2 to 5      150   on the 400 m start line   on the 4th green tick
────────────────────────────────────────────────────────────────────────────
Total 600 m in each lane.
- Coach: outside lane 8, level with the finish in lane 2: on the 4th green tick.
! To finish on the finish line in lane 2, start 4.97 m back along the inner line
  from the 7th green tick.

No cones: paint shows every place.

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

#[test]
fn runs_by_time_last_as_long_as_with_their_rests() {
    let text = crate::answer::printed(&toeline(&["plan", "4 x 2 min rest 60s"]).assert().success());
    assert!(text.contains("Lasts 11:00."), "{text}");
}

#[test]
fn a_workout_needs_no_quotes() {
    let quoted = toeline(&["plan", "6 x 200 in lane 2"]).assert().success();
    let bare = toeline(&["plan", "6", "x", "200", "in", "lane", "2"]).assert().success();
    assert_eq!(printed(&bare), printed(&quoted));
    // Two workouts are two.
    let both = json(&["plan", "6 x 200", "4 x 300"]);
    assert_eq!(list(&both).len(), 2);
}

#[test]
fn the_name_of_no_file_is_no_workout() {
    for name in ["tuesday.yamll", "week/tuesday"] {
        let says = format!("error: there is no file `{name}` here; a workout is written like `6 x 200`\n");
        toeline(&["plan", name]).assert().code(1).stdout_eq(str![]).stderr_eq(says);
    }
}

#[test]
fn hurdles_that_stand_as_for_another_race_are_said_first() {
    answered(str![[r#"
# of a race that is not painted
$ toeline plan '6 x 75mH'
6 × 75 m hurdles
Track: standard. Distances assume the measure line.
! 75 m hurdles are not painted here: these stand as for 110 m, 13.72 m to the
  1st, then 9.14 m. Tape the 75 m spacing.

Reps  Lane  Metres  Stand                     Finish
1–6   1     75      110 m hurdles start line  cone F
- 6 x 75mH: no lane named, so lane 1, the innermost open.
- Coach: outside lane 8, level with the finish in lane 1: 1.00 m past the 7th
  yellow tick.

Setting out: one lap from the finish line
Cone  Lane  Steps  Where
F     1     1½     1.00 m past the 7th yellow tick
1 cone, 400 m, 5 min without taping. 1 step is 0.75 m.

Look both ways; mind throws and jumps; venue rules come first. More: --full

# of no race
$ toeline plan '3 x 5H'
3 × hurdles 1 to 5
Track: standard. Distances assume the measure line.

Reps  Lane  Metres  Stand                     Finish
1–3   1     50.28   110 m hurdles start line  5th blue tick
! Hurdles as for 110 m: 13.72 m to the 1st, then 9.14 m.
- 3 x 5H: no lane named, so lane 1, the innermost open.
- Coach: outside lane 8, level with the finish in lane 1: on the 5th blue tick.

No cones: paint shows every place.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]]);
}
