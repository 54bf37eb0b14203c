//! What a plan says on a screen: one block in 24 lines, an evening as a table of who goes when, then every place once.

use std::fs;

use snapbox::str;

use crate::answer::printed;
use crate::folder::Folder;
use crate::run::toeline;

const EVENING: &str = "sessions/wrenbeck/saturday-club-evening.yaml";

#[test]
fn a_block_with_a_squad_says_who_goes_when_and_where() {
    toeline(&["plan", "6 x 250 @ 41, 90s rest, tall", "--athletes", "8", "--lanes", "2-5"])
        .assert()
        .success()
        .stdout_eq(str![[r#"
6 × 250 m @ 41 s, 90 s rest
Track: standard. Lasts 11:46. Distances assume the measure line.
! Not read: tall.
! Written: 6 x 250 @ 41, 90s rest, tall
! Lane 5: 1:30 rest is too short to walk 180 m to the next start, which takes
  2:09; rest 2:10, change ends, or jog.

Go   Wave  Who                                   Again
0 s  1–2   lanes 2–5 in turn: no. 1, no. 2, no.  10 s apart, every 2:11 to 10:55
           3, no. 4 / no. 5, no. 6, no. 7, no.
           8

Reps  Lane  Metres  Stand           Finish
1–6   2–5   250     4th green tick  finish line
- 2 waves of 4 in lanes 2 to 5, 12 min.
- Start by arm, not by whistle: sound takes 0.3 s to the 250 m start.
- Splits of 250 m: 100 m 16.4 s, 200 m 32.8 s
- Coach: outside lane 8, level with the finish line.

No cones: paint shows every place.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]]);
}

#[test]
fn a_block_alone_says_when_each_run_goes_and_where_the_cones_stand() {
    toeline(&["plan", "2 x (300 @ 48 + 200 @ 30) rest 2min / 8min in lane 2"]).assert().success().stdout_eq(
        str![[r#"
2 × (300 m @ 48 s, 200 m @ 30 s) in lane 2, 2 min rest, 8 min between sets
Track: standard. Lasts 14:36. Distances assume the measure line.
! Lane 2: 2:00 rest is too short to walk 200 m to the next start, which takes
  2:23; rest 2:25, change ends, or jog.

Reps  Lane  Metres  Stand             Finish       Target
1, 3  2     300     cone S            finish line  48 s
2, 4  2     200     200 m start line  finish line  30 s
Go at 0 s, then 200 m 2:48, 300 m 11:18, 200 m 14:06.
- Splits of 300 m: 100 m 16 s, 200 m 32 s
- Splits of 200 m: 100 m 15 s
- Coach: outside lane 8, level with the finish line.

Setting out: one lap from the finish line
Cone Lane Steps Where
S    2    13½   9.95 m back along the inner line from the exit of yellow zone 1
1 cone, 407 m, 5 min without taping. 1 step is 0.75 m.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]],
    );
}

