//! A week in front of its sessions.

use session_plan::Week;

use crate::drawing::ink::number;
use crate::sheet::week_sheet::{WeekRow, WeekSheet};

/// How broad the longest bar is.
const BAR: f64 = 300.0;

/// The week's table, and its metres by day and pace as bars.
pub(super) struct PageWeek {
    pub(super) sheet: WeekSheet,
    pub(super) bars: Vec<WeekBar>,
}

/// The metres of a session of a group.
pub(super) struct WeekBar {
    /// The day and who runs.
    pub(super) name: String,
    pub(super) parts: Vec<BarPart>,
    /// How far in each band of pace.
    pub(super) words: String,
}

/// What is run in one band of pace.
pub(super) struct BarPart {
    pub(super) x: String,
    pub(super) width: String,
    /// The number of its band, the slowest first.
    pub(super) band: usize,
}

impl PageWeek {
    pub(super) fn of(week: &Week) -> Self {
        let sheet = WeekSheet::of(week);
        let most = sheet.sessions().map(|row| row.metres).max().unwrap_or_default().max(1);
        let bars = sheet.sessions().map(|row| WeekBar::of(row, &sheet.bands, most)).collect();
        Self { sheet, bars }
    }
}

impl WeekBar {
    fn of(row: &WeekRow, bands: &[String], most: u64) -> Self {
        let mut x = 0.0;
        let mut parts = Vec::new();
        for (band, &metres) in row.bands_m.iter().enumerate().filter(|(_, metres)| **metres > 0) {
            let width = BAR * metres as f64 / most as f64;
            parts.push(BarPart { x: number(x), width: number(width), band });
            x += width;
        }
        let words = row.bands_m.iter().zip(bands).filter(|(metres, _)| **metres > 0);
        let words: Vec<String> = words.map(|(metres, band)| format!("{band}: {metres} m")).collect();
        Self { name: format!("{}, {}", row.day, row.who), parts, words: words.join(", ") }
    }
}
