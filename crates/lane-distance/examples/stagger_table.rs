//! Prints the lap and the staggers of every lane of a built-in track: `stagger_table [NAME]`.

use std::error::Error;
use std::io::{Write, stdout};

use lane_distance::{Course, Track};

fn main() -> Result<(), Box<dyn Error>> {
    let mut out = stdout().lock();
    let name = std::env::args().nth(1).unwrap_or_else(|| "standard".to_owned());
    let Some(track) = Track::built_in(&name) else {
        let known: Vec<&str> = Track::built_in_names().collect();
        return Err(format!("there is no built-in track {name}; write one of {}", known.join(", ")).into());
    };
    let layout = track.layout();
    writeln!(out, "lane    lap m  200 m  400 m  800 m")?;
    for lane in layout.lane_numbers(Course::Oval) {
        let [short_m, long_m] = [200.0, 400.0].map(|race_m| layout.stagger_in_lanes_m(lane, race_m));
        let after_break_m = layout.stagger_after_break_m(lane, 800.0, 1).unwrap_or(f64::NAN);
        let lap_m = track.lap_m(lane)?;
        writeln!(out, "{lane:>4} {lap_m:>8.2} {short_m:>6.2} {long_m:>6.2} {after_break_m:>6.2}")?;
    }
    Ok(())
}
