//! One place for all lanes of a wave.

use lane_distance::{Course, LaneNumber, MarkId, PaintReading, Pair, Spot, Track};

use crate::plan::pairing;

/// Where an end of a run lies, whatever the lane: on one mark, or on one line square across a straight.
#[derive(Clone, Copy, PartialEq)]
enum End {
    Mark(MarkId),
    Line(Course, i64),
}

impl End {
    fn of(spot: &Spot, reading: &PaintReading) -> Option<Self> {
        if spot.course != Course::Oval || spot.to_finish_m == 0.0 {
            return Some(Self::Line(spot.course, (spot.to_finish_m * 1000.0).round() as i64));
        }
        reading.mark.filter(|_| reading.is_on_paint()).map(Self::Mark)
    }

    fn start(pair: &Pair) -> Option<Self> {
        Self::of(&pair.start, &pair.start_reading)
    }

    fn finish(pair: &Pair) -> Option<Self> {
        Self::of(&pair.finish, &pair.finish_reading)
    }
}

/// Whether runs in several lanes start from one mark or finish on one line.
pub(crate) fn are_together(pairs: &[Pair]) -> bool {
    let share = |end: fn(&Pair) -> Option<End>| {
        let mut places = pairs.iter().map(end);
        let first = places.next().flatten();
        first.is_some() && places.all(|place| place == first)
    };
    pairs.len() < 2 || share(End::start) || share(End::finish)
}

/// The pairs worth having in a lane, best first.
pub(crate) type LanePairs = (LaneNumber, Vec<Pair>);

/// Of the pairs worth having in each lane, best first, one for each lane so that all start from the same mark or
/// finish on the same line: the choice that is best for the worst of the lanes. Where nothing is common to all, what
/// the first lane has is laid level with it in the others; and where hazards forbid that, each lane gets its own best.
///
/// # Errors
///
/// A lane that has none.
pub(crate) fn together(track: &Track, lists: &[LanePairs]) -> Result<Vec<Pair>, LaneNumber> {
    let own = own(lists)?;
    let Some((_, first)) = lists.first() else { return Ok(own) };
    let mut best: Option<((usize, usize), Vec<Pair>)> = None;
    for end in [End::finish, End::start] {
        for place in first.iter().filter_map(end) {
            let of_lane = |(_, pairs): &LanePairs| {
                pairs
                    .iter()
                    .enumerate()
                    .find(|(_, pair)| end(pair) == Some(place))
                    .map(|(rank, pair)| (rank, *pair))
            };
            let Some(chosen) = lists.iter().map(of_lane).collect::<Option<Vec<_>>>() else { continue };
            let ranks = || chosen.iter().map(|(rank, _)| *rank);
            let score = (ranks().max().unwrap_or(0), ranks().sum());
            if best.as_ref().is_none_or(|(least, _)| score < *least) {
                best = Some((score, chosen.into_iter().map(|(_, pair)| pair).collect()));
            }
        }
    }
    let level =
        || first.iter().find_map(|pair| lists.iter().map(|(lane, _)| level(track, pair, *lane)).collect());
    Ok(best.map(|(_, pairs)| pairs).or_else(level).unwrap_or(own))
}

/// The best pair of each lane.
///
/// # Errors
///
/// A lane that has none.
pub(crate) fn own(lists: &[LanePairs]) -> Result<Vec<Pair>, LaneNumber> {
    lists.iter().map(|(lane, pairs)| pairs.first().copied().ok_or(*lane)).collect()
}

/// A run laid level with that of another lane: on a straight from and to the same lines, on the oval to the finish
/// line. Nothing where the lane is not there, or a hazard forbids it.
fn level(track: &Track, pair: &Pair, lane: LaneNumber) -> Option<Pair> {
    let (start, finish) = match pair.start.course {
        Course::Oval => {
            let to_finish_m = pair.distance_m.rem_euclid(track.lap_m(lane).ok()?);
            (Spot::on_oval(lane, to_finish_m), Spot::on_oval(lane, 0.0))
        }
        course if pair.finish.course == course => (Spot { lane, ..pair.start }, Spot { lane, ..pair.finish }),
        _ => return None,
    };
    track.check_lane(start.course, lane).ok()?;
    let level = pairing::pair(track, start, finish, pair.distance_m);
    track.obstacle(&level).is_none().then_some(level)
}
