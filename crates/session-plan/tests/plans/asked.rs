//! What is asked of a block: its text in the notation, and what that means run by run.

use crate::dice::Dice;

/// What follows a run.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Recovery {
    /// Rest from the finish, in seconds.
    Rest(f64),
    /// From one start to the next, in seconds.
    Cycle(f64),
}

/// How long a run is.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Length {
    /// In metres.
    Metres(f64),
    /// In seconds.
    Seconds(f64),
}

/// A run, with what follows it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    pub(crate) length: Length,
    pub(crate) recovery: Recovery,
    /// How far before its start a flying run is set off for, in metres.
    pub(crate) run_in_m: f64,
    /// Whether a baton is handed on in a zone.
    pub(crate) is_exchange: bool,
}

/// A block.
#[derive(Clone, Debug)]
pub(crate) struct Asked {
    pub(crate) text: String,
    pub(crate) steps: Vec<Step>,
    /// The lanes that its text names, if it does.
    pub(crate) lanes: Vec<u8>,
    /// Whether its runners go on along their lane to the next start.
    pub(crate) goes_on: bool,
}

impl Step {
    const fn new(length: Length, recovery: Recovery) -> Self {
        Self { length, recovery, run_in_m: 0.0, is_exchange: false }
    }

    /// An exchange in a zone of 30 m.
    const fn exchange(recovery: Recovery) -> Self {
        Self { is_exchange: true, ..Self::new(Length::Metres(30.0), recovery) }
    }

    /// The least time from its start to the next, in seconds, for somebody who needs `target_s` for a run over a
    /// distance.
    pub(crate) fn cycle_s(&self, target_s: impl Fn(f64) -> f64) -> f64 {
        let lasts_s = match self.length {
            Length::Metres(metres) => target_s(metres),
            Length::Seconds(seconds) => seconds,
        };
        match self.recovery {
            Recovery::Rest(rest_s) => lasts_s + rest_s,
            Recovery::Cycle(cycle_s) => cycle_s.max(lasts_s),
        }
    }

    pub(crate) const fn is_by_time(&self) -> bool {
        matches!(self.length, Length::Seconds(_))
    }
}

impl Asked {
    /// The least time that its runs by time take before run `from` and with nothing but such runs, in seconds.
    pub(crate) fn by_time_s(&self, from: usize) -> f64 {
        let runs = self.steps[from..].iter().take_while(|step| step.is_by_time()).enumerate();
        let is_last = |place: usize| from + place + 1 == self.steps.len();
        runs.map(|(place, step)| match step.length {
            Length::Seconds(seconds) if is_last(place) => seconds,
            _ => step.cycle_s(|_| 0.0),
        })
        .sum()
    }

    /// How long the break behind it is, in seconds, given the one between all blocks: the rest behind its only run is none
    /// between runs.
    pub(crate) fn break_s(&self, between_s: f64) -> f64 {
        match self.steps.as_slice() {
            [Step { recovery: Recovery::Rest(rest_s), .. }] => between_s.max(*rest_s),
            _ => between_s,
        }
    }

    /// Whether a baton is handed on in it.
    pub(crate) fn has_exchanges(&self) -> bool {
        self.steps.iter().any(|step| step.is_exchange)
    }

    /// How many runs it has up to and with the last over a distance.
    pub(crate) fn last_run(&self) -> usize {
        self.steps.iter().rposition(|step| !step.is_by_time()).map_or(0, |last| last + 1)
    }
}

/// Distances with the places that they are run at.
const RUNS: [(f64, &str); 14] = [
    (60.0, ""),
    (60.0, " on the home straight"),
    (60.0, " on the home straight the other way"),
    (60.0, " on the back straight"),
    (80.0, " on the bend"),
    (100.0, ""),
    (150.0, ""),
    (150.0, " to the finish line"),
    (200.0, ""),
    (300.0, ""),
    (350.0, ""),
    (400.0, ""),
    (600.0, ""),
    (1000.0, ""),
];

/// Distances of ladders and of sets of several.
const RUNGS_M: [f64; 7] = [60.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0];

/// The recovery between runs up to so far, with its words.
fn recovery(dice: &mut Dice, longest_m: f64) -> (Recovery, String) {
    if dice.whole(0, 2) == 0 {
        let cycle_s = (longest_m / 5.0 + dice.pick(&[30.0, 60.0, 120.0])).round();
        (Recovery::Cycle(cycle_s), format!("off {cycle_s}s"))
    } else {
        let rest_s = dice.pick(&[20.0, 45.0, 90.0, 180.0]);
        (Recovery::Rest(rest_s), format!("rest {rest_s}s"))
    }
}

/// Which blocks name their lanes.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Naming {
    None,
    Half,
    All,
}

