//! Prints where a repetition can start and finish, best first: `spot_for_a_distance [METRES [LANE]]`.

use std::error::Error;
use std::io::{Write, stdout};

use lane_distance::{Placement, Track};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let distance_m: f64 = arguments.next().map_or(Ok(150.0), |metres| metres.parse())?;
    let number: u8 = arguments.next().map_or(Ok(2), |lane| lane.parse())?;
    let track = Track::built_in("standard").ok_or("the standard track comes with the crate")?;
    let lane = track.lane_number(number)?;
    for pair in track.search(lane, distance_m)? {
        let [start, finish] = [pair.start, pair.finish].map(|spot| {
            let place = Placement::of(&track, spot);
            format!("{:+.2} m from the {}", place.past_mark_m, place.mark.as_deref().unwrap_or("finish line"))
        });
        writeln!(stdout(), "{start} → {finish}")?;
    }
    Ok(())
}
