//! A run as its lane is unrolled: what is passed, and after how many metres.

use std::collections::HashSet;

use crate::words::numbers::to_cm;
use lane_distance::{Course, LaneNumber, Layout, Mark, Spot, Track};
use session_plan::ConeLabel;

use super::strip_part::{Part, Stretch};
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

/// The check mark of two who hand a baton on.
#[derive(Clone, Debug)]
pub(super) struct CheckMark {
    /// Metres from where the ribbon begins.
    pub(super) from_start_m: f64,
    pub(super) lane: LaneNumber,
    /// Whose it is: `Ada to Bea`.
    pub(super) handing: String,
    pub(super) cone: Option<ConeLabel>,
}

/// Where a run is, whoever runs it: its course and lane, its start and its length to the last bit, and which way it goes.
type Key = (Course, LaneNumber, [u64; 2], bool);

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
    /// How much of it is a run-in, where it begins, and the cones there.
    pub(super) run_in: Option<RunIn>,
    pub(super) check_marks: Vec<CheckMark>,
    keys: Vec<Key>,
    pub(super) passed: Vec<Passed<'a>>,
    /// The parts of it that lie on a bend.
    pub(super) bends: Vec<(f64, f64)>,
    start_cones: Vec<ConeLabel>,
    finish_cones: Vec<ConeLabel>,
    pub(super) start: String,
    pub(super) finish: String,
}

/// Where runners set off before the start of a run.
#[derive(Clone, Debug)]
pub(super) struct RunIn {
    pub(super) metres: f64,
    pub(super) place: String,
    cones: Vec<ConeLabel>,
    /// Whether a baton is brought, which somebody waits for at the start.
    pub(super) is_of_baton: bool,
}

/// Places along a ribbon closer than this are one, in metres.
pub(super) const SAME_PLACE_M: f64 = 0.005;

/// How far off the start or finish paint counts as lying there, in metres.
const THERE_M: f64 = 0.055;

impl<'a> Ribbon<'a> {
    /// Every run of a plan that differs from the others, in the order in which they are run.
    pub(super) fn all(sheet: &'a Sheet, stretch: Stretch) -> Vec<Self> {
        let mut ribbons: Vec<Self> = Vec::new();
        let mut met = HashSet::new();
        for block in &sheet.blocks {
            let mut rows: Vec<&SheetRow> = block.rows.iter().collect();
            rows.sort_by_key(|row| (row.rep, row.lane));
            for row in rows {
                let Spot { course, lane, to_finish_m } = row.start_spot;
                let places = [to_finish_m, row.distance_m].map(f64::to_bits);
                let key = (course, lane, places, row.the_other_way);
                if !met.insert(key) {
                    // Others may hand on there.
                    if let Some(known) = ribbons.iter_mut().find(|known| known.keys.contains(&key)) {
                        known.add_check_marks(check_mark(row));
                    }
                    continue;
                }
                let mut ribbon = Self::of(&sheet.ground, block, row, key);
                let parts = ribbon.parts(stretch);
                ribbon.passed.retain(|passed| parts.iter().any(|part| part.holds(passed.from_start_m)));
                match ribbons.iter_mut().find(|known| known.is_like(&ribbon)) {
                    Some(known) => known.join(ribbon),
                    None => ribbons.push(ribbon),
                }
            }
        }
        ribbons
    }

