//! What a group runs: numbers that add up.

use serde::Serialize;

use crate::plan::plan_block::PlanBlock;
use crate::plan::rep::Rep;
use crate::week::pace_band::{PACE_BANDS, band_of};

/// What one runner of a group runs. Lanes side by side and waves are one run, as long as it is on average over those
/// who run it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Load {
    /// How many runs.
    pub runs: u32,
    /// How far they are on the ground in the lanes that are run, run-ins included, in metres.
    pub metres: f64,
    /// What plain addition of the numbers in the workout would say, in metres.
    pub nominal_m: f64,
    /// The same metres in each of the pace bands; views add the name of each.
    #[serde(skip)]
    pub bands_m: [f64; PACE_BANDS.len()],
    /// How much of the runs lies on bends, in metres, on average over those who run it in their lanes; run-ins are left
    /// out.
    pub bend_m: f64,
    /// How many bends are run, wholly or in part.
    pub bends: u32,
    /// How many recoveries between the runs of a block are given: with a time, or jogged or walked.
    pub recoveries: u32,
    /// How long the recoveries whose time is known last in all, in seconds.
    pub recovery_s: f64,
    /// How far the runners jog or walk on in recoveries, in metres.
    pub recovery_m: f64,
}

impl Load {
    /// Adds a run, of which `lanes` are all those side by side and in waves.
    pub(crate) fn add_run(&mut self, rep: &Rep, lanes: &[&Rep]) {
        let run_in_m = rep.run_in_m.unwrap_or(0.0);
        self.runs += 1;
        self.nominal_m += rep.nominal.distance_m;
        self.bands_m[PACE_BANDS.len() - 1] += run_in_m;
        // Lanes turn: over a block each runner has as much of the bends as they have on average.
        let runners = |rep: &Rep| rep.athletes.len().max(1) as f64;
        let all: f64 = lanes.iter().map(|rep| runners(rep)).sum();
        let on_average =
            |of: fn(&Rep) -> f64| lanes.iter().map(|rep| of(rep) * runners(rep)).sum::<f64>() / all;
        self.metres += on_average(|rep| rep.distance_m) + run_in_m;
        for rep in lanes {
            self.bands_m[band_of(rep)] += rep.distance_m * runners(rep) / all;
        }
        self.bend_m += on_average(|rep| rep.bend_m);
        self.bends += on_average(|rep| f64::from(rep.bends)).round() as u32;
        self.recoveries += u32::from(rep.rest_s.is_some() || rep.recovery_m.is_some());
        self.recovery_s += rep.rest_s.unwrap_or(0.0);
        self.recovery_m += rep.recovery_m.unwrap_or(0.0);
    }

    pub(crate) fn add(&mut self, other: &Self) {
        self.runs += other.runs;
        self.metres += other.metres;
        self.nominal_m += other.nominal_m;
        for (band_m, other_m) in self.bands_m.iter_mut().zip(&other.bands_m) {
            *band_m += other_m;
        }
        self.bend_m += other.bend_m;
        self.bends += other.bends;
        self.recoveries += other.recoveries;
        self.recovery_s += other.recovery_s;
        self.recovery_m += other.recovery_m;
    }
}

/// The runs of a block as one runner of a group does them.
pub(crate) fn runs<'a>(block: &'a PlanBlock, group: Option<&str>) -> Vec<&'a Rep> {
    let mut runs: Vec<&Rep> = Vec::new();
    let is_own =
        |rep: &&Rep| group.map_or(rep.groups.is_empty(), |group| rep.groups.iter().any(|own| own == group));
    for rep in block.reps.iter().filter(is_own) {
        if runs.iter().all(|known| known.rep != rep.rep) {
            runs.push(rep);
        }
    }
    runs
}
