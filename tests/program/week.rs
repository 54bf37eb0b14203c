//! `toeline week`: what each session asks of each group.

use std::fs;

use crate::answer::{list, number, printed};
use crate::console::{answered, refused};
use crate::folder::Folder;
use crate::run::toeline;
use snapbox::str;

#[test]
fn the_week_of_the_demonstration() {
    toeline(&["week", "sessions/wrenbeck"]).assert().success().stderr_eq(str![]).stdout_eq(str![[r#"
The week at a glance, Monday 12 April to Sunday 18 April 2027
8 sessions. Track: Wrenbeck

────────────────────────────────────────────────────────────────────────────────
 When          Who runs what                     Metres   On bends   Recoveries
════════════════════════════════════════════════════════════════════════════════
 Mon 12 Apr    sprinters                            560                       6
 18:00-19:30   4 x flying 30 with 30 run-in, 4                          24:07.9
               x 80
 Mon 12 Apr    middle distance                     5200       3006            6
 18:00-19:30   2 x 2000, 6 x 200                          26 bends        15:30
 Tue 13 Apr    sprinters                           1340        516            7
 18:00-19:30   4 x 60, 4 x 150, 2 x 250                    6 bends        32:00
 Wed 14 Apr    hurdlers                            1228        569            8
 17:30-19:00   4 x 110h to hurdle 3, 3 x 110h              8 bends        31:00
               to hurdle 5, 4 x exchange zone
               2, 2 laps in-and-out 50s
 Thu 15 Apr    middle distance                     5000       2721            8
 18:00-19:30   3 x 1000, 4 x 300, 4 x 200                 27 bends        16:30
                                                                          321 m
 Fri 16 Apr    sprinters                            660        480            8
 17:30-18:30   6 x 30, 4 x 120                             4 bends        28:00
 Sat 17 Apr    One athlete alone, Saturday         3819       1868            6
 09:00-10:15   2 x 1609.34, 6 x 100                       16 bends        11:30
 Sat 17 Apr    sprinters                           1180        528            6
 18:00-19:45   300 + 250 + 200 + 150, 4 x                  9 bends      27:01.4
               exchange zone 2
 Sat 17 Apr    hurdlers                             372                       7
 18:00-19:45   6 x 110h to hurdle 3, 3 x 60                             21:07.2
 Sat 17 Apr    middle distance                     5800       3353            7
 18:00-19:45   5 x 1000, 4 x 200                          29 bends         8:00
                                                                          621 m
 Sun 18 Apr    Easy run, Sunday                    1221        715
               3 laps                                      6 bends
 In all        sprinters                           3740       1524           27
               4 sessions                                 19 bends    1:51:09.3
 In all        middle distance                    16000       9080           21
               3 sessions                                 82 bends        40:00
                                                                          942 m
 In all        hurdlers                            1600        569           15
               2 sessions                                  8 bends      52:07.2
────────────────────────────────────────────────────────────────────────────────

Metres by pace, the target in m/s
────────────────────────────────────────────────────────────────────────────────
 When         Who            below 4   4 to 5.5   5.5 to 7   from 7   no target
════════════════════════════════════════════════════════════════════════════════
 Mon 12 Apr   sprinters                                         440         120
 Mon 12 Apr   middle                       5200
              distance
 Tue 13 Apr   sprinters                                        1340
 Wed 14 Apr   hurdlers                                                     1228
 Thu 15 Apr   middle                       4200        800
              distance
 Fri 16 Apr   sprinters                                180      480
 Sat 17 Apr   One athlete                  3219                             600
              alone,
              Saturday
 Sat 17 Apr   sprinters                                575      325         280
 Sat 17 Apr   hurdlers                      192                 180
 Sat 17 Apr   middle                       5800
              distance
 Sun 18 Apr   Easy run,         1221
              Sunday
 In all       sprinters                                755     2585         400
 In all       middle                      15200        800
              distance
 In all       hurdlers                      192                 180        1228
────────────────────────────────────────────────────────────────────────────────
- Bands go by the target of each run: 4 m/s is 400 m in 1:40, 5.5 m/s is 400 m
  in 1:12.7, 7 m/s is 400 m in 57.1 s.

Where the real distance differs
- Mon 12 Apr, sprinters: 4 x flying 30 with 30 run-in: 240 m, not 120 m; the
  run-in is 30 m.
- Wed 14 Apr, hurdlers: 4 x 110h to hurdle 3: 128 m, not 440 m; there it is 32
  m.
- Wed 14 Apr, hurdlers: 3 x 110h to hurdle 5: 150.84 m, not 330 m; there it is
  50.28 m.
- Wed 14 Apr, hurdlers: 4 x exchange zone 2: 120 m, not 0 m; the takeover zone
  is 30 m.
- Wed 14 Apr, hurdlers: 2 laps in-and-out 50s: 829.41 m, not 800 m; a lap of
  lane 3 is 414.7 m.
- Sat 17 Apr, sprinters: 4 x exchange zone 2: 280 m, not 0 m; the takeover zone
  is 30 m, the run-in 40 m.
- Sat 17 Apr, hurdlers: 6 x 110h to hurdle 3: 192 m, not 660 m; there it is 32
  m.
- Sun 18 Apr, Easy run, Sunday: 3 laps: 1221.12 m, not 1200 m; a lap of lane 2
  is 407.04 m.

Not counted: distance unknown
- Mon 12 Apr, sprinters: warm-up 20 min; drills
- Mon 12 Apr, middle distance: warm-up 20 min
- Tue 13 Apr, sprinters: warm-up 20 min
- Wed 14 Apr, hurdlers: warm-up 20 min with hurdle walks
- Thu 15 Apr, middle distance: warm-up 15 min
- Fri 16 Apr, sprinters: warm-up 15 min
- Sat 17 Apr, One athlete alone, Saturday: warm-up 10 min
- Sat 17 Apr, sprinters: warm-up 20 min
- Sat 17 Apr, hurdlers: warm-up 25 min with hurdle walks
- Sat 17 Apr, middle distance: warm-up 15 min
- Sun 18 Apr, Easy run, Sunday: 40 min easy

[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]
- Baton practice: keep the lane clear, shout before you hand on, look behind
  before you slow down or leave the lane. The coach decides.

"#]]);
}

/// 2 × 200 + 400 in lane 2, by hand: 200 m to the finish hold a whole home straight of 84.39 m, and
/// a lap holds two.
#[test]
fn metres_recoveries_and_bends_can_be_added_up_by_hand() {
    answered(str![[r#"
# 807 m, 469 m of them on bends
$ cat a.yaml
{ title: A, date: 2027-04-13, blocks: [2 x 200 in lane 2 @ 32 rest 90s, 1 lap to the finish line in lane 2 @ 80] }
$ toeline week a.yaml
The week at a glance, Tuesday 13 April 2027
1 session. Track: standard

──────────────────────────────────────────────────────────────
 When         Who runs what    Metres   On bends   Recoveries
══════════════════════════════════════════════════════════════
 Tue 13 Apr   A                   807        469            1
              2 x 200, 1 lap             4 bends         1:30
──────────────────────────────────────────────────────────────

Metres by pace, the target in m/s
───────────────────────────────────────────────────────────────────────
 When         Who   below 4   4 to 5.5   5.5 to 7   from 7   no target
═══════════════════════════════════════════════════════════════════════
 Tue 13 Apr   A                    407        400
───────────────────────────────────────────────────────────────────────
- Bands go by the target of each run: 4 m/s is 400 m in 1:40, 5.5 m/s is 400 m
  in 1:12.7, 7 m/s is 400 m in 57.1 s.

Where the real distance differs
- Tue 13 Apr, A: 1 lap: 407.04 m, not 400 m; a lap of lane 2 is 407.04 m.

[CAUTIONS]

"#]]);
}

#[test]
fn folders_that_are_refused() {
    refused(str![[r#"
# every file that is wrong is told of
$ cat a.yaml
title: A
blocks: [6 x]
$ cat b.yaml
title: B
blocks: [200 in lane 9]
$ toeline week .
error: expected a distance, found the end of the text
 --> ./a.yaml:2:13
  |
2 | blocks: [6 x]
  |             ^
  |
help: write for example `6 x 200 in lane 2`
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> ./b.yaml:2:22
  |
2 | blocks: [200 in lane 9]
  |                      ^
  |
help: use open lanes, for example lane 1

# a folder without sessions
$ cat other.yaml
shopping: [bread, milk]
$ toeline week .
note: left out: `./other.yaml` is neither a session nor a track file
error: there is no session file in `.`; a session file ends in .yaml or .yml and has a `title`

"#]]);
}

#[test]
fn a_folder_means_its_session_files_and_those_of_its_sub_folders() {
    let folder = Folder::new();
    fs::create_dir_all(folder.path().join("spring/april")).expect("the folder can be written");
    folder.write(
        "spring/april/b.yml",
        "{ title: Second, date: 2027-04-14, track: ../track.yaml, blocks: [6 x 200] }",
    );
    folder.write("a.yaml", "{ title: First, date: 2027-04-13, blocks: [6 x 100] }");
    // Neither a track nor anything else is a session, and a text is none either.
    let track = fs::read_to_string("sessions/wrenbeck/track.yaml").expect("it is there");
    folder.write("spring/track.yaml", track);
    folder.write("other.yaml", "shopping: [bread, milk]");
    folder.write("notes.txt", "title: not a session");
    let week = folder.json(&["week", "."]);
    let titles: Vec<_> =
        list(&week["entries"]).iter().map(|entry| entry["title"].as_str().unwrap_or_default()).collect();
    assert_eq!(titles, ["First", "Second"]);
    assert_eq!(week["entries"][1]["track"], "Wrenbeck");
}

#[test]
fn a_track_file_is_no_session() {
    toeline(&["week", "sessions/wrenbeck/track.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: `sessions/wrenbeck/track.yaml` is a track file; write the names of session files, or of their folder

"#]]);
}

#[test]
fn a_track_file_beside_sessions_is_left_out() {
    let [monday, track] = ["monday-two-groups", "track"].map(|name| format!("sessions/wrenbeck/{name}.yaml"));
    let alone = toeline(&["week", &monday, "--format", "csv"]).assert().success();
    let alone = String::from_utf8_lossy(&alone.get_output().stdout).into_owned();
    toeline(&["week", &monday, &track, "--format", "csv"]).assert().success().stdout_eq(alone).stderr_eq(
        str![[r#"
note: left out `sessions/wrenbeck/track.yaml`, a track file

"#]],
    );
}

#[test]
fn a_path_that_is_not_there_cannot_be_read() {
    toeline(&["week", "no-such-folder"]).assert().code(1).stderr_eq(str![[r#"
error: cannot read `no-such-folder`: No such file or directory (os error 2)

"#]]);
}

#[test]
fn a_run_by_time_is_named_as_not_counted() {
    let session = "{ title: A, date: 2027-04-13, blocks: [20 min steady, 4 x 100 in lane 3] }";
    let text = printed(&Folder::with("a.yaml", session).toeline(&["week", "a.yaml"]).assert().success());
    assert!(text.contains("Not counted: distance unknown\n- Tue 13 Apr, A: 20 min steady\n"), "{text}");
    assert!(text.contains("4 x 100"), "{text}");
}

/// Five runners in two lanes need three waves; each of them still runs 4 × 200.
#[test]
fn groups_that_share_a_session_count_one_runner_each() {
    let text = "title: A
date: 2027-04-13
groups:
  - { name: fast, athletes: [a, b, c] }
  - { name: steady, athletes: [d, e] }
blocks:
  - warm-up 10 min
  - 4 x 200 in lanes 3,4 rest 3min
";
    let week = Folder::with("a.yaml", text).json(&["week", "a.yaml"]);
    let entries = list(&week["entries"]);
    let groups: Vec<_> = entries.iter().map(|entry| entry["group"].as_str().unwrap_or_default()).collect();
    assert_eq!(groups, ["fast", "steady"]);
    for entry in entries {
        let load = &entry["load"];
        assert_eq!((&load["runs"], &load["metres"]), (&4.into(), &800.0.into()), "{entry}");
        // Nobody has a target, so that no start is timed: the rest is the one that is written.
        assert_eq!((&load["recoveries"], &load["recovery_s"]), (&3.into(), &540.0.into()), "{entry}");
        assert_eq!(entry["not_counted"][0], "warm-up 10 min");
    }
}

/// 200 m in 26 s are 7.7 m/s, in 40 s they are 5 m/s; in between, 33 s, they are 6.1 m/s.
#[test]
fn the_middle_of_a_range_picks_the_pace_band() {
    let session = "{ title: A, date: 2027-04-13, blocks: [200 in lane 3 in 26-40s] }";
    let week = Folder::with("a.yaml", session).json(&["week", "a.yaml"]);
    let bands = list(&week["entries"][0]["load"]["bands"]);
    let metres: Vec<_> = bands.iter().filter_map(|band| band["metres"].as_f64()).collect();
    assert_eq!(metres, [0.0, 0.0, 200.0, 0.0, 0.0]);
}

#[test]
fn no_line_is_wider_than_80_columns() {
    let text = printed(&toeline(&["week", "sessions/wrenbeck"]).assert().success());
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
}

#[test]
fn bends_are_those_of_the_lanes_that_are_really_run() {
    // A lap of lane 2 has a bend of 2 π × 37.92 m, of lane 5 one of 2 π × 41.58 m; both are run by one each.
    let text = "title: t\ngroups: [{ name: g, athletes: [Ada, Ben] }]\nsquad: { mode: one to a lane }\n\
                blocks: [\"2 x 1 lap in lanes 2, 5 rest 3min\"]\n";
    let folder = Folder::with("t.yaml", text);
    let week = folder.json(&["week", "t.yaml"]);
    let bend_m = week["entries"][0]["load"]["bend_m"].as_f64();
    let both_m = 2.0 * std::f64::consts::PI * (37.92 + 41.58);
    assert!(bend_m.is_some_and(|bend_m| (bend_m - both_m).abs() < 0.01), "{bend_m:?}, not {both_m}: {week}");
}

#[test]
fn laps_are_those_of_the_lanes_that_are_really_run() {
    let text = "{ title: laps, groups: [{ name: g, athletes: [Ada, Bela, Cleo] }], squad: { mode: one to a lane }, \
                blocks: [3 x 1 lap in lanes 2-4 @ 80 rest 2min] }";
    let folder = Folder::with("laps.yaml", text);
    let week = folder.json(&["week", "laps.yaml"]);
    // Each runs one lap in each lane: 407.04, 414.70 and 422.37 m.
    assert!((number(&week["entries"][0]["load"]["metres"]) - 1244.11).abs() < 0.01, "{}", week["entries"][0]);
    let said = printed(&folder.toeline(&["week", "laps.yaml"]).assert().success());
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains("1244.11 m, not 1200 m; a lap is 407.04 m in lane 2 to 422.37 m in lane 4."),
        "{said}"
    );
}
