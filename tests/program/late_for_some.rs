//! Late changes that are about some: who comes later, and whose lane is shut. The others stay as they were.

use serde_json::Value;

use crate::answer::printed;
use crate::folder::Folder;
use crate::late_changes::{TUESDAY, plan, runs};

#[test]
fn a_lane_that_is_shut_late_moves_only_those_who_had_it() {
    let folder = Folder::with(
        "e.txt",
        "Tues 7pm\nDistance: Ann, Gail, Joe, Mo, Raj, Will\n5 x 1000 @ 3:30, 2 min jog\n4 x 200 @ 34, 200 jog\n\
         Hurdles: Kate, Luc, Pip\n5 x 100H to hurdle 3, 3 min\n2 x 200, 6 min\n\
         Masters: Ron, Jean, Dave\n8 x 300 @ 62, 100 walk\n",
    );
    let before = folder.json(&["plan", "e.txt"]);
    let group_of = |plan: &Value| -> Vec<(String, u64)> {
        runs(plan).into_iter().map(|(_, _, name, lane, ..)| (name, lane)).collect()
    };
    let distance = ["Ann", "Gail", "Joe", "Mo", "Raj", "Will"];
    let is_distance = |name: &str| distance.contains(&name.trim_matches('"'));
    let of = |plan: &Value, is_theirs: bool| -> Vec<(String, u64)> {
        group_of(plan).into_iter().filter(|(name, _)| is_distance(name) == is_theirs).collect()
    };
    let own: Vec<u64> = of(&before, true).into_iter().map(|(_, lane)| lane).collect();
    let others: Vec<u64> = of(&before, false).into_iter().map(|(_, lane)| lane).collect();
    let shut = own.iter().copied().filter(|lane| !others.contains(lane)).max().expect("they have lanes");
    let after = folder.json(&["plan", "e.txt", "--closed", &shut.to_string()]);
    assert_eq!(of(&after, false), of(&before, false), "lane {shut}");
    let moved: Vec<u64> = of(&after, true).into_iter().map(|(_, lane)| lane).collect();
    assert!(moved.iter().all(|lane| *lane != shut && !others.contains(lane)), "{moved:?}");
}

#[test]
fn an_athlete_who_comes_late_does_the_same_later_and_the_others_as_before() {
    let runs_of = |plan: &Value, name: &str| {
        let mut runs = runs(plan);
        runs.retain(|(_, _, athlete, ..)| athlete.trim_matches('"') == name);
        runs
    };
    let (before, after) = (plan(TUESDAY, &[]), plan(TUESDAY, &["--late", "Cleo=18:20"]));
    let (own, late) = (runs_of(&before, "Cleo"), runs_of(&after, "Cleo"));
    let done = |runs: &[(String, u64, String, u64, f64, String)]| {
        runs.iter().map(|(block, rep, ..)| (block.clone(), *rep)).collect::<Vec<_>>()
    };
    assert_eq!(done(&late), done(&own));
    // The warm-up comes first, of 20 min from 18:20.
    assert!(late.iter().all(|(.., go_s, _)| *go_s >= 2400.0), "{late:?}");
    for name in ["Ada", "Bela"] {
        let lanes = |plan: &Value| runs_of(plan, name).into_iter().map(|run| (run.0, run.1, run.3)).collect();
        let (before, after): (Vec<_>, Vec<_>) = (lanes(&before), lanes(&after));
        assert_eq!(after, before, "{name}");
    }
    // In a text it is planned so, and no change.
    let folder = Folder::with(
        "e.txt",
        "Tues 6pm\nSprints (Ada, Bela): 4 x 150 @ 20, 5 min\nDistance (Jo, Kim): 5 x 400 @ 80, 90s\nKim 15 min late. Bela joins at 6.30\n",
    );
    let plan = folder.json(&["plan", "e.txt"]);
    assert_eq!(plan["changes"], Value::Array(Vec::new()));
    let first = |name: &str| runs_of(&plan, name)[0].4;
    assert_eq!((first("Kim"), first("Bela")), (900.0, 1800.0));
    // A session file keeps it.
    let written = printed(&folder.toeline(&["session", "e.txt"]).assert().success());
    folder.write("e.yaml", &written);
    let again = folder.json(&["plan", "e.yaml"]);
    let places = |plan: &Value| {
        runs(plan)
            .into_iter()
            .map(|(_, rep, name, lane, go_s, start)| (rep, name, lane, go_s, start))
            .collect::<Vec<_>>()
    };
    assert_eq!(places(&again), places(&plan));
}

#[test]
fn a_group_that_is_absent_is_left_out_as_a_whole() {
    let folder = Folder::with(
        "e.txt",
        "Tuesday 6pm\nSprints (Al, Bo): 4 x 150 @ 20, 3 min\nMiddles (Cy, Di): 3 x 500 @ 1:40, 2 min\n",
    );
    let plan = folder.json(&["plan", "e.txt", "--without", "sprints"]);
    let who: Vec<String> = runs(&plan).into_iter().map(|(_, _, name, ..)| name).collect();
    assert!(!who.is_empty() && who.iter().all(|name| name.contains("Cy") || name.contains("Di")), "{who:?}");
    folder.toeline(&["plan", "e.txt", "--without", "sprints,middles"]).assert().failure();
}

#[test]
fn a_text_says_who_does_fewer() {
    for said in ["Al only 3", "Al does 3", "Al is injured so does 3 only", "Al 3 reps"] {
        let folder =
            Folder::with("e.txt", format!("Tuesday 6pm\nSprints (Al, Bo): 4 x 150 @ 20, 3 min\n{said}\n"));
        let plan = folder.json(&["plan", "e.txt"]);
        let of = |name: &str| runs(&plan).into_iter().filter(|(_, _, who, ..)| who.contains(name)).count();
        assert_eq!((of("Al"), of("Bo")), (3, 4), "{said}");
        let told = printed(&folder.toeline(&["plan", "e.txt"]).assert().success());
        assert!(told.starts_with("Changed: Al does 3 reps."), "{told}");
    }
}
