//! When a wave goes and who runs in it, as the first page says it.

use serde::Serialize;

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::{joined, lane_choice};
use crate::sheet::wave::{Wave, WaveLine};
use crate::words::go_times;

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
        Self {
            name: block.has_waves.then(|| format!("Wave {}", wave.wave)),
            goes: go_times::of_wave(wave),
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
