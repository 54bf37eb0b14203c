//! Where the runs of a block start and finish, as the first page says it.

use lane_distance::{LaneList, LaneNumber};
use serde::Serialize;
use session_plan::ConeLabel;

use crate::sheet::place_row::PlaceRow;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::joined;
use crate::words::capital;

/// Runs of a block with the same places.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct FrontPlace {
    /// Which runs: `Rep 1, lanes 3 to 5: 300 m`.
    runs: String,
    /// Where they start, finish and so on, in the order in which a runner comes by.
    spots: Vec<FrontSpot>,
}

/// A place of a run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct FrontSpot {
    /// What is done there.
    verb: &'static str,
    /// The cones there, in the order of the lanes.
    cones: Vec<ConeLabel>,
    /// Where it is; nothing where the walk says it.
    words: Option<String>,
}

/// Runs before they are worded, so that lanes can join.
struct Runs<'a> {
    row: &'a PlaceRow,
    lanes: Vec<LaneNumber>,
    spots: Vec<FrontSpot>,
}

/// The places of a block, and where all of them finish if that needs to be said only once.
pub(crate) fn front_places(block: &SheetBlock) -> (Vec<FrontPlace>, Option<String>) {
    let mut all: Vec<Runs<'_>> = Vec::new();
    for row in &block.places {
        let spots = spots(row);
        match all.iter_mut().find(|runs| runs.takes(row, &spots)) {
            Some(runs) => runs.join(row, spots),
            None => all.push(Runs { row, lanes: row.lanes.clone(), spots }),
        }
    }
    let finish = common_finish(&all);
    if finish.is_some() {
        all.iter_mut().for_each(|runs| drop(runs.spots.pop()));
    }
    let places = all.into_iter().map(|runs| FrontPlace { runs: runs.words(), spots: runs.spots });
    (places.collect(), finish.map(|words| format!("All finish {words}.")))
}

/// The paint where all of several rows finish.
fn common_finish(all: &[Runs<'_>]) -> Option<String> {
    let finish = |runs: &Runs<'_>| runs.spots.last().filter(|spot| spot.cones.is_empty())?.words.clone();
    let first = all.first().and_then(finish)?;
    (all.len() > 1 && all.iter().all(|runs| finish(runs).as_ref() == Some(&first))).then_some(first)
}

fn spots(row: &PlaceRow) -> Vec<FrontSpot> {
    let spot = |verb: &'static str, cones: &[ConeLabel], words: &str| FrontSpot {
        verb,
        cones: cones.to_vec(),
        words: cones.is_empty().then(|| words.to_owned()),
    };
    let run = &row.run;
    let mut spots = Vec::new();
    match (&run.fast_from, &run.run_in) {
        (Some(fast_from), _) => {
            spots.push(spot("stand", &row.stand_cones, &run.stand));
            spots.push(spot("fast from", &row.start_cones, fast_from));
        }
        (None, Some(run_in)) => {
            spots.push(spot("run-in from", &row.run_in_cones, run_in));
            spots.push(spot("start", &row.stand_cones, &run.stand));
        }
        (None, None) => spots.push(spot("start", &row.stand_cones, &run.stand)),
    }
    spots.push(spot("finish", &row.finish_cones, &run.finish));
    spots
}

impl Runs<'_> {
    /// Whether a row differs only in its lanes and in what its cones are called.
    fn takes(&self, row: &PlaceRow, spots: &[FrontSpot]) -> bool {
        let (own, other) = (&self.row.run, &row.run);
        let is_alike = |a: &FrontSpot, b: &FrontSpot| {
            (a.verb, &a.words, a.cones.is_empty()) == (b.verb, &b.words, b.cones.is_empty())
        };
        self.row.reps == row.reps
            && (&own.metres, &own.target, own.the_other_way)
                == (&other.metres, &other.target, other.the_other_way)
            && self.spots.len() == spots.len()
            && self.spots.iter().zip(spots).all(|(a, b)| is_alike(a, b))
    }

    fn join(&mut self, row: &PlaceRow, spots: Vec<FrontSpot>) {
        self.lanes.extend(&row.lanes);
        for (own, other) in self.spots.iter_mut().zip(spots) {
            let new = other.cones.into_iter().filter(|cone| !own.cones.contains(cone)).collect::<Vec<_>>();
            own.cones.extend(new);
        }
    }

    fn words(&self) -> String {
        let PlaceRow { reps, is_throughout, run, .. } = self.row;
        let rep = if reps.len() == 1 { "Rep" } else { "Reps" };
        let reps = if *is_throughout { String::new() } else { format!("{rep} {}, ", joined(reps)) };
        let lanes = LaneList(&self.lanes);
        let target = run.target_time().map_or_else(String::new, |target| format!(" in {target}"));
        let way = if run.the_other_way { ", run towards the start of the straight" } else { "" };
        capital(&format!("{reps}{lanes}: {} m{target}{way}", run.metres))
    }
}
