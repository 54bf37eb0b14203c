//! How long it takes to plan a squad.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use wave_plan::{Ground, Itinerary, Mode, Party, RunTimes, Runner, Stretch, TimingRules, plan_evening};

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

/// Three groups of a squad, each on its own clock, with four blocks each: repetitions, a ladder, changing ends and
/// laps in packs.
fn evening(athletes: usize) -> Vec<Party> {
    let laps = Ground::Laps { shortest_m: 400.0, longest_m: 453.0 };
    let stretch = |distance_m: f64| Some(Stretch { distance_m, ground: laps, ..Stretch::default() });
    let straight = |is_reversed: bool| {
        let finish_m = if is_reversed { 100.0 } else { 0.0 };
        let finish_m = (1..=8).map(|lane| (lane, finish_m)).collect();
        Some(Stretch { distance_m: 100.0, ground: Ground::Straight, finish_m, is_reversed })
    };
    let blocks: [(Vec<Option<Stretch>>, f64); 4] = [
        (vec![stretch(200.0); 6], 120.0),
        ([100.0, 200.0, 300.0, 400.0, 300.0, 200.0].map(stretch).to_vec(), 150.0),
        ([false, true, false, true].map(straight).to_vec(), 60.0),
        (vec![stretch(1_000.0); 4], 120.0),
    ];
    let party = |group: usize| {
        let lanes: Vec<u8> = [1..=3, 4..=6, 7..=8][group].clone().collect();
        let own = athletes / 3 + usize::from(group < athletes % 3);
        let itinerary = |(runs, rest_s): &(Vec<Option<Stretch>>, f64)| {
            let times = |n: usize| {
                let s_per_m = 0.14 + 0.01 * group as f64 + 0.04 * n as f64 / own as f64;
                let target_s =
                    |run: &Option<Stretch>| run.as_ref().map_or(60.0, |run| run.distance_m * s_per_m);
                runs.iter().map(|run| RunTimes { target_s: target_s(run).round(), rest_s: *rest_s }).collect()
            };
            let is_long = runs.iter().flatten().any(|run| run.distance_m > 400.0);
            Itinerary {
                after_s: 300.0,
                runs: runs.clone(),
                lanes: lanes.clone(),
                mode: if is_long { Mode::GroupToALane { most: 8 } } else { Mode::default() },
                runners: (0..own)
                    .map(|n| Runner { name: n.to_string(), times: times(n), ..Runner::default() })
                    .collect(),
                ..Itinerary::default()
            }
        };
        Party { begins_s: 600.0 * group as f64, itineraries: blocks.iter().map(itinerary).collect() }
    };
    (0..3).map(party).collect()
}

fn evenings(c: &mut Criterion) {
    let rules = TimingRules::default();
    for athletes in [40, 500] {
        let parties = evening(athletes);
        let mut group = c.benchmark_group("three groups, 12 blocks");
        group.sample_size(10);
        group.bench_function(format!("{athletes} athletes"), |b| {
            b.iter(|| plan_evening(black_box(&parties), &rules, &[]));
        });
        group.finish();
    }
}

criterion_group!(benches, squads, evenings);
criterion_main!(benches);
