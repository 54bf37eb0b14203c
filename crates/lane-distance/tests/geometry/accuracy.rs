//! The accuracy report: lengths and places of the solver beside published tables and beside general libraries, row by row.
//!
//! `cargo test -p lane-distance --test geometry accuracy -- --nocapture` prints every row, and the summary that stands in
//! the README. It fails where a row is further off than is allowed.

use std::fmt::Write as _;
use std::io::Write as _;
use std::process::{Command, Stdio};

use lane_distance::{Course, Piece, Track};

use crate::arc_length::{every_lane, measure_line};
use crate::fixtures::{ahead_m, painted_m, standard};
use crate::hurdles::{HURDLES, hurdles_m, track_with_every_tick};
use crate::lane_number;
use crate::marks_csv::for_every_mark;
use crate::published::{Row, rows, source};
use crate::published_tracks::{TRACKS, built_in as built_in_of};
use crate::staggers::STAGGERS;

const README: &str = include_str!("../../../../README.md");

/// The repetitions that are measured from place to place, in metres.
const DISTANCES_M: [f64; 14] =
    [60.0, 80.0, 100.0, 120.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0, 600.0, 800.0, 1000.0, 1609.344];

/// A measure line turned by this many degrees at most is one arc of the path that a library measures.
const ARC_DEG: f64 = 4.0;

/// One comparison.
struct Compared {
    what: String,
    ours_m: f64,
    theirs_m: f64,
    source: String,
}

/// Comparisons of one kind, with what they may be off.
struct Part {
    /// What is compared, and with what.
    what: &'static str,
    rows: Vec<Compared>,
    /// How far each may be off, in metres.
    allowed_m: f64,
}

impl Part {
    fn largest_m(&self) -> f64 {
        self.rows.iter().map(|row| (row.ours_m - row.theirs_m).abs()).fold(0.0, f64::max)
    }

    /// A row of the summary.
    fn summary(&self) -> String {
        let count = self.rows.len();
        format!("| {} | {count} | {} | {} |\n", self.what, small(self.largest_m()), small(self.allowed_m))
    }
}

/// A small length as people read it.
fn small(length_m: f64) -> String {
    match length_m * 1000.0 {
        mm if mm < 0.001 => "under 0.001 mm".to_owned(),
        mm if mm < 0.1 => format!("{mm:.3} mm"),
        mm => format!("{mm:.1} mm"),
    }
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().expect("it is a number")
}

/// Laps of lane 1, as published; those of the small ovals are published to the decimetre.
fn laps_published() -> Part {
    let rows = rows(TRACKS).into_iter().flat_map(|row| {
        built_in_of(&row).iter().map(move |name| Compared {
            what: format!("{name}, lap of lane 1"),
            ours_m: Track::built_in(name)
                .and_then(|track| track.lap_m(lane_number(1)).ok())
                .expect("it is built in"),
            theirs_m: number(&row, "lap_at_measure_line_m"),
            source: source(&row),
        })
    });
    Part { what: "laps of lane 1, published", rows: rows.collect(), allowed_m: 0.01 }
}

/// Two columns of the table of staggers, each by the paint of its race.
fn staggers(what: &'static str, columns: [(&str, &str); 2], allowed_m: f64) -> Part {
    let track = standard();
    let row = |row: &Row| {
        columns.map(|(column, mark)| {
            let lane = row["lane"].parse().expect("a lane is a number");
            Compared {
                what: format!("{mark}, lane {lane}"),
                ours_m: ahead_m(&track, mark, lane, 1),
                theirs_m: number(row, column),
                source: source(row),
            }
        })
    };
    Part { what, rows: rows(STAGGERS).iter().flat_map(row).collect(), allowed_m }
}

/// Every hurdle of each race, in lane 4.
fn hurdles() -> Part {
    let track = track_with_every_tick();
    let ticks = |row: Row| {
        let course = if row["course"] == "oval" { Course::Oval } else { Course::HomeStraight };
        let event = row["event"].trim_end_matches('s').to_owned();
        let tick = |(at, theirs_m): (usize, &f64)| {
            let what = format!("{event} tick {}", at + 1);
            let ours_m = painted_m(&track, course, 4, &what);
            Compared { what, ours_m, theirs_m: *theirs_m, source: source(&row) }
        };
        hurdles_m(&row).iter().enumerate().map(tick).collect::<Vec<_>>()
    };
    let rows = rows(HURDLES).into_iter().flat_map(ticks).collect();
    Part { what: "hurdles of seven races, from published spacings", rows, allowed_m: 0.001 }
}

/// Every mark at the place where its published rule puts it, worked out by hand.
fn marks() -> Part {
    let mut rows = Vec::new();
    for_every_mark(|found| {
        rows.push(Compared {
            what: format!("{}, lane {}", found.name, found.lane),
            ours_m: found.place_m + found.off_m,
            theirs_m: found.place_m,
            source: format!("{}: {}", source(found.row), found.row["rule"]),
        });
    });
    Part { what: "marks of the standard track, by their published rules", rows, allowed_m: 0.001 }
}

/// Laps of every lane of every built-in track, by a curves library that integrates along cubic curves.
fn laps_integrated() -> Part {
    let rows = every_lane().map(|(track, lane)| Compared {
        what: format!("{}, lap of lane {lane}", track.name()),
        ours_m: track.lap_m(lane_number(lane)).expect("the lane exists"),
        theirs_m: measure_line(&track, lane).lap_m,
        source: "kurbo, integrated".to_owned(),
    });
    Part { what: "laps of every lane of all built-in tracks, kurbo", rows: rows.collect(), allowed_m: 1e-6 }
}

