//! How long it takes to plan a squad.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use wave_plan::{Ground, Mode, Runner, SquadSet, TimingRules, plan_squads};

/// Runners whose targets rise evenly.
fn runners(count: usize, fastest_s: f64, step_s: f64, rest_s: f64) -> Vec<Runner> {
    (0..count).map(|n| Runner::new(n.to_string(), fastest_s + n as f64 * step_s, rest_s)).collect()
}

fn set(reps: u32, distance_m: f64, lanes: &[u8], mode: Mode, runners: Vec<Runner>) -> SquadSet {
    SquadSet {
        reps,
        distance_m,
        ground: Ground::Laps { shortest_m: 400.0, longest_m: 453.0 },
        lanes: lanes.to_vec(),
        mode,
        runners,
        ..SquadSet::default()
    }
}

fn squads(c: &mut Criterion) {
    let rules = TimingRules::default();
    let one = Mode::OneToALane { most: None };
    let fourteen = [set(6, 200.0, &[2, 3, 4, 5, 6], one, runners(14, 30.0, 0.5, 180.0))];
    c.bench_function("14 athletes, 6 reps", |b| b.iter(|| plan_squads(black_box(&fourteen), &rules, &[])));
    let alike = [set(6, 200.0, &[2, 3, 4, 5, 6], one, runners(14, 34.0, 0.0, 180.0))];
    c.bench_function("14 athletes, one target, 6 reps", |b| {
        b.iter(|| plan_squads(black_box(&alike), &rules, &[]))
    });
    let forty = [
        set(12, 200.0, &[1, 2, 3, 4], one, runners(20, 28.0, 0.5, 120.0)),
        set(12, 200.0, &[5, 6, 7, 8], one, runners(20, 30.0, 0.5, 150.0)),
    ];
    c.bench_function("40 athletes, two sprint sets, 12 reps", |b| {
        b.iter(|| plan_squads(black_box(&forty), &rules, &[]))
    });
    let mixed = [
        set(12, 200.0, &[1, 2, 3, 4], one, runners(20, 28.0, 0.5, 120.0)),
        set(12, 400.0, &[5, 6, 7, 8], Mode::GroupToALane { most: 5 }, runners(20, 64.0, 0.7, 90.0)),
    ];
    c.bench_function("40 athletes, a sprint set and pace groups, 12 reps", |b| {
        b.iter(|| plan_squads(black_box(&mixed), &rules, &[]));
    });
    let six_waves = [set(12, 300.0, &[1, 2, 3, 4, 5], one, runners(28, 44.0, 0.5, 120.0))];
    c.bench_function("28 athletes, six waves, 12 reps", |b| {
        b.iter(|| plan_squads(black_box(&six_waves), &rules, &[]));
    });
}

criterion_group!(benches, squads);
criterion_main!(benches);
