//! How long a search takes, and how long it takes to build the track that is searched.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use lane_distance::spec::TrackSpec;
use lane_distance::{Course, LaneNumber, Track};

/// The repetitions that people run, in metres.
const DISTANCES_M: [f64; 22] = [
    30.0, 40.0, 60.0, 80.0, 100.0, 120.0, 150.0, 200.0, 250.0, 300.0, 333.33, 400.0, 500.0, 600.0, 800.0,
    1000.0, 1200.0, 1500.0, 1609.344, 2000.0, 3000.0, 5000.0,
];

/// The lane that is asked for where only one is.
const LANE: LaneNumber = LaneNumber::of::<2>();

/// So many marks in a lane that the search cannot look at every pair of them.
const MANY_MARKS: usize = 500;

fn standard_spec() -> TrackSpec {
    TrackSpec::built_in("standard").expect("it comes with the crate")
}

fn build(spec: &TrackSpec) -> Track {
    Track::build(spec).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// The standard track with lines of its own, so that the lane has as many marks as asked for.
///
/// The lines lie an odd distance apart, so that hardly two of them are a round distance apart.
fn with_marks(count: usize) -> Track {
    let mut spec = standard_spec();
    let painted = |track: &Track| track.painted(Course::Oval, LANE).len();
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

fn search(c: &mut Criterion) {
    let standard = build(&standard_spec());
    c.bench_function("one lane, one distance", |b| {
        b.iter(|| standard.search(black_box(LANE), black_box(200.0)));
    });
    c.bench_function("8 lanes x 22 distances", |b| {
        b.iter(|| {
            for lane in LaneNumber::first(8) {
                for distance_m in DISTANCES_M {
                    let _ = black_box(standard.search(black_box(lane), black_box(distance_m)));
                }
            }
        });
    });
    let crowded = with_marks(MANY_MARKS);
    c.bench_function("search among 500 marks in a lane", |b| {
        b.iter(|| crowded.search(black_box(LANE), black_box(200.0)));
    });
}

fn track(c: &mut Criterion) {
    let spec = standard_spec();
    c.bench_function("Track::build", |b| b.iter(|| Track::build(black_box(&spec))));
    // Every set that fits a track of 400 m, placed in eight lanes.
    let mut full = spec.clone();
    let sets = ["standard", "club lines", "age-group hurdles", "300 m hurdles", "former takeover zones"];
    full.marks.sets = Some(sets.map(str::to_owned).to_vec());
    c.bench_function("full catalogue, 8 lanes", |b| b.iter(|| Track::build(black_box(&full))));
}

criterion_group!(benches, search, track);
criterion_main!(benches);
