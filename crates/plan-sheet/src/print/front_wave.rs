//! When a wave goes and who runs in it, as the first page says it.

use serde::Serialize;

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::{joined, lane_choice};
use crate::sheet::wave::{Wave, WaveLine};

/// A wave of a block in two lines.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct FrontWave {
    /// What it is called, where there are several.
    name: Option<String>,
    /// When it goes, repetition by repetition.
    goes: Option<String>,
    /// Who runs in which lanes.
    who: String,
}

impl FrontWave {
    pub(crate) fn of(block: &SheetBlock, wave: &Wave) -> Self {
        let goes: Vec<&str> = wave.goes.iter().filter_map(|go| go.go.as_deref()).collect();
        Self {
            name: block.has_waves.then(|| format!("Wave {}", wave.wave)),
            goes: (!goes.is_empty()).then(|| in_short(&goes)),
            who: who(block, &wave.lines),
        }
    }
}

/// Everybody of a wave with their lanes, repetition by repetition: `Ada: lanes 5-6-7-5; Ben: 6-7-5-6`. Those who
/// always run in the same lanes stand together.
fn who(block: &SheetBlock, lines: &[WaveLine]) -> String {
    let mut alike: Vec<(Lanes, Vec<String>)> = Vec::new();
    for line in lines {
        let name = line.athlete.clone().unwrap_or_default();
        let group = line.group.as_ref().map_or_else(String::new, |group| format!(" ({group})"));
        let target = line.target.as_ref().filter(|_| block.has_own_targets);
        let target = target.map_or_else(String::new, |target| format!(" {target}"));
        let (lanes, name) = (Lanes::of(line), format!("{name}{group}{target}"));
        match alike.iter_mut().find(|(known, _)| *known == lanes) {
            Some((_, names)) => names.push(name),
            None => alike.push((lanes, vec![name])),
        }
    }
    let mut noun = "";
    let words = alike.into_iter().map(|(lanes, names)| {
        let own = if lanes.noun == noun { String::new() } else { format!("{} ", lanes.noun) };
        noun = lanes.noun;
        format!("{}: {own}{}", names.join(", "), lanes.numbers)
    });
    words.collect::<Vec<_>>().join("; ")
}

/// The lanes of one who runs.
#[derive(PartialEq)]
struct Lanes {
    noun: &'static str,
    numbers: String,
}

impl Lanes {
    fn of(line: &WaveLine) -> Self {
        let runs = || (1..).zip(&line.lanes).filter(|(_, lanes)| !lanes.is_empty());
        let lanes: Vec<String> = runs().map(|(_, lanes)| lane_choice(lanes)).collect();
        let (noun, numbers) = match lanes.as_slice() {
            [first, others @ ..] if others.iter().all(|lane| lane == first) => ("lane", first.clone()),
            lanes => ("lanes", lanes.join("-")),
        };
        let runs: Vec<u32> = runs().map(|(run, _)| run).collect();
        let reps = match runs.as_slice() {
            runs if runs.len() == line.lanes.len() => String::new(),
            [run] => format!(" (rep {run})"),
            runs => format!(" (reps {})", joined(runs)),
        };
        Self { noun, numbers: format!("{numbers}{reps}") }
    }
}

/// Times one after the other, without the hour where it is that of the time before: `18:20:00, 26:45, 33:22`.
fn in_short(times: &[&str]) -> String {
    let hour = |time: &str| -> Option<String> {
        let (hour, rest) = time.trim_start_matches('~').split_once(':')?;
        rest.contains(':').then(|| hour.to_owned())
    };
    let mut before = None;
    let mut shown = Vec::new();
    for time in times {
        let own = hour(time);
        shown.push(match &own {
            Some(hour) if own == before => time.replacen(&format!("{hour}:"), "", 1),
            _ => (*time).to_owned(),
        });
        before = own;
    }
    shown.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_hour_stands_once_until_it_changes() {
        let shown = [
            &["18:58:00", "18:59:30", "19:01:00", "~19:02:30"][..],
            &["58:00", "1:01:30", "1:05:00"],
            &["~18:46:55"],
        ]
        .map(in_short);
        assert_eq!(shown, ["18:58:00, 59:30, 19:01:00, ~02:30", "58:00, 1:01:30, 05:00", "~18:46:55"]);
    }
}
