//! Every text of `groups.txt` is shared among groups as it says.

mod table;

use chrono::NaiveTime;
use lane_distance::LaneNumber;
use workout_notation::{BestTime, Block, Part, Workout};

const TABLE: &str = include_str!("groups.txt");

/// The fewest texts that the table must hold.
const FEWEST: usize = 35;

/// A block as the table has it: `[label] block then rest`.
fn told(block: &Block) -> String {
    let label = block.label.as_ref().map(|label| format!("[{label}] ")).unwrap_or_default();
    let rest = block.rest_after.as_ref().map(|rest| format!(" then {} s", rest.seconds)).unwrap_or_default();
    format!("{label}{block}{rest}")
}

fn lanes(lanes: &[LaneNumber]) -> String {
    let numbers: Vec<String> = lanes.iter().map(ToString::to_string).collect();
    if lanes.is_empty() { String::new() } else { format!(" in {}", numbers.join(",")) }
}

fn told_part(part: &Part) -> String {
    let group = part.group.as_deref().unwrap_or("all");
    let athletes =
        if part.athletes.is_empty() { String::new() } else { format!(" [{}]", part.athletes.join(", ")) };
    let at = |time: Option<NaiveTime>, word| time.map(|time| format!("{word}{}", time.format("%H:%M")));
    let times = [at(part.begins, " @ "), at(part.ends, " - ")].into_iter().flatten().collect::<String>();
    let lanes = lanes(&part.lanes);
    format!(
        "{group}{athletes}{lanes}{times}: {}",
        part.blocks.iter().map(told).collect::<Vec<_>>().join("; ")
    )
}

fn read(text: &str) -> String {
    match Workout::parse(text) {
        Ok(workout) => {
            let title = workout.title.map(|title| format!("\"{title}\" ")).unwrap_or_default();
            let late =
                workout.late.iter().map(|late| format!(" | {} @ {}", late.name, late.begins.format("%H:%M")));
            let best = |best: &BestTime| {
                let whose = best.name.as_deref().unwrap_or("all");
                format!(" | {whose} {} in {}", best.metres, best.seconds)
            };
            let bests = workout.bests.iter().map(best).collect::<String>();
            let parts = workout.parts.iter().map(told_part).collect::<Vec<_>>().join(" | ");
            format!("{title}{parts}{}{}{bests}", lanes(&workout.lanes), late.collect::<String>())
        }
        Err(problems) => format!("refused: {}", problems[0].message),
    }
}

#[test]
fn every_text_is_shared_among_groups_as_the_table_says() {
    table::check(TABLE, FEWEST, |text| read(&text.replace("\\n", "\n")));
}

#[test]
fn blocks_alone_name_no_groups() {
    let problems =
        Workout::parse_blocks("Girls: 4 x 150\nBoys: 5 x 150").expect_err("they are of two groups");
    assert_eq!(problems[0].message, "`Girls` is a group, and these are the blocks of one");
    assert_eq!(problems[1].span, 15..19);
    // One name is only what the runs are called.
    assert!(Workout::parse_blocks("Girls: 4 x 150; 2 x 80").is_ok());
}