/// The first choice for each distance in each lane, from place to place along the line that a curves library
/// integrates.
fn repetitions() -> Part {
    let mut rows = Vec::new();
    for (track, lane) in every_lane() {
        let line = measure_line(&track, lane);
        for distance_m in DISTANCES_M {
            let pairs = track.search(lane_number(lane), distance_m).expect("it is in range");
            let first = pairs
                .iter()
                .find(|pair| [pair.start, pair.finish].iter().all(|spot| spot.course == Course::Oval));
            let Some(pair) = first else { continue };
            let along_m = [pair.start, pair.finish].map(|spot| {
                let point = track.point(spot);
                line.locate(point.x, point.y).0
            });
            let once_m = (along_m[1] - along_m[0]).rem_euclid(line.lap_m);
            let laps = ((distance_m - once_m) / line.lap_m).round();
            rows.push(Compared {
                what: format!("{}, {distance_m} m in lane {lane}", track.name()),
                ours_m: distance_m,
                theirs_m: once_m + laps * line.lap_m,
                source: "kurbo, from place to place".to_owned(),
            });
        }
    }
    Part { what: "repetitions from place to place, kurbo", rows, allowed_m: 1e-6 }
}

/// The measure line of a lane as a path of SVG.
fn path_data(track: &Track, lane: u8) -> String {
    let layout = track.layout();
    let offset_m = layout.lanes()[usize::from(lane) - 1].measure_m;
    let path = layout.path();
    let mut data = String::new();
    for (piece, start) in path.pieces().iter().zip(path.starts()) {
        let (sin, cos) = start.heading_rad.sin_cos();
        let (x, y) = (start.point.x + offset_m * sin, start.point.y - offset_m * cos);
        if data.is_empty() {
            data = format!("M {x} {y}");
        }
        match *piece {
            Piece::Straight { length_m } => {
                let _ = write!(data, " L {} {}", x + length_m * cos, y + length_m * sin);
            }
            Piece::Arc { radius_m, turn_rad } => {
                let radius_m = radius_m + offset_m;
                let (centre_x, centre_y) = (x - radius_m * sin, y + radius_m * cos);
                let arcs = (turn_rad.to_degrees() / ARC_DEG).ceil();
                for arc in 1..=arcs as u32 {
                    let (sin, cos) = (start.heading_rad + turn_rad * f64::from(arc) / arcs).sin_cos();
                    let (x, y) = (centre_x + radius_m * sin, centre_y - radius_m * cos);
                    let _ = write!(data, " A {radius_m} {radius_m} 0 0 1 {x} {y}");
                }
            }
        }
    }
    data
}

/// The same laps by a library of another language; nothing where it is not installed, which is said.
fn laps_measured_elsewhere() -> Option<Part> {
    let lanes: Vec<(Track, u8)> = every_lane().collect();
    let python = std::env::var("TOELINE_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/geometry/perimeters.py");
    let measure = Command::new(python).arg(script).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
    let lengths = measure.ok().and_then(|mut measure| {
        let paths: Vec<String> = lanes.iter().map(|(track, lane)| path_data(track, *lane)).collect();
        let written = measure.stdin.take()?.write_all(paths.join("\n").as_bytes());
        let output = measure.wait_with_output().ok()?;
        (written.is_ok() && output.status.success()).then(|| String::from_utf8(output.stdout).ok())?
    });
    let Some(lengths) = lengths else {
        assert!(std::env::var("TOELINE_PYTHON").is_err(), "TOELINE_PYTHON has fontTools");
        return None;
    };
    let lengths: Vec<f64> = lengths.lines().map(|line| line.parse().expect("it is a length")).collect();
    assert_eq!(lengths.len(), lanes.len());
    let rows = lanes.iter().zip(lengths).map(|((track, lane), theirs_m)| Compared {
        what: format!("{}, lap of lane {lane}", track.name()),
        ours_m: track.lap_m(lane_number(*lane)).expect("the lane exists"),
        theirs_m,
        source: "fontTools, integrated".to_owned(),
    });
    Some(Part { what: "the same laps, fontTools (Python)", rows: rows.collect(), allowed_m: 1e-6 })
}

#[test]
#[allow(clippy::print_stdout, reason = "it is a report")]
fn accuracy() {
    let in_lanes = [("stagger_200_m", "200 m start"), ("stagger_400_m", "400 m start")];
    let with_break = [("stagger_800_m", "800 m start in lanes"), ("stagger_4x400_m", "4x400 m start")];
    let mut parts = vec![
        laps_published(),
        staggers("staggers of the 200 m and the 400 m, published", in_lanes, 0.001),
        staggers("staggers of the 800 m and the 4x400 m, published and rounded", with_break, 0.005),
        hurdles(),
        marks(),
        laps_integrated(),
        repetitions(),
    ];
    match laps_measured_elsewhere() {
        Some(part) => parts.push(part),
        None => {
            println!("left out: laps by fontTools (`pip install fonttools`; TOELINE_PYTHON names the Python)")
        }
    }
    let mut summary = String::new();
    let mut wrong = Vec::new();
    for part in &parts {
        println!("\n{}, to {}", part.what, small(part.allowed_m));
        for Compared { what, ours_m, theirs_m, source } in &part.rows {
            let off_mm = (ours_m - theirs_m) * 1000.0;
            println!("  {what:<46} {ours_m:>12.4} {theirs_m:>12.4} {off_mm:>9.4} mm  {source}");
            let is_near = (ours_m - theirs_m).abs() <= part.allowed_m;
            if !is_near {
                wrong.push(format!("{what}: {ours_m} m, {theirs_m} m ({source})"));
            }
        }
        summary += &part.summary();
    }
    println!("\n| compared | rows | largest difference | allowed |\n|---|---|---|---|\n{summary}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for row in summary.lines() {
        assert!(README.contains(row), "the README's summary lacks: {row}");
    }
}
