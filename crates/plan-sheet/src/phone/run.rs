//! The runs of a block: all lanes that go together.

use super::prompts::{passes, prompts};
use super::run_words::{Ends, run_words};
use crate::map::run_picture::{LaneRun, RunPicture};
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::{SheetRow, SheetSplit};
use crate::words::capital;
use lane_distance::{LaneNumber, Track};

/// One repetition of one wave in all its lanes, timed by one clock.
pub(crate) struct Run {
    /// Its repetition, and its set and wave where there are several: `Rep 2, wave 1`.
    pub(crate) name: String,
    /// What it is: `200 m in 34 s, rest 1:30`.
    pub(crate) what: String,
    /// Where to stand and where to finish.
    pub(crate) ends: Vec<Ends>,
    /// The rest that it is followed by, in seconds, where that counts from its finish.
    pub(super) rest_s: Option<f64>,
    pub(super) rows: Vec<SheetRow>,
    /// The places that its lanes pass, with their times.
    pub(super) passes: Vec<SheetSplit>,
}

/// A box for a time.
pub(super) struct TimeBox {
    /// Whose it is, as it is said: an athlete, or a lane where nobody is named.
    pub(super) called: String,
    /// The athlete as it was written; empty where nobody is named.
    pub(super) written: String,
    /// What is to be run, from the faster to the slower, in seconds.
    pub(super) target_s: Option<(f64, f64)>,
}

impl TimeBox {
    /// A box for each athlete of a lane; where nobody is named, one for the lane.
    pub(super) fn of_row(row: &SheetRow) -> Vec<Self> {
        let common = row.target_s.map(|to_s| (row.target_from_s.unwrap_or(to_s), to_s));
        if row.athletes.is_empty() {
            let called = format!("lane {}", row.lane);
            return vec![Self { called, written: String::new(), target_s: common }];
        }
        let own = |called: &String| row.own_times.iter().find(|own| own.athlete == *called);
        let boxes = row.athletes.iter().zip(&row.names).map(|(called, written)| Self {
            called: called.clone(),
            written: written.clone(),
            target_s: own(called).map(|own| (own.target_s, own.target_s)).or(common),
        });
        boxes.collect()
    }
}

impl Run {
    /// The run of the rows that go together.
    fn of(block: &SheetBlock, rows: &[SheetRow]) -> Self {
        let first = &rows[0];
        let prompts: Vec<(LaneNumber, Vec<SheetSplit>)> =
            rows.iter().map(|row| (row.lane, prompts(row))).collect();
        let (what, ends) = run_words(rows);
        let is_rested = !block.cycle_reps.contains(&first.rep);
        Self {
            name: name(block, first, block.count),
            what,
            ends,
            rest_s: rows.iter().filter_map(|row| row.rest_s).reduce(f64::max).filter(|_| is_rested),
            passes: passes(&prompts),
            rows: rows.to_vec(),
        }
    }

    /// The run in its first lane, which goes with all others.
    pub(super) fn first(&self) -> &SheetRow {
        &self.rows[0]
    }

    /// When it goes, in seconds from the start of the session; a run without a go comes after all others.
    pub(super) fn go_or_never_s(&self) -> f64 {
        self.first().go_s.unwrap_or(f64::INFINITY)
    }

    /// When the last of its lanes is in, in seconds from the start of the session.
    pub(super) fn done_s(&self) -> Option<f64> {
        self.rows.iter().filter_map(|row| row.done_s).reduce(f64::max)
    }

    /// Its boxes, lane by lane.
    pub(super) fn boxes(&self) -> Vec<TimeBox> {
        self.rows.iter().flat_map(TimeBox::of_row).collect()
    }

    /// The words of its boxes: who, and in which lane where that is not said by it.
    pub(super) fn names(&self) -> Vec<(String, String)> {
        let of_row = |row: &SheetRow| {
            let lane = if row.athletes.is_empty() { String::new() } else { format!("lane {}", row.lane) };
            TimeBox::of_row(row)
                .into_iter()
                .map(move |one| (capital(&one.called), lane.clone()))
                .collect::<Vec<_>>()
        };
        self.rows.iter().flat_map(of_row).collect()
    }

    /// It on the track.
    pub(super) fn picture(&self, track: &Track) -> Option<RunPicture> {
        let lanes = self.rows.iter().map(|row| LaneRun {
            run_in: row.run_in_spot.map(|(spot, _)| spot),
            start: row.start_spot,
            finish: row.finish_spot,
            distance_m: row.distance_m,
            stands_back: row.fast_from.is_some(),
        });
        RunPicture::of(track, &lanes.collect::<Vec<_>>())
    }
}

/// The runs of a block, in order.
pub(super) fn runs(block: &SheetBlock) -> Vec<Run> {
    block.runs().map(|rows| Run::of(block, rows)).collect()
}

fn name(block: &SheetBlock, row: &SheetRow, count: u32) -> String {
    let mut name = match count {
        0 | 1 => format!("Rep {}", row.rep),
        count => format!("Rep {} of {count}", row.rep),
    };
    if block.has_sets {
        name = format!("Set {}, {}", row.set, name.to_lowercase());
    }
    if block.has_waves {
        name += &format!(", wave {}", row.wave);
    }
    name
}
