//! What each athlete does in a block, in words.

use session_plan::NoAthlete;

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::{joined, lane_choice};
use crate::sheet::wave::{Wave, WaveLine};
use crate::words::numbers::listed;

/// What each athlete of a block does, such as `Ada 8.2 s: wave 1, lanes 5-6-7-5`; those who do the same share a line.
pub(crate) fn athletes(block: &SheetBlock) -> Vec<String> {
    let lines = block.waves.iter().flat_map(|wave| wave.lines.iter().map(move |line| (wave, line)));
    let mut alike: Vec<(Vec<&str>, String)> = Vec::new();
    for (name, words) in lines.filter_map(|(wave, line)| athlete(block, wave, line)) {
        match alike.iter_mut().find(|(_, known)| *known == words) {
            Some((names, _)) => names.push(name),
            None => alike.push((vec![name], words)),
        }
    }
    alike.into_iter().map(|(names, words)| format!("{}{words}", listed(&names))).collect()
}

/// The name of somebody who runs, and what follows it.
fn athlete<'a>(block: &SheetBlock, wave: &Wave, line: &'a WaveLine) -> Option<(&'a str, String)> {
    let name = line.athlete.as_ref()?;
    let group = line.group.as_ref().map_or_else(String::new, |group| format!(" ({group})"));
    let target = line.target.as_ref().filter(|_| line.is_own_target);
    let target = target.map_or_else(String::new, |target| format!(" {target}"));
    let runs: Vec<u32> = (wave.goes.iter().zip(&line.lanes))
        .filter_map(|(go, lanes)| (!lanes.is_empty()).then_some(go.rep))
        .collect();
    // Who hands to whom changes from run to run.
    let runs = match runs.as_slice() {
        [run] if block.has_handovers => format!("run {run}, "),
        runs if block.has_handovers => format!("runs {}, ", joined(runs)),
        _ => String::new(),
    };
    let wave = if block.has_waves { format!("wave {}, ", wave.wave) } else { String::new() };
    let lanes: Vec<String> =
        line.lanes.iter().filter(|lanes| !lanes.is_empty()).map(|lanes| lane_choice(lanes)).collect();
    let lanes = match lanes.as_slice() {
        [first, others @ ..] if others.iter().all(|lane| lane == first) => format!("lane {first}"),
        lanes => format!("lanes {}", lanes.join("-")),
    };
    Some((name, format!("{group}{target}: {wave}{runs}{lanes}")))
}

/// That nobody in a session is called so.
pub(crate) fn no_athlete_words(error: &NoAthlete) -> String {
    if error.names.is_empty() {
        return format!("no athlete is called `{}`; the session names nobody", error.name);
    }
    format!("no athlete is called `{}`; the session has {}", error.name, error.names.join(", "))
}
