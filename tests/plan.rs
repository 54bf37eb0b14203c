//! `toeline plan`: where each repetition starts and finishes.

mod program;

use program::toeline;
use snapbox::str;

#[test]
fn a_workout_on_the_standard_track_says_where_to_stand() {
    toeline(&["plan", "6 x 200 in lane 2", "--closed", "1"]).assert().success().stderr_eq(str![]).stdout_eq(
        str![[r#"
6 x 200 in lane 2
Track: standard, lane 1 closed

Block 1: 6 x 200 in lane 2
───────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish
═══════════════════════════════════════════════════════════════════════
 1 to 6   2         200   on the 200 m start line   on the finish line
───────────────────────────────────────────────────────────────────────
Total 1200 m.

One lap from the finish line sets it out
─────────────────────────────────────────────────────────────────
     Set out   Lane   Where                     For
═════════════════════════════════════════════════════════════════
 1   finish    2      on the finish line        200 m of block 1
 2   start     2      on the 200 m start line   200 m of block 1
─────────────────────────────────────────────────────────────────

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lane 1 stays closed: do not run, walk or wait in it.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]],
    );
}

#[test]
fn with_no_lane_named_the_innermost_open_lane_is_used_and_said() {
    let shown = toeline(&["plan", "3 x 300 @ 48s rest 3min", "--closed", "1,2"]).assert().success();
    shown.stdout_eq(str![[r#"
3 x 300 @ 48s rest 3min
Track: standard, lanes 1 and 2 closed
Lasts 8:24

Block 1: 3 x 300 @ 48s rest 3min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                   Finish          Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   3         300   10.00 m behind the      on the finish   48 s     3:00
                          first 4x100 m           line
                          takeover zone exit
                          (yellow); tape 9.96 m
                          on the inner line
────────────────────────────────────────────────────────────────────────────────
Total 900 m.
- Splits of 300 m: 100 m 16 s, 200 m 32 s

Please note
- `3 x 300 @ 48s rest 3min` names no lane: lane 3, the innermost open lane, is
  used.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
     Set out   Lane   Where                                    For
════════════════════════════════════════════════════════════════════════════════
 1   finish    3      on the finish line                       300 m of block 1
 2   start     3      10.00 m behind the first 4x100 m         300 m of block 1
                      takeover zone exit (yellow); tape 9.96
                      m on the inner line
────────────────────────────────────────────────────────────────────────────────

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lanes 1 and 2 stay closed: do not run, walk or wait in them.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]]);
}

#[test]
fn lanes_side_by_side_share_a_row_where_their_words_are_the_same() {
    toeline(&["plan", "4 × 150 in lanes 2-5"]).assert().success().stdout_eq(str![[r#"
4 × 150 in lanes 2-5
Track: standard

Block 1: 4 × 150 in lanes 2-5
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                     Finish
════════════════════════════════════════════════════════════════════════════════
 1 to 4   2 to 5      150   on the 400 m start line   on the fourth green tick
                                                      (400 m hurdle tick 4)
────────────────────────────────────────────────────────────────────────────────
Total 600 m in each lane.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
          Set out   Lane     Where                             For
════════════════════════════════════════════════════════════════════════════════
 1 to 4   start     2 to 5   on the 400 m start line           150 m of block 1
 5 to 8   finish    2 to 5   on the fourth green tick (400 m   150 m of block 1
                             hurdle tick 4)
────────────────────────────────────────────────────────────────────────────────

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]]);
}

