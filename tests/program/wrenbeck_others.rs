//! `toeline plan` for the athlete alone, the hurdlers and the two groups of the demonstration, on a terminal.

use crate::run::toeline;
use snapbox::str;

#[test]
fn the_session_for_one_athlete_alone_of_the_demonstration() {
    let shown = toeline(&["plan", "--full", "sessions/wrenbeck/saturday-alone.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
One athlete alone, Saturday, 17 April 2027
Track: Wrenbeck, lane 1 closed
09:00 to about 09:40

Block 1: warm-up 10 min
Lasts 10:00.

Block 2: 2 × 1 mile @ 6:00 in lane 2, 4 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane         Metres   Stand             Finish            Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1, 2   2      1609.34 ±0.2   8.46 m past the   on the finish     6:00     4:00
                              later 4x400 m     line
                              takeover zone
                              exit line along
                              the inner line,
                              10 steps
────────────────────────────────────────────────────────────────────────────────
Total 3218.69 m.
Go at 09:10:00, then 09:20:00.
- Coach: outside lane 8, level with the finish line.
[PASSES_WRENBECK_GATE]

Block 3: 6 × 100 m in lane 5, 1:30 rest
──────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish               Rest
══════════════════════════════════════════════════════════════════════════════
 1 to 6   5         100   on the 100 m start line   on the finish line   1:30
──────────────────────────────────────────────────────────────────────────────
Total 600 m.
Go at ~09:31:00, every 1:45 to ~09:39:45.
- Coach: outside lane 8, level with the finish line.
[PASSES_WRENBECK_GATE]

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                              For
════════════════════════════════════════════════════════════════════════════════
    1   2      8.46 m past the later 4x400 m takeover zone exit   1609.34 start
               line along the inner line, 10 steps
────────────────────────────────────────────────────────────────────────────────
1 cone, 407 m, 5 min without taping.

[WRENBECK_RULES]

[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]

"#]]);
}

#[test]
fn the_hurdles_and_relay_session_of_the_demonstration() {
    let shown =
        toeline(&["plan", "--full", "sessions/wrenbeck/wednesday-hurdles-and-relay.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Hurdles and relay, Wednesday, 14 April 2027
Track: Wrenbeck, lane 1 closed
17:30 to about 18:43

Block 1, hurdlers: warm-up 20 min with hurdle walks
Lasts 20:00.

Block 2, hurdlers: 4 × 110 m hurdles to hurdle 3 in lanes 6, 7, 4 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                  Finish                 Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   6 and 7       32   on the 110 m hurdles   on the 3rd blue tick   4:00
                             start line
────────────────────────────────────────────────────────────────────────────────
Total 128 m in each lane.
Go at ~17:50:00, every 4:05 to ~18:02:15.
- Coach: outside lane 8, level with the finish in lane 6: on the 3rd blue tick.

Block 3, hurdlers: 3 × 110 m hurdles to hurdle 5 in lanes 6, 7, 5 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                  Finish                 Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   6 and 7    50.28   on the 110 m hurdles   on the 5th blue tick   5:00
                             start line
────────────────────────────────────────────────────────────────────────────────
Total 150.84 m in each lane.
Go at ~18:08:20, every 5:08 to ~18:18:36.
- Coach: outside lane 8, level with the finish in lane 6: on the 5th blue tick.

Block 4, hurdlers: 4 × exchange in zone 2 in lanes 3, 4, 3 min rest
────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand             Finish                  Rest
════════════════════════════════════════════════════════════════════════════
 1 to 4   3 and 4       30   on the entry of   on the exit of yellow   3:00
                             yellow zone 2     zone 2
────────────────────────────────────────────────────────────────────────────
Total 120 m in each lane.
Go at ~18:24:44, every 3:05 to ~18:33:59.
- Coach: outside lane 6, level with the finish in lane 3: on the exit of yellow
  zone 2.

Block 5, hurdlers: 2 laps in and out every 50 m in lane 3
─────────────────────────────────────────────────────────────────────
 Reps   Lane        Metres   Stand                Finish
═════════════════════════════════════════════════════════════════════
 1      3      829.41 ±0.2   on the finish line   on the finish line
─────────────────────────────────────────────────────────────────────
Total 829.41 m.
- Change in lane 3: at 50 m, cone 2; at 100 m, cone 4; at 150 m, cone 6; at 200
  m, cone 8; at 250 m, cone 10; at 300 m, cone 12; at 350 m, cone 14; at 400 m,
  cone 16; at 450 m, cone 1; at 500 m, cone 3; at 550 m, cone 5; at 600 m, cone
  7; at 650 m, cone 9; at 700 m, cone 11; at 750 m, cone 13; at 800 m, cone 15.
- Coach: outside lane 8, level with the finish line.
[PASSES_WRENBECK_JAVELIN]
[PASSES_WRENBECK_GATE]

Please note
- Put the hurdles away before the relay; batons are in the box by the gate.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                      Steps   For
════════════════════════════════════════════════════════════════════════════════
    1   3      20.49 m past the 400 m start line along    27½     2 laps change
               the inner line
    2   3      9.65 m back along the inner line from      13      2 laps change
               the 1st green tick
    3   3      9.36 m back along the inner line from      12½     2 laps change
               the entry of yellow zone 1
    4   3      5.27 m past the entry of yellow zone 1     7       2 laps change
               along the inner line
    5   3      5.59 m past the 3rd green tick             7½      2 laps change
    6   3      14.70 m back from the 4th green tick       19½     2 laps change
    7   3      9.41 m back from the entry of yellow       12½     2 laps change
               zone 2
    8   3      0.30 m past the 5th green tick             ½       2 laps change
    9   3      10.54 m past the exit of yellow zone 2     14      2 laps change
               along the inner line
   10   3      19.60 m back along the inner line from     26      2 laps change
               the 7th green tick
   11   3      9.36 m back along the inner line from      12½     2 laps change
               the entry of yellow zone 3
   12   3      4.68 m back along the inner line from      6       2 laps change
               the 8th green tick
   13   3      0.59 m past the 80 m start line            1       2 laps change
   14   3      3.20 m back from the 4th yellow tick       4½      2 laps change
   15   3      1.91 m back from the 8th yellow tick       2½      2 laps change
   16   3      0.68 m back from the 10th blue tick        1       2 laps change
────────────────────────────────────────────────────────────────────────────────
16 cones, 415 m, 5 min without taping.
1 step is 0.75 m.

[WRENBECK_RULES]

[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]

"#]]);
}

#[test]
fn the_session_with_two_groups_of_the_demonstration() {
    let shown = toeline(&["plan", "--full", "sessions/wrenbeck/monday-two-groups.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Two groups, Monday, 12 April 2027
Track: Wrenbeck, lane 1 closed
18:00 to 18:59
Wind: light, from behind on the home straight

Block 1, sprinters: warm-up 20 min
Lasts 20:00.

Block 2, middle distance: warm-up 20 min
Lasts 20:00.

Block 3, sprinters: drills
No set place.

Block 4, sprinters: 4 × flying 30 m with 30 m run-in @ 3.6 s, 4 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand           Fast from               Finish
════════════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       30   on the 110 m    the 80 m start line     on the 50 m
                            hurdles start                           start line
                            line
────────────────────────────────────────────────────────────────────────────────
Total 120 m for each athlete.

Who goes when
────────────────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who              From                   In at
════════════════════════════════════════════════════════════════════════════════
 18:20:10   1     1      5: Ada; 6: Bela; 7:    110 m hurdles start    18:20:18
                         Cleo                   line
 18:24:18   2     1      5: Cleo; 6: Ada; 7:    110 m hurdles start    18:24:27
                         Bela                   line
 18:28:27   3     1      5: Bela; 6: Cleo; 7:   110 m hurdles start    18:28:35
                         Ada                    line
 18:32:35   4     1      5: Ada; 6: Bela; 7:    110 m hurdles start    18:32:44
                         Cleo                   line
────────────────────────────────────────────────────────────────────────────────
- Ada 3.6 s: lanes 5-6-7-5
- Bela 3.6 s: lanes 6-7-5-6
- Cleo 3.6 s: lanes 7-5-6-7
! Go is when they set off: 5 s for the 30 m run-in.
! 3 abreast in lanes 5 to 7, 12½ min.
! Nobody times it: the one coach is at another finish with block 5. With a coach
  for each group, say so (a watch for each group; timers in a session file).

Block 5, middle distance: 2 × 2000 m @ 10 km pace in lane 2, 3 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane      Metres   Stand                             Finish
════════════════════════════════════════════════════════════════════════════════
 1, 2   2      2000 ±0.3   cone 1: 16.76 m back along the    on the finish line
                           inner line from the 1st green
                           tick
────────────────────────────────────────────────────────────────────────────────
Total 4000 m for each athlete.

Who goes when
─────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who             From     In at
═════════════════════════════════════════════════════════════════
 18:20:00   1     1      2: Ines, Jory, Kaya   cone 1   18:27:17
 18:30:17   2     1      2: Ines, Jory, Kaya   cone 1   18:37:35
─────────────────────────────────────────────────────────────────
- Ines, Jory and Kaya: lane 2
- Coach: outside lane 8, level with the finish line.
! 3 together in lane 2, 17½ min.
[PASSES_WRENBECK_JAVELIN]
[PASSES_WRENBECK_GATE]

Block 6, sprinters: 4 × 80 m @ 90%, 4 min rest
────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                    Finish
════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       80   on the 80 m start line   on the finish line
────────────────────────────────────────────────────────────────────────
Total 320 m for each athlete.

Who goes when
───────────────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who                  From              In at
═══════════════════════════════════════════════════════════════════════════════
 18:38:44   1     1      5: Ada; 6: Bela; 7: Cleo   80 m start line   18:38:55
 18:42:55   2     1      5: Cleo; 6: Ada; 7: Bela   80 m start line   18:43:06
 18:47:14   3     1      5: Bela; 6: Cleo; 7: Ada   80 m start line   18:47:25
 18:51:25   4     1      5: Ada; 6: Bela; 7: Cleo   80 m start line   18:51:36
───────────────────────────────────────────────────────────────────────────────
- Ada 11 s: lanes 5-6-7-5
- Bela 11 s: lanes 6-7-5-6
- Cleo 11 s: lanes 7-5-6-7
- Coach: outside lane 8, level with the finish line.
! 3 abreast in lanes 5 to 7, 13 min.
[PASSES_WRENBECK_GATE]

Block 7, middle distance: 6 × 200 m @ 1500 pace in lanes 2-4, 2:30 rest
─────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                     Finish
═════════════════════════════════════════════════════════════════════════
 1 to 6   2 to 4      200   on the 200 m start line   on the finish line
─────────────────────────────────────────────────────────────────────────
Total 1200 m for each athlete.

Who goes when
────────────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who              From               In at
════════════════════════════════════════════════════════════════════════════
 18:43:35   1     1      2: Ines; 3: Jory; 4:   200 m start line   18:44:13
                         Kaya
 18:46:43   2     1      2: Kaya; 3: Ines; 4:   200 m start line   18:47:20
                         Jory
 18:49:50   3     1      2: Jory; 3: Kaya; 4:   200 m start line   18:50:27
                         Ines
 18:52:57   4     1      2: Ines; 3: Jory; 4:   200 m start line   18:53:35
                         Kaya
 18:56:05   5     1      2: Kaya; 3: Ines; 4:   200 m start line   18:56:42
                         Jory
 18:59:12   6     1      2: Jory; 3: Kaya; 4:   200 m start line   18:59:49
                         Ines
────────────────────────────────────────────────────────────────────────────
- Ines 37.3 s: lanes 2-3-4-2-3-4
- Jory 37.3 s: lanes 3-4-2-3-4-2
- Kaya 37.3 s: lanes 4-2-3-4-2-3
- Splits of 200 m: 100 m 18.7 s
- Coach: outside lane 8, level with the finish line.
! 3 abreast in lanes 2 to 4, 16 min.
[PASSES_WRENBECK_GATE]

Please note
- The sprinters keep to lanes 5 to 7 of the home straight; the middle distance
  comes by inside them.
- Start by arm, not by whistle: sound takes 0.4 s to the 200 m start.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                         Steps   For
════════════════════════════════════════════════════════════════════════════════
    1   2      16.76 m back along the inner line from the    22½     2000 start
               1st green tick
────────────────────────────────────────────────────────────────────────────────
1 cone, 407 m, 5 min without taping.
1 step is 0.75 m.

[WRENBECK_RULES]

[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]

"#]]);
}
