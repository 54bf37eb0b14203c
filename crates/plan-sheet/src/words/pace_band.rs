//! Pace bands as they are called.

use session_plan::PaceBand;

/// A band of speeds without its unit, as under a heading that has it: `4 to 5.5`.
pub(crate) fn speeds(band: &PaceBand) -> String {
    match (band.from_m_per_s, band.below_m_per_s) {
        (Some(0.0), Some(below)) => format!("below {below}"),
        (Some(from), Some(below)) => format!("{from} to {below}"),
        (Some(from), None) => format!("from {from}"),
        (None, _) => "no target".to_owned(),
    }
}

/// A band of speeds: `4 to 5.5 m/s`.
pub(crate) fn band(band: &PaceBand) -> String {
    let unit = if band.from_m_per_s.is_some() { " m/s" } else { "" };
    speeds(band) + unit
}
