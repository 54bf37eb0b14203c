//! What a plan says, in words.

use std::collections::BTreeSet;

use serde_json::Value;

/// Everything that a plan says: its places, its cones, its notes.
pub(crate) fn said(plan: &Value) -> BTreeSet<String> {
    let mut said = BTreeSet::new();
    let mut say = |value: &Value| {
        if let Some(words) = value.as_str() {
            said.insert(words.trim().to_owned());
        }
    };
    say(&plan["title"]);
    say(&plan["track"]["name"]);
    let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
    for key in ["notes", "etiquette", "cautions", "warnings"] {
        list(&plan[key]).iter().for_each(&mut say);
    }
    for cone in list(&plan["setup"]) {
        say(&cone["spot"]["words"]);
        say(&cone["for"]);
    }
    for block in list(&plan["blocks"]) {
        say(&block["reading"]);
        say(&block["coach"]["words"]);
        list(&block["remarks"]).iter().for_each(&mut say);
        for rep in list(&block["reps"]) {
            say(&rep["start"]["words"]);
            say(&rep["finish"]["words"]);
            say(&rep["run_in"]["words"]);
            list(&rep["athletes"]).iter().for_each(&mut say);
            list(&rep["cautions"]).iter().for_each(&mut say);
        }
    }
    said
}
