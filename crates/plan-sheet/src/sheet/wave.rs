//! When the waves of a block go, and what each of their runners does.

use lane_distance::LaneNumber;
use serde::{Serialize, Serializer};

use crate::sheet::sheet_row::{SheetRow, SheetSplit};
use crate::sheet::spans::lane_choice;

/// A wave of a block: when it goes, and a line for each who runs in it.
///
/// A block without athletes has one wave, and a line for each lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Wave {
    /// Its number.
    pub(crate) wave: u32,
    /// Its repetitions.
    pub(crate) goes: Vec<Go>,
    /// Who runs.
    pub(crate) lines: Vec<WaveLine>,
    /// Whether runners of its block have other targets than others, which stand with their names.
    #[serde(skip)]
    pub(crate) names_targets: bool,
}

/// A repetition of a wave.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Go {
    /// Its number.
    pub(crate) rep: u32,
    /// The number of its set.
    pub(crate) set: u32,
    /// When it goes.
    pub(crate) go: Option<String>,
    /// The same in seconds from the start of the session.
    #[serde(skip)]
    pub(crate) go_s: Option<f64>,
    /// How far it is, in metres.
    #[serde(skip)]
    pub(crate) distance_m: f64,
}

/// What one athlete does, or one lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct WaveLine {
    /// Who runs; nothing where nobody is named.
    pub(crate) athlete: Option<String>,
    /// The group of the one who runs, where the block has several.
    pub(crate) group: Option<String>,
    /// The lane, where it is the same in all repetitions.
    pub(crate) lane: Option<LaneNumber>,
    /// The target, where all repetitions have the same.
    pub(crate) target: Option<String>,
    /// Whether the target is the athlete's own, not that of several who run together.
    pub(crate) is_own_target: bool,
    /// The targets of the repetitions in turn, where each length has one of the athlete's own: `4:22/1:27`.
    #[serde(skip)]
    pub(crate) targets_by_length: Option<String>,
    /// When to pass what on the way to that target.
    pub(crate) splits: Vec<SheetSplit>,
    /// The lane of each repetition of the wave, or the lanes to choose from; empty where it does not run.
    #[serde(serialize_with = "lanes_of_goes")]
    pub(crate) lanes: Vec<Vec<LaneNumber>>,
    /// How far it is in all, in metres.
    #[serde(skip)]
    pub(crate) total_m: f64,
}

/// The waves of a block from its runs, which are in the order of repetitions, waves and lanes.
pub(crate) fn waves(rows: &[SheetRow]) -> Vec<Wave> {
    let mut numbers: Vec<u32> = rows.iter().map(|row| row.wave).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let has_groups = rows.iter().any(|row| row.groups != rows[0].groups || row.groups.len() > 1);
    let of_wave = |wave: u32| rows.iter().filter(|row| row.wave == wave).collect::<Vec<_>>();
    numbers.into_iter().map(|wave| Wave::of(wave, &of_wave(wave), has_groups)).collect()
}

impl Wave {
    /// The same with those of one group alone.
    pub(crate) fn of_group(&self, group: &str) -> Self {
        let is_own = |line: &&WaveLine| line.group.as_deref().is_none_or(|own| own == group);
        Self { lines: self.lines.iter().filter(is_own).cloned().collect(), ..self.clone() }
    }

    fn of(wave: u32, rows: &[&SheetRow], has_groups: bool) -> Self {
        let mut goes: Vec<Go> = Vec::new();
        let mut lines: Vec<(Option<&str>, Vec<&SheetRow>)> = Vec::new();
        for row in rows {
            if !goes.iter().any(|go| go.rep == row.rep) {
                goes.push(Go {
                    rep: row.rep,
                    set: row.set,
                    go: row.go.clone(),
                    go_s: row.go_s,
                    distance_m: row.distance_m,
                });
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
        let mut lines: Vec<WaveLine> =
            lines.into_iter().map(|(name, of)| WaveLine::of(name, &of, &goes)).collect();
        lines.iter_mut().filter(|_| !has_groups).for_each(|line| line.group = None);
        Self { wave, lines, goes, names_targets: false }
    }
}

impl WaveLine {
    fn of(name: Option<&str>, rows: &[&SheetRow], goes: &[Go]) -> Self {
        let first = rows[0];
        let is_one_lane = rows.iter().all(|row| row.lane == first.lane);
        let own =
            |row: &SheetRow| row.own_times.iter().find(|own| Some(own.athlete.as_str()) == name).cloned();
        let aim = |row: &SheetRow| match own(row) {
            Some(own) => (Some(own.target), own.splits, true),
            None => (row.target.clone(), row.splits.clone(), row.athletes.len() <= 1),
        };
        let (target, splits, _) = aim(first);
        // Of those who hand on a baton nobody is named alone.
        let place = first.athletes.iter().position(|athlete| Some(athlete.as_str()) == name);
        let own_group = place.filter(|_| first.athletes.len() == first.member_groups.len());
        let group = own_group.and_then(|place| first.member_groups[place].clone());
        let is_one_target = rows.iter().all(|row| aim(row).0 == target);
        let is_own = rows.iter().all(|row| aim(row).2);
        let of_go = |go: &Go| rows.iter().filter(|row| row.rep == go.rep).collect::<Vec<_>>();
        Self {
            athlete: name.map(str::to_owned),
            group: group.or_else(|| first.group.clone()),
            lane: is_one_lane.then_some(first.lane),
            target: target.filter(|_| is_one_target),
            is_own_target: is_one_target && is_own,
            targets_by_length: targets_by_length(rows, |row| aim(row).0).filter(|_| !is_one_target && is_own),
            splits: if is_one_target { splits } else { Vec::new() },
            lanes: goes.iter().map(|go| of_go(go).iter().map(|row| row.lane).collect()).collect(),
            // One of the lanes is run, however many there are to choose from.
            total_m: goes.iter().filter_map(|go| Some(of_go(go).first()?.distance_m)).sum(),
        }
    }
}

fn lanes_of_goes<S: Serializer>(lanes: &[Vec<LaneNumber>], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(lanes.iter().map(|lanes| (!lanes.is_empty()).then(|| lane_choice(lanes))))
}

/// The most lengths whose targets stand with a name.
const MOST_LENGTHS: usize = 3;

/// The targets of some runs, one for each length in the order run; nothing where one has none, or two.
fn targets_by_length(rows: &[&SheetRow], aim: impl Fn(&SheetRow) -> Option<String>) -> Option<String> {
    let mut known: Vec<(f64, String)> = Vec::new();
    for row in rows {
        row.target_s?;
        let (length, target) = (row.distance_m.round(), aim(row)?);
        match known.iter().find(|(known, _)| *known == length) {
            Some((_, other)) if *other != target => return None,
            Some(_) => {}
            None => known.push((length, target)),
        }
    }
    let targets: Vec<String> = known.into_iter().map(|(_, target)| target).collect();
    // `45.5/28.5 s`
    let joined = targets.join("/");
    let joined =
        if targets.iter().all(|target| target.ends_with(" s")) { joined.replace(" s/", "/") } else { joined };
    (targets.len() <= MOST_LENGTHS).then_some(joined)
}
