//! The wind in words.

use session_plan::{Wind, WindFrom};

/// The wind as it was written, else from what is known: `3 m/s from ahead on the home straight`.
pub(crate) fn wind_words(wind: &Wind) -> String {
    if let Some(words) = &wind.words {
        return words.clone();
    }
    let strong = wind.m_s.map(|m_s| format!("{m_s} m/s"));
    let from = wind.from.map(|from| match from {
        WindFrom::Ahead => "from ahead".to_owned(),
        WindFrom::Behind => "from behind".to_owned(),
    });
    let on = wind.on.map(|course| format!("on the {course}"));
    [strong, from, on].into_iter().flatten().collect::<Vec<_>>().join(" ")
}
