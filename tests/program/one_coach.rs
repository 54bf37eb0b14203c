//! One coach who times groups that finish in several places.

use serde_json::Value;

use crate::answer::{list, number, texts};
use crate::folder::Folder;

fn plan(timers: &str) -> Value {
    let text = format!(
        "\
title: One coach
squad: {{ timers: {timers} }}
groups:
  - name: hurdlers
    athletes: [Ada, Bela]
    blocks: [4 x 110h to hurdle 3 in lanes 6-7 @ 6.5 rest 2min]
  - name: milers
    athletes: [Cy, Di]
    blocks: [4 x 200 in lane 2 @ 34 rest 2min]
"
    );
    Folder::with("s.yaml", text).json(&["plan", "s.yaml"])
}

/// When the runs of each group are done, in seconds, in order.
fn done(plan: &Value) -> Vec<(f64, String)> {
    let reps = list(&plan["blocks"]).iter().flat_map(|block| list(&block["reps"]));
    let mut done: Vec<(f64, String)> =
        reps.map(|rep| (number(&rep["done_s"]), rep["group"].to_string())).collect();
    done.sort_by(|a, b| a.0.total_cmp(&b.0));
    done
}

#[test]
fn one_coach_has_time_to_walk_from_finish_to_finish() {
    let alone = plan("one");
    // The third hurdle stands 13.72 + 2 × 9.14 m from the start: 78 m before the finish line.
    let least_s = 78.0 / 1.4;
    for pair in done(&alone).windows(2).filter(|pair| pair[0].1 != pair[1].1) {
        assert!(pair[1].0 - pair[0].0 >= least_s, "{pair:?}");
    }
    let says =
        |plan: &Value| texts(&plan["warnings"]).iter().any(|words| words.starts_with("The one coach walks"));
    assert!(says(&alone), "{}", alone["warnings"]);
    let several = plan("each group");
    assert!(!says(&several), "{}", several["warnings"]);
    assert!(number(&several["lasts_s"]) < number(&alone["lasts_s"]));
}
