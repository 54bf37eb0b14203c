//! A week on a terminal.

use crate::words::numbers::{clock, to_cm};
use serde::Serialize;
use session_plan::{Load, PACE_BANDS, Week, WeekEntry};

use crate::answers::view::View;
use crate::json::week_json::WeekJson;
use crate::tables::csv_table::{Cell, CsvTable};
use crate::terminal::table::{heading, item, table};
use crate::terminal::take_care::take_care;
use crate::words::caution::ROW_NOTE;
use crate::words::{day, pace_band, run_name, week_entry};

impl View for Week {
    fn data(&self) -> impl Serialize + '_ {
        WeekJson::from(self)
    }

    fn text(&self) -> String {
        let mut parts = vec![title(self), sessions(self), bands(self)];
        parts.extend(list("Where the real distance differs", differences(self)));
        parts.extend(list("Not counted: distance unknown", not_counted(self)));
        parts.push(take_care(&self.cautions));
        parts.join("\n\n")
    }

    fn csv(&self) -> CsvTable {
        let bands = PACE_BANDS.map(|band| format!("metres at {}", pace_band::band(&band)));
        let columns = ["date", "begins", "ends", "session", "group", "track", "runs", "in_short", "metres"]
            .into_iter()
            .chain(["nominal_m", "bend_m", "bends", "recoveries", "recovery_s", "recovery_m"])
            .chain(bands.iter().map(String::as_str))
            .chain(["note"]);
        let mut table = CsvTable::new(columns);
        for entry in &self.entries {
            let load = &entry.load;
            let first = [
                entry.date.map(|date| date.to_string()).into(),
                entry.begins.map(day::minute).into(),
                entry.ends.map(day::minute).into(),
                entry.title.as_str().into(),
                entry.group.as_deref().into(),
                entry.track.as_str().into(),
                load.runs.into(),
                week_entry::runs(entry).into(),
                load.metres.into(),
                load.nominal_m.into(),
                load.bend_m.into(),
                load.bends.into(),
                load.recoveries.into(),
                load.recovery_s.into(),
                load.recovery_m.into(),
            ];
            let bands = load.bands_m.map(Cell::from);
            let row: [&[Cell]; 3] = [&first, &bands, &[ROW_NOTE.into()]];
            table.row(row.concat());
        }
        table
    }
}

fn title(week: &Week) -> String {
    let days = match (week.from, week.to) {
        (Some(from), Some(to)) if from != to => {
            format!("{} to {}", from.format("%A %-d %B"), day::in_words(to))
        }
        (Some(date), _) => day::in_words(date),
        (None, _) => "no dates".to_owned(),
    };
    let sessions = if week.sessions == 1 { "session" } else { "sessions" };
    let mut tracks: Vec<&str> = week.entries.iter().map(|entry| entry.track.as_str()).collect();
    tracks.dedup();
    format!(
        "{}\n{} {sessions}. Track: {}",
        heading(&format!("The week at a glance, {days}")),
        week.sessions,
        tracks.join(", ")
    )
}

fn sessions(week: &Week) -> String {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for entry in &week.entries {
        rows.push(row(when(entry), &who(entry), &week_entry::runs(entry), &entry.load));
    }
    for group in &week.groups {
        rows.push(row(
            "In all".to_owned(),
            &group.group,
            &format!("{} sessions", group.sessions),
            &group.load,
        ));
    }
    table(&["When", "Who runs what", "Metres", "On bends", "Recoveries"], &[2, 3, 4], rows)
}

/// Each row takes two lines, so that names and runs have the width that they need.
fn row(when: String, who: &str, runs: &str, load: &Load) -> Vec<String> {
    let bends = match load.bends {
        0 => String::new(),
        1 => format!("{:.0}\n1 bend", load.bend_m),
        bends => format!("{:.0}\n{bends} bends", load.bend_m),
    };
    let mut recoveries = Vec::new();
    if load.recoveries > 0 {
        recoveries.push(load.recoveries.to_string());
    }
    if load.recovery_s > 0.0 {
        recoveries.push(clock(load.recovery_s));
    }
    if load.recovery_m > 0.0 {
        recoveries.push(format!("{:.0} m", load.recovery_m));
    }
    vec![when, format!("{who}\n{runs}"), format!("{:.0}", load.metres), bends, recoveries.join("\n")]
}

fn bands(week: &Week) -> String {
    let metres = |load: &Load| -> Vec<String> {
        let of = |metres: f64| if metres == 0.0 { String::new() } else { format!("{metres:.0}") };
        load.bands_m.map(of).to_vec()
    };
    let entries =
        week.entries.iter().map(|entry| [vec![short_day(entry), who(entry)], metres(&entry.load)].concat());
    let groups = week
        .groups
        .iter()
        .map(|group| [vec!["In all".to_owned(), group.group.clone()], metres(&group.load)].concat());
    // The heading names the unit once for all columns.
    let names = PACE_BANDS.map(|band| pace_band::speeds(&band));
    let header: Vec<&str> = ["When", "Who"].into_iter().chain(names.iter().map(String::as_str)).collect();
    let table = table(&header, &[2, 3, 4, 5, 6], entries.chain(groups));
    let cuts: Vec<String> = PACE_BANDS
        .iter()
        .filter_map(|band| band.from_m_per_s.filter(|from| *from > 0.0))
        .map(|from| format!("{from} m/s is 400 m in {}", clock(400.0 / from)))
        .collect();
    let legend = item("-", &format!("Bands go by the target of each run: {}.", cuts.join(", ")));
    format!("{}\n{table}\n{legend}", heading("Metres by pace, the target in m/s"))
}

fn differences(week: &Week) -> Vec<String> {
    let mut lines = Vec::new();
    for entry in &week.entries {
        for difference in &entry.differences {
            let runs = run_name::times(difference.runs as usize, &run_name::run(difference.run));
            lines.push(format!(
                "{}: {runs}: {} m, not {} m; {}.",
                label(entry),
                to_cm(difference.metres),
                to_cm(difference.nominal_m),
                run_name::why(difference.why)
            ));
        }
    }
    lines
}

fn not_counted(week: &Week) -> Vec<String> {
    let entries = week.entries.iter().filter(|entry| !entry.not_counted.is_empty());
    let items = |entry: &WeekEntry| entry.not_counted.iter().map(week_entry::not_counted).collect::<Vec<_>>();
    entries.map(|entry| format!("{}: {}", label(entry), items(entry).join("; "))).collect()
}

fn list(title: &str, lines: Vec<String>) -> Option<String> {
    let items: Vec<String> = lines.iter().map(|line| item("-", line)).collect();
    (!items.is_empty()).then(|| format!("{}\n{}", heading(title), items.join("\n")))
}

fn when(entry: &WeekEntry) -> String {
    match (entry.begins, entry.ends) {
        (Some(begins), Some(ends)) => {
            format!("{}\n{}-{}", short_day(entry), day::minute(begins), day::minute(ends))
        }
        (Some(begins), None) => format!("{}\n{}", short_day(entry), day::minute(begins)),
        (None, _) => short_day(entry),
    }
}

fn short_day(entry: &WeekEntry) -> String {
    entry.date.map_or_else(|| "no date".to_owned(), |date| date.format("%a %-d %b").to_string())
}

/// The group where there are several, else the session.
fn who(entry: &WeekEntry) -> String {
    entry.group.clone().unwrap_or_else(|| entry.title.clone())
}

fn label(entry: &WeekEntry) -> String {
    format!("{}, {}", short_day(entry), who(entry))
}
