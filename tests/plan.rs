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

Block 1: 4 x 60 in lanes 5-7 rest 3min
───────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                    Finish               Rest
═══════════════════════════════════════════════════════════════════════════════
 1 to 4   5 to 7       60   on the 60 m start line   on the finish line   3:00
───────────────────────────────────────────────────────────────────────────────
Total 240 m in each lane.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Block 2: 4 x 150 in lanes 2-5 rest 5min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                   Finish                 Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   2 to 5      150   on the 400 m start      on the fourth green    5:00
                            line                    tick (400 m hurdle
                                                    tick 4)
────────────────────────────────────────────────────────────────────────────────
Total 600 m in each lane.
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 3: 2 x 250 in lanes 3,5 @ 34 rest 8min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand              Finish            Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 2   3 and 5      250   on the fourth      on the finish     34 s     8:00
                             green tick (400    line
                             m hurdle tick 4)
────────────────────────────────────────────────────────────────────────────────
Total 500 m in each lane.
- Splits of 250 m: 100 m 13.6 s, 200 m 27.2 s
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
            Set out   Lane      Where                    For
════════════════════════════════════════════════════════════════════════════════
        1   finish    3         on the finish line       250 m of block 3
        2   finish    5         on the finish line       60 m of block 1, 250 m
                                                         of block 3
   3 to 4   finish    6 and 7   on the finish line       60 m of block 1
   5 to 8   start     2 to 5    on the 400 m start       150 m of block 2
                                line
        9   finish    2         on the fourth green      150 m of block 2
                                tick (400 m hurdle
                                tick 4)
       10   start     3         on the fourth green      250 m of block 3
                                tick (400 m hurdle
                                tick 4)
 11 to 12   finish    3 and 4   on the fourth green      150 m of block 2
                                tick (400 m hurdle
                                tick 4)
       13   start     5         on the fourth green      250 m of block 3
                                tick (400 m hurdle
                                tick 4)
       14   finish    5         on the fourth green      150 m of block 2
                                tick (400 m hurdle
                                tick 4)
 15 to 17   start     5 to 7    on the 60 m start line   60 m of block 1
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
Lasts 46:30

Block 1: 6 x 200 in lane 2 @ 34s rest 90s
────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand          Finish               Target   Rest
════════════════════════════════════════════════════════════════════════════
 1 to 6   2         200   on the 200 m   on the finish line   34 s     1:30
                          start line
────────────────────────────────────────────────────────────────────────────
Total 1200 m.
- Splits of 200 m: 100 m 17 s
! The rest of 1:30 in lane 2 is too short to walk the 200 m to the next start,
  which takes 2:23 at 1.4 m/s: rest 2:25 or more, write `changing ends`, or jog.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Block 2: 3 x 1000 in lane 2 @ 3:20 rest 3min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand              Finish            Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 3   2      1000 ±0.2   4.08 m past the    on the finish     3:20     3:00
                             second 4x100 m     line
                             takeover zone
                             exit (yellow);
                             tape 4.06 m on
                             the inner line
────────────────────────────────────────────────────────────────────────────────
Total 3000 m.
- Splits of 1000 m: 100 m 20 s, 200 m 40 s, 300 m 1:00, 400 m 1:20, 500 m 1:40,
  600 m 2:00, 700 m 2:20, 800 m 2:40, 900 m 3:00
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 3: 4 x 300 in lane 3 @ 54s rest 2min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                   Finish          Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 4   3         300   10.00 m behind the      on the finish   54 s     2:00
                          first 4x100 m           line
                          takeover zone exit
                          (yellow); tape 9.96 m
                          on the inner line
────────────────────────────────────────────────────────────────────────────────
Total 1200 m.
- Splits of 300 m: 100 m 18 s, 200 m 36 s
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Please note
- Between blocks 5:00 are assumed; `between_blocks` in the session file says
  better.

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────────
     Set out   Lane   Where                         For
════════════════════════════════════════════════════════════════════════════════
 1   finish    2      on the finish line            200 m of block 1, 1000 m of
                                                    block 2
 2   finish    3      on the finish line            300 m of block 3
 3   start     3      10.00 m behind the first      300 m of block 3
                      4x100 m takeover zone exit
                      (yellow); tape 9.96 m on
                      the inner line
 4   start     2      on the 200 m start line       200 m of block 1
 5   start     2      4.08 m past the second        1000 m of block 2
                      4x100 m takeover zone exit
                      (yellow); tape 4.06 m on
                      the inner line
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

Block 1: 2 x 1 mile @ 6:00 rest 4min
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane          Metres   Stand            Finish          Target   Rest
════════════════════════════════════════════════════════════════════════════════
 1 to 2   2      1609.344 ±0.2   8.51 m past      on the finish   6:00     4:00
                                 the later        line
                                 4x400 m
                                 takeover zone
                                 exit line;
                                 tape 8.46 m on
                                 the inner line
────────────────────────────────────────────────────────────────────────────────
Total 3218.688 m.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track
! passes the javelin runway inside: look for a thrower on the run-up before you
  pass, and wait until the throw has landed

Block 2: 6 x 100 rest 1:30
──────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish               Rest
══════════════════════════════════════════════════════════════════════════════
 1 to 6   5         100   on the 100 m start line   on the finish line   1:30
──────────────────────────────────────────────────────────────────────────────
Total 600 m.
! passes the gate outside (the changing rooms' gate): look for people who step
  on to the track

Please note
- `2 x 1 mile @ 6:00 rest 4min` names no lane: lane 2 is used, by the house rule
  "runs over 400 m in lane 2".
- `6 x 100 rest 1:30` names no lane: lane 5 is used, by the house rule "runs up
  to 100 m in lanes 5 to 7 on the straights".

One lap from the finish line sets it out
────────────────────────────────────────────────────────────────────────────
     Set out   Lane   Where                           For
════════════════════════════════════════════════════════════════════════════
 1   finish    2      on the finish line              1609.344 m of block 1
 2   finish    5      on the finish line              100 m of block 2
 3   start     2      8.51 m past the later 4x400 m   1609.344 m of block 1
                      takeover zone exit line; tape
                      8.46 m on the inner line
 4   start     5      on the 100 m start line         100 m of block 2
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
fn no_line_is_wider_than_80_columns() {
    for workout in [
        "6 x 200",
        "4 x 150 in lanes 2-5",
        "10000 in lane 8 @ 55:00",
        "sessions/wrenbeck/saturday-alone.yaml",
    ] {
        for command in ["plan", "spots"] {
            if command == "spots" && workout.contains("lanes") || workout.ends_with(".yaml") {
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
