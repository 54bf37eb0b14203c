//! What a session of a week asks, in words.

use session_plan::{Load, NotCounted, WeekEntry};

use crate::words::numbers::clock;
use crate::words::{day, run_name};

/// The runs of a session in short: `6 x 200, 2 x (300 + 200)`.
pub(crate) fn runs(entry: &WeekEntry) -> String {
    entry.runs.iter().map(|row| run_name::in_short(&row.runs)).collect::<Vec<_>>().join(", ")
}

/// Something that has no distance that a plan can know.
pub(crate) fn not_counted(item: &NotCounted) -> String {
    match item {
        NotCounted::Line(line) => line.clone(),
        NotCounted::Timed { times_s, block } => {
            let times: Vec<String> = times_s.iter().map(|seconds| clock(*seconds)).collect();
            format!("{} of `{block}`", times.join(", "))
        }
    }
}

/// The day of a session: `Mon 12 Apr`.
pub(crate) fn short_day(entry: &WeekEntry) -> String {
    entry.date.map_or_else(|| "no date".to_owned(), |date| date.format("%a %-d %b").to_string())
}

/// When a session is, as far as that is known: `18:00-19:30`.
pub(crate) fn hours(entry: &WeekEntry) -> Option<String> {
    let begins = day::minute(entry.begins?);
    Some(entry.ends.map_or_else(|| begins.clone(), |ends| format!("{begins}-{}", day::minute(ends))))
}

/// The group where there are several, else the session.
pub(crate) fn who(entry: &WeekEntry) -> String {
    entry.group.clone().unwrap_or_else(|| entry.title.clone())
}

/// How much of the runs lies on bends: how far, and on how many.
pub(crate) fn bends(load: &Load) -> Vec<String> {
    match load.bends {
        0 => Vec::new(),
        1 => vec![format!("{:.0}", load.bend_m), "1 bend".to_owned()],
        bends => vec![format!("{:.0}", load.bend_m), format!("{bends} bends")],
    }
}

/// How many recoveries there are, how long and how far they are in all.
pub(crate) fn recoveries(load: &Load) -> Vec<String> {
    let count = (load.recoveries > 0).then(|| load.recoveries.to_string());
    let time = (load.recovery_s > 0.0).then(|| clock(load.recovery_s));
    let way = (load.recovery_m > 0.0).then(|| format!("{:.0} m", load.recovery_m));
    [count, time, way].into_iter().flatten().collect()
}
