//! Sessions as text: files, standard input, and the session files that they make.

use crate::answer::{json, list, number, parsed, printed, told};
use crate::console::{answered, refused};
use crate::folder::Folder;
use crate::run::toeline;
use snapbox::str;

#[test]
fn a_text_file_is_written_out_as_a_session_file() {
    answered(str![[r##"
# a workout out of a file
$ cat tuesday.txt
main set: 6x200m, lane 2, rec 2min
$ toeline session tuesday.txt
title: tuesday
blocks:
  - "main set: 6 x 200 in lanes 2 rest 2:00"

# a workout that is typed
$ toeline session '4 x 60 @ 8.2'
title: 4 x 60 @ 8.2
blocks:
  - 4 x 60 @ 8.2s

# what YAML would take for something else
$ toeline session 'on'
title: "on"
blocks:
  - "on"

"##]]);
}

#[test]
fn a_session_of_many_lines_has_a_title_a_date_groups_and_rests_between_blocks() {
    answered(str![[r#"
# read by `plan` and written out by `session`
$ cat notes.txt
Tuesday track 13 April 2027
Warm up 15 min
Sprints:
- 4 x 60 @ 8.5, walk back
- 5 min rest
- 2 x 150 @ 20, keep tall
Distance:
1. 6 x 400m, 75s
2. 4 x 100 strides
$ toeline plan --full notes.txt
Tuesday track, 13 April 2027
Track: standard
Lasts about 38:26

Block 1, all groups: Warm up 15 min
Lasts 15:00.

Block 2, Sprints: 4 × 60 m @ 8.5 s, walk back, then 5 min rest
───────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                    Finish               Target
═══════════════════════════════════════════════════════════════════════════════
 1 to 4   1          60   on the 60 m start line   on the finish line   8.5 s
───────────────────────────────────────────────────────────────────────────────
Total 240 m.
Go at 15:10, then ~16:01.5, ~16:53, ~17:44.5.
- Coach: outside lane 8, level with the finish line.
! Lane 1: 60 m to walk back, 43 s.

Block 3, Distance: 6 × 400 m, 75 s rest
! Or 75 s could be the time of each run.
! Written: 6 x 400m, 75s
──────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish               Rest
══════════════════════════════════════════════════════════════════════════════
 1 to 6   2         400   on the 400 m start line   on the finish line   1:15
──────────────────────────────────────────────────────────────────────────────
Total 2400 m.
Go at ~15:00, every 2:30 to ~27:30.
- Coach: outside lane 8, level with the finish line.

Block 4, Sprints: 2 × 150 m @ 20 s
! Not read: keep tall.
! Written: 2 x 150 @ 20, keep tall
────────────────────────────────────────────────────────────────────────────
 Reps   Lane   Metres   Stand                Finish                  Target
════════════════════════════════════════════════════════════════════════════
 1, 2   1         150   on the 400 m start   on the 4th green tick   20 s
                        line
────────────────────────────────────────────────────────────────────────────
Total 300 m.
Go at ~22:53, then ~26:13.
- Splits of 150 m: 100 m 13.3 s
- Coach: outside lane 8, level with the finish in lane 1: on the 4th green tick.
! To finish on the finish line in lane 1, start 4.96 m back along the inner line
  from the 7th green tick.

Block 5, Distance: 4 × 100 m strides
───────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                     Finish
═══════════════════════════════════════════════════════════════════════
 1 to 4   2         100   on the 100 m start line   on the finish line
───────────────────────────────────────────────────────────────────────
Total 400 m.
Go at ~33:45, every 1:28 to ~38:09.
- Coach: outside lane 8, level with the finish line.

Please note
- No lane named: blocks 2, 4 in lane 1; blocks 3, 5 in lane 2.
- Allows 5 min between blocks, as no break is given.

No cones: paint shows every place.

[CAUTIONS]
$ toeline session notes.txt
title: Tuesday track
date: 2027-04-13
before_groups:
  - Warm up 15 min
groups:
  - name: Sprints
    blocks:
      - text: 4 x 60 @ 8.5s walk back
        rest_after: 5min
      # Not read: keep tall.
      # Written: 2 x 150 @ 20, keep tall
      - 2 x 150 @ 20s
  - name: Distance
    blocks:
      # Or 75 s could be the time of each run.
      # Written: 6 x 400m, 75s
      - 6 x 400 rest 1:15
      - 4 x 100 strides

"#]]);
}

#[test]
fn a_workout_that_is_typed_makes_several_blocks() {
    let plan = json(&["plan", "warm up 10 min; 4 x 60 @ 8.5; 3 x 150 @ 20 rest 8'"]);
    assert_eq!(plan["reading"], "warm up 10 min\n4 × 60 m @ 8.5 s\n3 × 150 m @ 20 s, 8 min rest");
    assert_eq!(plan["title"], "warm up 10 min; 4 x 60 @ 8.5; 3 x 150 @ 20 rest 8'");
}

#[test]
fn what_is_wrong_in_a_text_of_many_lines_stands_under_the_word() {
    refused(str![[r#"
# words, each in its line
$ cat notes.txt
Tuesday
- 4 x 60 in lain 2
- 3 x 150 rset 8min
$ toeline plan notes.txt
error: expected `lane` after `in`, found `lain`
 --> notes.txt:2:13
  |
2 | - 4 x 60 in lain 2
  |             ^^^^
  |
help: write for example `in lane 2` or `in lanes 2-5`
error: `rset` is not understood here
 --> notes.txt:3:11
  |
3 | - 3 x 150 rset 8min
  |           ^^^^
  |
help: did you mean `rest`?

# a lane that the track has not, in the third line, behind a rest
$ cat b.txt
warm up
5 x 60 in lane 2; 5 min rest; 3 x 150 in lane 9
$ toeline plan b.txt
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> b.txt:2:47
  |
2 | 5 x 60 in lane 2; 5 min rest; 3 x 150 in lane 9
  |                                               ^
  |
help: use open lanes, for example lane 1

# a block of a group
$ cat c.txt
warm up
sprints:
- 4 x 60
distance:
- 2 x 400 in lane 9
$ toeline plan c.txt
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> c.txt:5:19
  |
5 | - 2 x 400 in lane 9
  |                   ^
  |
help: use open lanes, for example lane 1

"#]]);
}

#[test]
fn what_is_no_text_is_refused() {
    refused(str![[r#"
# a misspelt word, in a file
$ cat notes.md
6 x 200 in lain 2
$ toeline plan notes.md
error: expected `lane` after `in`, found `lain`
 --> notes.md:1:12
  |
1 | 6 x 200 in lain 2
  |            ^^^^
  |
help: write for example `in lane 2` or `in lanes 2-5`
$ toeline check notes.md
error: expected `lane` after `in`, found `lain`
 --> notes.md:1:12
  |
1 | 6 x 200 in lain 2
  |            ^^^^
  |
help: write for example `in lane 2` or `in lanes 2-5`
$ toeline session notes.md
error: expected `lane` after `in`, found `lain`
 --> notes.md:1:12
  |
1 | 6 x 200 in lain 2
  |            ^^^^
  |
help: write for example `in lane 2` or `in lanes 2-5`

# a lane that is not there
$ cat notes.txt
4 x 60 in lane 12
$ toeline plan notes.txt
error: `12` is not a lane
 --> notes.txt:1:16
  |
1 | 4 x 60 in lane 12
  |                ^^
  |
help: write a lane from 1 to 10, for example `in lane 2`

# a session file already
$ cat a.yaml
title: A
blocks: [6 x 200]
$ toeline session a.yaml
error: `a.yaml` is a session file already; write the name of a text file

# a file of another kind
$ cat a.txt
6 x 200
$ toeline session a.txt --out a.csv
error: a session file ends in .yaml or .yml; `a.csv` does not

"#]]);
}

#[test]
fn a_text_is_planned_as_a_session_file_is() {
    let folder = Folder::with("notes.txt", "4 x 200 @ 32 rest 2min in lane 2");
    let plan = |arguments: &[&str]| {
        let arguments = [&["plan", "notes.txt"], arguments, &["--format", "json"]].concat();
        parsed(&folder.toeline(&arguments).assert())
    };
    assert_eq!(plan(&[])["title"], "notes");
    assert_eq!(plan(&["--start", "18:30"])["begins"], "18:30:00");
    assert_eq!(plan(&["--track", "indoor-200"])["track"]["name"], "indoor-200");
    // What a text is to run in a lane that is closed late moves, as in a session file.
    let moved = plan(&["--closed", "2"]);
    assert_ne!(moved["blocks"][0]["reps"][0]["lane"], 2);
    folder.toeline(&["plan", "4 x 200 in lane 2", "--closed", "2"]).assert().code(2);
    // Every file that a plan can be written to.
    for ending in ["html", "svg", "csv", "json", "txt", "md"] {
        let out = format!("out.{ending}");
        folder.toeline(&["plan", "notes.txt", "--out", &out]).assert().success();
        let spaced = folder.read(&out).replace('\u{a0}', " ");
        assert!(spaced.contains("4 × 200 m @ 32 s in lane 2, 2 min rest"), "{out}: {spaced}");
    }
}

#[test]
fn standard_input_is_a_text_or_a_session_file() {
    let plan = |text: &str| toeline(&["plan", "-", "--format", "json"]).stdin(text).assert();
    assert_eq!(parsed(&plan("6 x 200 in lane 2"))["title"], "Workout");
    assert_eq!(parsed(&plan("title: Tuesday\nblocks: [6 x 200 in lane 2]\n"))["title"], "Tuesday");
    let session = printed(&toeline(&["session", "-"]).stdin("6 x 200 in lane 2").assert().success());
    assert_eq!(parsed(&plan(&session))["blocks"][0]["reps"].as_array().map(Vec::len), Some(6));
}

#[test]
fn what_is_too_large_or_no_text_is_said_in_a_sentence() {
    for (bytes, said) in [
        (b"6 x 200, ".repeat(120_000), "error: `standard input` is too large: at most 1048576 bytes\n"),
        (b"6 x 200, ".repeat(10_000), "error: `standard input` is too large: at most 65536 bytes\n"),
        (
            b"warm up\n6 x \xff".to_vec(),
            "error: `standard input` is not UTF-8 text: line 2, column 5; save it as UTF-8\n",
        ),
    ] {
        let run = toeline(&["plan", "-"]).stdin(bytes).assert().code(2);
        assert_eq!(told(&run), said);
    }
    let folder = Folder::new();
    folder.write("long.txt", "6 x 200\n".repeat(9000));
    let run = folder.toeline(&["plan", "long.txt"]).assert().code(2);
    assert_eq!(told(&run), "error: `long.txt` is too large: at most 65536 bytes\n");
}

#[test]
fn a_session_file_is_written_whole_under_the_name_asked_for() {
    let folder = Folder::with("notes.txt", "6 x 200 in lane 2");
    folder.toeline(&["session", "notes.txt", "--out", "a.yaml"]).assert().success().stdout_eq(str![]);
    let plan = |name: &str| json(&["plan", &folder.at(name)]);
    assert_eq!(plan("a.yaml"), {
        let mut plan = plan("notes.txt");
        // Only the text is another: it is the one form of all that mean the same.
        plan["blocks"][0]["text"] = "6 x 200 in lanes 2".into();
        plan["blocks"][0]["reading"] = "6 × 200 m in lane 2".into();
        plan
    });
}

#[test]
fn a_rest_after_a_block_is_the_break_behind_it() {
    let go = |rest: &str, between: &str| {
        let text = format!(
            "title: A\n{between}hours: 18:00-19:30\nblocks:\n  - {{ text: 200 @ 30, {rest} }}\n  - 100 @ 15\n  - 100 @ 15\n"
        );
        let folder = Folder::with("a.yaml", text);
        let plan = json(&["plan", &folder.at("a.yaml")]);
        let go_s: Vec<f64> =
            list(&plan["blocks"]).iter().map(|block| number(&block["reps"][0]["go_s"])).collect();
        go_s
    };
    assert_eq!(go("rest_after: 2min", ""), [0.0, 150.0, 465.0]);
    assert_eq!(go("rest_after: 90", "between_blocks: 1min\n"), [0.0, 120.0, 195.0]);
    // Behind one run there is no other rest.
    let plan = json(&["plan", "1 x 150 @ 20, 10 min; 150 @ 20; 2 x 60 @ 8, 6 min; 100 @ 15"]);
    let go_s: Vec<f64> =
        list(&plan["blocks"]).iter().map(|block| number(&block["reps"][0]["go_s"])).collect();
    assert_eq!(go_s, [0.0, 620.0, 940.0, 1616.0]);
    let folder = Folder::with("a.yaml", "title: A\nblocks: [{ text: 200, rest_after: 2 laps }]\n");
    folder.toeline(&["plan", "a.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: `2 laps` is not understood
 --> a.yaml:2:35
  |
2 | blocks: [{ text: 200, rest_after: 2 laps }]
  |                                   ^^^^^^

"#]]);
    let plan = {
        let folder =
            Folder::with("b.yaml", "title: A\nblocks: [{ text: 200 @ 30, rest_after: 2min }, 100]\n");
        json(&["plan", &folder.at("b.yaml")])
    };
    assert_eq!(plan["blocks"][0]["reading"], "200 m @ 30 s, then 2 min");
}

#[test]
fn what_is_wrong_in_a_block_with_keys_stands_under_its_text() {
    refused(str![[r#"
# a word, a key, and a label that YAML takes for a key
$ cat a.yaml
title: A
blocks:
  - text: 6 x 200 in lain 2
    rest_after: 5min
  - { text: 6 x 200, rest: 5min }
  - main set: 6 x 200
$ toeline plan a.yaml
error: expected `lane` after `in`, found `lain`
 --> a.yaml:3:22
  |
3 |   - text: 6 x 200 in lain 2
  |                      ^^^^
  |
help: write for example `in lane 2` or `in lanes 2-5`
error: unknown key `rest`
 --> a.yaml:5:22
  |
5 |   - { text: 6 x 200, rest: 5min }
  |                      ^^^^
  |
help: did you mean `rest_after`?
error: item 3 of `blocks` must be a line of the notation, such as `6 x 200 in lane 2`, not a group of keys
 --> a.yaml:6:5
  |
6 |   - main set: 6 x 200
  |     ^^^^^^^^^^^^^^^^^

# a lane that is not there
$ cat b.yaml
title: A
blocks:
  - text: 6 x 200 in lane 12
    rest_after: 5min
$ toeline plan b.yaml
error: `12` is not a lane
 --> b.yaml:3:27
  |
3 |   - text: 6 x 200 in lane 12
  |                           ^^
  |
help: write a lane from 1 to 10, for example `in lane 2`

"#]]);
}

#[test]
fn what_all_groups_do_together_stands_once_and_begins_and_ends_the_evening() {
    answered(str![[r#"
# once in the plan, and once in the session file
$ cat club.txt
Club night
Warm up 10 min
4 x 60 strides, walk back
Sprints:
- 4 x 30 in lane 4, 3 min
Distance:
- 6 x 400 in lane 1 @ 80, 90s

CD 10 min
$ toeline plan --full club.txt
Club night
Track: standard
Lasts about 43:19

Block 1, all groups: Warm up 10 min
Lasts 10:00.

Block 2, all groups: 4 × 60 m strides, walk back
──────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                    Finish
══════════════════════════════════════════════════════════════════════
 1 to 4   1          60   on the 60 m start line   on the finish line
──────────────────────────────────────────────────────────────────────
Total 240 m.
Go at ~10:00, every 53 s to ~12:39.
- Coach: outside lane 8, level with the finish line.
! Lane 1: 60 m to walk back, 43 s.

Block 3, Sprints: 4 × 30 m in lane 4, 3 min rest
─────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand                Finish                   Rest
═════════════════════════════════════════════════════════════════════════════
 1 to 4   4          30   on the 100 m start   on the 70 m start line   3:00
                          line
─────────────────────────────────────────────────────────────────────────────
Total 120 m.
Go at ~17:59, every 3:05 to ~27:14.
- Coach: outside lane 8, level with the finish in lane 4: on the 70 m start
  line.
! To finish on the finish line in lane 4, start 2.30 m past the 8th blue tick.

Block 4, Distance: 6 × 400 m @ 80 s in lane 1, 90 s rest
────────────────────────────────────────────────────────────────────────────
 Reps     Lane   Metres   Stand          Finish               Target   Rest
════════════════════════════════════════════════════════════════════════════
 1 to 6   1         400   on the 400 m   on the finish line   1:20     1:30
                          start line
────────────────────────────────────────────────────────────────────────────
Total 2400 m.
Go at ~17:49, every 2:50 to ~31:59.
- Splits of 400 m: 100 m 20 s, 200 m 40 s, 300 m 1:00
- Coach: outside lane 8, level with the finish line.

Block 5, all groups: CD 10 min
Lasts 10:00.

Please note
- 4 x 60 strides, walk back: no lane named, so lane 1, the innermost open.
- Allows 5 min between blocks, as no break is given.

No cones: paint shows every place.

[CAUTIONS]
$ toeline session club.txt
title: Club night
before_groups:
  - Warm up 10 min
  - 4 x 60 strides walk back
groups:
  - name: Sprints
    blocks:
      - 4 x 30 in lanes 4 rest 3:00
  - name: Distance
    blocks:
      - 6 x 400 @ 1:20 in lanes 1 rest 1:30
after_groups:
  - CD 10 min

"#]]);
}

#[test]
fn the_session_file_of_a_text_plans_what_all_groups_do_as_the_text_does() {
    let text = "Warm up 10 min\n4 x 60 strides @ 12\nSprints:\n- 4 x 30 @ 5 in lane 4, 3 min\n\
                Distance:\n- 6 x 400 in lane 1 @ 80, 90 s rest\n\nCD 10 min";
    let folder = Folder::with("club.txt", text);
    folder.write("club.yaml", printed(&folder.toeline(&["session", "club.txt"]).assert().success()));
    let runs = |file: &str| {
        let plan = folder.json(&["plan", file, "--start", "18:00"]);
        let blocks = list(&plan["blocks"]).to_vec();
        let of = |block: &serde_json::Value| {
            let reps = list(&block["reps"]).iter();
            let runs: Vec<_> =
                reps.map(|rep| (rep["go_s"].clone(), rep["start"].clone(), rep["lane"].clone())).collect();
            (block["groups"].clone(), block["lasts_s"].clone(), runs)
        };
        blocks.iter().map(of).collect::<Vec<_>>()
    };
    let (text, file) = (runs("club.txt"), runs("club.yaml"));
    assert_eq!(text, file);
    assert_eq!(text.len(), 5);
    // All warm up together, then stride, and only when they have done so does each group begin with its own.
    let go_s = |block: usize| number(&text[block].2[0].0);
    assert_eq!(go_s(1), 600.0);
    assert!(go_s(2) > go_s(1) + 300.0 && go_s(3) > go_s(1) + 300.0, "{text:?}");
}

#[test]
fn a_title_or_a_date_in_a_block_of_a_session_file_is_said() {
    refused(str![[r#"
# blocks have neither
$ cat club.yaml
title: Club night
blocks:
  - |
    Tuesday track
    6 x 200
  - |
    13 April 2027
    4 x 60
$ toeline plan club.yaml
error: `Tuesday track` is a title, and blocks have none
 --> club.yaml:4:5
  |
4 |     Tuesday track
  |     ^^^^^^^^^^^^^
  |
help: leave the line out, or read the whole text as a session
error: `13 April 2027` is a date, and blocks have none
 --> club.yaml:7:5
  |
7 |     13 April 2027
  |     ^^^^^^^^^^^^^
  |
help: leave the line out, or read the whole text as a session

"#]]);
}
