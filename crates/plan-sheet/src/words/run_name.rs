//! Runs as they are called.

use session_plan::OtherLength;
use workout_notation::{RunKind, RunLength};

use crate::words::numbers::to_cm;

/// A run as it is written, such as `200`, `2 laps` or `110h to hurdle 5`.
pub(crate) fn run(run: RunKind) -> String {
    match run {
        RunKind::Plain(length) => self::length(length),
        RunKind::InAndOut { length, turns } => format!("{} in-and-out {turns}", self::length(length)),
        run => run.to_string(),
    }
}

/// A length as it is written, such as `200` or `2 laps`.
pub(crate) fn length(length: RunLength) -> String {
    match length {
        RunLength::Metres(metres) => to_cm(metres),
        RunLength::Laps(1.0) => "1 lap".to_owned(),
        laps => laps.to_string(),
    }
}

/// Runs in short, such as `6 x 200` or `2 x (300 + 200)`: repeats are counted.
pub(crate) fn in_short(runs: &[RunKind]) -> String {
    let count = runs.len();
    let again = (1..=count)
        .find(|turn| count.is_multiple_of(*turn) && runs.chunks(*turn).all(|part| part == &runs[..*turn]));
    let turn = &runs[..again.unwrap_or(count)];
    let once = turn.chunk_by(|a, b| a == b).map(|alike| times(alike.len(), &run(alike[0])));
    let once = once.collect::<Vec<_>>().join(" + ");
    match count / turn.len().max(1) {
        1 => once,
        turns if turn.len() == 1 => times(turns, &once),
        turns => format!("{turns} x ({once})"),
    }
}

/// A text with its count: `2 x 200`.
pub(crate) fn times(count: usize, text: &str) -> String {
    if count == 1 { text.to_owned() } else { format!("{count} x {text}") }
}

/// Why a run is not as long as the numbers alone say.
pub(crate) fn why(why: OtherLength) -> String {
    match why {
        OtherLength::Lap { lane, lap_m } => format!("a lap of lane {lane} is {} m", to_cm(lap_m)),
        OtherLength::Laps { inner, inner_m, outer, outer_m } => {
            format!("a lap is {} m in lane {inner} to {} m in lane {outer}", to_cm(inner_m), to_cm(outer_m))
        }
        OtherLength::RunIn { run_in_m } => format!("the run-in is {} m", to_cm(run_in_m)),
        OtherLength::ToHurdle { distance_m } => format!("there it is {} m", to_cm(distance_m)),
        OtherLength::ZoneWithRunIn { distance_m, run_in_m } => {
            format!("the takeover zone is {} m, the run-in {} m", to_cm(distance_m), to_cm(run_in_m))
        }
        OtherLength::Zone { distance_m } => format!("the takeover zone is {} m", to_cm(distance_m)),
    }
}
