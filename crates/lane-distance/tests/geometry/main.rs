//! The geometry of tracks against published tables, worked examples and independent computations.

mod accuracy;
mod any_argument;
mod any_oval;
mod any_track;
mod arc_length;
mod bend_share;
mod by_hand;
mod courses;
mod distances;
mod error_propagation;
mod few_marks;
mod first_choices;
mod fixtures;
mod hazards;
mod hurdles;
mod inner_lane;
mod landmarks;
mod mark_faults;
mod marks_csv;
mod nearest;
mod on_paint_runs;
mod published;
mod published_tracks;
mod random_track;
mod ranking;
mod readings;
mod refusals;
mod round_the_lap;
mod sampled;
mod shared_paint;
mod staggers;
mod taut_string;
mod trace;
mod track_faults;
mod trade;
mod written;

/// A lane whose number a test knows.
fn lane_number(number: u8) -> lane_distance::LaneNumber {
    lane_distance::LaneNumber::new(number).expect("lanes are numbered from 1 to 10")
}
