//! What of a text could be read in another way, in words.

use workout_notation::Doubt;

use crate::words::numbers::{clock, metres};

/// What else a part of a text could mean, or what was taken where it gives several: `or 90 s could be the time of
/// each run`.
pub(crate) fn doubt(doubt: &Doubt) -> String {
    match *doubt {
        Doubt::RestOrTarget { seconds } => format!("or {} could be the time of each run", time(seconds)),
        Doubt::TargetOrRest { seconds } => format!("or {} could be the rest", time(seconds)),
        Doubt::RestOrRun { seconds } => format!("or {} could be a run", time(seconds)),
        Doubt::RunOrRest { seconds } => {
            format!("{0} is a run of {0} m, or could be the rest: write {0}s", metres(seconds))
        }
        Doubt::CycleTooShort { seconds } => {
            format!("{} is too short from start to start, so it is the rest", time(seconds))
        }
        Doubt::CycleOrRest { seconds } => format!("or {} could be the rest", time(seconds)),
        Doubt::LineRepeated { count } => format!("what stands in the line is done {count} times in all"),
        Doubt::WholeListRepeated { count } => format!("or only the last run is done {count} times"),
        Doubt::CountRange { least, most } => format!("{least} to {most} are asked for, {most} planned"),
        Doubt::RestRange { least_s, most_s } => {
            format!("the rest is {} to {}, planned with the longer", time(least_s), time(most_s))
        }
        Doubt::TimeRange { least_s, most_s } => {
            format!("{} to {} are asked for, planned with the longer", time(least_s), time(most_s))
        }
        Doubt::PercentRange { least, most } => {
            format!("{} to {}% are asked for, {2}% planned", metres(least), metres(most), metres(most))
        }
        Doubt::LapsOrParts { part } => {
            format!("the count is taken for laps, or it could count {part}s")
        }
        Doubt::BareMinutes => "the rests are taken for minutes".to_owned(),
        Doubt::RelayOrRuns => "each athlete runs all of them; could be the legs of one relay".to_owned(),
        Doubt::FirstZone => "exchanges of no zone are laid in the first".to_owned(),
        Doubt::TargetsInTurn { each: 1 } => "one target for each run in turn".to_owned(),
        Doubt::TargetsInTurn { each } => format!("each target for {each} runs in turn"),
        Doubt::MinutesOfNote { minutes } => format!("{} is taken for minutes", metres(minutes)),
        Doubt::NoTimeForNote { ref note } => {
            format!("no time is allowed for it; write how long it takes, for example `{note} 10 min`")
        }
        Doubt::TimeOfEachLap { seconds } => format!("{} is taken for each lap", time(seconds)),
        Doubt::MetresOrYards { distance } => {
            format!("{} are metres; write {}y for yards", metres(distance), metres(distance))
        }
        Doubt::SlowerThanWalking { metres: run_m, seconds } => {
            format!("{} m in {} is slower than a walk", metres(run_m), time(seconds))
        }
        Doubt::InTheEvening { begins } => {
            format!("start taken for {}; write am for the morning", begins.format("%H:%M"))
        }
        Doubt::BeginsWithoutWaiting { begins } => {
            format!("begins after the block before, not at {}", begins.format("%H:%M"))
        }
        Doubt::EndOfGroup { ends } => format!("may not be done by {}", ends.format("%H:%M")),
        Doubt::SaidOfOne { ref name, ref words } if words == "?" => {
            format!("{name} is planned, and may not come")
        }
        Doubt::LeftOut { ref name } => format!("{name} is left out"),
        Doubt::SaidOfOne { ref name, ref words } => {
            format!("{name} is planned from the start; not read: {words}")
        }
        Doubt::LeavesEarly { ref name, ref words } => {
            format!("{name} is planned to the end; not read: {words}")
        }
        Doubt::LabelOrGroup { ref label } => {
            format!("`{label}` is no group; if it is one, name who is in it: `{label} (Ada, Ben):`")
        }
        Doubt::LabelsInTurn { ref labels } => {
            let (first, all) = (labels.first().map_or("A", String::as_str), labels.join(", "));
            format!("{all} are done one after the other; if they are groups, write `Group {first}:`")
        }
        Doubt::HazardInTitle { ref title } => {
            format!(
                "`{title}` is only the title; keep runs away with `--hazard`, as in `--hazard hammer=18:30`"
            )
        }
        Doubt::TrackInTitle { ref title } => {
            format!(
                "`{title}` is only the title; choose the track with `--track`, as in `--track standard-6`"
            )
        }
        Doubt::NamesAlone { ref names } => format!("taken for who trains: {}", names.join(", ")),
        Doubt::NotNamed { ref name } => format!("nobody is called {name} here; leave out who is missing"),
    }
}

/// Whether a doubt is about an athlete or the evening, and not about how the block was read.
pub(crate) fn is_of_day(doubt: &Doubt) -> bool {
    matches!(
        doubt,
        Doubt::InTheEvening { .. }
            | Doubt::EndOfGroup { .. }
            | Doubt::BeginsWithoutWaiting { .. }
            | Doubt::LeftOut { .. }
            | Doubt::SaidOfOne { .. }
            | Doubt::LeavesEarly { .. }
            | Doubt::NoTimeForNote { .. }
            | Doubt::LabelOrGroup { .. }
            | Doubt::LabelsInTurn { .. }
            | Doubt::HazardInTitle { .. }
            | Doubt::TrackInTitle { .. }
            | Doubt::NamesAlone { .. }
            | Doubt::NotNamed { .. }
    )
}

/// A short time in seconds, whole minutes in minutes.
fn time(seconds: f64) -> String {
    if seconds < 100.0 {
        format!("{} s", metres(seconds))
    } else if seconds % 60.0 == 0.0 {
        format!("{} min", seconds / 60.0)
    } else {
        clock(seconds)
    }
}
