//! Names of groups, blocks and athletes, in every view.

use snapbox::str;

use crate::answer::printed;
use crate::folder::Folder;
#[cfg(feature = "pdf")]
use crate::poppler::{needs_poppler, poppler};

/// Groups with blocks of their own: athletes with numbers, athletes with names, and nobody by name.
const EVENING: &str = "\
title: Mixed evening
date: 2027-04-20
hours: 18:00-19:45
groups:
  - name: juniors
    athletes: [1, 2, { name: 7, guide: 8 }]
    lanes: [3, 4]
    blocks: [warm-up, 2 x 150 rest 2min]
  - name: seniors
    athletes: [Ada, Bela]
    blocks: [drills, 2 x 400 @ 84 rest 3min in lane 2]
  - name: walkers
    blocks: [2 x 1000 in lane 3]
";

/// Groups that share the blocks of the session.
const SHARED: &str = "\
title: Shared
groups:
  - { name: juniors, athletes: [1, 2] }
  - { name: seniors, athletes: [Ada] }
  - { name: walkers, athletes: [Cy], blocks: [1000 in lane 3] }
blocks: [warm-up, 2 x (200 + 100) @ 36 rest 3min in lanes 2-4]
";

/// A view of a session, as it is written to a file.
fn view(session: &str, ending: &str) -> String {
    let folder = Folder::with("session.yaml", session);
    let name = format!("plan.{ending}");
    folder.toeline(&["plan", "session.yaml", "--out", &name]).assert().success();
    folder.read(&name)
}

/// Each line of a view that names what is looked for.
fn lines_with(view: &str, words: &[&str]) -> String {
    let named = view.lines().filter(|line| words.iter().any(|words| line.contains(words)));
    named.collect::<Vec<_>>().join("\n") + "\n"
}

