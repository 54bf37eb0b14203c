//! Prints the plan of a workout on the standard track: `plan_from_text [WORKOUT]`.

use std::error::Error;
use std::io::{Write, stdout};

use lane_distance::Track;
use plan_sheet::{View, plan_fault_words};
use session_plan::{Session, Venue};
use workout_notation::Block;

fn main() -> Result<(), Box<dyn Error>> {
    let text = std::env::args().nth(1).unwrap_or_else(|| "6 x 200 in lane 2 @ 34 rest 90s".to_owned());
    let block = Block::parse(&text).map_err(|problems| problems[0].message.clone())?;
    let venue = Venue::from(Track::built_in("standard").ok_or("the standard track comes with the crate")?);
    let plan = session_plan::plan(&venue, &Session::of_block(text, block))
        .map_err(|errors| plan_fault_words(&errors[0].fault.value).0)?;
    write!(stdout(), "{}", plan.text())?;
    Ok(())
}
