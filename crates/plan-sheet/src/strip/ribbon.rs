//! A run as its lane is unrolled: what is passed, and after how many metres.

use std::collections::HashSet;

use crate::words::numbers::to_cm;
use lane_distance::{Course, LaneNumber, Layout, Mark, Spot, Track};
use session_plan::ConeLabel;

use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::{cone_ranges, lane_ranges};

/// Paint that a runner passes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Passed<'a> {
    /// Metres from where the ribbon begins, along the measure line.
    pub(super) from_start_m: f64,
    pub(super) mark: &'a Mark,
}

/// A run of one lane or of several that pass the same paint after the same distances.
#[derive(Clone, Debug)]
pub(super) struct Ribbon<'a> {
    /// The number of its first block, and who does it.
    block: usize,
    group: Option<&'a str>,
    lanes: Vec<LaneNumber>,
    distance_m: f64,
    /// Whole laps that are run before what is shown.
    laps: u32,
    lap_m: f64,
    /// How long the part is that is shown.
    pub(super) shown_m: f64,
    pub(super) passed: Vec<Passed<'a>>,
    /// The parts of it that lie on a bend.
    pub(super) bends: Vec<(f64, f64)>,
    start_cones: Vec<ConeLabel>,
    finish_cones: Vec<ConeLabel>,
    pub(super) start: String,
    pub(super) finish: String,
}

/// How far off the start or finish paint counts as lying there, in metres.
const THERE_M: f64 = 0.055;

impl<'a> Ribbon<'a> {
    /// Every run of a plan that differs from the others, in the order in which they are run.
    pub(super) fn all(sheet: &'a Sheet) -> Vec<Self> {
        let mut ribbons: Vec<Self> = Vec::new();
        let mut met = HashSet::new();
        for block in &sheet.blocks {
            let mut rows: Vec<&SheetRow> = block.rows.iter().collect();
            rows.sort_by_key(|row| (row.rep, row.lane));
            for row in rows {
                let Spot { course, lane, to_finish_m } = row.start_spot;
                let places = [to_finish_m, row.distance_m].map(f64::to_bits);
                if !met.insert((course, lane, places, row.the_other_way)) {
                    continue;
                }
                let ribbon = Self::of(&sheet.ground, block, row);
                match ribbons.iter_mut().find(|known| known.is_like(&ribbon)) {
                    Some(known) => known.join(ribbon),
                    None => ribbons.push(ribbon),
                }
            }
        }
        ribbons
    }

    fn of(track: &'a Track, block: &'a SheetBlock, row: &SheetRow) -> Self {
        let layout = track.layout();
        let start = row.start_spot;
        let course = start.course;
        let lap_m = match course {
            Course::Oval => track.lap_m(row.lane).unwrap_or(f64::INFINITY),
            _ => f64::INFINITY,
        };
        let laps = ((row.distance_m + THERE_M) / lap_m).floor();
        let rest_m = row.distance_m - laps * if lap_m.is_finite() { lap_m } else { 0.0 };
        // A run of whole laps shows one of them.
        let (laps, shown_m) = if rest_m > THERE_M { (laps, rest_m) } else { (laps - 1.0, lap_m) };
        let mut passed: Vec<Passed<'_>> = (track.painted(course, row.lane).iter())
            .filter_map(|painted| {
                let from_start_m = match course {
                    Course::Oval => {
                        let past_m = (start.to_finish_m - painted.to_finish_m).rem_euclid(lap_m);
                        // A hair behind the start is at the start, not a lap away.
                        if lap_m - past_m < THERE_M { past_m - lap_m } else { past_m }
                    }
                    _ if row.the_other_way => painted.to_finish_m - start.to_finish_m,
                    _ => start.to_finish_m - painted.to_finish_m,
                };
                let mark = track.mark(painted.mark)?;
                (from_start_m > THERE_M && from_start_m < shown_m - THERE_M)
                    .then_some(Passed { from_start_m, mark })
            })
            .collect();
        passed.sort_by(|a, b| a.from_start_m.total_cmp(&b.from_start_m));
        Self {
            block: block.number,
            group: block.group.as_deref(),
            lanes: vec![row.lane],
            distance_m: row.distance_m,
            laps: laps as u32,
            lap_m,
            shown_m,
            passed,
            bends: bends(layout, start, shown_m, row.the_other_way),
            start_cones: row.start_cone.into_iter().collect(),
            finish_cones: row.finish_cone.into_iter().collect(),
            start: row.start.clone(),
            finish: row.finish.clone(),
        }
    }

    /// Whether another run passes the same paint after the same distances, to the millimetre.
    fn is_like(&self, other: &Self) -> bool {
        let same = |a: f64, b: f64| (a - b).abs() < 0.0005;
        self.block == other.block
            && same(self.distance_m, other.distance_m)
            && same(self.shown_m, other.shown_m)
            && (&self.start, &self.finish) == (&other.start, &other.finish)
            && self.passed.len() == other.passed.len()
            && (self.passed.iter().zip(&other.passed))
                .all(|(a, b)| a.mark.name == b.mark.name && same(a.from_start_m, b.from_start_m))
            && self.bends.len() == other.bends.len()
    }

    fn join(&mut self, other: Self) {
        self.lanes.extend(other.lanes);
        self.start_cones.extend(other.start_cones);
        self.finish_cones.extend(other.finish_cones);
    }

    /// How far it is, in which lanes, of which block.
    pub(super) fn title(&self) -> String {
        let lanes = lane_ranges(&self.lanes);
        let group = self.group.map_or_else(String::new, |group| format!(", {group}"));
        format!("Block {}{group}: {} m, {lanes}", self.block, to_cm(self.distance_m))
    }

    /// The whole laps that are not shown.
    pub(super) fn laps(&self) -> Option<String> {
        let (lap, shown) = (to_cm(self.lap_m), to_cm(self.shown_m));
        match self.laps {
            0 if self.shown_m == self.lap_m => Some(format!("one lap of {lap} m")),
            laps if self.shown_m == self.lap_m => Some(format!("{} laps of {lap} m; one is shown", laps + 1)),
            0 => None,
            1 => Some(format!("1 lap of {lap} m back to the start, then {shown} m as shown")),
            laps => Some(format!("{laps} laps of {lap} m back to the start, then {shown} m as shown")),
        }
    }

    /// The cones at its start, and at its finish.
    pub(super) fn cones(&self) -> (String, String) {
        (cone_ranges(self.start_cones.iter().copied()), cone_ranges(self.finish_cones.iter().copied()))
    }
}

/// The parts of a run that lie on a bend, as distances from its start.
fn bends(layout: &Layout, start: Spot, shown_m: f64, the_other_way: bool) -> Vec<(f64, f64)> {
    if the_other_way || start.course != Course::Oval {
        return Vec::new();
    }
    let line = layout.measure(start.lane);
    let lap_m = line.lap_m();
    let begins_m = layout.from_finish_m(start);
    let mut parts = Vec::new();
    for lap in [0.0, 1.0] {
        for (index, _) in layout.path().pieces().iter().enumerate().filter(|(_, piece)| piece.is_arc()) {
            let from_m = (line.start_of_m(index) + lap * lap_m - begins_m).max(0.0);
            let to_m = (line.start_of_m(index + 1) + lap * lap_m - begins_m).min(shown_m);
            if from_m < to_m {
                parts.push((from_m, to_m));
            }
        }
    }
    parts
}
