//! Units of length and of time.

/// How far a mile is, in metres: by its definition.
pub const MILE_M: f64 = 1609.344;

/// A unit that is written as a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unit {
    Metre,
    Kilometre,
    Yard,
    Mile,
    Second,
    Minute,
    Hour,
}

/// Words for minutes.
pub(crate) const MINUTES: &[&str] = &["min", "mins", "minute", "minutes"];

const UNITS: [(&[&str], Unit); 7] = [
    (&["m", "metre", "metres", "meter", "meters", "mtr", "mtrs"], Unit::Metre),
    (&["km", "k", "kms", "kilometre", "kilometres", "kilometer", "kilometers"], Unit::Kilometre),
    (&["yd", "yds", "yard", "yards", "y"], Unit::Yard),
    (&["mile", "miles", "mi"], Unit::Mile),
    (&["s", "sec", "secs", "second", "seconds"], Unit::Second),
    (MINUTES, Unit::Minute),
    (&["h", "hour", "hours"], Unit::Hour),
];

impl Unit {
    /// All words for units, in small letters.
    pub(crate) fn words() -> impl Iterator<Item = (&'static str, Self)> {
        UNITS.iter().flat_map(|(words, unit)| words.iter().map(|word| (*word, *unit)))
    }

    /// Its length in metres; nothing for a unit of time.
    pub(crate) const fn metres(self) -> Option<f64> {
        match self {
            Self::Metre => Some(1.0),
            Self::Kilometre => Some(1000.0),
            Self::Yard => Some(0.9144),
            Self::Mile => Some(MILE_M),
            Self::Second | Self::Minute | Self::Hour => None,
        }
    }

    /// Its length in seconds; nothing for a unit of length.
    pub(crate) const fn seconds(self) -> Option<f64> {
        match self {
            Self::Second => Some(1.0),
            Self::Minute => Some(60.0),
            Self::Hour => Some(3600.0),
            Self::Metre | Self::Kilometre | Self::Yard | Self::Mile => None,
        }
    }
}
