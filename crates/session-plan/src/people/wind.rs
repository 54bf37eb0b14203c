//! The wind of an evening.

use lane_distance::Course;
use schemars::JsonSchema;
use serde::Deserialize;

/// The wind: on which straight, from where as its runners feel it, and how strong.
///
/// ```
/// use lane_distance::Course;
/// use session_plan::{Wind, WindFrom};
///
/// let wind = Wind::from_text("3 m/s against on the home straight");
/// assert_eq!((wind.on, wind.from, wind.m_s), (Some(Course::HomeStraight), Some(WindFrom::Ahead), Some(3.0)));
/// // What is from ahead on one straight is from behind on the other.
/// assert_eq!(wind.felt_on(Course::BackStraight), Some(WindFrom::Behind));
/// assert_eq!(Wind::from_text("gusty").felt_on(Course::HomeStraight), None);
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wind {
    /// The words that were written, where it was written in words.
    pub words: Option<String>,
    /// The straight that `from` speaks of.
    pub on: Option<Course>,
    /// From where it blows there, for those who run in the direction of running.
    pub from: Option<WindFrom>,
    /// How strong, in metres a second.
    pub m_s: Option<f64>,
}

/// From where the wind blows, as a runner in the direction of running feels it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum WindFrom {
    /// From ahead.
    Ahead,
    /// From behind.
    Behind,
}

impl Wind {
    /// The wind as it is said in words; what they do not say stays unknown, and so does what they say of several
    /// straights.
    pub fn from_text(text: &str) -> Self {
        let lower = text.to_lowercase();
        let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric() && !"./".contains(c)).collect();
        let has = |names: &[&str]| words.iter().any(|word| names.contains(word));
        let one = |a: bool, b: bool| a != b;
        let (ahead, behind) = (
            has(&["against", "ahead", "head", "headwind", "front", "face"]),
            has(&["behind", "tail", "tailwind", "following"]),
        );
        let (home, back) = (has(&["home"]), has(&["back"]));
        let is_clear = one(ahead, behind) && one(home, back);
        let m_s = words.windows(2).find(|pair| pair[1] == "m/s").and_then(|pair| pair[0].parse().ok());
        let glued = || words.iter().find_map(|word| word.strip_suffix("m/s")?.parse().ok());
        Self {
            words: Some(text.to_owned()),
            on: is_clear.then_some(if home { Course::HomeStraight } else { Course::BackStraight }),
            from: is_clear.then_some(if ahead { WindFrom::Ahead } else { WindFrom::Behind }),
            m_s: m_s.or_else(glued).filter(|m_s: &f64| m_s.is_finite() && *m_s >= 0.0),
        }
    }

    /// From where it blows on a straight, for those who run in the direction of running; nothing where that is not
    /// known.
    pub fn felt_on(&self, course: Course) -> Option<WindFrom> {
        let (on, from) = (self.on?, self.from?);
        match (on == course, from) {
            (true, from) => Some(from),
            (false, WindFrom::Ahead) => Some(WindFrom::Behind),
            (false, WindFrom::Behind) => Some(WindFrom::Ahead),
        }
    }
}
