//! A week on a terminal.

use crate::words::numbers::to_cm;
use serde::Serialize;
use session_plan::{Load, PACE_BANDS, Week, WeekEntry};

use crate::answers::view::View;
use crate::json::care::WithCare;
use crate::json::week_json::WeekJson;
use crate::tables::columns::Columns;
use crate::tables::csv_table::CsvTable;
use crate::terminal::table::{heading, item, list, table};
use crate::terminal::take_care::take_care;
use crate::words::week_entry::{hours, short_day, who};
use crate::words::{day, pace_band, reading, run_name, week_entry, week_words};

impl View for Week {
    fn data(&self) -> impl Serialize + '_ {
        WithCare::of(WeekJson::from(self), &self.cautions)
    }

    fn text(&self) -> String {
        let mut parts = vec![title(self), sessions(self), bands(self)];
        parts.extend(list("Where the real distance differs", &differences(self)));
        parts.extend(list("Please check how this was read", &unsure(self)));
        parts.extend(list("Not counted: distance unknown", &not_counted(self)));
        parts.push(take_care(&self.cautions));
        parts.join("\n\n")
    }

    fn week(&self) -> Option<&Week> {
        Some(self)
    }

    fn csv(&self) -> CsvTable {
        let columns = Columns::new()
            .with("date", |entry: &WeekEntry| entry.date.map(|date| date.to_string()))
            .with("begins", |entry| entry.begins.map(day::minute))
            .with("ends", |entry| entry.ends.map(day::minute))
            .with("session", |entry| entry.title.clone())
            .with("group", |entry| entry.group.clone())
            .with("track", |entry| entry.track.clone())
            .with("runs", |entry| entry.load.runs)
            .with("in_short", week_entry::runs)
            .with("metres", |entry| entry.load.metres)
            .with("nominal_m", |entry| entry.load.nominal_m)
            .with("bend_m", |entry| entry.load.bend_m)
            .with("bends", |entry| entry.load.bends)
            .with("recoveries", |entry| entry.load.recoveries)
            .with("recovery_s", |entry| entry.load.recovery_s)
            .with("recovery_m", |entry| entry.load.recovery_m);
        let bands = (0..).zip(&PACE_BANDS).fold(columns, |columns, (place, band)| {
            let name = format!("metres at {}", pace_band::band(band));
            columns.with(&name, move |entry| entry.load.bands_m[place])
        });
        bands.table(&self.entries)
    }
}

fn title(week: &Week) -> String {
    format!("{}\n{}", heading(&week_words::title(week)), week_words::facts(week))
}

fn sessions(week: &Week) -> String {
    let entries =
        week.entries.iter().map(|entry| row(when(entry), &who(entry), &week_entry::runs(entry), &entry.load));
    let groups = week.groups.iter().map(|group| {
        row(week_words::IN_ALL.to_owned(), &group.group, &format!("{} sessions", group.sessions), &group.load)
    });
    let header = ["When", "Who runs what", "Metres", "On bends", "Recoveries"];
    table(&header, &[2, 3, 4], entries.chain(groups))
}

/// Each row takes two lines, so that names and runs have the width that they need.
fn row(when: String, who: &str, runs: &str, load: &Load) -> Vec<String> {
    let (bends, recoveries) = (week_entry::bends(load), week_entry::recoveries(load));
    vec![
        when,
        format!("{who}\n{runs}"),
        format!("{:.0}", load.metres),
        bends.join("\n"),
        recoveries.join("\n"),
    ]
}

fn bands(week: &Week) -> String {
    let of = |when: String, who: String, load: &Load| {
        let metres = |metres: f64| if metres == 0.0 { String::new() } else { format!("{metres:.0}") };
        [when, who].into_iter().chain(load.bands_m.map(metres)).collect()
    };
    let entries = week.entries.iter().map(|entry| of(short_day(entry), who(entry), &entry.load));
    let groups =
        week.groups.iter().map(|group| of(week_words::IN_ALL.to_owned(), group.group.clone(), &group.load));
    // The heading names the unit once for all columns.
    let names = PACE_BANDS.map(|band| pace_band::speeds(&band));
    let header: Vec<&str> = ["When", "Who"].into_iter().chain(names.iter().map(String::as_str)).collect();
    let table = table(&header, &[2, 3, 4, 5, 6], entries.chain(groups));
    let legend = item("-", &week_words::cuts());
    format!("{}\n{table}\n{legend}", heading(week_words::BY_PACE))
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

/// What could be read in another way, and what was not read.
fn unsure(week: &Week) -> Vec<String> {
    let mut lines = Vec::new();
    for entry in &week.entries {
        let unsure = entry.runs.iter().map(|row| reading::unsure(&row.read).join(" "));
        lines.extend(
            unsure.filter(|words| !words.is_empty()).map(|words| format!("{}: {words}", label(entry))),
        );
    }
    lines
}

fn not_counted(week: &Week) -> Vec<String> {
    let entries = week.entries.iter().filter(|entry| !entry.not_counted.is_empty());
    let items = |entry: &WeekEntry| entry.not_counted.iter().map(week_entry::not_counted).collect::<Vec<_>>();
    entries.map(|entry| format!("{}: {}", label(entry), items(entry).join("; "))).collect()
}

fn when(entry: &WeekEntry) -> String {
    std::iter::once(short_day(entry)).chain(hours(entry)).collect::<Vec<_>>().join("\n")
}

fn label(entry: &WeekEntry) -> String {
    format!("{}, {}", short_day(entry), who(entry))
}