#[test]
fn the_sprint_session_of_the_demonstration() {
    let shown = toeline(&["plan", "sessions/wrenbeck/tuesday-sprints.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Wrenbeck sprinters, Tuesday, Tuesday 13 April 2027
Track: Wrenbeck, lane 1 closed
18:00 to 19:11
Wind: 1 m/s against on the home straight

Block 1: warm-up 20 min
Lasts 20:00.

Block 2: 4 x 60 in lanes 5-7 @ 8.2 rest 3min
─────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand         Finish               Target   Rest
═════════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       60   on the 60 m   on the finish line   8.2 s    3:00
                            start line
─────────────────────────────────────────────────────────────────────────────
Total 240 m in each lane for sprinters.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Block 3: 4 x 150 in lanes 2-5 @ 20 rest 5min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand          Finish                 Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   2 to 5      150   on the 400 m   on the fourth green    20 s     5:00
                            start line     tick (400 m hurdle
                                           tick 4)
────────────────────────────────────────────────────────────────────────────────
Total 600 m in each lane for sprinters.
- Splits of 150 m: 100 m 13.3 s
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 4: 2 x 250 in lanes 3,5 @ 34 rest 8min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand              Finish            Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 2   3 and 5      250   on the fourth      on the finish     34 s     8:00
                             green tick (400    line
                             m hurdle tick 4)
────────────────────────────────────────────────────────────────────────────────
Total 500 m in each lane for sprinters.
- Splits of 250 m: 100 m 13.6 s, 200 m 27.2 s
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Please note
- Spikes for the 150s and the 250s only.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
            Set out   Lane      Where                    For
════════════════════════════════════════════════════════════════════════════════
        1   finish    3         on the finish line       250 m of block 4
        2   finish    5         on the finish line       60 m of block 2, 250 m
                                                         of block 4
   3 to 4   finish    6 and 7   on the finish line       60 m of block 2
   5 to 8   start     2 to 5    on the 400 m start       150 m of block 3
                                line
        9   finish    2         on the fourth green      150 m of block 3
                                tick (400 m hurdle
                                tick 4)
       10   start     3         on the fourth green      250 m of block 4
                                tick (400 m hurdle
                                tick 4)
 11 to 12   finish    3 and 4   on the fourth green      150 m of block 3
                                tick (400 m hurdle
                                tick 4)
       13   start     5         on the fourth green      250 m of block 4
                                tick (400 m hurdle
                                tick 4)
       14   finish    5         on the fourth green      150 m of block 3
                                tick (400 m hurdle
                                tick 4)
 15 to 17   start     5 to 7    on the 60 m start line   60 m of block 2
────────────────────────────────────────────────────────────────────────────────

On this track
- Look both ways, then step on where you start.
- Run through the finish; step off to the right.
- No walking or standing in running lanes.
- Run anticlockwise; on the straights either way.
- Do not cross the infield.
- Runs over 400 m in lane 2.
- Runs of 120 m to 400 m in lanes 2 to 5.
- Runs up to 100 m in lanes 5 to 7 on the straights.
- Hurdles in lanes 6 and 7.
- Jogs and walks in lane 6.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]]);
}

