//! How long it takes to plan a squad.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use wave_plan::{Ground, Itinerary, Mode, Party, Runner, Stretch, TimingRules, plan_evening};

/// Runners whose targets rise evenly.
fn runners(count: usize, reps: usize, fastest_s: f64, step_s: f64, rest_s: f64) -> Vec<Runner> {
    let target_s = |n: usize| fastest_s + n as f64 * step_s;
    (0..count).map(|n| Runner::new(n.to_string(), reps, target_s(n), rest_s)).collect()
}

fn party(distance_m: f64, lanes: &[u8], mode: Mode, runners: Vec<Runner>) -> Party {
    let ground = Ground::Laps { shortest_m: 400.0, longest_m: 453.0 };
    let stretch = Stretch { distance_m, ground, ..Stretch::default() };
    let reps = runners[0].times.len();
    let itinerary = Itinerary { mode, ..Itinerary::repetitions(reps, stretch, lanes.to_vec(), runners) };
    Party { begins_s: 0.0, itineraries: vec![itinerary] }
}

fn squads(c: &mut Criterion) {
    let rules = TimingRules::default();
    let one = Mode::OneToALane { most: None };
    let fourteen = [party(200.0, &[2, 3, 4, 5, 6], one, runners(14, 6, 30.0, 0.5, 180.0))];
    c.bench_function("14 athletes, 6 reps", |b| b.iter(|| plan_evening(black_box(&fourteen), &rules, &[])));
    let alike = [party(200.0, &[2, 3, 4, 5, 6], one, runners(14, 6, 34.0, 0.0, 180.0))];
    c.bench_function("14 athletes, one target, 6 reps", |b| {
        b.iter(|| plan_evening(black_box(&alike), &rules, &[]))
    });
    let forty = [
        party(200.0, &[1, 2, 3, 4], one, runners(20, 12, 28.0, 0.5, 120.0)),
        party(200.0, &[5, 6, 7, 8], one, runners(20, 12, 30.0, 0.5, 150.0)),
    ];
    c.bench_function("40 athletes, two sprint sets, 12 reps", |b| {
        b.iter(|| plan_evening(black_box(&forty), &rules, &[]))
    });
    let mixed = [
        party(200.0, &[1, 2, 3, 4], one, runners(20, 12, 28.0, 0.5, 120.0)),
        party(400.0, &[5, 6, 7, 8], Mode::GroupToALane { most: 5 }, runners(20, 12, 64.0, 0.7, 90.0)),
    ];
    c.bench_function("40 athletes, a sprint set and pace groups, 12 reps", |b| {
        b.iter(|| plan_evening(black_box(&mixed), &rules, &[]));
    });
    let six_waves = [party(300.0, &[1, 2, 3, 4, 5], one, runners(28, 12, 44.0, 0.5, 120.0))];
    c.bench_function("28 athletes, six waves, 12 reps", |b| {
        b.iter(|| plan_evening(black_box(&six_waves), &rules, &[]));
    });
}

criterion_group!(benches, squads);
criterion_main!(benches);
