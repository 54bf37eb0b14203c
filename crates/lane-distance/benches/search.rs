//! How long a search takes, and how long it takes to build the track that is searched.

mod crowded;

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use lane_distance::{LaneNumber, Track};

use crowded::{DISTANCES_M, build, standard_spec, with_marks};

/// The lane that is asked for where only one is.
const LANE: LaneNumber = LaneNumber::of::<2>();

/// So many marks in a lane that the search cannot look at every pair of them.
const MANY_MARKS: usize = 500;

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
    let crowded = with_marks(LANE, MANY_MARKS);
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