#[test]
fn the_middle_distance_session_of_the_demonstration() {
    let shown = toeline(&["plan", "sessions/wrenbeck/thursday-middle-distance.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Wrenbeck middle distance, Thursday, Thursday 15 April 2027
Track: Wrenbeck, lane 1 closed
18:00 to 18:58

Block 1: warm-up 15 min
Lasts 15:00.

Block 2: 3 x 1000 in lane 2 @ 5k pace rest 3min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand              Finish            Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   2      1000 ±0.2   4.08 m past the    on the finish     3:30     3:00
                             second 4x100 m     line
                             takeover zone
                             exit (yellow);
                             tape 4.06 m on
                             the inner line
────────────────────────────────────────────────────────────────────────────────
Total 3000 m for middle distance.
- Splits of 1000 m: 100 m 21 s, 200 m 42 s, 300 m 1:03, 400 m 1:24, 500 m 1:45,
  600 m 2:06, 700 m 2:27, 800 m 2:48, 900 m 3:09
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 3: 4 x 300 in lane 2 @ 1500 pace rest 60s jog 100
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane   Metres   Stand            Finish           Target   Rest   Go at
════════════════════════════════════════════════════════════════════════════════
 1      2         300   10.00 m behind   on the finish    56 s     1:00   36:30
                        the first        line
                        4x100 m
                        takeover zone
                        exit (yellow);
                        tape 9.95 m on
                        the inner line
 2      2         300   12.96 m past     2.96 m past      56 s     1:00   38:26
                        the first        the later
                        4x100 m          4x400 m
                        takeover zone    takeover zone
                        entry            entry line
                        (yellow); tape
                        12.89 m on the
                        inner line
 3      2         300   5.92 m past      0.06 m behind    56 s     1:00   40:22
                        the first        the tenth blue
                        4x100 m          tick (110 m
                        takeover zone    hurdle tick
                        entry            10)
                        (yellow); tape
                        5.89 m on the
                        inner line
 4      2         300   1.12 m behind    2.04 m past      56 s            42:18
                        the first        the ninth blue
                        4x100 m          tick (110 m
                        takeover zone    hurdle tick 9)
                        entry
                        (yellow); tape
                        1.11 m on the
                        inner line
────────────────────────────────────────────────────────────────────────────────
Total 1200 m for middle distance.
- Splits of 300 m: 100 m 18.7 s, 200 m 37.3 s
! In lane 2 each start lies 7.04 m behind the one before; a jog of 107.04 m
  would cancel it.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 4: 4 x 200 in lane 3 @ 800 pace rest 2:30 walk back
────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand          Finish               Target   Rest
════════════════════════════════════════════════════════════════════════════
 1 to 4   3         200   on the 200 m   on the finish line   34 s     2:30
                          start line
────────────────────────────────────────────────────────────────────────────
Total 800 m for middle distance.
- Splits of 200 m: 100 m 17 s
! Walk back in lane 3: 200 m along the track, 2:23 at 1.4 m/s.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Please note
- The 300s and their jogs fall 7 m short of a lap of lane 2, so each has a cone
  of its own.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
      Set out   Lane   Where                         For
════════════════════════════════════════════════════════════════════════════════
  1   finish    2      on the finish line            1000 m of block 2, 300 m
                                                     of block 3
  2   finish    3      on the finish line            200 m of block 4
  3   start     2      1.12 m behind the first       300 m of block 3
                       4x100 m takeover zone entry
                       (yellow); tape 1.11 m on
                       the inner line
  4   start     2      5.92 m past the first 4x100   300 m of block 3
                       m takeover zone entry
                       (yellow); tape 5.89 m on
                       the inner line
  5   start     2      12.96 m past the first        300 m of block 3
                       4x100 m takeover zone entry
                       (yellow); tape 12.89 m on
                       the inner line
  6   start     2      10.00 m behind the first      300 m of block 3
                       4x100 m takeover zone exit
                       (yellow); tape 9.95 m on
                       the inner line
  7   start     3      on the 200 m start line       200 m of block 4
  8   start     2      4.08 m past the second        1000 m of block 2
                       4x100 m takeover zone exit
                       (yellow); tape 4.06 m on
                       the inner line
  9   finish    2      2.04 m past the ninth blue    300 m of block 3
                       tick (110 m hurdle tick 9)
 10   finish    2      0.06 m behind the tenth       300 m of block 3
                       blue tick (110 m hurdle
                       tick 10)
 11   finish    2      2.96 m past the later 4x400   300 m of block 3
                       m takeover zone entry line
────────────────────────────────────────────────────────────────────────────────

On this track
- Look both ways, then step on where you start.
- Run through the finish; step off to the right.
- No walking or standing in running lanes.
- Run anticlockwise; on the straights either way.
- Do not cross the infield.
- Runs over 400 m in lane 2.
- Runs of 120 m to 400 m in lanes 2 to 5.
- Runs up to 100 m in lanes 5 to 7 on the straights.
- Hurdles in lanes 6 and 7.
- Jogs and walks in lane 6.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]]);
}

