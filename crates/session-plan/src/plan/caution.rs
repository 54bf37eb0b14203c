//! What to take care of.

use lane_distance::{LINE_MEASURE_M, LaneList, Pair, Track};

/// The cautions that every plan and every answer about a track carries.
pub fn cautions(track: &Track) -> Vec<String> {
    let kerb = match track.layout().lanes() {
        [first, ..] if first.measure_m > LINE_MEASURE_M => ", 0.30 m outside the kerb in lane 1",
        _ => "",
    };
    let mut cautions =
        vec![format!("Distances assume the measure line: 0.20 m outside a lane's inner line{kerb}.")];
    if track.layout().scale() != 1.0 {
        let lap_m = track.lap_m(1).unwrap_or_default();
        cautions.push(format!(
            "All distances are scaled by {:.6} to the surveyed lap of {lap_m:.3} m in lane 1.",
            track.layout().scale()
        ));
    }
    if !track.closed_lanes().is_empty() {
        let closed = LaneList(track.closed_lanes()).to_string();
        let (verb, pronoun) =
            if track.closed_lanes().len() == 1 { ("stays", "it") } else { ("stay", "them") };
        let because = track.closed_because().map_or_else(String::new, |reason| format!(" ({reason})"));
        cautions
            .push(format!("Closed {closed} {verb} closed{because}: do not run, walk or wait in {pronoun}."));
    }
    cautions.extend(
        [
            "Look both ways before stepping on to the track; give way to those who are running.",
            "Keep away from throws and jumps areas in use, and from kerb and water-jump edges.",
            "Venue rules and the facility's staff come first. Load and pace are for a qualified coach or a \
             doctor to judge.",
        ]
        .map(str::to_owned),
    );
    cautions
}

/// The cautions of one run: what it comes by.
pub(crate) fn of_run(track: &Track, pair: &Pair) -> Vec<String> {
    track
        .hazards_of(pair)
        .map(|hazard| {
            let note = hazard.note.as_ref().map_or_else(String::new, |note| format!(" ({note})"));
            format!("Passes the {} {}{note}: {}.", hazard.kind, hazard.side, hazard.kind.caution())
        })
        .collect()
}
