//! A week, in words.

use session_plan::{PACE_BANDS, Week};

use crate::words::day;
use crate::words::numbers::clock;

/// What a week is called, with its days.
pub(crate) fn title(week: &Week) -> String {
    let days = match (week.from, week.to) {
        (Some(from), Some(to)) if from != to => {
            format!("{} to {}", from.format("%A %-d %B"), day::in_words(to))
        }
        (Some(date), _) => day::in_words(date),
        (None, _) => "no dates".to_owned(),
    };
    format!("The week at a glance, {days}")
}

/// How many sessions it has, and where.
pub(crate) fn facts(week: &Week) -> String {
    let sessions = if week.sessions == 1 { "session" } else { "sessions" };
    let mut tracks: Vec<&str> = week.entries.iter().map(|entry| entry.track.as_str()).collect();
    tracks.dedup();
    format!("{} {sessions}. Track: {}", week.sessions, tracks.join(", "))
}

/// What stands at the foot of a table, for each group that trains more than once.
pub(crate) const IN_ALL: &str = "In all";

/// What metres by pace are called.
pub(crate) const BY_PACE: &str = "Metres by pace, the target in m/s";

/// What the cuts between bands of pace mean.
pub(crate) fn cuts() -> String {
    let from = PACE_BANDS.iter().filter_map(|band| band.from_m_per_s.filter(|from| *from > 0.0));
    let cuts: Vec<String> =
        from.map(|from| format!("{from} m/s is 400 m in {}", clock(400.0 / from))).collect();
    format!("Bands go by the target of each run: {}.", cuts.join(", "))
}