/// A block of any form; of hurdles and exchange zones only on a track that `has_races`.
pub(crate) fn block(dice: &mut Dice, reps: u64, open: &[u8], names: Naming, has_races: bool) -> Asked {
    let first = dice.whole(0, open.len() as u64 - 1) as usize;
    let lanes = open[first..open.len().min(first + dice.whole(1, 3) as usize)].to_vec();
    let is_named = match names {
        Naming::None => false,
        Naming::Half => dice.whole(0, 1) == 0,
        Naming::All => true,
    };
    let lanes = if is_named { lanes } else { Vec::new() };
    let listed: Vec<String> = lanes.iter().map(u8::to_string).collect();
    let where_run = if is_named { format!(" in lanes {}", listed.join(",")) } else { String::new() };
    let pace = " @ 1000 pace";
    let count = dice.whole(1, reps);
    let many = count as usize;
    let like = |length: Length, recovery: Recovery| vec![Step::new(length, recovery); many];
    let mut goes_on = false;
    let (text, steps) = match dice.whole(0, 12) {
        // A ladder.
        0 | 1 => {
            let rungs: Vec<f64> = (0..count.max(2)).map(|_| dice.pick(&RUNGS_M)).collect();
            let (recovery, words) = recovery(dice, 600.0);
            let written: Vec<String> = rungs.iter().map(f64::to_string).collect();
            let steps = rungs.iter().map(|metres| Step::new(Length::Metres(*metres), recovery));
            (format!("{}{where_run}{pace} {words}", written.join(" + ")), steps.collect())
        }
        // Sets of two distances or of one.
        2 => {
            let (metres, rest_s) = ([dice.pick(&RUNGS_M), dice.pick(&RUNGS_M)], dice.pick(&[30.0, 60.0]));
            let set = [(metres[0], rest_s), (metres[1], 300.0)];
            let step = |(metres, rest_s)| Step::new(Length::Metres(metres), Recovery::Rest(rest_s));
            let [one, two] = metres;
            let text = format!("2 x ({one} + {two}){where_run}{pace} rest {rest_s}s / 5min");
            (text, [set, set].concat().into_iter().map(step).collect())
        }
        3 => {
            let metres = dice.pick(&RUNGS_M);
            let rest = |run: u64| Recovery::Rest(if run == count { 240.0 } else { 45.0 });
            let step = |run: u64| Step::new(Length::Metres(metres), rest(run));
            let set: Vec<Step> = (1..=count).map(step).collect();
            // One repetition has no rest within its set.
            let rests = if count == 1 { "rest 4min" } else { "rest 45s / 4min" };
            (format!("2 x ({count} x {metres}){where_run}{pace} {rests}"), [set.clone(), set].concat())
        }
        // A jog or a walk between.
        4 => {
            goes_on = count > 1;
            let (metres, way) = (dice.pick(&[200.0, 300.0, 400.0]), dice.pick(&["jog", "walk"]));
            let text = format!("{count} x {metres}{where_run}{pace} {way} 100 in 90s");
            (text, like(Length::Metres(metres), Recovery::Rest(90.0)))
        }
        5 => {
            let (recovery, words) = recovery(dice, 80.0);
            let text = format!("{count} x 80 on the home straight, changing ends{where_run}{pace} {words}");
            (text, like(Length::Metres(80.0), recovery))
        }
        6 => {
            let text = format!("{count} x flying 30 with 20 run-in{where_run}{pace} rest 3min");
            let step = Step { run_in_m: 20.0, ..Step::new(Length::Metres(30.0), Recovery::Rest(180.0)) };
            (text, vec![step; many])
        }
        7 if has_races => {
            // To the fifth hurdle of 110 m.
            let metres = 13.72 + 4.0 * 9.14;
            let text = format!("{count} x 110h to hurdle 5{where_run}{pace} rest 2min");
            (text, like(Length::Metres(metres), Recovery::Rest(120.0)))
        }
        8 if has_races => {
            let text = format!("{count} x exchange zone 2{where_run}{pace} rest 90s");
            (text, vec![Step::exchange(Recovery::Rest(90.0)); many])
        }
        // Exchanges with other runs between.
        12 if has_races => {
            let metres = dice.pick(&RUNGS_M);
            let text = format!("2 x (exchange zone 1 + {metres}){where_run}{pace} rest 60s / 3min");
            let run = |rest_s| Step::new(Length::Metres(metres), Recovery::Rest(rest_s));
            let set = [Step::exchange(Recovery::Rest(60.0)), run(180.0)];
            (text, [set, set].concat())
        }
        // By time, alone and between others, where a time without a word would be a rest.
        9 => {
            let metres = dice.pick(&RUNGS_M);
            let recovery = Recovery::Rest(45.0);
            let step = |length| Step::new(length, recovery);
            if dice.whole(0, 1) == 0 {
                (format!("{count} x 2 min rest 45s"), like(Length::Seconds(120.0), recovery))
            } else {
                let text = format!("{metres} + 2 min easy + {metres}{where_run}{pace} rest 45s");
                let steps = [Length::Metres(metres), Length::Seconds(120.0), Length::Metres(metres)];
                (text, steps.map(step).to_vec())
            }
        }
        _ => {
            let (metres, place) = dice.pick(&RUNS);
            let (recovery, words) = recovery(dice, metres);
            let text = format!("{count} x {metres}{place}{where_run}{pace} {words}");
            (text, like(Length::Metres(metres), recovery))
        }
    };
    Asked { text, steps, lanes, goes_on }
}
