//! How far somebody runs in a block, in words.

use crate::sheet::wave::Wave;
use crate::words::numbers::to_cm;

/// How far each of its runners runs in all; nothing where there are no runs.
pub(crate) fn total(waves: &[Wave]) -> Option<String> {
    let lines = || waves.iter().flat_map(|wave| &wave.lines);
    let totals = || lines().map(|line| line.total_m);
    let (least, most) = (to_cm(totals().fold(f64::INFINITY, f64::min)), to_cm(totals().fold(0.0, f64::max)));
    let each = match totals().count() {
        0 => return None,
        1 => "",
        _ if lines().any(|line| line.athlete.is_some()) => " for each athlete",
        _ => " in each lane",
    };
    let to = if least == most { String::new() } else { format!(" to {most}") };
    Some(format!("Total {least}{to} m{each}."))
}
