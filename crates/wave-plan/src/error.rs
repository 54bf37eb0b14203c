//! Why there is no plan.

use crate::ground::Ground;
use crate::itinerary::{Itinerary, Stretch};
use crate::party::Party;
use crate::rules::TimingRules;

/// The longest time and distance that make sense, in seconds and metres.
const MOST_S: f64 = 6.0 * 3600.0;
const MOST_M: f64 = 100_000.0;

/// The shortest lap that makes sense, in metres.
const LEAST_LAP_M: f64 = 20.0;

/// The most lanes of an itinerary.
const MOST_LANES: usize = 16;

/// The most runners of an itinerary, and the most starts of all together.
const MOST_RUNNERS: usize = 1_000;
const MOST_STARTS: usize = 20_000;

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SquadError {
    /// Nobody runs.
    #[error("a set has no runners")]
    Nobody,
    /// No lane is open.
    #[error("no lane is open for a set")]
    NoLanes,
    /// A lane is listed more than once.
    #[error("lane {lane} is listed twice for one set")]
    LaneTwice {
        /// The lane.
        lane: u8,
    },
    /// A target or a rest makes no sense.
    #[error("{name} has a {what} of {seconds} s; write more than 0 s and at most 6 hours")]
    Time {
        /// Whose it is.
        name: String,
        /// Target or rest.
        what: &'static str,
        /// The value.
        seconds: f64,
    },
    /// Somebody does no run, or more than there are.
    #[error("{name} does {runs} of {of} runs")]
    Runs {
        /// Who it is.
        name: String,
        /// How many runs they do.
        runs: usize,
        /// How many there are.
        of: usize,
    },
    /// A number of a set makes no sense.
    #[error("a set has a {what} of {number}")]
    Number {
        /// What it is.
        what: &'static str,
        /// The value.
        number: f64,
    },
    /// Too many run, or too often, to be planned at once.
    #[error("{count} {what} are too many to plan at once; split the squad")]
    TooMany {
        /// Runners or starts.
        what: &'static str,
        /// How many there are.
        count: usize,
    },
    /// A runner needs lanes side by side, and the set has none.
    #[error("{name} needs {lanes} lanes side by side, and the set has none that are open")]
    Beside {
        /// Who it is.
        name: String,
        /// How many lanes.
        lanes: u8,
    },
    /// Too many runners may use too few lanes.
    #[error("{} cannot run at once: the lanes that they may use are too few", .names.join(", "))]
    Pins {
        /// The members of the wave.
        names: Vec<String>,
    },
}

/// Checks what is to be planned, so that nothing behind it can fail on a number.
pub(crate) fn check(parties: &[Party], rules: &TimingRules) -> Result<(), SquadError> {
    let mut numbers = vec![("timing gap", rules.timing_gap_s), ("start gap", rules.start_gap_s)];
    numbers.extend(parties.iter().map(|party| ("start", party.begins_s)));
    let itineraries = || parties.iter().flat_map(|party| &party.itineraries);
    numbers.extend(itineraries().map(|itinerary| ("break", itinerary.after_s)));
    if let Some((what, number)) = numbers.into_iter().find(|(_, number)| !(0.0..=MOST_S).contains(number)) {
        return Err(SquadError::Number { what, number });
    }
    if itineraries().next().is_none() {
        return Err(SquadError::Nobody);
    }
    itineraries().try_for_each(check_itinerary)?;
    let runners = itineraries().map(|itinerary| itinerary.runners.len()).max().unwrap_or(0);
    let starts = itineraries().map(Itinerary::start_count).fold(0, usize::saturating_add);
    let counts = [("runners", runners, MOST_RUNNERS), ("starts", starts, MOST_STARTS)];
    match counts.into_iter().find(|(_, count, most)| count > most) {
        Some((what, count, _)) => Err(SquadError::TooMany { what, count }),
        None => Ok(()),
    }
}

fn check_itinerary(itinerary: &Itinerary) -> Result<(), SquadError> {
    if itinerary.runners.is_empty() {
        return Err(SquadError::Nobody);
    }
    let lanes = &itinerary.lanes;
    if lanes.is_empty() {
        return Err(SquadError::NoLanes);
    }
    if let Some((_, &lane)) = lanes.iter().enumerate().find(|(n, lane)| lanes[..*n].contains(lane)) {
        return Err(SquadError::LaneTwice { lane });
    }
    let runs = itinerary.runs.len();
    for (what, number, makes_sense) in
        [("number of runs", runs, runs > 0), ("number of lanes", lanes.len(), lanes.len() <= MOST_LANES)]
    {
        if !makes_sense {
            return Err(SquadError::Number { what, number: number as f64 });
        }
    }
    itinerary.runs.iter().flatten().try_for_each(check_stretch)?;
    for runner in &itinerary.runners {
        if runner.times.is_empty() || runner.times.len() > runs {
            return Err(SquadError::Runs { name: runner.name.clone(), runs: runner.times.len(), of: runs });
        }
        if usize::from(runner.lanes_beside) >= MOST_LANES {
            return Err(SquadError::Number {
                what: "number of lanes",
                number: f64::from(runner.lanes_beside) + 1.0,
            });
        }
        for times in &runner.times {
            let wrong = |what, seconds| Err(SquadError::Time { name: runner.name.clone(), what, seconds });
            if !(times.target_s > 0.0 && times.target_s <= MOST_S) {
                return wrong("target", times.target_s);
            }
            if !(0.0..=MOST_S).contains(&times.rest_s) {
                return wrong("rest", times.rest_s);
            }
        }
    }
    Ok(())
}

