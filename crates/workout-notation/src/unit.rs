//! Units of length and of time.

/// A unit that is written as a word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Unit {
    /// Of length, in metres.
    Length(f64),
    /// Of time, in seconds.
    Time(f64),
}

/// Words for minutes.
pub(crate) const MINUTES: &[&str] = &["min", "mins", "minute", "minutes"];

const UNITS: [(&[&str], Unit); 7] = [
    (&["m", "metre", "metres", "meter", "meters", "mtr", "mtrs"], Unit::Length(1.0)),
    (&["km", "k", "kms", "kilometre", "kilometres", "kilometer", "kilometers"], Unit::Length(1000.0)),
    (&["yd", "yds", "yard", "yards", "y"], Unit::Length(0.9144)),
    (&["mile", "miles", "mi"], Unit::Length(1609.344)),
    (&["s", "sec", "secs", "second", "seconds"], Unit::Time(1.0)),
    (MINUTES, Unit::Time(60.0)),
    (&["h", "hour", "hours"], Unit::Time(3600.0)),
];

impl Unit {
    /// All words for units, in small letters.
    pub(crate) fn words() -> impl Iterator<Item = (&'static str, Self)> {
        UNITS.iter().flat_map(|(words, unit)| words.iter().map(|word| (*word, *unit)))
    }
}