#[test]
fn an_evening_is_a_table_of_goes_across_its_groups_then_the_places() {
    toeline(&["plan", EVENING]).assert().success().stdout_eq(str![[r#"
Club evening, Saturday, 17 April 2027
Track: Wrenbeck, lane 1 closed. 18:00 to about 18:56. Distances assume the
measure line.

Block 1, sprinters: warm-up 20 min, from 18:00
Block 2, hurdlers: warm-up 25 min with hurdle walks, from 18:00
Block 3, middle distance: warm-up 15 min, from 18:00
Block 4, middle distance: 5 × 1000 m @ 5 km pace, 2 min rest
! Lane 2: 2:00 rest is too short to walk 186 m to the next start, which takes
  2:13; rest 2:15, change ends, or jog.
Block 5, sprinters: (300 m, 250 m, 200 m, 150 m) @ 85%, 6 min rest
Block 6, hurdlers: 6 × 110 m hurdles to hurdle 3 @ 6.5 s in lanes 6, 7, 3 min
  rest
Block 7, sprinters: 4 × exchange in zone 2 in lanes 4, 5, 3 min rest
Block 8, middle distance: 4 × 200 m @ 1500 pace, 200 m walk
Block 9, hurdlers: 3 × 60 m @ 8.4 s in lanes 6, 7, 3 min rest

Who goes when (4.2 is wave 2 of block 4)
Go         middle distance         sprinters               hurdlers
18:15:00   4.1–4.2, lane 2: Mara,
           Noor, Otis, Pia, Quin
           / Rosa, Sami, Tove,
           Ursa, Vito
           10 s apart, every 5:30
           to 18:37:00
18:20:00                           5.1–5.2, lanes 3–5 in
                                   turn: Gita, Hana, Cleo
                                   / Ada, Bela, Dov
                                   10 s apart, then 250 m
                                   18:26:45, 200 m
                                   18:33:22, 150 m
                                   18:39:52
18:20:20                           5.3, lanes 3–5 in
                                   turn: Edie, Finn with
                                   Bruno
                                   then 250 m 18:27:05,
                                   200 m 18:33:42, 150 m
                                   18:40:13
18:25:00                                                   6.1: lane 6 Ines;
                                                           lane 7 Jory
                                                           then 18:28:06,
                                                           18:31:13, 18:34:19,
                                                           18:37:26, 18:40:38
18:25:10                                                   6.2: lane 6 Kaya;
                                                           lane 7 Lev
                                                           then 18:28:16,
                                                           18:31:50, 18:34:58,
                                                           18:38:05, 18:41:11
~18:46:35                          7.1–7.2: lane 4: Edie
                                   to Finn with Bruno
                                   (runs 1, 3), Finn with
                                   Bruno to Edie (runs 2,
                                   4) / lane 4 Ada to
                                   Bela; lane 5 Cleo to
                                   Dov
                                   30 s apart, every 3:09
                                   to ~18:56:02
18:46:45   8.1–8.2, lane 2: Mara,
           Noor, Otis, Pia, Quin
           / Rosa, Sami, Tove,
           Ursa, Vito
           10 s apart, every 3:09
           to ~18:56:12
~18:47:18                          7.3, lane 4: Gita to
                                   Hana
                                   each time 43 s after
                                   wave 1
18:47:28                                                   9.1–9.2, lanes 6–7 in
                                                           turn: Ines, Jory /
                                                           Kaya, Lev
                                                           10 s apart, every
                                                           3:09 to 18:53:46

Block Reps Lane Metres    Stand                    Finish                Target
4     1–5  2    1000 ±0.2 cone 8                   finish line           3:30
5     1    3–5  300       cones 1–3                finish line
      2    3–5  250       4th green tick           finish line
      3    3–5  200       200 m start line         finish line
      4    3–5  150       cones 9–11               finish line
6     1–6  6–7  32        110 m hurdles start line 3rd blue tick
7     1–4  4–5  30        entry of yellow zone 2   exit of yellow zone 2
8     1–4  2    200       200 m start line         finish line           37.3 s
9     1–3  6–7  60        60 m start line          finish line

- Run-in in lanes 4 and 5: cones 4–5, 10.00 m back from the 4th green tick
  (block 7)
- Zone 2, 30 m: outgoing waits at its entry, incoming starts 40 m back. (block
  7)
- Check mark 7.8 m back, 26 feet, baton over about 12 m on: Edie to Finn, Ada to
  Bela, Gita to Hana and Finn to Edie (lane 4, cone 6). (block 7)
- Check mark 7.0 m back, 23 feet, baton over about 10 m on: Cleo to Dov (lane 5,
  cone 7). (block 7)

[PASSES_WRENBECK_GATE] (blocks 4, 5, 8 and 9)
[PASSES_WRENBECK_JAVELIN] (blocks 4, 5 and 7)
! Bruno runs one lane outside Finn. (blocks 5 and 7)
! Nobody times it: the one coach is at another finish with blocks 4 and 5. With
  a coach for each group, say so (a watch for each group; timers in a session
  file). (block 6)
! Nobody times it: the one coach is at another finish with blocks 8 and 9. With
  a coach for each group, say so (a watch for each group; timers in a session
  file). (block 7)
! Lane 2: walk 207 m, not 200; the same start each time. (block 8)
! Go times are about right only: no rest given. (block 8)

- Javelin from 18:30; nobody crosses the infield.
- Batons and hurdles are in the store by the gate.
- Start by arm, not by whistle: sound takes 0.4 s to the 150 m start.

Setting out: one lap from the finish line
Cone  Lane Steps Where
1     3    13½   9.96 m back along the inner line from the exit of yellow zone 1
2     4    13½   9.98 m back along the inner line from the exit of yellow zone 1
3     5    13½   10.00 m back from the exit of yellow zone 1
4–5   4–5  13½   10.00 m back from the 4th green tick
6     4    10½   7.83 m back from the entry of yellow zone 2
7     5    9½    7.03 m back from the entry of yellow zone 2
8     2    5½    4.06 m past the exit of yellow zone 2 along the inner line
9     3    6½    4.97 m back along the inner line from the 7th green tick
10–11 4–5  6½    4.98 m back along the inner line from the 7th green tick
11 cones, 420 m, 6 min without taping. 1 step is 0.75 m.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]]);
}