#[test]
fn the_session_for_one_athlete_alone_of_the_demonstration() {
    let shown = toeline(&["plan", "sessions/wrenbeck/saturday-alone.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
One athlete alone, Saturday, Saturday 17 April 2027
Track: Wrenbeck, lane 1 closed
From 09:00

Block 1: warm-up 10 min
Lasts 10:00.

Block 2: 2 x 1 mile in lane 2 @ 6:00 rest 4min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane          Metres   Stand            Finish          Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 2   2      1609.344 ±0.2   8.51 m past      on the finish   6:00     4:00
                                 the later        line
                                 4x400 m
                                 takeover zone
                                 exit line;
                                 tape 8.46 m on
                                 the inner
                                 line; 10 steps
────────────────────────────────────────────────────────────────────────────────
Total 3218.688 m.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Block 3: 6 x 100 in lane 5 rest 1:30
──────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish               Rest
══════════════════════════════════════════════════════════════════════════════
 1 to 6   5         100   on the 100 m start line   on the finish line   1:30
──────────────────────────────────────────────────────────────────────────────
Total 600 m.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────
     Set out   Lane   Where                           For
════════════════════════════════════════════════════════════════════════════
 1   finish    2      on the finish line              1609.344 m of block 2
 2   finish    5      on the finish line              100 m of block 3
 3   start     2      8.51 m past the later 4x400 m   1609.344 m of block 2
                      takeover zone exit line; tape
                      8.46 m on the inner line; 10
                      steps
 4   start     5      on the 100 m start line         100 m of block 3
────────────────────────────────────────────────────────────────────────────

On this track
- Look both ways, then step on where you start.
- Run through the finish; step off to the right.
- No walking or standing in running lanes.
- Run anticlockwise; on the straights either way.
- Do not cross the infield.
- Runs over 400 m in lane 2.
- Runs of 120 m to 400 m in lanes 2 to 5.
- Runs up to 100 m in lanes 5 to 7 on the straights.
- Hurdles in lanes 6 and 7.
- Jogs and walks in lane 6.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]]);
}

