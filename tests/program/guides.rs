//! An athlete and a guide in two adjoining lanes.

use snapbox::str;

use crate::folder::Folder;

#[test]
fn a_guide_runs_in_the_next_lane_and_the_plan_names_both() {
    let text = "\
title: Pairs
groups:
  - name: g
    athletes: [{ name: Ada, guide: Ben, target: 31 }, { name: Cy, target: 30 }, { name: Di, target: 32 }]
blocks: [3 x 200 rest 3min in lanes 2-4]
";
    let folder = Folder::with("pairs.yaml", text);
    folder.toeline(&["plan", "--full", "pairs.yaml"]).assert().success().stdout_eq(str![[r#"
Pairs
Track: standard
Lasts 7:44

Block 1, g: 3 × 200 m in lanes 2-4, 3 min rest
─────────────────────────────────────────────────────────────────────────
 Reps     Lane     Metres   Stand                     Finish
═════════════════════════════════════════════════════════════════════════
 1 to 3   2 to 4      200   on the 200 m start line   on the finish line
─────────────────────────────────────────────────────────────────────────
Total 600 m for each athlete.

Who goes when
──────────────────────────────────────────────────────────────────────────────
 Go     Rep   Wave   Lane: who                From               In at
══════════════════════════════════════════════════════════════════════════════
 0 s    1     1      2: Ada with Ben; 4: Di   200 m start line   31 s to 32 s
 10 s   1     2      2: Cy                    200 m start line   40 s
 3:32   2     1      2: Di; 3: Ada with Ben   200 m start line   4:03 to 4:04
 3:42   2     2      3: Cy                    200 m start line   4:12
 7:04   3     1      2: Ada with Ben; 4: Di   200 m start line   7:35 to 7:36
 7:14   3     2      4: Cy                    200 m start line   7:44
──────────────────────────────────────────────────────────────────────────────
- Ada with Ben 31 s: wave 1, lanes 2-3-2
- Di 32 s: wave 1, lanes 4-2-4
- Cy 30 s: wave 2, lanes 2-3-4
- Coach: outside lane 8, level with the finish line.
! Ben runs one lane outside Ada.
! 2 waves: 2 and 1 in lanes 2 to 4, 7½ min.

Please note
- Start by arm, not by whistle: sound takes 0.4 s to the 200 m start.

No cones: paint shows every place.

[CAUTIONS]

"#]]);
    let plan = folder.json(&["plan", "pairs.yaml"]);
    let reps = plan["blocks"][0]["reps"].as_array().expect("it is a list");
    for rep in reps.iter().filter(|rep| rep["athletes"][0] == "Ada") {
        let guide = &rep["guides"][0];
        assert_eq!((&guide["athlete"], &guide["guide"]), (&"Ada".into(), &"Ben".into()));
        let beside = guide["lane"].as_u64().expect("it is a number");
        assert_eq!(beside, rep["lane"].as_u64().expect("it is a number") + 1);
        let others =
            reps.iter().filter(|other| (&other["rep"], &other["wave"]) == (&rep["rep"], &rep["wave"]));
        assert!(others.into_iter().all(|other| other["lane"] != beside), "{rep}");
    }
    let csv = folder.toeline(&["plan", "--full", "pairs.yaml", "--format", "csv"]).assert().success();
    assert!(String::from_utf8_lossy(&csv.get_output().stdout).contains("Ben (lane "));
    folder.toeline(&["plan", "--full", "pairs.yaml", "--without", "Ada"]).assert().success();
}

#[test]
fn what_a_guide_cannot_do_is_said() {
    let folder = Folder::new();
    let check = |athletes: &str, block: &str, error| {
        let text =
            format!("title: t\ngroups:\n  - name: g\n    athletes: [{athletes}]\nblocks:\n  - {block}\n");
        folder.write("t.yaml", text);
        folder.toeline(&["plan", "t.yaml"]).assert().code(2).stdout_eq("").stderr_eq(error);
    };
    check(
        "{ guide: Ben }",
        "200",
        str![[r#"
error: Ben guides nobody
 --> t.yaml:4:16
  |
4 |     athletes: [{ guide: Ben }]
  |                ^^^^^^^^^^^^^^^
  |
help: name the athlete as well, for example `{ name: Ada, guide: Ben }`

"#]],
    );
    check(
        "{ name: Ada, guide: Ben }, Ben",
        "200",
        str![[r#"
error: Ben guides, and has another run at the same time
 --> t.yaml:4:36
  |
4 |     athletes: [{ name: Ada, guide: Ben }, Ben]
  |                                    ^^^
  |
help: name each guide once, and not among the athletes

"#]],
    );
    check(
        "{ name: Ada, guide: Ada }",
        "200",
        str![[r#"
error: Ada guides, and has another run at the same time
 --> t.yaml:4:36
  |
4 |     athletes: [{ name: Ada, guide: Ada }]
  |                                    ^^^
  |
help: name each guide once, and not among the athletes

"#]],
    );
    check(
        "{ name: Ada, guide: Ben }, { name: Cy, guide: Ben }",
        "200",
        str![[r#"
error: Ben guides, and has another run at the same time
 --> t.yaml:4:62
  |
4 |     athletes: [{ name: Ada, guide: Ben }, { name: Cy, guide: Ben }]
  |                                                              ^^^
  |
help: name each guide once, and not among the athletes

"#]],
    );
    check(
        "{ name: Ada, guide: Ben }",
        "2 x 200 in lanes 2,4,6 rest 3min",
        str![[r#"
error: Ada needs 2 lanes side by side, and the set has none that are open
 --> t.yaml:6:22
  |
6 |   - 2 x 200 in lanes 2,4,6 rest 3min
  |                      ^^^^^
  |
help: name lanes side by side, for example `in lanes 2-5`

"#]],
    );
}

#[test]
fn a_pair_keeps_its_two_lanes_after_a_late_change() {
    let text = "\
title: Pairs
groups:
  - name: g
    athletes:
      - { name: Ada, guide: Ben, target: 31 }
      - { name: Cy, target: 30 }
      - { name: Di, target: 30 }
      - { name: Eve, target: 33 }
      - { name: Fay, target: 33 }
blocks: [4 x 200 rest 3min in lanes 2-6]
";
    let folder = Folder::with("pairs.yaml", text);
    for absent in ["Cy", "Di", "Eve", "Fay"] {
        let plan = folder.json(&["plan", "pairs.yaml", "--without", absent]);
        let mut taken: Vec<[u64; 3]> = Vec::new();
        for rep in plan["blocks"][0]["reps"].as_array().expect("it is a list") {
            let number = |key: &str| rep[key].as_u64().expect("it is a number");
            let guides = rep["guides"].as_array().expect("it is a list");
            let lanes = guides.iter().map(|guide| guide["lane"].as_u64().expect("it is a number"));
            for lane in lanes.chain([number("lane")]) {
                let place = [number("rep"), number("wave"), lane];
                assert!((2..=6).contains(&lane) && !taken.contains(&place), "without {absent}: {place:?}");
                taken.push(place);
            }
        }
    }
}

#[test]
fn a_text_names_the_guide_of_an_athlete() {
    for who in [
        "Niamh with guide Rob, Callum",
        "Niamh + Rob guide, Callum",
        "Niamh (guide Rob), Callum",
        "Callum, Niamh guided by Rob",
    ] {
        let folder = Folder::with("e.txt", format!("Tuesday 6pm\nSprints ({who}):\n4 x 150 @ 20, 3 min\n"));
        let plan = folder.json(&["plan", "e.txt"]);
        let reps = plan["blocks"][0]["reps"].as_array().expect("it is a list");
        let of_niamh: Vec<_> =
            reps.iter().filter(|rep| rep["athletes"].to_string().contains("Niamh")).collect();
        assert_eq!(of_niamh.len(), 4, "{who}");
        assert!(of_niamh.iter().all(|rep| rep["guides"][0]["guide"] == "Rob"), "{who}: {of_niamh:?}");
    }
}
