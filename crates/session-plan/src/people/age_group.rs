//! Age groups, and how fast they are where nothing else is known.

use std::fmt;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::Deserialize;

/// An age group: under 11 to under 20, senior, or masters by sex and age, such as `M50` or `W60`.
///
/// ```
/// use session_plan::AgeGroup;
///
/// assert_eq!("u13".parse(), Ok(AgeGroup::Under(13)));
/// assert_eq!("W60".parse(), Ok(AgeGroup::Masters(60)));
/// assert!("U12".parse::<AgeGroup>().is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(try_from = "Written")]
#[schemars(description = "An age group: U11, U13, U15, U17, U20, senior, or masters such as M50 or W60.")]
pub enum AgeGroup {
    /// Younger than this, in years.
    Under(u8),
    /// Neither young nor masters.
    Senior,
    /// At least so old, in years. The sex is not told apart: the times that it is used for are a club's, of everybody.
    Masters(u8),
}

/// Why a text is not an age group.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not an age group; write U11, U13, U15, U17, U20, senior, or for example M50 or W60")]
pub struct AgeGroupError;

/// Those who are under an age, and how much longer they take than a senior of their club, as a factor of the time. From
/// memory and common practice, no source; it only has to be near enough for a timetable.
const UNDER: [(u8, f64); 5] = [(11, 1.35), (13, 1.22), (15, 1.12), (17, 1.05), (20, 1.0)];

/// The masters' age groups begin at these ages, in years, in steps of five.
const MASTERS: std::ops::RangeInclusive<u8> = 35..=95;

/// How much longer masters take for each year after 35, and for each after 70, as a part of the time. From memory and
/// common practice, no source.
const A_YEAR: (f64, f64) = (0.01, 0.03);

impl AgeGroup {
    /// How much longer than a senior of the club it takes, as a factor of the time.
    pub(crate) fn slower(self) -> f64 {
        match self {
            Self::Under(age) => {
                UNDER.iter().find(|(under, _)| *under == age).map_or(1.0, |(_, slower)| *slower)
            }
            Self::Senior => 1.0,
            Self::Masters(age) => {
                let (after_35, after_70) = (f64::from(age.clamp(35, 70) - 35), f64::from(age.max(70) - 70));
                1.0 + after_35 * A_YEAR.0 + after_70 * A_YEAR.1
            }
        }
    }
}

impl AgeGroup {
    /// The age group that a name has in it, as `U13` or `U13 girls` do; nothing where it has none, or several.
    ///
    /// ```
    /// use session_plan::AgeGroup;
    ///
    /// assert_eq!(AgeGroup::in_name("U13 girls"), Some(AgeGroup::Under(13)));
    /// assert_eq!(AgeGroup::in_name("U13 and U15"), None);
    /// assert_eq!(AgeGroup::in_name("sprinters"), None);
    /// ```
    pub fn in_name(name: &str) -> Option<Self> {
        let mut found =
            name.split(|letter: char| !letter.is_alphanumeric()).filter_map(|word| word.parse().ok());
        found.next().filter(|_| found.next().is_none())
    }
}

impl FromStr for AgeGroup {
    type Err = AgeGroupError;

    fn from_str(text: &str) -> Result<Self, AgeGroupError> {
        let text = text.trim().to_lowercase();
        if text == "senior" {
            return Ok(Self::Senior);
        }
        let age = |letter: char| text.strip_prefix(letter)?.parse::<u8>().ok();
        let under = age('u').filter(|age| UNDER.iter().any(|(under, _)| under == age));
        let masters = age('m').or_else(|| age('w')).filter(|age| MASTERS.contains(age) && age % 5 == 0);
        under.map(Self::Under).or(masters.map(Self::Masters)).ok_or(AgeGroupError)
    }
}

impl fmt::Display for AgeGroup {
    /// As a file writes it; masters of either sex have the same times.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Under(age) => write!(f, "U{age}"),
            Self::Senior => f.write_str("senior"),
            Self::Masters(age) => write!(f, "M{age}"),
        }
    }
}

/// As a file writes it; the reader of files knows it by this name.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "AgeGroup")]
#[schemars(extend("pattern" = r"^\s*([Uu](11|13|15|17|20)|[Ss]enior|[MmWw][3-9][05])\s*$"))]
struct Written(String);

impl TryFrom<Written> for AgeGroup {
    type Error = AgeGroupError;

    fn try_from(written: Written) -> Result<Self, AgeGroupError> {
        written.0.parse()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_older_children_are_and_the_younger_masters_are_the_faster_they_run() {
        let slower = |name: &str| name.parse::<AgeGroup>().expect(name).slower();
        let young: Vec<f64> = ["U11", "U13", "U15", "U17", "U20"].map(slower).to_vec();
        assert!(young.windows(2).all(|pair| pair[0] > pair[1]), "{young:?}");
        let masters: Vec<f64> = ["Senior", "M40", "W50", "M70", "W85"].map(slower).to_vec();
        assert!(masters.windows(2).all(|pair| pair[0] < pair[1]), "{masters:?}");
        assert_eq!(slower("m35"), 1.0);
    }

    #[test]
    fn what_is_no_age_group_is_refused() {
        for text in ["", "13", "U12", "M52", "M30", "W100", "old", "U", "M"] {
            assert_eq!(text.parse::<AgeGroup>(), Err(AgeGroupError), "{text}");
        }
    }
}
