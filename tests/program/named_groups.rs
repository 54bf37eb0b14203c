//! Texts that name groups in front of what they do, in its line.

use crate::answer::{json, list};
use crate::console::{answered, refused};
use serde_json::Value;
use snapbox::str;

#[test]
fn names_in_front_of_runs_are_groups() {
    answered(str![[r##"
# each in a line of its own
$ cat notes.txt
WU 10 min
U13s: 4 x 150, walk back
U15s: 5 x 150, walk back
CD
$ toeline session notes.txt
title: notes
before_groups:
  - WU 10 min
groups:
  - name: U13s
    blocks:
      - 4 x 150 walk back
  - name: U15s
    blocks:
      - 5 x 150 walk back
after_groups:
  - CD

# in one line, with a rest behind them
$ toeline session 'Girls: 4 x 200, boys 5 x 200, 2 min rest'
title: "Girls: 4 x 200, boys 5 x 200, 2 min rest"
groups:
  - name: Girls
    blocks:
      - 4 x 200 rest 2:00
  - name: boys
    blocks:
      - 5 x 200 rest 2:00

"##]]);
    let plan = json(&["plan", "Girls: 4 x 200, boys 5 x 200, 2 min rest"]);
    let groups: Vec<&Value> = list(&plan["blocks"]).iter().map(|block| &block["reps"][0]["group"]).collect();
    assert_eq!(groups, ["Girls", "boys"]);
}

#[test]
fn a_group_behind_runs_of_nobody_is_refused() {
    refused(str![[r#"
# whoever does the first runs is not said
$ toeline plan '6 x 200, girls: 4 x 200'
error: `girls` are another group
 --> workout:1:10
  |
1 | 6 x 200, girls: 4 x 200
  |          ^^^^^
  |
help: write each group on its own line, with its name in front

"#]]);
}
