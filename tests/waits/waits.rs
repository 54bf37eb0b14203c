//! What users wait for, each beside a straightforward way to the same answer on general libraries: `cargo bench --bench
//! waits`. The answers are compared before anything is timed; where they differ it ends with status 1.

#[expect(dead_code, reason = "the search needs two runs in one lane, not whole plans")]
#[path = "../../crates/wave-plan/tests/squads/checker/mod.rs"]
mod checker;
#[path = "../../crates/lane-distance/benches/crowded/mod.rs"]
mod crowded;
mod demonstration;
#[path = "../../crates/session-plan/benches/evening/mod.rs"]
mod evening;
mod evenings;
mod growth;
mod measure_line;
mod memory;
mod offline;
#[cfg(feature = "pdf")]
mod paper;
mod phone;
mod process;
#[path = "../../crates/wave-plan/tests/squads/search/mod.rs"]
mod search;
mod sizes;
mod spell;
mod spots;
mod stopwatch;
mod table;
mod traced_lane;
mod workout;

use table::{head, say};

fn main() -> anyhow::Result<()> {
    // Tests of all targets start it as well, without this.
    if !std::env::args().any(|argument| argument == "--bench") {
        return say("nothing is timed: write cargo bench --bench waits");
    }
    say("Times are the median of some rounds, with the least and the most. Both sides of a row take turns.")?;
    say("Ratio: how many times as long the straightforward way takes.")?;
    head("What users wait for", ["ours", "straightforward", "ratio"])?;
    spots::rows()?;
    workout::rows()?;
    evenings::rows()?;
    #[cfg(feature = "pdf")]
    paper::rows()?;
    #[cfg(not(feature = "pdf"))]
    table::left_out("a page of paper", "this build cannot print")?;
    phone::rows()?;
    head("The offline page's answer", ["WebAssembly in node", "native", "times it"])?;
    offline::rows()?;
    head("The whole process", ["ours", "empty program", "times it"])?;
    process::rows()?;
    memory::rows()?;
    sizes::rows()?;
    growth::rows()?;
    let cores = std::thread::available_parallelism()?;
    let optimised =
        if cfg!(debug_assertions) { "not optimised: the times mean nothing" } else { "optimised" };
    say(&format!("\n{cores} cores, {}, {optimised}", std::env::consts::ARCH))
}
