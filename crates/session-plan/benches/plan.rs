//! How long it takes to read a session of twelve blocks and to lay it out in one lane, and to plan evenings of three
//! groups.

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use lane_distance::Track;
use session_plan::{Session, SessionFile, Venue};
use workout_notation::{Block, SourceText, Workout};

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

/// Groups with their lanes, their best over 1500 m in seconds, and their blocks.
const GROUPS: [(&str, &str, f64, [&str; 4]); 3] = [
    (
        "sprinters",
        "4, 5, 6",
        300.0,
        [
            "6 x 60 @ 9s rest 2min",
            "300 + 250 + 200 + 150 @ 85% rest 6min",
            "4 x 100 on the home straight, changing ends @ 90% rest 90s",
            "4 x flying 30 with 20 run-in @ 4.5s rest 3min",
        ],
    ),
    (
        "hurdlers",
        "7, 8",
        310.0,
        [
            "6 x 110h to hurdle 3 @ 7s rest 3min",
            "2 x (3 x 150) @ 22s rest 90s / 5min",
            "3 x 200 @ 32s rest 2min",
            "4 x 80 on the bend @ 12s rest 90s",
        ],
    ),
    (
        "milers",
        "2, 3",
        260.0,
        [
            "5 x 1000 @ 5000 pace rest 2min",
            "4 x 300 @ 1500 pace jog 100",
            "200-400-600-400-200 @ 1500 pace rest 2min",
            "6 x 200 @ 1500 pace off 90s",
        ],
    ),
];

/// The session file of an evening.
fn evening(athletes: usize) -> SourceText {
    let mut text = "title: Evening\nsquad: { timers: one }\ngroups:\n".to_owned();
    for (group, (name, lanes, best_s, blocks)) in GROUPS.iter().enumerate() {
        let own = athletes / GROUPS.len() + usize::from(group < athletes % GROUPS.len());
        let athlete = |n: usize| {
            let best_s = best_s + 60.0 * n as f64 / own as f64;
            let bests = format!("{{ 200: {}, 1500: {best_s:.1} }}", best_s / 11.0);
            format!("{{ name: {name} {n}, bests: {bests} }}")
        };
        let athletes: Vec<String> = (0..own).map(athlete).collect();
        let _ =
            writeln!(text, "  - name: {name}\n    lanes: [{lanes}]\n    athletes: [{}]", athletes.join(", "));
        let _ = writeln!(text, "    blocks: [{}]", blocks.map(|block| format!("\"{block}\"")).join(", "));
    }
    text.push_str("blocks: []\n");
    SourceText::new("evening.yaml", &text)
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
        let alone: Vec<Session> = (0..GROUPS.len())
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
