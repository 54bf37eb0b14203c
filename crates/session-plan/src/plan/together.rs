//! One place for all lanes of a wave.

use lane_distance::{Course, LaneNumber, MarkId, PaintReading, Pair, Spot};

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

/// The pairs worth having in a lane, best first.
pub(crate) type LanePairs = (LaneNumber, Vec<Pair>);

/// Of the pairs worth having in each lane, best first, one for each lane so that all start from the same mark or
/// finish on the same line: the choice that is best for the worst of the lanes. Where nothing is common to all, each
/// lane gets its own best. Nothing where a lane has none.
pub(crate) fn together(lists: &[LanePairs]) -> Result<Vec<Pair>, LaneNumber> {
    if let Some((lane, _)) = lists.iter().find(|(_, pairs)| pairs.is_empty()) {
        return Err(*lane);
    }
    let own: Vec<Pair> = lists.iter().filter_map(|(_, pairs)| pairs.first().copied()).collect();
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
    Ok(best.map_or(own, |(_, pairs)| pairs))
}
