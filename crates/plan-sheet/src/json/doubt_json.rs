//! What of a text could be read in another way, as JSON.

use serde::Serialize;
use serde_json::{Value, json};
use workout_notation::Doubt;

use crate::words::doubt::doubt as words;

/// A doubt, named by its `kind`, with its numbers and the words for it.
#[derive(Serialize)]
pub(crate) struct DoubtJson {
    kind: &'static str,
    #[serde(flatten)]
    numbers: Value,
    words: String,
}

impl From<&Doubt> for DoubtJson {
    fn from(doubt: &Doubt) -> Self {
        let (kind, numbers) = match doubt {
            Doubt::RestOrTarget { seconds } => ("rest or target", json!({ "seconds": seconds })),
            Doubt::RunOrRest { seconds } => ("run or rest", json!({ "seconds": seconds })),
            Doubt::TargetOrRest { seconds } => ("target or rest", json!({ "seconds": seconds })),
            Doubt::RestOrRun { seconds } => ("rest or run", json!({ "seconds": seconds })),
            Doubt::CycleTooShort { seconds } => ("cycle too short", json!({ "seconds": seconds })),
            Doubt::LineRepeated { count } => ("line repeated", json!({ "count": count })),
            Doubt::WholeListRepeated { count } => ("whole list repeated", json!({ "count": count })),
            Doubt::CountRange { least, most } => ("range of counts", json!({ "least": least, "most": most })),
            Doubt::RestRange { least_s, most_s } => {
                ("range of rests", json!({ "least_s": least_s, "most_s": most_s }))
            }
            Doubt::PercentRange { least, most } => {
                ("range of percentages", json!({ "least": least, "most": most }))
            }
            Doubt::LapsOrParts { part } => ("laps or parts", json!({ "part": part.to_string() })),
            Doubt::TimeRange { least_s, most_s } => {
                ("time range", json!({ "least_s": least_s, "most_s": most_s }))
            }
            Doubt::BareMinutes => ("bare minutes", json!({})),
            Doubt::FirstZone => ("first zone", json!({})),
            Doubt::RelayOrRuns => ("relay or runs", json!({})),
            Doubt::TargetsInTurn { each } => ("targets in turn", json!({ "each": each })),
            Doubt::MinutesOfNote { minutes } => ("minutes of note", json!({ "minutes": minutes })),
            Doubt::NoTimeForNote { note } => ("no time for note", json!({ "note": note })),
            Doubt::CycleOrRest { seconds } => ("cycle or rest", json!({ "seconds": seconds })),
            Doubt::MetresOrYards { distance } => ("metres or yards", json!({ "distance": distance })),
            Doubt::TimeOfEachLap { seconds } => ("time of each lap", json!({ "seconds": seconds })),
            Doubt::SlowerThanWalking { metres, seconds } => {
                ("slower than walking", json!({ "metres": metres, "seconds": seconds }))
            }
            Doubt::InTheEvening { begins } => {
                ("in the evening", json!({ "begins": begins.format("%H:%M").to_string() }))
            }
            Doubt::BeginsWithoutWaiting { begins } => {
                ("begins without waiting", json!({ "begins": begins.format("%H:%M").to_string() }))
            }
            Doubt::EndOfGroup { ends } => {
                ("end of group", json!({ "ends": ends.format("%H:%M").to_string() }))
            }
            Doubt::LeftOut { name } => ("left out", json!({ "name": name })),
            Doubt::SaidOfOne { name, words } => ("said of one", json!({ "name": name, "said": words })),
            Doubt::LeavesEarly { name, words } => ("leaves early", json!({ "name": name, "said": words })),
            Doubt::HazardInTitle { title } => ("hazard in title", json!({ "title": title })),
            Doubt::TrackInTitle { title } => ("track in title", json!({ "title": title })),
            Doubt::LabelsInTurn { labels } => ("labels in turn", json!({ "labels": labels })),
            Doubt::LabelOrGroup { label } => ("label or group", json!({ "label": label })),
            Doubt::NamesAlone { names } => ("names alone", json!({ "names": names })),
            Doubt::NotNamed { name } => ("not named", json!({ "name": name })),
        };
        Self { kind, numbers, words: words(doubt) }
    }
}