#[test]
fn the_session_with_two_groups_of_the_demonstration() {
    let shown = toeline(&["plan", "sessions/wrenbeck/monday-two-groups.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Two groups, Monday, Monday 12 April 2027
Track: Wrenbeck, lane 1 closed
18:00 to 18:59
Wind: light, from behind on the home straight

Block 1: warm-up 20 min
Lasts 20:00.

Block 2: drills
No place is needed.

Block 3: 4 x flying 30 with 30 run-in @ 3.6 rest 4min
────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand         Finish              Target   Rest
════════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       30   on the 80 m   on the 50 m start   3.6 s    4:00
                            start line    line
────────────────────────────────────────────────────────────────────────────
Total 120 m in each lane for sprinters.
- Run-in in lane 5: on the 110 m hurdles start line
- Run-in in lane 6: on the 110 m hurdles start line
- Run-in in lane 7: on the 110 m hurdles start line

Block 4: 4 x 80 @ 90% rest 4min
─────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand         Finish               Target   Rest
═════════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       80   on the 80 m   on the finish line   11 s     4:00
                            start line
─────────────────────────────────────────────────────────────────────────────
Total 320 m in each lane for sprinters.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Block 5: warm-up 20 min
Lasts 20:00.

Block 6: 2 x 2000 @ 10k pace rest 3min in lane 2
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand              Finish            Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 2   2      2000 ±0.3   16.85 m behind     on the finish     7:17.8   3:00
                             the first green    line
                             tick (400 m
                             hurdle tick 1);
                             tape 16.76 m on
                             the inner line
────────────────────────────────────────────────────────────────────────────────
Total 4000 m for middle distance.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 7: 6 x 200 @ 1500 pace rest 2:30 in lane 3
────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand          Finish               Target   Rest
════════════════════════════════════════════════════════════════════════════
 1 to 6   3         200   on the 200 m   on the finish line   37.3 s   2:30
                          start line
────────────────────────────────────────────────────────────────────────────
Total 1200 m for middle distance.
- Splits of 200 m: 100 m 18.7 s
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Please note
- The sprinters keep to lanes 5 to 7 of the home straight; the middle distance
  comes by inside them.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
            Set out   Lane     Where                     For
════════════════════════════════════════════════════════════════════════════════
        1   finish    2        on the finish line        2000 m of block 6
        2   finish    3        on the finish line        200 m of block 7
   3 to 5   finish    5 to 7   on the finish line        80 m of block 4
        6   start     2        16.85 m behind the        2000 m of block 6
                               first green tick (400 m
                               hurdle tick 1); tape
                               16.76 m on the inner
                               line
        7   start     3        on the 200 m start line   200 m of block 7
  8 to 10   run-in    5 to 7   on the 110 m hurdles      30 m of block 3
                               start line
 11 to 13   start     5 to 7   on the 80 m start line    30 m of block 3, 80 m
                                                         of block 4
 14 to 16   finish    5 to 7   on the 50 m start line    30 m of block 3
────────────────────────────────────────────────────────────────────────────────

On this track
- Look both ways, then step on where you start.
- Run through the finish; step off to the right.
- No walking or standing in running lanes.
- Run anticlockwise; on the straights either way.
- Do not cross the infield.
- Runs over 400 m in lane 2.
- Runs of 120 m to 400 m in lanes 2 to 5.
- Runs up to 100 m in lanes 5 to 7 on the straights.
- Hurdles in lanes 6 and 7.
- Jogs and walks in lane 6.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

"#]]);
}

#[test]
fn the_hurdles_and_relay_session_of_the_demonstration() {
    let shown = toeline(&["plan", "sessions/wrenbeck/wednesday-hurdles-and-relay.yaml"]).assert().success();
    shown.stdout_eq(str![[r#"
Hurdles and relay, Wednesday, Wednesday 14 April 2027
Track: Wrenbeck, lane 1 closed
From 17:30

Block 1: warm-up 20 min with hurdle walks
Lasts 20:00.

Block 2: 4 x 110h to hurdle 3 in lanes 6,7 rest 4min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                  Finish                 Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   6 and 7       32   on the 110 m hurdles   on the third blue      4:00
                             start line             tick (110 m hurdle
                                                    tick 3)
────────────────────────────────────────────────────────────────────────────────
Total 128 m in each lane for hurdlers.

Block 3: 3 x 110h to hurdle 5 in lanes 6,7 rest 5min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                  Finish                 Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   6 and 7    50.28   on the 110 m hurdles   on the fifth blue      5:00
                             start line             tick (110 m hurdle
                                                    tick 5)
────────────────────────────────────────────────────────────────────────────────
Total 150.84 m in each lane for hurdlers.

Block 4: 4 x exchange zone 2 in lanes 3,4 rest 3min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                  Finish                 Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   3 and 4       30   on the second 4x100    on the second 4x100    3:00
                             m takeover zone        m takeover zone exit
                             entry (yellow)         (yellow)
────────────────────────────────────────────────────────────────────────────────
Total 120 m in each lane for hurdlers.

Block 5: 2 laps in-and-out 50s in lane 3
──────────────────────────────────────────────────────────────────────
 Reps   Lane         Metres   Stand                Finish
══════════════════════════════════════════════════════════════════════
 1      3      829.408 ±0.2   on the finish line   on the finish line
──────────────────────────────────────────────────────────────────────
Total 829.408 m for hurdlers.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Please note
- Put the hurdles away before the relay; batons are in the box by the gate.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
            Set out   Lane      Where                    For
════════════════════════════════════════════════════════════════════════════════
        1   start     3         on the finish line       829.408 m of block 5
        2   finish    3         on the finish line       829.408 m of block 5
   3 to 4   start     3 and 4   on the second 4x100 m    30 m of block 4
                                takeover zone entry
                                (yellow)
   5 to 6   finish    3 and 4   on the second 4x100 m    30 m of block 4
                                takeover zone exit
                                (yellow)
   7 to 8   start     6 and 7   on the 110 m hurdles     32 m of block 2, 50.28
                                start line               m of block 3
  9 to 10   finish    6 and 7   on the third blue tick   32 m of block 2
                                (110 m hurdle tick 3)
 11 to 12   finish    6 and 7   on the fifth blue tick   50.28 m of block 3
                                (110 m hurdle tick 5)
────────────────────────────────────────────────────────────────────────────────

On this track
- Look both ways, then step on where you start.
- Run through the finish; step off to the right.
- No walking or standing in running lanes.
- Run anticlockwise; on the straights either way.
- Do not cross the infield.
- Runs over 400 m in lane 2.
- Runs of 120 m to 400 m in lanes 2 to 5.
- Runs up to 100 m in lanes 5 to 7 on the straights.
- Hurdles in lanes 6 and 7.
- Jogs and walks in lane 6.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.
- Look both ways before stepping on to the track; give way to those who are
  running.
- Keep away from throws and jumps areas in use, and from kerb and water-jump
  edges.
- Venue rules and the facility's staff come first. Load and pace are for a
  qualified coach or a doctor to judge.

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
            let output = toeline(&[command, workout]).assert().success().get_output().stdout.clone();
            let text = String::from_utf8(output).expect("text views are UTF-8");
            for line in text.lines() {
                assert!(line.chars().count() <= 80, "{command} {workout}: {line}");
            }
        }
    }
}
