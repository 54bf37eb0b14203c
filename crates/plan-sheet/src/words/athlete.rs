//! What each athlete does in a block, in words.

use session_plan::NoAthlete;

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::lane_choice;
use crate::sheet::wave::WaveLine;

/// A line for each athlete of a block, such as `Ada 8.2 s: wave 1, lanes 5-6-7-5`.
pub(crate) fn athletes(block: &SheetBlock) -> Vec<String> {
    let lines = block.waves.iter().flat_map(|wave| wave.lines.iter().map(move |line| (wave.wave, line)));
    lines.filter_map(|(wave, line)| athlete(block.has_waves.then_some(wave), line)).collect()
}

fn athlete(wave: Option<u32>, line: &WaveLine) -> Option<String> {
    let name = line.athlete.as_ref()?;
    let group = line.group.as_ref().map_or_else(String::new, |group| format!(" ({group})"));
    let target = line.target.as_ref().filter(|_| line.is_own_target);
    let target = target.map_or_else(String::new, |target| format!(" {target}"));
    let wave = wave.map_or_else(String::new, |wave| format!("wave {wave}, "));
    let lanes: Vec<String> =
        line.lanes.iter().filter(|lanes| !lanes.is_empty()).map(|lanes| lane_choice(lanes)).collect();
    let lanes = match lanes.as_slice() {
        [first, others @ ..] if others.iter().all(|lane| lane == first) => format!("lane {first}"),
        lanes => format!("lanes {}", lanes.join("-")),
    };
    Some(format!("{name}{group}{target}: {wave}{lanes}"))
}

/// That nobody in a session is called so.
pub(crate) fn no_athlete_words(error: &NoAthlete) -> String {
    if error.names.is_empty() {
        return format!("no athlete is called `{}`; the session names nobody", error.name);
    }
    format!("no athlete is called `{}`; the session has {}", error.name, error.names.join(", "))
}
