//! What a text says of the day: lanes that are closed, and when it begins.

use snapbox::str;

use crate::console::{answered, refused};

#[test]
fn a_text_says_which_lanes_are_closed_and_when_it_begins() {
    answered(str![[r#"
# what is to be run in a closed lane moves, as with `--closed`
$ cat notes.txt
Thursday
6pm start, lane 1 shut for repair

4 x 60, 2 min
6 x 200 in lane 1, 90 s
$ toeline plan --full notes.txt
Changed: lane 1 closed (6 x 200 in lane 1, 90 s: lane 2, not 1).

Thursday
Track: standard, lane 1 closed
18:00 to about 18:22

Block 1: 4 × 60 m, 2 min rest
─────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                    Finish               Rest
═════════════════════════════════════════════════════════════════════════════
 1 to 4   2          60   on the 60 m start line   on the finish line   2:00
─────────────────────────────────────────────────────────────────────────────
Total 240 m.
Go at ~18:00:00, every 2:09 to ~18:06:27.
- Coach: outside lane 8, level with the finish line.

Block 2: 6 × 200 m in lane 2, 90 s rest
! Lane 2: 1:30 rest is too short to walk 200 m to the next start, which takes
  2:23; rest 2:25, change ends, or jog.
──────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish               Rest
══════════════════════════════════════════════════════════════════════════════
 1 to 6   2         200   on the 200 m start line   on the finish line   1:30
──────────────────────────────────────────────────────────────────────────────
Total 1200 m.
Go at ~18:11:36, every 2:02 to ~18:21:46.
- Coach: outside lane 8, level with the finish line.

Please note
- 4 x 60, 2 min: no lane named, so lane 2, the innermost open.
- Allows 5 min between blocks, as no break is given.

No cones: paint shows every place.

[CAUTIONS_LANE_ONE_CLOSED]
$ toeline session notes.txt
title: Thursday
start: 18:00
closed_lanes: [1]
blocks:
  - 4 x 60 rest 2:00
  - 6 x 200 in lanes 1 rest 1:30

# a workout that is typed
$ toeline session '4 x 60, no lane 1'
title: 4 x 60, no lane 1
closed_lanes: [1]
blocks:
  - 4 x 60

"#]]);
    refused(str![[r#"
# one block closes no lane
$ toeline spots '200, lane 1 closed'
error: `lane 1 closed` is about the whole session, and this is one block of it
 --> workout:1:4
  |
1 | 200, lane 1 closed
  |    ^^^^^^^^^^^^^^^
  |
help: use `--closed 1`, or write `closed_lanes: [1]` in the session file

# a lane that is named and closed in one line
$ toeline plan --full '6 x 200 in lane 1, lane 1 closed'
error: lane 1 is closed; open on the oval: lanes 2 to 8
 --> workout:1:17
  |
1 | 6 x 200 in lane 1, lane 1 closed
  |                 ^
  |
help: use open lanes, for example lane 2

# a lane that the track does not have
$ toeline plan --full '6 x 200, lane 9 closed'
error: there is no lane 9 on the oval; open there: lanes 1 to 8

# a lane that is closed for a part of the evening
$ toeline plan --full '6 x 200, lane 1 closed until 19:30'
error: nothing says when the session begins
 --> workout:1:8
  |
1 | 6 x 200, lane 1 closed until 19:30
  |        ^^^^^^^^^^^^^^^^^^^^^^^^^^^
  |
help: write when in the first line, for example `Tuesday 6.30pm`

"#]]);
}

#[test]
fn groups_begin_at_times_of_their_own_and_wait_for_nobody() {
    answered(str![[r#"
# each warms up and cools down when it is there
$ cat notes.txt
Tuesday 13 April 2027
Warm up 10 min
U11s (Ann, Bob) 6pm:
- 4 x 40
Seniors at 7pm: 6 x 200, 3 min
Cool down 10 min
$ toeline plan notes.txt
Tuesday, 13 April 2027
Track: standard. 18:00 to about 19:38. Distances assume the measure line.

Block 1, U11s: Warm up 10 min, from 18:00
Block 2, U11s: 4 × 40 m
Block 3, U11s: Cool down 10 min, from about 18:16
Block 4, Seniors: Warm up 10 min, from 19:00
Block 5, Seniors: 6 × 200 m, 3 min rest
Block 6, Seniors: Cool down 10 min, from about 19:28

Who goes when
Go         U11s                            Seniors
~18:10:00  2, lanes 2–6 in turn: Ann, Bob
           every 2:15 to ~18:16:45
~19:10:00                                  5: every 3:32 to ~19:27:40

Block  Reps  Lane  Metres  Stand             Finish
2      1–4   2–6   40      10th green tick   finish line
5      1–6   1     200     200 m start line  finish line

! Go times are about right only: no target and no rest given. (block 2)

- 6 x 200, 3 min: no lane named, so lane 1, the innermost open.
- Start by arm, not by whistle: sound takes 0.1 s to the 40 m start.

No cones: paint shows every place.

Look both ways; mind throws and jumps; venue rules come first. More: --full
$ toeline session notes.txt
title: Tuesday
date: 2027-04-13
start: 18:00
before_groups:
  - Warm up 10 min
groups:
  - name: U11s
    athletes: [Ann, Bob]
    blocks:
      - 4 x 40
  - name: Seniors
    start: 19:00
    blocks:
      - 6 x 200 rest 3:00
after_groups:
  - Cool down 10 min

"#]]);
}
