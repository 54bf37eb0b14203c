//! Times by age group, where nothing else is known.

use serde_json::Value;

use crate::answer::{list, number, told};
use crate::folder::Folder;

/// How long each athlete takes over 400 m, and whether that is about.
fn takes(group: &str, athletes: &str) -> Vec<(f64, Value)> {
    let text = format!(
        "title: t\ngroups:\n  - name: g\n    {group}\n    athletes: [{athletes}]\n\
         squad: {{ mode: one to a lane, most: 1 }}\nblocks: [2 x 400 in lanes 2-4 rest 3min]\n"
    );
    let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml"]);
    let reps = list(&plan["blocks"][0]["reps"]).iter().filter(|rep| rep["rep"] == 1);
    let mut takes: Vec<(String, (f64, Value))> = reps
        .map(|rep| {
            let lasts_s = number(&rep["done_s"]) - number(&rep["go_s"]);
            (rep["athletes"][0].to_string(), (lasts_s, rep["about"].clone()))
        })
        .collect();
    takes.sort_by(|a, b| a.0.cmp(&b.0));
    takes.into_iter().map(|(_, takes)| takes).collect()
}

#[test]
fn the_young_and_the_old_take_longer_where_nothing_else_is_known() {
    let about = Value::Bool(true);
    // A club athlete runs 400 m in 75 s.
    let usual = takes("age: senior", "Ada, { name: Bela, age: U13 }, { name: Cy, age: W60 }");
    assert_eq!(usual, [(75.0, about.clone()), (92.0, about.clone()), (94.0, about.clone())]);
    let young = takes("age: u11", "Ada, { name: Bela, age: U15 }");
    assert_eq!(young, [(101.0, about.clone()), (84.0, about)]);
}

#[test]
fn a_group_that_is_called_by_its_age_has_it() {
    let folder = Folder::with(
        "s.yaml",
        "title: t\ngroups: [{ name: U11 girls, athletes: [Ada] }]\nblocks: [400 in lane 2]\n",
    );
    let plan = folder.json(&["plan", "s.yaml"]);
    assert_eq!(number(&plan["blocks"][0]["reps"][0]["done_s"]), 101.0);
}

#[test]
fn bests_and_targets_go_before_the_age() {
    let known = takes("age: U11", "{ name: Ada, bests: { 400: 60 } }, { name: Bela, target: 70 }");
    assert_eq!(known.iter().map(|(lasts_s, _)| *lasts_s).collect::<Vec<_>>(), [66.0, 70.0]);
}

#[test]
fn what_is_no_age_group_is_refused_with_what_to_write() {
    for age in ["U12", "13", "veteran"] {
        let text = format!("title: t\ngroups: [{{ name: g, age: {age}, athletes: [Ada] }}]\nblocks: [100]\n");
        let said = told(&Folder::with("s.yaml", text).toeline(&["plan", "s.yaml"]).assert().code(2));
        assert!(said.contains("age group") && said.contains("s.yaml:2:"), "{age}: {said}");
    }
    let text = "title: t\ngroups: [{ name: g, age: U12, athletes: [Ada] }]\nblocks: [100]\n";
    let said = told(&Folder::with("s.yaml", text).toeline(&["plan", "s.yaml"]).assert().code(2));
    assert!(
        said.contains(
            "error: `U12` is not an age group\n --> s.yaml:2:26\n  |\n2 | groups: [{ name: g, age: U12, athletes: [Ada] }]"
        ) && said.contains("write one of `U11`, `U13`, `U15`, `U17`, `U20`, `senior`, or for example `M50` or `W60`"),
        "{said}"
    );
}
