//! A lane's spots.

use anyhow::{Result, ensure};
use kurbo::Point;
use lane_distance::{LaneNumber, PaintReading, Pair, Track};

use crate::crowded::{DISTANCES_M, build, standard_spec};
use crate::stopwatch::beside;
use crate::table::{note, row};
use crate::traced_lane::{FoundPair, TracedLane};

const LANE: LaneNumber = LaneNumber::of::<2>();

/// Two ways to one place come so near to each other, in metres.
pub(crate) const SAME_M: f64 = 0.001;

const ROUNDS: usize = 15;

pub(crate) fn rows() -> Result<()> {
    let spec = standard_spec();
    let track = build(&spec);
    let traced = TracedLane::new(&track, LANE)?;
    let [pairs, on_paint] = check(&track, &traced)?;
    let search = |track: &Track| -> Vec<Vec<Pair>> {
        DISTANCES_M.iter().filter_map(|&distance_m| track.search(LANE, distance_m).ok()).collect()
    };
    let trace = |traced: &TracedLane| DISTANCES_M.map(|distance_m| traced.pairs(distance_m).ok());
    let laid_out = beside(ROUNDS, || search(&track), || trace(&traced));
    row("a lane's spots: 22 distances", laid_out)?;
    let traced_anew = || TracedLane::new(&track, LANE).map(|traced| trace(&traced)).ok();
    row("  with the track laid out anew", beside(ROUNDS, || search(&build(&spec)), traced_anew))?;
    let to_line = || DISTANCES_M.map(|distance_m| traced.to_finish_line(distance_m).ok());
    row("  all of ours, of theirs one start each", beside(ROUNDS, || search(&track), to_line))?;
    note("beside: kurbo; from each mark, and back from the finish, along the line by arc length, then the")?;
    note("nearest mark, sorted by tape. Laid out anew, ours places the paint of all lanes, it of one.")?;
    note(&format!(
        "same: places to 1 mm of each of our {pairs} pairs, and the marks of {on_paint} ends on paint"
    ))
}

/// Looks for each of our pairs among the others; how many there are, and how many of their ends are on paint.
fn check(track: &Track, traced: &TracedLane) -> Result<[usize; 2]> {
    let (mut count, mut on_paint) = (0, 0);
    for distance_m in DISTANCES_M {
        let found = traced.pairs(distance_m)?;
        let pairs = track.search(LANE, distance_m)?;
        ensure!(!pairs.is_empty(), "there is no pair for {distance_m} m");
        ensure!(
            is_first(track, &pairs, &traced.to_finish_line(distance_m)?),
            "{distance_m} m: another start"
        );
        for pair in &pairs {
            ensure!(
                found.iter().any(|found| is_same(track, pair, found)),
                "{distance_m} m: only ours is {pair:?}"
            );
            count += 1;
            on_paint += usize::from(pair.ends_on_paint());
        }
    }
    Ok([count, on_paint])
}

/// Whether the first of our pairs that ends on the finish line is another's.
fn is_first(track: &Track, pairs: &[Pair], found: &FoundPair) -> bool {
    let to_the_line =
        |pair: &&Pair| pair.finish.to_finish_m.abs() < 1e-9 && pair.start.course == found.course;
    pairs.iter().find(to_the_line).is_some_and(|pair| is_same(track, pair, found))
}

/// Whether a pair stands where another does, and on the same paint.
fn is_same(track: &Track, pair: &Pair, found: &FoundPair) -> bool {
    let is_end = |spot, reading: PaintReading, place: Point, mark| {
        let own = track.point(spot);
        Point::new(own.x, own.y).distance(place) < SAME_M
            && (!reading.is_on_paint() || reading.mark == Some(mark))
    };
    pair.start.course == found.course
        && is_end(pair.start, pair.start_reading, found.start, found.start_mark)
        && is_end(pair.finish, pair.finish_reading, found.finish, found.finish_mark)
}
