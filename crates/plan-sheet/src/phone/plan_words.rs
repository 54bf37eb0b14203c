//! A block as the whole plan says it, each place once.

use super::block::PageBlock;
use super::run_words::Ends;
use crate::sheet::place_row::PlaceRow;
use crate::sheet::spans::{lane_ranges, ranges};
use crate::words::athlete::athletes;
use crate::words::block_words;
use crate::words::cone::at_cones;
use session_plan::ConeLabel;

/// Where some runs of a block start and finish.
pub(crate) struct PlanPlace {
    /// Which they are, how far, and in what time where that is the same.
    pub(crate) which: String,
    pub(crate) ends: Vec<Ends>,
    pub(crate) the_other_way: bool,
}

/// When a wave goes.
pub(crate) struct PlanWave {
    /// The wave, where there are several.
    pub(crate) who: Option<String>,
    pub(crate) goes: String,
}

impl PageBlock {
    /// Its places.
    pub(crate) fn places(&self) -> Vec<PlanPlace> {
        self.sheet.places_and_times().iter().map(|row| self.place(row)).collect()
    }

    fn place(&self, row: &PlaceRow) -> PlanPlace {
        let run = &row.run;
        let at = |cones: &[ConeLabel], words: &str| match at_cones(cones) {
            Some(cones) => format!("{cones}: {words}"),
            None => words.to_owned(),
        };
        let mut which = format!("{} m, {}", run.metres, lane_ranges(&row.lanes));
        if !row.is_throughout || row.reps.len() < self.sheet.count as usize {
            let noun = if row.reps.len() == 1 { "rep" } else { "reps" };
            which = format!("{noun} {}: {which}", ranges(row.reps.iter().copied()));
        }
        which = crate::words::capital(&which);
        let times = [
            run.target_time().map(|time| format!("in {time}")),
            run.rest.as_ref().map(|rest| format!("rest {rest}")),
        ];
        for time in times.into_iter().flatten().filter(|_| !self.sheet.has_names()) {
            which += &format!(", {time}");
        }
        let run_in = run.run_in.as_ref().filter(|_| run.fast_from.is_none());
        let ends = [
            run_in.map(|run_in| ("Run-in", at(&row.run_in_cones, run_in))),
            Some(("Stand", at(&row.stand_cones, &run.stand))),
            run.fast_from.as_ref().map(|from| ("Fast from", at(&row.start_cones, from))),
            Some(("Finish", at(&row.finish_cones, &run.finish))),
        ];
        let ends = ends.into_iter().flatten().map(|(word, place)| Ends { word, place });
        PlanPlace { which, ends: ends.collect(), the_other_way: run.the_other_way }
    }

    /// When its waves go.
    pub(crate) fn waves(&self) -> Vec<PlanWave> {
        let has_several = self.sheet.waves.len() > 1;
        let waves = self.sheet.waves.iter().filter_map(|wave| {
            let goes: Vec<&str> = wave.goes.iter().filter_map(|go| go.go.as_deref()).collect();
            // That it begins at once says nothing.
            let is_at_once = !has_several && goes.len() == 1 && wave.goes[0].go_s == Some(0.0);
            (!goes.is_empty() && !is_at_once).then(|| PlanWave {
                who: has_several.then(|| format!("Wave {}", wave.wave)),
                goes: format!("Go {}", goes.join(", ")),
            })
        });
        waves.collect()
    }

    /// Who runs in which wave and lane, then the splits.
    pub(crate) fn lines(&self) -> Vec<String> {
        let who = if self.sheet.has_names() { athletes(&self.sheet) } else { Vec::new() };
        [who, block_words::splits(&self.sheet)].concat()
    }
}