#[test]
fn the_terminal_names_groups_and_athletes() {
    let text = lines_with(&view(EVENING, "txt"), &["Block", "no. ", "Total", "Ada", "Bela"]);
    snapbox::assert_data_eq!(
        text,
        str![[r#"
Block 1, juniors: warm-up
Block 2, juniors: 2 × 150 m, 2 min rest
Total 300 m for each athlete.
 ~18:00:30   1     1      3: no. 1; 4: no. 2    cones 2–3   18:00:54
 ~18:00:40   1     2      3: no. 7 with no. 8   cone 2      18:01:04
 ~18:02:54   2     1      3: no. 2; 4: no. 1    cones 2–3   18:03:18
 ~18:03:04   2     2      3: no. 7 with no. 8   cone 2      18:03:28
- no. 1: wave 1, lanes 3-4
- no. 2: wave 1, lanes 4-3
- no. 7 with no. 8: wave 2, lane 3
! No. 8 runs one lane outside no. 7.
Block 3, seniors: drills
Block 4, seniors: 2 × 400 m @ 84 s in lane 2, 3 min rest
Total 800 m for each athlete.
 18:00:10   1     1      2: Ada      400 m start line   18:01:34
 18:00:20   1     2      2: Bela     400 m start line   18:01:44
 18:04:34   2     1      2: Ada      400 m start line   18:05:58
 18:04:44   2     2      2: Bela     400 m start line   18:06:08
- Ada 1:24: wave 1, lane 2
- Bela 1:24: wave 2, lane 2
Block 5, walkers: 2 × 1000 m in lane 3
Total 2000 m.

"#]]
    );
}

#[test]
fn a_message_and_a_calendar_name_groups_and_athletes_and_say_when() {
    let message = lines_with(&view(EVENING, "md"), &["Block", "no. ", "Total", "Ada", "Bela"]);
    snapbox::assert_data_eq!(
        message,
        str![[r#"
## Block 1, juniors: warm-up
## Block 2, juniors: 2 × 150 m, 2 min rest
18:00 to about 18:04. Total 300 m for each athlete.
- no. 1: wave 1, lanes 3-4
- no. 2: wave 1, lanes 4-3
- no. 7 with no. 8: wave 2, lane 3
- ! No. 8 runs one lane outside no. 7.
## Block 3, seniors: drills
## Block 4, seniors: 2 × 400 m @ 84 s in lane 2, 3 min rest
18:00 to 18:07. Total 800 m for each athlete.
- Ada 1:24: wave 1, lane 2
- Bela 1:24: wave 2, lane 2
## Block 5, walkers: 2 × 1000 m in lane 3
18:00 to about 18:11. Total 2000 m.

"#]]
    );
    let calendar = view(EVENING, "ics").replace("\r\n ", "").replace("\\,", ",");
    for said in ["Block 3, seniors: drills", "no. 7 with no. 8: wave", "Total 800 m for each athlete."] {
        assert!(calendar.contains(said), "`{said}` is missing in {calendar}");
    }
}

#[test]
fn a_page_names_groups_where_blocks_are_chosen() {
    let page = view(EVENING, "html");
    for said in [
        "\"heading\":\"Block 1, juniors: warm-up\"",
        "\"heading\":\"Block 4, seniors: 2 × 400 m",
        "<p class=\"total\">Total 300 m for each athlete.</p>",
        "no. 7 with no. 8: wave",
    ] {
        assert!(page.contains(said), "`{said}` is missing");
    }
}

#[test]
fn a_map_and_its_lanes_name_groups() {
    let map = view(EVENING, "svg");
    for said in ["Block 2, juniors: 150 m, lane", "Block 4, seniors: 400 m, lane"] {
        assert!(map.contains(said), "`{said}` is missing");
    }
}

#[test]
fn lanes_unrolled_call_paint_as_the_other_views_do() {
    let map = view("{ title: t, blocks: [300 in lane 2] }", "svg");
    assert!(map.contains("exit of yellow zone 1") && map.contains("7th green tick"), "{map}");
    assert!(!map.contains("4x100 m takeover zone") && !map.contains("400 m hurdle tick"), "{map}");
}

#[test]
fn groups_that_share_blocks_are_named() {
    let text = lines_with(&view(SHARED, "txt"), &["Block", "no. ", "Total", "Ada", "Cy"]);
    snapbox::assert_data_eq!(
        text,
        str![[r#"
Block 1, juniors and seniors: warm-up
Block 2, juniors and seniors: 2 × (200 m, 100 m) @ 36 s in lanes 2-4, 3 min rest
Total 600 m for each athlete.
 0 s     1     1      2: no. 1; 3: no. 2; 4: Ada   200 m start line   36 s
 3:36    2     1      2: Ada; 3: no. 1; 4: no. 2   100 m start line   4:12
 7:12    3     1      2: no. 2; 3: Ada; 4: no. 1   200 m start line   7:48
 10:48   4     1      2: no. 1; 3: no. 2; 4: Ada   100 m start line   11:24
- no. 1 (juniors) 36 s: lanes 2-3-4-2
- no. 2 (juniors) 36 s: lanes 3-4-2-3
- Ada (seniors) 36 s: lanes 4-2-3-4
Block 3, walkers: 1000 m in lane 3
Total 1000 m.
 ~37 s   1     1      3: Cy       cone 1   4:17
- Cy: lane 3

"#]]
    );
    let folder = Folder::with("session.yaml", SHARED);
    let plan = folder.json(&["plan", "session.yaml"]);
    assert_eq!(plan["blocks"][0]["groups"], serde_json::json!(["juniors", "seniors"]));
    assert_eq!(plan["blocks"][0]["group"], serde_json::Value::Null);
}

#[test]
fn sentences_call_athletes_with_numbers_by_them() {
    let late = ["plan", "--full", "session.yaml", "--without", "1", "--reps", "2=1"];
    let folder = Folder::with("session.yaml", EVENING);
    let text = printed(&folder.toeline(&late).assert().success());
    snapbox::assert_data_eq!(
        lines_with(&text, &["Changed", "one lane outside", "Total"]),
        str![[r#"
Changed: without no. 1; no. 2 does 1 rep.
Total 150 to 300 m for each athlete.
! No. 8 runs one lane outside no. 7.
Total 800 m for each athlete.
Total 2000 m.

"#]]
    );
    let slow = EVENING.replace("[1, 2, {", "[{ name: 1, target: 25 }, 2, {");
    let folder = Folder::with("session.yaml", &slow);
    let text = printed(&folder.toeline(&["plan", "--full", "session.yaml"]).assert().success());
    assert!(text.contains("no target for no. 2 and no. 7"), "{text}");
}

#[cfg(feature = "pdf")]
#[test]
fn paper_names_groups_and_says_how_far_each_runs() {
    needs_poppler!();
    let folder = Folder::with("session.yaml", SHARED);
    folder.toeline(&["plan", "session.yaml", "--out", "plan.pdf"]).assert().success();
    let text = poppler("pdftotext", &["-layout"], &folder.path().join("plan.pdf"), &["-"]);
    for said in ["juniors and seniors", "Total 600 m for each athlete.", "no. 1"] {
        assert!(text.contains(said), "`{said}` is missing in {text}");
    }
}
