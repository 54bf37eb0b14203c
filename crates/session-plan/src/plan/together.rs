//! One place for all lanes of a wave.

use lane_distance::{Course, LaneNumber, MarkId, PaintReading, Pair, Spot, Track};
use workout_notation::Step;

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

/// Where lanes may have a place in common.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Common {
    /// Where it is worth having in one of them.
    Usual,
    /// At any mark.
    AnyMark,
}

/// Of the pairs worth having in each lane, best first, one for each lane so that all start from the same mark or
/// finish on the same line: the choice that is best for the worst of the lanes. Where nothing is common to all, what
/// the first lane has is laid level with it in the others, or, where that will do, all start from any one mark or finish at it; and where
/// hazards forbid that too, as many lanes as can be have one place, and the others their own best.
///
/// # Errors
///
/// A lane that has none.
pub(crate) fn together(
    track: &Track,
    step: &Step<'_>,
    lists: &[LanePairs],
    common: Common,
) -> Result<Vec<Pair>, LaneNumber> {
    let own = own(lists)?;
    let Some((_, first)) = lists.first() else { return Ok(own) };
    let mut best: Option<((usize, usize, usize), Vec<Pair>)> = None;
    for end in [End::finish, End::start] {
        for place in lists.iter().flat_map(|(_, pairs)| pairs).filter_map(end) {
            let at_place = |pairs: &[Pair]| {
                pairs
                    .iter()
                    .enumerate()
                    .find(|(_, pair)| end(pair) == Some(place))
                    .map(|(rank, pair)| (rank, *pair))
            };
            let chosen: Vec<Option<(usize, Pair)>> = lists.iter().map(|(_, pairs)| at_place(pairs)).collect();
            let ranks = || chosen.iter().flatten().map(|(rank, _)| *rank);
            let apart = chosen.iter().filter(|chosen| chosen.is_none()).count();
            let score = (apart, ranks().max().unwrap_or(0), ranks().sum());
            if best.as_ref().is_none_or(|(least, _)| score < *least) {
                let pairs =
                    chosen.iter().zip(&own).map(|(chosen, own)| chosen.map_or(*own, |(_, pair)| pair));
                best = Some((score, pairs.collect()));
            }
        }
    }
    let is_common = best.as_ref().is_some_and(|((apart, ..), _)| *apart == 0);
    let level = || {
        let mut laid =
            first.iter().map(|pair| lists.iter().map(|(lane, _)| level(track, step, pair, *lane)).collect());
        laid.find_map(|pairs: Option<Vec<Pair>>| pairs)
    };
    let any_mark = || (common == Common::AnyMark).then(|| at_one_mark(track, step, lists)).flatten();
    let common = if is_common { None } else { level().or_else(any_mark) };
    Ok(common.or(best.map(|(_, pairs)| pairs)).unwrap_or(own))
}

/// Runs that all start from one mark or finish at it, whichever it is.
fn at_one_mark(track: &Track, step: &Step<'_>, lists: &[LanePairs]) -> Option<Vec<Pair>> {
    // What is run on a straight alone has its lines level.
    let first = lists.first()?.1.first()?;
    if first.finish.course != Course::Oval || step.from.is_some() || step.to.is_some() {
        return None;
    }
    let lanes = || lists.iter().map(|(lane, _)| *lane);
    track.marks().iter().flat_map(|mark| [(mark, false), (mark, true)]).find_map(|(mark, is_start)| {
        let pairs: Option<Vec<Pair>> =
            lanes().map(|lane| pairing::at_mark(track, step, &mark.name, lane, is_start)).collect();
        pairs.filter(|pairs| are_together(pairs))
    })
}

/// The places, by their order, of the most runs that start from one mark or finish on one line.
pub(crate) fn most_together(pairs: &[Pair]) -> Vec<usize> {
    let mut most = Vec::new();
    for end in [End::finish, End::start] {
        for place in pairs.iter().filter_map(end) {
            let same = pairs.iter().enumerate().filter(|(_, pair)| end(pair) == Some(place));
            let same: Vec<usize> = same.map(|(order, _)| order).collect();
            if same.len() > most.len() {
                most = same;
            }
        }
    }
    most
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
fn level(track: &Track, step: &Step<'_>, pair: &Pair, lane: LaneNumber) -> Option<Pair> {
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
    pairing::is_free(track, step, &level).then_some(level)
}
