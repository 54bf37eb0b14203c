//! `toeline plan` for the squads of the demonstration, on a terminal.

use crate::run::toeline;
use snapbox::str;

#[test]
fn the_sprint_session_of_the_demonstration() {
    let shown = toeline(&["plan", "--full", "sessions/wrenbeck/tuesday-sprints.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Wrenbeck sprinters, Tuesday, 13 April 2027
Track: Wrenbeck, lane 1 closed
18:00 to 19:11
Wind: 1 m/s against on the home straight

Block 1, sprinters: warm-up 20 min
Lasts 20:00.

Block 2, sprinters: 4 × 60 m @ 8.2 s in lanes 5-7, 3 min rest
────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                    Finish
════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       60   on the 60 m start line   on the finish line
────────────────────────────────────────────────────────────────────────
Total 240 m for each athlete.

Who goes when
───────────────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who                  From              In at
═══════════════════════════════════════════════════════════════════════════════
 18:20:00   1     1      5: Ada; 6: Bela; 7: Cleo   60 m start line   18:20:08
 18:23:08   2     1      5: Cleo; 6: Ada; 7: Bela   60 m start line   18:23:16
 18:26:16   3     1      5: Bela; 6: Cleo; 7: Ada   60 m start line   18:26:24
 18:29:24   4     1      5: Ada; 6: Bela; 7: Cleo   60 m start line   18:29:32
───────────────────────────────────────────────────────────────────────────────
- Ada 8.2 s: lanes 5-6-7-5
- Bela 8.2 s: lanes 6-7-5-6
- Cleo 8.2 s: lanes 7-5-6-7
- Coach: outside lane 8, level with the finish line.
! 3 abreast in lanes 5 to 7, 9½ min.
[PASSES_WRENBECK_GATE]

Block 3, sprinters: 4 × 150 m @ 20 s in lanes 3-5, 5 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                           Finish
════════════════════════════════════════════════════════════════════════════════
 1 to 4   3            150   cone 1: 4.97 m back along the   on the finish line
                             inner line from the 7th green
                             tick
 1 to 4   4 and 5      150   cones 2–3: 4.98 m back along    on the finish line
                             the inner line from the 7th
                             green tick
────────────────────────────────────────────────────────────────────────────────
Total 600 m for each athlete.

Who goes when
─────────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who                  From        In at
═════════════════════════════════════════════════════════════════════════
 18:37:32   1     1      3: Ada; 4: Bela; 5: Cleo   cones 1–3   18:37:52
 18:42:52   2     1      3: Cleo; 4: Ada; 5: Bela   cones 1–3   18:43:12
 18:48:12   3     1      3: Bela; 4: Cleo; 5: Ada   cones 1–3   18:48:32
 18:53:32   4     1      3: Ada; 4: Bela; 5: Cleo   cones 1–3   18:53:52
─────────────────────────────────────────────────────────────────────────
- Ada 20 s: lanes 3-4-5-3
- Bela 20 s: lanes 4-5-3-4
- Cleo 20 s: lanes 5-3-4-5
- Splits of 150 m: 100 m 13.3 s
- Coach: outside lane 8, level with the finish line.
! On paint at both ends in lane 3: start on the 400 m start line, finish on the
  4th green tick.
! 3 abreast in lanes 3 to 5, 16½ min.
[PASSES_WRENBECK_GATE]

Block 4, sprinters: 2 × 250 m @ 34 s in lanes 3, 5, 8 min rest
──────────────────────────────────────────────────────────────────────
 Reps   Lane      Metres   Stand                   Finish
══════════════════════════════════════════════════════════════════════
 1, 2   3 and 5      250   on the 4th green tick   on the finish line
──────────────────────────────────────────────────────────────────────
Total 500 m for each athlete.

Who goes when
─────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who         From             In at
═════════════════════════════════════════════════════════════════════
 19:01:52   1     1      3: Ada; 5: Bela   4th green tick   19:02:26
 19:02:02   1     2      3: Cleo           4th green tick   19:02:36
 19:10:26   2     1      3: Bela; 5: Ada   4th green tick   19:11:00
 19:10:36   2     2      5: Cleo           4th green tick   19:11:10
─────────────────────────────────────────────────────────────────────
- Ada 34 s: wave 1, lanes 3-5
- Bela 34 s: wave 1, lanes 5-3
- Cleo 34 s: wave 2, lanes 3-5
- Splits of 250 m: 100 m 13.6 s, 200 m 27.2 s
- Coach: outside lane 8, level with the finish line.
! 2 waves: 2 and 1 in lanes 3 and 5, 9½ min.
[PASSES_WRENBECK_JAVELIN]
[PASSES_WRENBECK_GATE]

Please note
- Spikes for the 150s and the 250s only.
- Start by arm, not by whistle: sound takes 0.4 s to the 150 m start.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
   Cone   Lane      Where                                     Steps   For
════════════════════════════════════════════════════════════════════════════════
      1   3         4.97 m back along the inner line from     6½      150 start
                    the 7th green tick
 2 to 3   4 and 5   4.98 m back along the inner line from     6½      150 start
                    the 7th green tick
────────────────────────────────────────────────────────────────────────────────
3 cones, 419 m, 5 min without taping.
1 step is 0.75 m.

[WRENBECK_RULES]

[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]

"#]]);
}

#[test]
fn the_middle_distance_session_of_the_demonstration() {
    let shown =
        toeline(&["plan", "--full", "sessions/wrenbeck/thursday-middle-distance.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Wrenbeck middle distance, Thursday, 15 April 2027
Track: Wrenbeck, lane 1 closed
18:00 to 18:58

Block 1, middle distance: warm-up 15 min
Lasts 15:00.

Block 2, middle distance: 3 × 1000 m @ 5 km pace in lane 2, 3 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                           Finish
════════════════════════════════════════════════════════════════════════════════
 1 to 3   2      1000 ±0.2   cone 2: 4.06 m past the exit    on the finish line
                             of yellow zone 2 along the
                             inner line
────────────────────────────────────────────────────────────────────────────────
Total 3000 m for each athlete.

Who goes when
─────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who             From     In at
═════════════════════════════════════════════════════════════════
 18:15:00   1     1      2: Ines, Jory, Kaya   cone 2   18:18:30
 18:21:30   2     1      2: Ines, Jory, Kaya   cone 2   18:25:00
 18:28:00   3     1      2: Ines, Jory, Kaya   cone 2   18:31:30
─────────────────────────────────────────────────────────────────
- Ines, Jory and Kaya: lane 2
- Splits of 1000 m: 100 m 21 s, 200 m 42 s, 300 m 1:03, 400 m 1:24, 500 m 1:45,
  600 m 2:06, 700 m 2:27, 800 m 2:48, 900 m 3:09
- Coach: outside lane 8, level with the finish line.
! 3 together in lane 2, 16½ min.
[PASSES_WRENBECK_GATE]
[PASSES_WRENBECK_JAVELIN]

Block 3, middle distance: 4 × 300 m @ 1500 pace in lane 2, 100 m jog in 60 s
─────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                           Finish
═════════════════════════════════════════════════════════════════════════════
 1 to 4   2         300   cone 1: 9.95 m back along the   on the finish line
                          inner line from the exit of
                          yellow zone 1
─────────────────────────────────────────────────────────────────────────────
Total 1200 m for each athlete.

Who goes when
─────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who             From     In at
═════════════════════════════════════════════════════════════════
 18:36:30   1     1      2: Ines, Jory, Kaya   cone 1   18:37:26
 18:38:26   2     1      2: Ines, Jory, Kaya   cone 1   18:39:22
 18:40:22   3     1      2: Ines, Jory, Kaya   cone 1   18:41:18
 18:42:18   4     1      2: Ines, Jory, Kaya   cone 1   18:43:14
─────────────────────────────────────────────────────────────────
- Ines, Jory and Kaya: lane 2
- Splits of 300 m: 100 m 18.7 s, 200 m 37.3 s
- Coach: outside lane 8, level with the finish line.
! Lane 2: jog 107 m, not 100; the same start each time.
! 3 together in lane 2, 6½ min.
[PASSES_WRENBECK_JAVELIN]
[PASSES_WRENBECK_GATE]

Block 4, middle distance: 4 × 200 m @ 800 pace in lanes 3-5, walk back, 2:30 rest
─────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                     Finish
═════════════════════════════════════════════════════════════════════════
 1 to 4   3 to 5      200   on the 200 m start line   on the finish line
─────────────────────────────────────────────────────────────────────────
Total 800 m for each athlete.

Who goes when
────────────────────────────────────────────────────────────────────────────
 Go         Rep   Wave   Lane: who              From               In at
════════════════════════════════════════════════════════════════════════════
 18:48:14   1     1      3: Ines; 4: Jory; 5:   200 m start line   18:48:48
                         Kaya
 18:51:18   2     1      3: Kaya; 4: Ines; 5:   200 m start line   18:51:52
                         Jory
 18:54:22   3     1      3: Jory; 4: Kaya; 5:   200 m start line   18:54:56
                         Ines
 18:57:26   4     1      3: Ines; 4: Jory; 5:   200 m start line   18:58:00
                         Kaya
────────────────────────────────────────────────────────────────────────────
- Ines 34 s: lanes 3-4-5-3
- Jory 34 s: lanes 4-5-3-4
- Kaya 34 s: lanes 5-3-4-5
- Splits of 200 m: 100 m 17 s
- Coach: outside lane 8, level with the finish line.
! Lane 3: 200 m to walk back, 2:23.
! 3 abreast in lanes 3 to 5, 10 min.
[PASSES_WRENBECK_GATE]

Please note
- The jog after each 300 ends at its start again, 107 m in lane 2.
- Start by arm, not by whistle: sound takes 0.4 s to the 200 m start.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                         Steps   For
════════════════════════════════════════════════════════════════════════════════
    1   2      9.95 m back along the inner line from the     13½     300 start
               exit of yellow zone 1
    2   2      4.06 m past the exit of yellow zone 2 along   5½      1000 start
               the inner line
────────────────────────────────────────────────────────────────────────────────
2 cones, 407 m, 5 min without taping.
1 step is 0.75 m.

[WRENBECK_RULES]

[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]

"#]]);
}
