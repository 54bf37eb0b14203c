//! Why there is no plan.

use crate::ground::Ground;
use crate::rules::TimingRules;
use crate::set::SquadSet;

/// The longest time and distance that make sense, in seconds and metres.
const MOST_S: f64 = 6.0 * 3600.0;
const MOST_M: f64 = 100_000.0;

/// The shortest lap that makes sense, in metres.
const LEAST_LAP_M: f64 = 20.0;

/// The most lanes of a set.
const MOST_LANES: usize = 16;

/// The most runners and starts of all sets together.
const MOST_RUNNERS: usize = 1_000;
const MOST_STARTS: usize = 5_000;

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
        /// Runners, starts or crossings.
        what: &'static str,
        /// How many there are.
        count: usize,
    },
    /// Too many runners may use too few lanes.
    #[error("{} cannot run at once: the lanes that they may use are too few", .names.join(", "))]
    Pins {
        /// The members of the wave.
        names: Vec<String>,
    },
}

/// Checks what is to be planned, so that nothing behind it can fail on a number.
pub(crate) fn check(sets: &[SquadSet], rules: &TimingRules) -> Result<(), SquadError> {
    for (what, number) in [("timing gap", rules.timing_gap_s), ("start gap", rules.start_gap_s)] {
        if !(0.0..=MOST_S).contains(&number) {
            return Err(SquadError::Number { what, number });
        }
    }
    if sets.is_empty() {
        return Err(SquadError::Nobody);
    }
    sets.iter().try_for_each(check_set)?;
    let total = |count: fn(&SquadSet) -> usize| sets.iter().map(count).fold(0, usize::saturating_add);
    let counts = [
        ("runners", total(|set| set.runners.len()), MOST_RUNNERS),
        ("starts", total(SquadSet::start_count), MOST_STARTS),
    ];
    match counts.into_iter().find(|(_, count, most)| count > most) {
        Some((what, count, _)) => Err(SquadError::TooMany { what, count }),
        None => Ok(()),
    }
}

fn check_set(set: &SquadSet) -> Result<(), SquadError> {
    if set.runners.is_empty() {
        return Err(SquadError::Nobody);
    }
    if set.lanes.is_empty() {
        return Err(SquadError::NoLanes);
    }
    if let Some((_, &lane)) = set.lanes.iter().enumerate().find(|(n, lane)| set.lanes[..*n].contains(lane)) {
        return Err(SquadError::LaneTwice { lane });
    }
    let (shortest_m, longest_m) = match set.ground {
        Ground::Straight => (LEAST_LAP_M, LEAST_LAP_M),
        Ground::Laps { shortest_m, longest_m } => (shortest_m, longest_m),
    };
    let finish_m =
        set.finish_m.values().copied().find(|finish_m| finish_m.is_nan() || finish_m.abs() > MOST_M);
    let numbers = [
        ("number of repetitions", f64::from(set.reps), set.reps > 0),
        ("number of lanes", set.lanes.len() as f64, set.lanes.len() <= MOST_LANES),
        ("distance", set.distance_m, set.distance_m > 0.0 && set.distance_m <= MOST_M),
        ("shortest lap", shortest_m, (LEAST_LAP_M..=MOST_M).contains(&shortest_m)),
        ("longest lap", longest_m, longest_m >= shortest_m && longest_m <= MOST_M),
        ("finish", finish_m.unwrap_or(0.0), finish_m.is_none()),
    ];
    if let Some(&(what, number, _)) = numbers.iter().find(|(.., makes_sense)| !makes_sense) {
        return Err(SquadError::Number { what, number });
    }
    for runner in &set.runners {
        let wrong = |what, seconds| Err(SquadError::Time { name: runner.name.clone(), what, seconds });
        if !(runner.target_s > 0.0 && runner.target_s <= MOST_S) {
            return wrong("target", runner.target_s);
        }
        if !(0.0..=MOST_S).contains(&runner.rest_s) {
            return wrong("rest", runner.rest_s);
        }
    }
    Ok(())
}
