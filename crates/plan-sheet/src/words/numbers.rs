//! Numbers as plans say them.

/// Metres without needless decimals.
pub(crate) fn metres(metres: f64) -> String {
    let text = format!("{metres:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Metres to the centimetre, without needless decimals.
pub(crate) fn to_cm(length_m: f64) -> String {
    metres((length_m * 100.0).round() / 100.0)
}

/// A duration as a stopwatch shows it.
pub(crate) fn clock(seconds: f64) -> String {
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

/// Steps to the half step.
pub(crate) fn steps(strides: f64) -> String {
    let halves = (strides * 2.0).round() as u64;
    match (halves / 2, halves % 2) {
        (0, 1) => "½".to_owned(),
        (whole, 0) => whole.to_string(),
        (whole, _) => format!("{whole}½"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_have_no_needless_decimals() {
        assert_eq!([1609.344, 200.0].map(metres), ["1609.344", "200"]);
        assert_eq!(to_cm(407.0378), "407.04");
    }

    #[test]
    fn durations_read_as_on_a_stopwatch() {
        let shown = [48.0, 48.25, 60.0, 90.0, 72.5, 179.97, 3661.0].map(clock);
        assert_eq!(shown, ["48 s", "48.3 s", "1:00", "1:30", "1:12.5", "3:00", "1:01:01"]);
    }

    #[test]
    fn steps_are_halved_at_most() {
        assert_eq!([9.95 / 0.85, 1.7 / 0.85, 0.4].map(steps), ["11½", "2", "½"]);
    }
}
