//! When the waves of a block go, and the boxes for their times.

use lane_distance::LaneList;
use serde::Serialize;

use crate::sheet::place_row::has_one_target;
use crate::sheet::sheet_row::{SheetRow, SheetSplit};

/// A wave of a block: when it goes, and a line for each who runs in it.
///
/// A block without athletes has one wave, and a line for each lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WaveTimes {
    /// Its number.
    pub wave: u32,
    /// Its repetitions.
    pub goes: Vec<Go>,
    /// Who runs.
    pub lines: Vec<TimeLine>,
}

/// A repetition of a wave.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Go {
    /// Its number.
    pub rep: u32,
    /// The number of its set.
    pub set: u32,
    /// When it goes.
    pub go: Option<String>,
}

/// The times of one athlete, or of one lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TimeLine {
    /// Who runs; nothing where nobody is named.
    pub athlete: Option<String>,
    /// The lane, where it is the same in all repetitions.
    pub lane: Option<u8>,
    /// The target, where the athletes have different ones and all repetitions have this.
    pub target: Option<String>,
    /// When to pass what on the way to that target.
    pub splits: Vec<SheetSplit>,
    /// The lane of each repetition of the wave, or the lanes to choose from, in words; nothing where the line
    /// has none.
    pub lanes: Vec<Option<String>>,
}

/// The waves of a block from its runs, which are in the order of repetitions, waves and lanes.
pub(crate) fn wave_times(rows: &[SheetRow]) -> Vec<WaveTimes> {
    let mut numbers: Vec<u32> = rows.iter().map(|row| row.wave).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let with_targets = !has_one_target(rows);
    let of_wave = |wave: u32| rows.iter().filter(|row| row.wave == wave).collect::<Vec<_>>();
    numbers.into_iter().map(|wave| wave_of(wave, &of_wave(wave), with_targets)).collect()
}

fn wave_of(wave: u32, rows: &[&SheetRow], with_targets: bool) -> WaveTimes {
    let mut goes: Vec<Go> = Vec::new();
    let mut lines: Vec<(Option<&str>, Vec<&SheetRow>)> = Vec::new();
    for row in rows {
        if !goes.iter().any(|go| go.rep == row.rep) {
            goes.push(Go { rep: row.rep, set: row.set, go: row.go.clone() });
        }
        let names = row.athletes.iter().map(|name| Some(name.as_str()));
        let is_unnamed = row.athletes.is_empty();
        for name in names.chain(is_unnamed.then_some(None)) {
            let own = lines.iter_mut().find(|(known, of)| {
                *known == name && (name.is_some() || of.iter().all(|other| other.lane == row.lane))
            });
            match own {
                Some((_, of)) => of.push(row),
                None => lines.push((name, vec![row])),
            }
        }
    }
    let lines = lines.into_iter().map(|(name, of)| line(name, &of, &goes, with_targets)).collect();
    WaveTimes { wave, lines, goes }
}

fn line(name: Option<&str>, rows: &[&SheetRow], goes: &[Go], with_targets: bool) -> TimeLine {
    let first = rows[0];
    let is_one_lane = rows.iter().all(|row| row.lane == first.lane);
    let is_one_target = with_targets && rows.iter().all(|row| row.target == first.target);
    TimeLine {
        athlete: name.map(str::to_owned),
        lane: is_one_lane.then_some(first.lane),
        target: first.target.clone().filter(|_| is_one_target),
        splits: if is_one_target { first.splits.clone() } else { Vec::new() },
        lanes: (goes.iter())
            .map(|go| {
                let of_rep = rows.iter().filter(|row| row.rep == go.rep);
                let lanes: Vec<u8> = of_rep.map(|row| row.lane).collect();
                (!lanes.is_empty()).then(|| LaneList(&lanes).to_string())
            })
            .collect(),
    }
}
