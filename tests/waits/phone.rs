//! The page for the phone.

use anyhow::{Context as _, Result, ensure};
use plan_sheet::View as _;
use serde_json::Value;
use session_plan::Plan;

use crate::demonstration::{Demonstration, rendered};
use crate::stopwatch::beside;
use crate::table::{note, row};

/// What stands in front of the data of a page, in ours and beside it.
const DATA: &str = r#"<script type="application/json" id="data">"#;

/// A script that shows each run in a line.
const SCRIPT: &str = r#"<script>
for (const block of JSON.parse(document.getElementById("data").textContent).blocks) {
  for (const rep of block.reps) {
    const line = document.body.appendChild(document.createElement("p"));
    line.textContent = `${rep.athletes.join(", ")} ${rep.distance_m} m, lane ${rep.lane}: ${rep.start.words}`;
  }
}
</script>"#;

pub(crate) fn rows() -> Result<()> {
    let plan = Demonstration::read("tuesday-sprints")?.plan()?;
    let ours = String::from_utf8(rendered(&plan, "html")?)?;
    let runs = count_ours(&data(&ours)?)?;
    let theirs = count(&data(&minimal(&plan)?)?, "blocks", |block| count(block, "reps", |_| Ok(1)))?;
    ensure!(runs == theirs && runs > 0, "the page has {runs} runs, the plain one {theirs}");
    row("the phone page: a sprint session", beside(15, || rendered(&plan, "html"), || minimal(&plan)))?;
    note("beside: the plan's JSON in a page with a script of six lines that lists the runs. Ours has the")?;
    note("map, a picture of each run, clocks, boxes and the whole plan, readable before a script runs.")?;
    note(&format!("same: {runs} runs in the data of both"))
}

/// The JSON of a plan in a page that lists its runs.
fn minimal(plan: &Plan) -> Result<String> {
    let json = plan.json()?.replace('<', "\\u003c");
    Ok(format!(
        "<!doctype html><meta charset=\"utf-8\"><title>Plan</title><body>{DATA}{json}</script>{SCRIPT}"
    ))
}

/// The data of a page.
fn data(page: &str) -> Result<Value> {
    let (_, data) = page.split_once(DATA).context("the page has no data")?;
    let (data, _) = data.split_once("</script>").context("the data of the page have no end")?;
    Ok(serde_json::from_str(data)?)
}

/// How many runs our page has: each lane of each run of each block of its sessions.
fn count_ours(data: &Value) -> Result<usize> {
    count(data, "sessions", |session| {
        count(session, "blocks", |block| count(block, "runs", |run| count(run, "lanes", |_| Ok(1))))
    })
}

/// The sum over a list.
fn count(value: &Value, list: &str, of: impl Fn(&Value) -> Result<usize>) -> Result<usize> {
    let list = value[list].as_array().with_context(|| format!("there is no list `{list}`"))?;
    list.iter().map(of).sum()
}
