//! How times grow with what is asked.

use anyhow::{Context as _, Result, ensure};
use lane_distance::{LaneNumber, Track};

use crate::crowded::{build, standard_spec, with_marks};
use crate::demonstration::planned as planned_file;
use crate::evening::evening;
use crate::spell::time;
use crate::stopwatch::alone;
use crate::table::{note, say};
use crate::workout::{planned, standard};

const LANE: LaneNumber = LaneNumber::of::<2>();

const DISTANCE_M: f64 = 200.0;

const ROUNDS: usize = 7;

/// Counts with the median times that they took, in seconds.
type Points = Vec<(usize, f64)>;

pub(crate) fn rows() -> Result<()> {
    say(&format!("\n{:<74} {:>25}\n{}", "Growth", "time ~ count^exponent", "-".repeat(100)))?;
    let mut lanes = Points::new();
    for count in [1_u8, 2, 4, 6, 8, 10] {
        let track = with_lanes(count);
        let searched = || -> Vec<_> {
            LaneNumber::first(count).filter_map(|lane| track.search(lane, DISTANCE_M).ok()).collect()
        };
        ensure!(searched().len() == usize::from(count), "a lane of {count} cannot be searched");
        lanes.push((count.into(), alone(ROUNDS, searched).median_s));
    }
    row("search of 200 m in each lane, with lanes", &lanes)?;
    let mut marks = Points::new();
    for count in [60, 100, 175, 300, 500] {
        let track = with_marks(LANE, count);
        marks.push((count, alone(ROUNDS, || track.search(LANE, DISTANCE_M)).median_s));
    }
    row("search of 200 m in lane 2, with its marks", &marks)?;
    let venue = standard()?;
    let mut reps = Points::new();
    for count in [5, 16, 50, 160, 500] {
        let text = format!("{count} x 200 in lane 2");
        planned(&venue, &text)?;
        reps.push((count, alone(ROUNDS, || planned(&venue, &text)).median_s));
    }
    row("plan of N x 200 in lane 2, with repetitions", &reps)?;
    let mut athletes = Points::new();
    for count in [5, 16, 50, 160, 500] {
        let source = evening(count);
        planned_file(&venue, &source)?;
        athletes.push((count, alone(ROUNDS.min(5), || planned_file(&venue, &source)).median_s));
    }
    row("evening of 3 groups and 12 blocks, with athletes", &athletes)?;
    note("not one power of the athletes: beyond 600 starts only one way to cut the waves is tried")?;
    note("exponent: the slope of the least-squares line through the logarithms of all points")
}

/// The standard track with so many lanes.
fn with_lanes(count: u8) -> Track {
    let mut spec = standard_spec();
    spec.lanes = count;
    spec.home_straight.lanes = Some(count);
    build(&spec)
}

fn row(what: &str, points: &Points) -> Result<()> {
    let exponent = exponent(points).with_context(|| format!("{what}: too few points"))?;
    say(&format!("{what:<74} {exponent:>25.2}"))?;
    let points: Vec<String> =
        points.iter().map(|(count, time_s)| format!("{count}: {}", time(*time_s))).collect();
    note(&points.join("  "))
}

/// The slope of the line through the logarithms of some points that is nearest to them.
fn exponent(points: &Points) -> Option<f64> {
    let count = points.len() as f64;
    let logs: Vec<(f64, f64)> = points.iter().map(|&(n, time_s)| ((n as f64).ln(), time_s.ln())).collect();
    let mean_x = logs.iter().map(|(x, _)| x).sum::<f64>() / count;
    let mean_y = logs.iter().map(|(_, y)| y).sum::<f64>() / count;
    let across = logs.iter().map(|(x, y)| (x - mean_x) * (y - mean_y)).sum::<f64>();
    let along = logs.iter().map(|(x, _)| (x - mean_x).powi(2)).sum::<f64>();
    (along > 0.0).then_some(across / along)
}
