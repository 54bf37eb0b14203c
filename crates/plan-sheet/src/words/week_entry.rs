//! What a session of a week asks, in words.

use session_plan::{NotCounted, WeekEntry};

use crate::words::numbers::clock;
use crate::words::run_name;

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
