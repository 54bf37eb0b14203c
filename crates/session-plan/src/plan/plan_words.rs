//! Numbers as plans say them.

/// Metres without needless decimals.
///
/// ```
/// assert_eq!(session_plan::plan_words::metres(1609.344), "1609.344");
/// assert_eq!(session_plan::plan_words::metres(200.0), "200");
/// ```
pub fn metres(metres: f64) -> String {
    let text = format!("{metres:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Metres to the centimetre, without needless decimals.
///
/// ```
/// assert_eq!(session_plan::plan_words::to_cm(407.0378), "407.04");
/// ```
pub fn to_cm(length_m: f64) -> String {
    metres((length_m * 100.0).round() / 100.0)
}

/// A duration as a stopwatch shows it.
///
/// ```
/// use session_plan::plan_words::clock;
///
/// let shown = [48.0, 48.25, 60.0, 90.0, 72.5, 179.97, 3661.0].map(clock);
/// assert_eq!(shown, ["48 s", "48.3 s", "1:00", "1:30", "1:12.5", "3:00", "1:01:01"]);
/// ```
pub fn clock(seconds: f64) -> String {
    let tenths = (seconds * 10.0).round() as u64;
    if tenths < 600 {
        return format!("{} s", metres(tenths as f64 / 10.0));
    }
    let (minutes, rest) = (tenths / 600, tenths % 600);
    let fraction = if rest % 10 == 0 { String::new() } else { format!(".{}", rest % 10) };
    if minutes < 60 {
        format!("{minutes}:{:02}{fraction}", rest / 10)
    } else {
        format!("{}:{:02}:{:02}{fraction}", minutes / 60, minutes % 60, rest / 10)
    }
}