    fn of(track: &'a Track, block: &'a SheetBlock, row: &SheetRow, key: Key) -> Self {
        let layout = track.layout();
        // What is shown begins where somebody sets off.
        let (start, run_in_m) = row.run_in_spot.unwrap_or((row.start_spot, 0.0));
        let way_m = run_in_m + row.distance_m;
        let course = start.course;
        let lap_m = match course {
            Course::Oval => track.lap_m(row.lane).unwrap_or(f64::INFINITY),
            _ => f64::INFINITY,
        };
        let laps = ((way_m + THERE_M) / lap_m).floor();
        let rest_m = way_m - laps * if lap_m.is_finite() { lap_m } else { 0.0 };
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
                let is_between = from_start_m > THERE_M && from_start_m < shown_m - THERE_M;
                let is_at_start = (from_start_m - run_in_m).abs() < THERE_M;
                (is_between && !is_at_start).then_some(Passed { from_start_m, mark })
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
            run_in: row.run_in.clone().map(|place| RunIn {
                metres: run_in_m,
                place,
                cones: row.run_in_cone.into_iter().collect(),
                is_of_baton: row.baton.is_some(),
            }),
            check_marks: check_mark(row).into_iter().collect(),
            keys: vec![key],
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
            && self.run_in.as_ref().map(|own| &own.place) == other.run_in.as_ref().map(|own| &own.place)
            && self.passed.len() == other.passed.len()
            && (self.passed.iter().zip(&other.passed))
                .all(|(a, b)| a.mark.name == b.mark.name && same(a.from_start_m, b.from_start_m))
            && self.bends.len() == other.bends.len()
    }

    fn join(&mut self, other: Self) {
        self.lanes.extend(other.lanes);
        self.keys.extend(other.keys);
        self.add_check_marks(other.check_marks);
        if let (Some(own), Some(other)) = (&mut self.run_in, other.run_in) {
            own.cones.extend(other.cones);
        }
        self.start_cones.extend(other.start_cones);
        self.finish_cones.extend(other.finish_cones);
    }

    fn add_check_marks(&mut self, marks: impl IntoIterator<Item = CheckMark>) {
        for mark in marks {
            let is_known = |known: &CheckMark| {
                (known.lane, &known.handing) == (mark.lane, &mark.handing)
                    && (known.from_start_m - mark.from_start_m).abs() < 0.0005
            };
            if !self.check_marks.iter().any(is_known) {
                self.check_marks.push(mark);
            }
        }
    }

    /// Whether it has several lanes, so that a place in one of them needs its number.
    pub(super) const fn has_lanes(&self) -> bool {
        self.lanes.len() > 1
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

    /// What of it is shown: from where somebody sets off, or from a check mark behind that.
    pub(super) fn parts(&self, stretch: Stretch) -> Vec<Part> {
        let from_m = self.check_marks.iter().map(|mark| mark.from_start_m).fold(0.0, f64::min);
        Part::all((from_m, self.shown_m), self.start_m(), stretch)
    }

    /// How far from where it begins its start is, in metres.
    pub(super) fn start_m(&self) -> f64 {
        self.run_in.as_ref().map_or(0.0, |run_in| run_in.metres)
    }

    /// The cones along it, with how far from where it begins they stand, in metres.
    pub(super) fn cones(&self) -> Vec<(String, f64)> {
        let ranges = |cones: &[ConeLabel]| cone_ranges(cones.iter().copied());
        let run_in = self.run_in.iter().map(|run_in| (ranges(&run_in.cones), 0.0));
        let mut marks: Vec<(Vec<ConeLabel>, f64)> = Vec::new();
        for mark in &self.check_marks {
            let Some(cone) = mark.cone else { continue };
            match marks.iter_mut().find(|(_, at_m)| (*at_m - mark.from_start_m).abs() < SAME_PLACE_M) {
                Some((cones, _)) if cones.contains(&cone) => {}
                Some((cones, _)) => cones.push(cone),
                None => marks.push((vec![cone], mark.from_start_m)),
            }
        }
        let marks = marks.into_iter().map(|(cones, at_m)| (ranges(&cones), at_m));
        let ends = [(ranges(&self.start_cones), self.start_m()), (ranges(&self.finish_cones), self.shown_m)];
        let mut all: Vec<(String, f64)> = run_in.chain(marks).chain(ends).collect();
        all.retain(|(cones, _)| !cones.is_empty());
        all
    }
}

/// The check mark of a row in which a baton is handed on.
fn check_mark(row: &SheetRow) -> Option<CheckMark> {
    let (baton, (_, run_in_m)) = row.baton.as_ref().zip(row.run_in_spot)?;
    Some(CheckMark {
        from_start_m: run_in_m - baton.back_m,
        lane: row.lane,
        handing: format!("{} to {}", baton.incoming, baton.outgoing),
        cone: baton.cone,
    })
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
