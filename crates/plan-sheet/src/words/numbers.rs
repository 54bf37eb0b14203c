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

/// A duration to the half minute where it lasts some minutes: `9½ min`.
pub(crate) fn minutes(seconds: f64) -> String {
    if seconds < 120.0 { clock(seconds) } else { format!("{} min", halves(seconds / 60.0)) }
}

/// How long after a time of day something is, beside which a stopwatch's time would be read as another: `19 min`.
pub(crate) fn after(seconds: f64) -> String {
    if seconds < 60.0 { clock(seconds.ceil()) } else { format!("{:.0} min", seconds / 60.0) }
}

/// Items one after the other: `2`, `2 and 1`, `3, 3 and 2`.
pub(crate) fn listed<T: ToString>(items: &[T]) -> String {
    let items: Vec<String> = items.iter().map(T::to_string).collect();
    match items.as_slice() {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        items => items.concat(),
    }
}

/// A number to the half: `11½`.
pub(crate) fn halves(number: f64) -> String {
    let halves = (number * 2.0).round() as u64;
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
    fn steps_and_minutes_are_halved_at_most() {
        assert_eq!([9.95 / 0.85, 1.7 / 0.85, 0.4].map(halves), ["11½", "2", "½"]);
        assert_eq!([72.0, 300.0, 572.8, 3900.0].map(minutes), ["1:12", "5 min", "9½ min", "65 min"]);
    }

    #[test]
    fn the_last_of_several_follows_an_and() {
        assert_eq!(
            [listed::<u8>(&[]), listed(&[2]), listed(&[2, 1]), listed(&[3, 3, 2])],
            ["", "2", "2 and 1", "3, 3 and 2"]
        );
    }
}
