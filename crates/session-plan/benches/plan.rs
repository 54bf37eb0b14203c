//! How long it takes to read a session of twelve blocks and to lay it out in one lane, and to plan evenings of three
//! groups.

mod evening;

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use lane_distance::Track;
use session_plan::{Session, SessionFile, Venue};
use workout_notation::{Block, SourceText, Workout};

use evening::evening;

/// A long session with every kind of run, pace and recovery that one lane takes.
const BLOCKS: [&str; 12] = [
    "warm-up 15 min",
    "4 x 80 strides in lane 2, walk back",
    "3 x flying 30 with 20 run-in in lane 2 rest 3min",
    "6 x 200 in lane 2 @ 34s rest 90s",
    "3 x 4 x 100 in lane 2 @ 90% rest 60s / 4min",
    "2 x (300 @ 48 + 200 @ 30) rest 2min / 8min in lane 2",
    "200-400-600-400-200 in lane 2 @ 75/400 jog 200",
    "4 x 300 in lane 2 @ 800 pace off 3:00",
    "2 x 1 mile in lane 2 @ 3:20/km rest 4min",
    "800 in-and-out 50s in lane 2",
    "150 from the 200 m start in lane 2",
    "cool-down 10 min",
];

fn blocks() -> Vec<Block> {
    let read = |text: &str| Block::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}"));
    BLOCKS.into_iter().map(read).collect()
}

fn session(blocks: Vec<Block>) -> Session {
    let mut session = Session::of_blocks("twelve blocks", blocks);
    session.bests =
        session_plan::Bests::new(vec![(400.0, 56.2), (800.0, 128.0)], session_plan::RIEGEL_EXPONENT);
    session
}

fn plan(c: &mut Criterion) {
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let planned = session(blocks());
    // A session that is refused would be quick.
    if let Err(errors) = session_plan::plan(&venue, &planned) {
        panic!("{errors:?}");
    }
    c.bench_function("read 12 blocks", |b| b.iter(|| black_box(blocks())));
    let text = BLOCKS.join("\n");
    c.bench_function("read 12 blocks as one text", |b| {
        b.iter(|| black_box(Workout::parse(black_box(&text))))
    });
    c.bench_function("plan 12 blocks in one lane", |b| {
        b.iter(|| session_plan::plan(black_box(&venue), black_box(&planned)));
    });
    c.bench_function("read and plan 12 blocks in one lane", |b| {
        b.iter(|| session_plan::plan(black_box(&venue), &session(black_box(blocks()))));
    });
}

fn evenings(c: &mut Criterion) {
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let read = |source: SourceText| SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}"));
    let mut group = c.benchmark_group("evening of three groups, 12 blocks");
    group.sample_size(10);
    for athletes in [40, 500] {
        let source = evening(athletes);
        let session = read(source.clone()).session;
        if let Err(errors) = session_plan::plan(&venue, &session) {
            panic!("{errors:?}");
        }
        group.bench_function(format!("{athletes} athletes"), |b| {
            b.iter(|| session_plan::plan(black_box(&venue), &read(black_box(source.clone())).session));
        });
        // What it costs to plan each group for itself, as if it had the track alone.
        let alone: Vec<Session> = (0..session.groups.len())
            .map(|own| Session { groups: vec![session.groups[own].clone()], ..session.clone() })
            .collect();
        group.bench_function(format!("{athletes} athletes, each group alone"), |b| {
            b.iter(|| {
                alone.iter().map(|session| session_plan::plan(black_box(&venue), session)).collect::<Vec<_>>()
            });
        });
    }
    group.finish();
}

criterion_group!(benches, plan, evenings);
criterion_main!(benches);