#[test]
fn one_group_has_a_line_for_each_wave() {
    toeline(&["plan", "sessions/wrenbeck/thursday-middle-distance.yaml"]).assert().success().stdout_eq(str![
        [r#"
Wrenbeck middle distance, Thursday, 15 April 2027
Track: Wrenbeck, lane 1 closed. 18:00 to 18:58. Distances assume the measure
line.

Block 1, middle distance: warm-up 15 min, from 18:00
Block 2, middle distance: 3 × 1000 m @ 5 km pace in lane 2, 3 min rest
Block 3, middle distance: 4 × 300 m @ 1500 pace in lane 2, 100 m jog in 60 s
Block 4, middle distance: 4 × 200 m @ 800 pace in lanes 3-5, walk back, 2:30
  rest

Who goes when
Go        Block  Who                                  Again
18:15:00  2      lane 2: Ines, Jory, Kaya             every 6:30 to 18:28:00
18:36:30  3      lane 2: Ines, Jory, Kaya             every 1:56 to 18:42:18
18:48:14  4      lanes 3–5 in turn: Ines, Jory, Kaya  every 3:04 to 18:57:26

Block  Reps  Lane  Metres     Stand             Finish       Target
2      1–3   2     1000 ±0.2  cone 2            finish line  3:30
3      1–4   2     300        cone 1            finish line  56 s
4      1–4   3–5   200        200 m start line  finish line  34 s

[PASSES_WRENBECK_GATE] (blocks 2, 3 and 4)
[PASSES_WRENBECK_JAVELIN] (blocks 2 and 3)
! Lane 2: jog 107 m, not 100; the same start each time. (block 3)

- The jog after each 300 ends at its start again, 107 m in lane 2.
- Start by arm, not by whistle: sound takes 0.4 s to the 200 m start.

Setting out: one lap from the finish line
Cone Lane Steps Where
1    2    13½   9.95 m back along the inner line from the exit of yellow zone 1
2    2    5½    4.06 m past the exit of yellow zone 2 along the inner line
2 cones, 407 m, 5 min without taping. 1 step is 0.75 m.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]
    ]);
}

#[test]
fn a_late_change_stands_above_the_plan() {
    let shown = toeline(&["plan", EVENING, "--without", "Ada", "--start", "18:05"]).assert().success();
    let text = printed(&shown);
    assert!(text.starts_with("Changed: start at 18:05; without Ada.\n\nClub evening"), "{text}");
}

#[test]
fn a_file_has_everything_and_so_has_the_flag() {
    let folder = Folder::new();
    let path = folder.at("plan.txt");
    toeline(&["plan", EVENING, "--out", &path]).assert().success();
    let full = printed(&toeline(&["plan", EVENING, "--full"]).assert().success());
    assert_eq!(fs::read_to_string(&path).expect("it was written"), full);
    let brief = printed(&toeline(&["plan", EVENING]).assert().success());
    assert!(brief.lines().count() * 2 < full.lines().count(), "{brief}");
}

#[test]
fn long_names_are_broken_so_that_no_line_is_longer_than_a_screen() {
    let long = "a".repeat(90);
    let groups = format!(
        "{{ title: Long, groups: [{{ name: {long}, athletes: [A{long}, Bo], blocks: [4 x 150 in lanes 3-4] }}, \
         {{ name: second, athletes: [Cy, Di], blocks: [4 x 150 in lanes 5-6, 3 x 60] }}] }}"
    );
    let folder = Folder::with("long.yaml", &groups);
    let text = printed(&folder.toeline(&["plan", "long.yaml"]).assert().success());
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    assert_eq!(text.matches('a').count() / 90, 3, "group, its column, and the athlete: {text}");
}
