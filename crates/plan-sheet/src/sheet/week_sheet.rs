//! A week as sheets and messages show it.

use serde::Serialize;
use session_plan::{Load, PACE_BANDS, Week, WeekEntry};

use crate::words::{pace_band, week_entry, week_words};

/// A week in words, with its metres for a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct WeekSheet {
    pub(crate) title: String,
    /// How many sessions, and where.
    pub(crate) facts: String,
    /// What each session asks of each group, then what groups that train more than once run in all.
    pub(crate) rows: Vec<WeekRow>,
    /// What the metres by pace are called.
    pub(crate) by_pace: &'static str,
    /// The bands of pace, the slowest first.
    pub(crate) bands: Vec<String>,
    /// What the cuts between them mean.
    pub(crate) cuts: String,
}

/// A session of a group, or all of its sessions.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct WeekRow {
    /// The day, or that it is all of them.
    pub(crate) day: String,
    pub(crate) hours: Option<String>,
    pub(crate) who: String,
    /// The runs in short, or how many sessions.
    pub(crate) runs: String,
    /// How far is run on the ground, in whole metres.
    pub(crate) metres: u64,
    /// How much of that lies on bends.
    pub(crate) bends: Vec<String>,
    /// How many recoveries, and how long.
    pub(crate) recoveries: Vec<String>,
    /// The metres in each band of pace.
    pub(crate) bands_m: Vec<u64>,
    pub(crate) is_total: bool,
}

impl WeekSheet {
    /// A week in words.
    pub(crate) fn of(week: &Week) -> Self {
        let totals = week.groups.iter().map(|group| WeekRow {
            is_total: true,
            ..WeekRow::of(
                week_words::IN_ALL.to_owned(),
                group.group.clone(),
                format!("{} sessions", group.sessions),
                &group.load,
            )
        });
        Self {
            title: week_words::title(week),
            facts: week_words::facts(week),
            rows: week.entries.iter().map(WeekRow::of_entry).chain(totals).collect(),
            by_pace: week_words::BY_PACE,
            bands: PACE_BANDS.iter().map(pace_band::speeds).collect(),
            cuts: week_words::cuts(),
        }
    }

    /// The rows of single sessions.
    pub(crate) fn sessions(&self) -> impl Iterator<Item = &WeekRow> {
        self.rows.iter().filter(|row| !row.is_total)
    }
}

impl WeekRow {
    fn of_entry(entry: &WeekEntry) -> Self {
        let (day, who) = (week_entry::short_day(entry), week_entry::who(entry));
        Self { hours: week_entry::hours(entry), ..Self::of(day, who, week_entry::runs(entry), &entry.load) }
    }

    fn of(day: String, who: String, runs: String, load: &Load) -> Self {
        Self {
            day,
            hours: None,
            who,
            runs,
            metres: load.metres.round() as u64,
            bends: week_entry::bends(load),
            recoveries: week_entry::recoveries(load),
            bands_m: load.bands_m.iter().map(|metres| metres.round() as u64).collect(),
            is_total: false,
        }
    }
}
