//! A week as the JSON that other programs rely on.

use chrono::NaiveDate;
use serde::Serialize;
use session_plan::{Difference, GroupLoad, Load, PACE_BANDS, PaceBand, RunRow, Week, WeekEntry};

use crate::words::reading::reading;
use crate::words::{pace_band, run_name, week_entry};

/// A week with every sentence about it.
#[derive(Serialize)]
pub(crate) struct WeekJson<'a> {
    from: Option<NaiveDate>,
    to: Option<NaiveDate>,
    sessions: u32,
    entries: Vec<EntryJson<'a>>,
    groups: Vec<GroupJson<'a>>,
}

#[derive(Serialize)]
struct EntryJson<'a> {
    #[serde(flatten)]
    entry: &'a WeekEntry,
    runs: Vec<RunsJson<'a>>,
    load: LoadJson<'a>,
    differences: Vec<DifferenceJson>,
    not_counted: Vec<String>,
}

#[derive(Serialize)]
struct RunsJson<'a> {
    text: &'a str,
    reading: String,
    not_read: &'a [String],
    short: String,
    reps: usize,
    distances_m: &'a [f64],
}

#[derive(Serialize)]
struct DifferenceJson {
    runs: u32,
    text: String,
    nominal_m: f64,
    metres: f64,
    why: String,
}

#[derive(Serialize)]
struct GroupJson<'a> {
    group: &'a str,
    sessions: u32,
    load: LoadJson<'a>,
}

#[derive(Serialize)]
struct LoadJson<'a> {
    #[serde(flatten)]
    numbers: &'a Load,
    bands: Vec<BandJson>,
}

#[derive(Serialize)]
struct BandJson {
    name: String,
    #[serde(flatten)]
    band: PaceBand,
    metres: f64,
}

impl<'a> From<&'a Week> for WeekJson<'a> {
    fn from(week: &'a Week) -> Self {
        Self {
            from: week.from,
            to: week.to,
            sessions: week.sessions,
            entries: week.entries.iter().map(EntryJson::from).collect(),
            groups: week.groups.iter().map(GroupJson::from).collect(),
        }
    }
}

impl<'a> From<&'a WeekEntry> for EntryJson<'a> {
    fn from(entry: &'a WeekEntry) -> Self {
        Self {
            entry,
            runs: entry.runs.iter().map(RunsJson::from).collect(),
            load: LoadJson::from(&entry.load),
            differences: entry.differences.iter().map(DifferenceJson::from).collect(),
            not_counted: entry.not_counted.iter().map(week_entry::not_counted).collect(),
        }
    }
}

impl<'a> From<&'a RunRow> for RunsJson<'a> {
    fn from(row: &'a RunRow) -> Self {
        Self {
            text: row.read.text.trim(),
            reading: reading(&row.read),
            not_read: &row.read.not_read,
            short: run_name::in_short(&row.runs),
            reps: row.runs.len(),
            distances_m: &row.distances_m,
        }
    }
}

impl From<&Difference> for DifferenceJson {
    fn from(difference: &Difference) -> Self {
        Self {
            runs: difference.runs,
            text: run_name::run(difference.run),
            nominal_m: difference.nominal_m,
            metres: difference.metres,
            why: run_name::why(difference.why),
        }
    }
}

impl<'a> From<&'a GroupLoad> for GroupJson<'a> {
    fn from(group: &'a GroupLoad) -> Self {
        Self { group: &group.group, sessions: group.sessions, load: LoadJson::from(&group.load) }
    }
}

impl<'a> From<&'a Load> for LoadJson<'a> {
    fn from(load: &'a Load) -> Self {
        let bands = PACE_BANDS.into_iter().zip(load.bands_m);
        let bands = bands.map(|(band, metres)| BandJson { name: pace_band::band(&band), band, metres });
        Self { numbers: load, bands: bands.collect() }
    }
}