fn check_stretch(stretch: &Stretch) -> Result<(), SquadError> {
    let (shortest_m, longest_m) = match stretch.ground {
        Ground::Straight => (LEAST_LAP_M, LEAST_LAP_M),
        Ground::Laps { shortest_m, longest_m } => (shortest_m, longest_m),
    };
    let finish_m =
        stretch.finish_m.values().copied().find(|finish_m| finish_m.is_nan() || finish_m.abs() > MOST_M);
    let numbers = [
        ("distance", stretch.distance_m, stretch.distance_m > 0.0 && stretch.distance_m <= MOST_M),
        ("shortest lap", shortest_m, (LEAST_LAP_M..=MOST_M).contains(&shortest_m)),
        ("longest lap", longest_m, longest_m >= shortest_m && longest_m <= MOST_M),
        ("finish", finish_m.unwrap_or(0.0), finish_m.is_none()),
    ];
    match numbers.into_iter().find(|(.., makes_sense)| !makes_sense) {
        Some((what, number, _)) => Err(SquadError::Number { what, number }),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use crate::runner::Runner;

    use super::*;

    /// Repetitions of 200 m in lane 1.
    fn set(reps: usize, runners: Vec<Runner>) -> Itinerary {
        let stretch = Stretch { distance_m: 200.0, ..Stretch::default() };
        Itinerary::repetitions(reps, stretch, vec![1], runners)
    }

    fn checked(set: Itinerary) -> Result<(), SquadError> {
        check(&[Party { begins_s: 0.0, itineraries: vec![set] }], &TimingRules::default())
    }

    fn runner(runs: usize) -> Runner {
        Runner::new("Ada", runs, 30.0, 60.0)
    }

    #[test]
    fn a_target_is_at_most_six_hours() {
        let with_target = |target_s: f64| checked(set(1, vec![Runner::new("Ada", 1, target_s, 60.0)]));
        assert_eq!(with_target(21_600.0), Ok(()));
        let error = SquadError::Time { name: "Ada".to_owned(), what: "target", seconds: 21_601.0 };
        assert_eq!(with_target(21_601.0), Err(error));
    }

    #[test]
    fn a_thousand_runners_with_twenty_starts_each_are_planned_and_no_more() {
        let of = |runners: usize, reps: usize| checked(set(reps, vec![runner(reps); runners]));
        assert_eq!(of(1_000, 20), Ok(()));
        assert_eq!(of(1_001, 1), Err(SquadError::TooMany { what: "runners", count: 1_001 }));
        assert_eq!(of(1_000, 21), Err(SquadError::TooMany { what: "starts", count: 21_000 }));
    }

    #[test]
    fn everybody_does_one_run_at_least_and_no_more_than_there_are() {
        let of = |runs: usize| checked(set(2, vec![runner(runs)]));
        let error = |runs| Err(SquadError::Runs { name: "Ada".to_owned(), runs, of: 2 });
        assert_eq!([of(0), of(1), of(2), of(3)], [error(0), Ok(()), Ok(()), error(3)]);
    }

    #[test]
    fn a_runner_takes_sixteen_lanes_at_most() {
        let of = |lanes_beside: u8| checked(set(1, vec![Runner { lanes_beside, ..runner(1) }]));
        assert_eq!(of(15), Ok(()));
        assert_eq!(of(16), Err(SquadError::Number { what: "number of lanes", number: 17.0 }));
    }

    #[test]
    fn a_finish_lies_within_a_hundred_kilometres() {
        let of = |finish_m: f64| {
            let mut set = set(1, vec![runner(1)]);
            let stretch =
                Stretch { finish_m: [(1, finish_m)].into(), ..set.runs[0].clone().unwrap_or_default() };
            set.runs = vec![Some(stretch)];
            checked(set)
        };
        assert_eq!([of(100_000.0), of(-100_000.0)], [Ok(()), Ok(())]);
        let error = |number| Err(SquadError::Number { what: "finish", number });
        assert_eq!([of(100_001.0), of(-100_001.0)], [error(100_001.0), error(-100_001.0)]);
    }
}
