//! What searches are timed with: the distances that people run, and tracks with as many marks as asked for.

use lane_distance::spec::TrackSpec;
use lane_distance::{Course, LaneNumber, Track};

/// The repetitions that people run, in metres.
pub(crate) const DISTANCES_M: [f64; 22] = [
    30.0, 40.0, 60.0, 80.0, 100.0, 120.0, 150.0, 200.0, 250.0, 300.0, 333.33, 400.0, 500.0, 600.0, 800.0,
    1000.0, 1200.0, 1500.0, 1609.344, 2000.0, 3000.0, 5000.0,
];

/// The built-in standard track.
pub(crate) fn standard_spec() -> TrackSpec {
    TrackSpec::built_in("standard").expect("it comes with the crate")
}

/// The track that a description gives.
pub(crate) fn build(spec: &TrackSpec) -> Track {
    Track::build(spec).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// The standard track with lines of its own, so that a lane has as many marks as asked for.
///
/// The lines lie an odd distance apart, so that hardly two of them are a round distance apart.
pub(crate) fn with_marks(lane: LaneNumber, count: usize) -> Track {
    let mut spec = standard_spec();
    let painted = |track: &Track| track.painted(Course::Oval, lane).len();
    let lines = count - painted(&build(&spec));
    let to_finish: Vec<String> = (0..lines).map(|n| format!("{:.3}", 0.3 + 0.777 * n as f64)).collect();
    let row = format!(
        "own: [{{ name: 'own line {{n}}', colour: white, form: line across, to_finish: [{}] }}]",
        to_finish.join(", ")
    );
    let marks: lane_distance::spec::MarksSpec = serde_yaml::from_str(&row).expect("the row is well formed");
    spec.marks.own = marks.own;
    let track = build(&spec);
    assert_eq!(painted(&track), count);
    track
}
