//! Exchanges in pairs: who hands to whom, where each begins, and the first check mark.

use serde_json::Value;
use snapbox::str;

use crate::answer::{list, number, printed, texts};
use crate::folder::Folder;
use crate::run::toeline;

const SQUAD: &str = "\
title: Batons
groups:
  - name: sprinters
    bests: { 100: 12.0, 200: 24.6 }
    athletes: [Ada, Bea, { name: Cyd, bests: { 100: 13.2 } }, Dan, Eve]
    relay: [[Ada, Bea]]
blocks:
  - 3 x exchange zone 2 in lanes 4,5 rest 3min
";

#[test]
fn teams_hand_on_in_turn_and_each_has_a_check_mark() {
    let folder = Folder::with("batons.yaml", SQUAD);
    folder.toeline(&["plan", "--full", "batons.yaml"]).assert().success().stdout_eq(str![[r#"
Batons
Track: standard
Lasts about 6:28

Block 1, sprinters: 3 × exchange in zone 2 in lanes 4, 5, 3 min rest
────────────────────────────────────────────────────────────────────────────────
 Reps     Lane      Metres   Stand                      Finish
════════════════════════════════════════════════════════════════════════════════
 1 to 3   4 and 5       30   on the entry of yellow     on the exit of yellow
                             zone 2                     zone 2
────────────────────────────────────────────────────────────────────────────────

Who goes when
───────────────────────────────────────────────────────────────────────────────
 Go      Rep   Wave   Lane: who                      From                In at
═══════════════════════════════════════════════════════════════════════════════
 ~0 s    1     1      4: Ada to Bea; 5: Cyd to Dan   run-in, 40 m back   10 s
 ~3:10   2     1      4: Ada to Bea; 5: Eve to Cyd   run-in, 40 m back   3:19
 ~6:19   3     1      4: Ada to Bea; 5: Dan to Eve   run-in, 40 m back   6:28
───────────────────────────────────────────────────────────────────────────────
- Ada to Bea: runs 1 to 3, lane 4
- Cyd to Dan: run 1, lane 5
- Eve to Cyd: run 2, lane 5
- Dan to Eve: run 3, lane 5
- Run-in in lanes 4 and 5: cones 1–2, 10.00 m back from the 4th green tick
- Zone 2, 30 m: outgoing waits at its entry, incoming starts 40 m back.
- Check mark 7.5 m back, 25 feet, baton over about 11 m on: Ada to Bea (lane 4,
  cone 3); Dan to Eve (lane 5, cone 5).
- Check mark 6.4 m back, 21 feet, baton over about 8 m on: Cyd to Dan (lane 5,
  cone 6).
- Check mark 9.1 m back, 30 feet, baton over about 20 m on: Eve to Cyd (lane 5,
  cone 4).
- Coach: outside lane 8, level with the finish in lane 4: on the exit of yellow
  zone 2.
! 2 teams at once in lanes 4 and 5.
! Go times are about right only: no target given.
! Check marks are a start, from the two speeds: tune them on the track. Feet of
  0.30 m; tape, not a cone.

Please note
- Start by arm, not by whistle: sound takes 0.1 s to the 30 m start.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
   Cone   Lane      Where                           Steps   For
════════════════════════════════════════════════════════════════════════════════
 1 to 2   4 and 5   10.00 m back from the 4th       13½     exchange run-in
                    green tick
      3   4         7.50 m back from the entry of   10      exchange check mark
                    yellow zone 2
      4   5         9.07 m back from the entry of   12      exchange check mark
                    yellow zone 2
      5   5         7.50 m back from the entry of   10      exchange check mark
                    yellow zone 2
      6   5         6.35 m back from the entry of   8½      exchange check mark
                    yellow zone 2
────────────────────────────────────────────────────────────────────────────────
6 cones, 427 m, 6 min without taping.
1 step is 0.75 m.

Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
- Look both ways before you step on to the track; give way to runners.
- Keep clear of throws and jumps in use, and of kerb and water-jump edges.
- Baton practice: keep the lane clear, shout before you hand on, look behind
  before you slow down or leave the lane. The coach decides.
- Venue rules and staff come first. A qualified coach or a doctor judges load
  and pace.

"#]]);
}

fn reps(plan: &Value) -> &[Value] {
    list(&plan["blocks"][0]["reps"])
}

/// Who hands to whom in each run, in the order of runs and lanes.
fn handings(plan: &Value) -> Vec<(u64, String, String)> {
    let of_rep = |rep: &Value| {
        let name = |key: &str| rep["handover"][key].as_str().expect("it is a name").to_owned();
        assert_eq!(texts(&rep["athletes"]), [name("incoming"), name("outgoing")]);
        (rep["rep"].as_u64().expect("it is a number"), name("incoming"), name("outgoing"))
    };
    let mut all: Vec<_> = reps(plan).iter().map(of_rep).collect();
    all.sort();
    all
}

/// Runs a start in steps of 0.1 ms: the time and the place after each.
fn start(top_m_per_s: f64) -> impl Iterator<Item = (f64, f64)> {
    let step_s = 1e-4;
    let mut m_per_s = 0.0;
    let mut at_m = 0.0;
    (1..).map(move |step| {
        m_per_s += (top_m_per_s - m_per_s) / 1.1 * step_s;
        at_m += m_per_s * step_s;
        (f64::from(step) * step_s, at_m)
    })
}

/// How far back somebody who comes at an even speed may be at most, to come within the reach of two arms of somebody
/// who starts then, before that one is 20 m away.
fn furthest_back_m(incoming_m_per_s: f64, over_100_s: f64) -> f64 {
    let (mut slow, mut fast) = (3.0, 15.0);
    while fast - slow > 1e-6 {
        let top_m_per_s = f64::midpoint(slow, fast);
        let run = start(top_m_per_s).find(|(_, at_m)| *at_m >= 100.0);
        if run.expect("it gets there").0 > over_100_s { slow = top_m_per_s } else { fast = top_m_per_s }
    }
    let made_up = start(slow).take_while(|(_, at_m)| *at_m <= 20.0);
    made_up.map(|(now_s, at_m)| incoming_m_per_s * now_s - at_m).fold(0.0, f64::max) + 1.5
}

#[test]
fn a_check_mark_is_as_far_back_as_can_be_made_up() {
    let folder = Folder::with("batons.yaml", SQUAD);
    let plan = folder.json(&["plan", "batons.yaml"]);
    let turns = [(1, "Ada", "Bea"), (1, "Cyd", "Dan"), (2, "Ada", "Bea"), (2, "Eve", "Cyd")];
    let turns = [turns.as_slice(), &[(3, "Ada", "Bea"), (3, "Dan", "Eve")]].concat();
    let turns: Vec<_> = turns.into_iter().map(|(rep, a, b)| (rep, a.to_owned(), b.to_owned())).collect();
    assert_eq!(handings(&plan), turns);
    // The second 100 m of a 200 m, which is 2.03 times as long as 100 m where it is not known.
    let end_m_per_s = |name: &str| 100.0 / if name == "Cyd" { 1.03 * 13.2 } else { 12.6 };
    let over_100_s = |name: &str| if name == "Cyd" { 13.2 } else { 12.0 };
    for rep in reps(&plan) {
        let handover = &rep["handover"];
        let mark = &handover["check_mark"];
        let name = |key: &str| handover[key].as_str().expect("it is a name");
        let back_m = furthest_back_m(end_m_per_s(name("incoming")), over_100_s(name("outgoing")));
        assert!((number(&mark["back_m"]) - back_m).abs() < 0.02, "{handover}: {back_m}");
        assert_eq!(number(&mark["feet"]), (back_m / 0.3).round());
        assert_eq!(mark["about"], false);
        // It lies there, behind the zone's entry, and the run-in begins 40 m behind it.
        let to_finish_m = |spot: &Value| number(&spot["to_finish_line_m"]);
        let behind_m = |spot: &Value| to_finish_m(spot) - to_finish_m(&rep["start"]);
        assert!((behind_m(&handover["spot"]) - back_m).abs() < 0.02);
        assert!((behind_m(&rep["run_in"]) - 40.0).abs() < 1e-9 && number(&rep["run_in_m"]) == 40.0);
        assert!((number(&rep["distance_m"]) - 30.0).abs() < 1e-9);
        // A cone or a tape marks it.
        let place = handover["spot"]["words"].clone();
        let is_it = |cone: &&Value| cone["spot"]["words"] == place && cone["spot"]["lane"] == rep["lane"];
        let cone = list(&plan["setup"]).iter().find(is_it).expect("the mark is off the paint");
        assert_eq!(cone["what"], "check mark");
    }
    let findings = list(&plan["blocks"][0]["findings"]);
    assert!(findings.iter().any(|finding| finding["kind"] == "check marks are a start"));
    let care = list(&plan["findings"]);
    assert_eq!(care.iter().filter(|finding| finding["kind"] == "baton practice").count(), 1);
}

#[test]
fn both_of_a_pair_have_their_rest() {
    let folder = Folder::with("batons.yaml", SQUAD);
    let plan = folder.json(&["plan", "batons.yaml"]);
    for name in ["Ada", "Bea", "Cyd", "Dan", "Eve"] {
        let is_own = |rep: &&Value| texts(&rep["athletes"]).contains(&name);
        let mut own: Vec<&Value> = reps(&plan).iter().filter(is_own).collect();
        own.sort_by(|a, b| number(&a["go_s"]).total_cmp(&number(&b["go_s"])));
        assert!(own.len() >= 2, "{name} runs {} times", own.len());
        for pair in own.windows(2) {
            assert!(number(&pair[1]["go_s"]) - number(&pair[0]["done_s"]) >= 180.0 - 1e-9, "{name}");
            assert_eq!(pair[0]["lane"], pair[1]["lane"], "{name} changes lanes");
        }
        // The run-in and the zone take longer than 60 m flat out, and no more than a jog.
        for rep in own {
            let lasts_s = number(&rep["done_s"]) - number(&rep["go_s"]);
            assert!((8.0..=12.0).contains(&lasts_s), "{lasts_s} s");
        }
    }
}

#[test]
fn a_target_is_the_speed_of_the_baton_through_the_zone() {
    let folder = Folder::with("batons.yaml", SQUAD.replace("in lanes 4,5", "in lanes 4,5 @ 3.75"));
    let plan = folder.json(&["plan", "batons.yaml"]);
    for rep in reps(&plan) {
        assert_eq!(number(&rep["handover"]["check_mark"]["incoming_m_per_s"]), 8.0);
        assert_eq!(number(&rep["target_s"]), 3.75);
    }
}

#[test]
fn without_bests_a_check_mark_is_about_right() {
    let text = "\
title: Batons
groups:
  - name: sprinters
    athletes: [Ada, { name: Bea, bests: { 100: 12.5 } }]
blocks: [2 x exchange zone 1 in lane 3 rest 3min]
";
    let folder = Folder::with("batons.yaml", text);
    let plan = folder.json(&["plan", "batons.yaml"]);
    assert!(reps(&plan).iter().all(|rep| rep["handover"]["check_mark"]["about"] == true));
    let text = printed(&folder.toeline(&["plan", "--full", "batons.yaml"]).assert().success());
    let lines: Vec<&str> =
        text.lines().filter(|line| line.contains("heck mark") || line.contains("best")).collect();
    snapbox::assert_data_eq!(
        lines.join("\n"),
        str![[r#"
- Check mark about 5.2 m back, 17 feet, baton over about 6 m on: Ada to Bea
- Check mark about 11.4 m back, 38 feet, baton over about 20 m on: Bea to Ada
! Check marks are a start, from the two speeds: tune them on the track. Feet of
  0.30 m; tape, not a cone. No best of Ada is known: about right only.
    2   3      11.32 m back along the inner line    15      exchange check mark
    3   3      5.21 m back along the inner line     7       exchange check mark
"#]]
    );
}

#[test]
fn every_view_says_who_hands_to_whom() {
    let folder = Folder::with("batons.yaml", SQUAD);
    let shown = |arguments: &[&str]| {
        printed(&folder.toeline(&[&["plan", "batons.yaml"], arguments].concat()).assert().success())
    };
    let csv = shown(&["--format", "csv"]);
    let mut table = csv::Reader::from_reader(csv.as_bytes());
    let columns = table.headers().expect("it has columns").clone();
    let first = table.records().next().expect("it has rows").expect("it is well formed");
    let cell = |name: &str| {
        let column = columns.iter().position(|column| column == name).expect("it has the column");
        first[column].to_owned()
    };
    assert_eq!(
        (cell("incoming"), cell("outgoing"), cell("athletes")),
        ("Ada".into(), "Bea".into(), "Ada, Bea".into())
    );
    assert_eq!(cell("check_mark_feet"), "25");
    assert!(cell("check_mark").contains("back from the entry of yellow zone 2"));
    for file in ["plan.html", "plan.txt", "plan.md", "plan.svg"] {
        folder.toeline(&["plan", "batons.yaml", "--out", file]).assert().success();
        let text = folder.read(file);
        let words = if file == "plan.svg" { "check mark" } else { "Eve to Cyd" };
        assert!(text.contains(words), "{file}");
    }
}

#[test]
fn an_older_zone_has_room_to_run_up_before_it() {
    let track = "\
name: Old
path:
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
inner_edge: kerb
lanes: 6
lane_width: 1.22
marks:
  sets: [former takeover zones]
";
    let folder = Folder::with("old.yaml", track);
    folder.write("batons.yaml", SQUAD.replace("title: Batons", "title: Batons\ntrack: old.yaml"));
    let plan = folder.json(&["plan", "batons.yaml"]);
    for rep in reps(&plan) {
        let handover = &rep["handover"];
        assert_eq!((number(&handover["zone_m"]), number(&handover["before_zone_m"])), (20.0, 10.0));
        let entry_m = -number(&rep["start"]["past_mark_m"]);
        assert!((entry_m - 10.0).abs() < 1e-9, "{}", rep["start"]);
        assert!((number(&rep["distance_m"]) - 30.0).abs() < 1e-9);
    }
    let text = printed(&folder.toeline(&["plan", "--full", "batons.yaml"]).assert().success());
    assert!(text.contains("Zone 2, 20 m by former rules: outgoing waits 10 m before it"), "{text}");
}

#[test]
fn what_cannot_be_handed_on_is_said() {
    let folder = Folder::new();
    let check = |relay: &str, error| {
        let text = format!(
            "title: t\ngroups:\n  - name: g\n    athletes: [Ada, Bea, 7]\n    relay: {relay}\nblocks: [2 x exchange zone 2]\n"
        );
        folder.write("t.yaml", text);
        folder.toeline(&["plan", "t.yaml"]).assert().code(2).stdout_eq("").stderr_eq(error);
    };
    check(
        "[[Ada, Zed]]",
        str![[r#"
error: nobody of g is called `Zed`; the group has Ada, Bea and no. 7
 --> t.yaml:5:19
  |
5 |     relay: [[Ada, Zed]]
  |                   ^^^
  |
help: write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`

"#]],
    );
    check(
        "[[Ada, ada]]",
        str![[r#"
error: Ada cannot hand the baton to Ada
 --> t.yaml:5:19
  |
5 |     relay: [[Ada, ada]]
  |                   ^^^
  |
help: write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`

"#]],
    );
    check(
        "[[Ada, 7], [Bea, 7]]",
        str![[r#"
error: no. 7 is in two relay teams
 --> t.yaml:5:29
  |
5 |     relay: [[Ada, 7], [Bea, 7]]
  |                             ^
  |
help: leave the name in one of them

"#]],
    );
    check(
        "[[Ada]]",
        str![[r#"
error: Ada has nobody to hand the baton to
 --> t.yaml:5:13
  |
5 |     relay: [[Ada]]
  |             ^^^^^^
  |
help: write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`

"#]],
    );
    check(
        "[[Ada, Bea], []]",
        str![[r#"
error: a relay team is empty
 --> t.yaml:5:25
  |
5 |     relay: [[Ada, Bea], []]
  |                         ^^^
  |
help: write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`

"#]],
    );
    check(
        "[Ada, Bea]",
        str![[r#"
error: item 1 of `relay` must be a list, not the text "Ada"
 --> t.yaml:5:13
  |
5 |     relay: [Ada, Bea]
  |             ^^^
  |
help: write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`
error: item 2 of `relay` must be a list, not the text "Bea"
 --> t.yaml:5:18
  |
5 |     relay: [Ada, Bea]
  |                  ^^^
  |
help: write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`

"#]],
    );
    check(
        "Ada",
        str![[r#"
error: `relay` must be a list, not the text "Ada"
 --> t.yaml:5:12
  |
5 |     relay: Ada
  |            ^^^
  |
help: write for example `relay: [[Ada, Bea], [Cyd, Dan]]`

"#]],
    );
}

#[test]
fn a_track_without_the_zone_is_refused() {
    let folder =
        Folder::with("batons.yaml", SQUAD.replace("title: Batons", "title: Batons\ntrack: oval-300"));
    folder.toeline(&["plan", "batons.yaml"]).assert().code(2).stdout_eq("").stderr_eq(str![[r#"
error: no mark is called `second 4x100 m takeover zone entry`
 --> batons.yaml:9:9
  |
9 |   - 3 x exchange zone 2 in lanes 4,5 rest 3min
  |         ^^^^^^^^^^^^^^^
  |
help: choose a track whose paint has it, or name the distance

"#]]);
}

#[test]
fn who_is_left_alone_reads_that_first() {
    let text =
        "title: t\ngroups:\n  - name: g\n    athletes: [Ada]\nblocks: [2 x exchange zone 2 rest 3min]\n";
    let folder = Folder::with("t.yaml", text);
    let text = printed(&folder.toeline(&["plan", "t.yaml"]).assert().success());
    assert!(text.contains("! Ada has nobody to hand to."), "{text}");
}

#[test]
fn an_absent_partner_leaves_nobody_alone() {
    let session = "sessions/wrenbeck/saturday-club-evening.yaml";
    let plan = crate::answer::json(&["plan", session, "--without", "bela"]);
    let block = list(&plan["blocks"])
        .iter()
        .find(|block| block["text"].as_str().is_some_and(|text| text.contains("exchange")));
    let reps = list(&block.expect("it has a relay")["reps"]);
    let mut names: Vec<&str> = reps.iter().flat_map(|rep| texts(&rep["athletes"])).collect();
    names.sort();
    names.dedup();
    assert_eq!(names, ["Ada", "Cleo", "Dov", "Edie", "Finn", "Gita", "Hana"]);
    assert!(reps.iter().all(|rep| texts(&rep["athletes"]).len() == 2));
    let text = printed(&toeline(&["plan", session, "--without", "bela"]).assert().success());
    assert!(text.starts_with("Changed: without Bela"), "{text}");
}

#[test]
fn who_is_done_leaves_the_others_to_hand_on() {
    let folder = Folder::with("batons.yaml", SQUAD);
    let count = |plan: &Value, name: &str| {
        reps(plan).iter().filter(|rep| texts(&rep["athletes"]).contains(&name)).count()
    };
    let plan = folder.json(&["plan", "batons.yaml", "--reps", "dan=1"]);
    assert_eq!(["Ada", "Bea", "Cyd", "Dan", "Eve"].map(|name| count(&plan, name)), [3, 3, 3, 1, 2]);
    let arguments = ["plan", "--full", "batons.yaml", "--reps", "bea=2"];
    let plan = folder.json(&arguments);
    assert_eq!(["Ada", "Bea", "Cyd", "Dan", "Eve"].map(|name| count(&plan, name)), [2, 2, 2, 2, 2]);
    let text = printed(&folder.toeline(&arguments).assert().success());
    assert!(text.contains("! Ada is done after run 2, as Bea does no more."), "{text}");
}

#[test]
fn a_team_needs_a_lane_in_common_and_time_for_its_run() {
    let text = "\
title: t
groups:
  - name: g
    athletes: [{ name: Ada, lanes: [4] }, { name: Bea, lanes: [5] }]
blocks:
  - 2 x exchange zone 2
";
    let folder = Folder::with("t.yaml", text);
    folder.toeline(&["plan", "t.yaml"]).assert().code(2).stdout_eq("").stderr_eq(str![[r#"
error: Ada and Bea have no lane in common
 --> t.yaml:6:9
  |
6 |   - 2 x exchange zone 2
  |         ^^^^^^^^^^^^^^^
  |
help: change their `lanes`, or put them in other teams with `relay`

"#]]);
    folder
        .write("t.yaml", text.replace("lanes: [5]", "bests: { 100: 12 }").replace("2\n", "2 @ 3.8 off 8s\n"));
    folder.toeline(&["plan", "t.yaml"]).assert().code(2).stdout_eq("").stderr_eq(str![[r#"
error: a cycle of 8 s is shorter than the run, which takes 10 s
 --> t.yaml:6:9
  |
6 |   - 2 x exchange zone 2 @ 3.8 off 8s
  |         ^^^^^^^^^^^^^^^
  |
help: write a longer cycle, or a rest; to plan it all the same, use `--force`, or `force: true` in a session file

"#]]);
    folder.toeline(&["plan", "t.yaml", "--force"]).assert().success();
}

#[test]
fn a_team_of_four_rehearses_its_race_zone_by_zone() {
    let text = "\
title: t
groups:
  - name: g
    bests: { 100: 11.5, 200: 23.5 }
    athletes: [Ada, Bea, Cyd, Dan]
    relay: [[Ada, Bea, Cyd, Dan]]
blocks:
  - exchange zone 1 + exchange zone 2 + exchange zone 3 in lane 4 rest 4min
";
    let folder = Folder::with("t.yaml", text);
    let plan = folder.json(&["plan", "t.yaml"]);
    let turns = [(1, "Ada", "Bea"), (2, "Bea", "Cyd"), (3, "Cyd", "Dan")];
    assert_eq!(handings(&plan), turns.map(|(rep, a, b)| (rep, a.to_owned(), b.to_owned())));
    let zones = reps(&plan).iter().map(|rep| rep["handover"]["zone"].as_u64());
    assert!(zones.eq([Some(1), Some(2), Some(3)]));
    let text = printed(&folder.toeline(&["plan", "--full", "t.yaml"]).assert().success());
    let lines: Vec<&str> = text.lines().skip_while(|line| !line.starts_with("- Zones")).take(4).collect();
    snapbox::assert_data_eq!(
        lines.join("\n"),
        str![[r#"
- Zones 1, 2 and 3, 30 m: outgoing waits at its entry, incoming starts 40 m
  back.
- Check mark 7.8 m back, 26 feet, baton over about 12 m on: Ada to Bea (lane 4,
  cone 2); Bea to Cyd (lane 4, cone 4); Cyd to Dan (lane 4, cone 6).
"#]]
    );
}
