//! When waves go, in words.

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::wave::Wave;

/// When a wave goes, repetition by repetition; nothing where that is not known.
pub(crate) fn of_wave(wave: &Wave) -> Option<String> {
    let goes: Vec<&str> = wave.goes.iter().filter_map(|go| go.go.as_deref()).collect();
    (!goes.is_empty()).then(|| in_short(&goes))
}

/// When each wave of a block goes, where more is known than when it begins: `Go, wave 2: 18:20:10, 26:55`.
pub(crate) fn of_block(block: &SheetBlock) -> Vec<String> {
    let known = block.waves.iter().flat_map(|wave| &wave.goes).filter(|go| go.go.is_some()).count();
    let of_wave = |wave: &Wave| {
        let name = if block.has_waves { format!("Go, wave {}", wave.wave) } else { "Go".to_owned() };
        Some(format!("{name}: {}", of_wave(wave)?))
    };
    block.waves.iter().filter(|_| known > 1).filter_map(of_wave).collect()
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
