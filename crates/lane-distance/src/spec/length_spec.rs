//! Lengths as people write them in track files and mark sets.

use serde::de::Error;
use serde::{Deserialize, Deserializer};

/// A length, held in metres; read from a plain number of metres, or from text with a unit.
///
/// ```
/// use lane_distance::spec::LengthSpec;
///
/// assert_eq!("110 yd".parse::<LengthSpec>()?.metres(), 100.584);
/// assert_eq!("4 ft 6 in".parse::<LengthSpec>()?.metres(), 1.3716);
/// assert_eq!("1.22 m".parse::<LengthSpec>()?.metres(), 1.22);
/// assert!("4 furlongs".parse::<LengthSpec>().is_err());
/// # Ok::<(), lane_distance::spec::LengthError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Deserialize)]
// A reader with its own faults knows by this name what was expected.
#[serde(rename = "Length")]
pub struct LengthSpec(#[serde(deserialize_with = "metres")] f64);

/// A text is not a length.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{0}` is not a length; write metres as a number (84.39), or a unit with it (84.39 m, 110 yd, 4 ft, 4 ft 6 in)"
)]
pub struct LengthError(String);

impl LengthSpec {
    /// A length in metres.
    pub const fn from_metres(metres: f64) -> Self {
        Self(metres)
    }

    /// The length in metres.
    pub const fn metres(self) -> f64 {
        self.0
    }
}

impl std::str::FromStr for LengthSpec {
    type Err = LengthError;

    fn from_str(text: &str) -> Result<Self, LengthError> {
        let wrong = || LengthError(text.to_owned());
        let mut rest = text.trim();
        let mut metres = 0.0;
        if rest.is_empty() {
            return Err(wrong());
        }
        while !rest.is_empty() {
            let number_ends = rest
                .find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | '-' | '+'))
                .unwrap_or(rest.len());
            let number: f64 = rest[..number_ends].parse().map_err(|_| wrong())?;
            let after = rest[number_ends..].trim_start();
            let unit_ends = after.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(after.len());
            metres += number
                * match after[..unit_ends].to_ascii_lowercase().as_str() {
                    "" | "m" => 1.0,
                    "cm" => 0.01,
                    "km" => 1000.0,
                    "yd" => 0.9144,
                    "ft" => 0.3048,
                    "in" => 0.0254,
                    _ => return Err(wrong()),
                };
            rest = after[unit_ends..].trim_start();
        }
        Ok(Self(metres))
    }
}

/// A length as it is written.
#[derive(Deserialize)]
#[serde(untagged, expecting = "a length: metres as a number, or text such as \"110 yd\" or \"4 ft\"")]
enum NumberOrText {
    Metres(f64),
    Text(String),
}

fn metres<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    match NumberOrText::deserialize(deserializer)? {
        NumberOrText::Metres(metres) => Ok(metres),
        NumberOrText::Text(text) => text.parse().map(LengthSpec::metres).map_err(D::Error::custom),
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for LengthSpec {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": "A length: metres as a number, or text such as \"110 yd\" or \"4 ft 6 in\".",
            "type": ["number", "string"],
            "pattern": r"^\s*([-+]?[0-9.]+\s*([mM]|[cC][mM]|[kK][mM]|[yY][dD]|[fF][tT]|[iI][nN])?\s*)+$"
        })
    }
}
