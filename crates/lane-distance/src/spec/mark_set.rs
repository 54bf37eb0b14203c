//! Sets of marks as data.
//!
//! A mark set is a YAML file under `marks/`; it is carried inside the crate as the same JSON. Rules are data: a new
//! set needs no code.

use std::sync::OnceLock;

use serde::Deserialize;

use crate::paint::mark::Mark;
use crate::spec::mark_spec::MarkSpec;

/// The sets that come with the crate: name and JSON text.
const BUILT_IN: &[(&str, &str)] = &[
    ("standard", include_str!(concat!(env!("OUT_DIR"), "/marks/standard.json"))),
    ("club lines", include_str!(concat!(env!("OUT_DIR"), "/marks/club-lines.json"))),
    ("age-group hurdles", include_str!(concat!(env!("OUT_DIR"), "/marks/age-group-hurdles.json"))),
    ("300 m hurdles", include_str!(concat!(env!("OUT_DIR"), "/marks/hurdles-300.json"))),
    ("former takeover zones", include_str!(concat!(env!("OUT_DIR"), "/marks/former-takeover-zones.json"))),
    ("small oval", include_str!(concat!(env!("OUT_DIR"), "/marks/small-oval.json"))),
    ("yards", include_str!(concat!(env!("OUT_DIR"), "/marks/yards.json"))),
];

/// A list of marks, with where they were published.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkSet {
    /// What a track file calls the set.
    pub set: String,
    /// Where the values were published, and whether they were read from a copy or from memory.
    pub source: String,
    /// The marks.
    pub marks: Vec<MarkSpec>,
}

impl MarkSet {
    /// The names of the sets that come with the crate.
    pub fn built_in_names() -> impl Iterator<Item = &'static str> {
        BUILT_IN.iter().map(|(name, _)| *name)
    }

    /// A set that comes with the crate.
    ///
    /// ```
    /// let set = lane_distance::spec::MarkSet::built_in("standard").expect("it comes with the crate");
    /// assert_eq!(set.marks[0].name, "finish line");
    /// ```
    pub fn built_in(name: &str) -> Option<&'static Self> {
        Some(&built_in(name)?.0)
    }

    /// The marks of a set that comes with the crate, as if it were listed first.
    pub(crate) fn built_in_marks(name: &str) -> Option<&'static [Mark]> {
        Some(&built_in(name)?.1)
    }
}

/// A set that comes with the crate and its marks, read once, when it is first asked for.
fn built_in(name: &str) -> Option<&'static (MarkSet, Vec<Mark>)> {
    type Read = Option<(MarkSet, Vec<Mark>)>;
    static READ: [OnceLock<Read>; BUILT_IN.len()] = [const { OnceLock::new() }; BUILT_IN.len()];
    let index = BUILT_IN.iter().position(|(known, _)| *known == name)?;
    let read = || {
        // A set that does not parse never leaves the crate: a test reads every one.
        let set: MarkSet = serde_json::from_str(BUILT_IN[index].1).ok()?;
        let marks = set.marks.iter().map(|spec| spec.marks(0, &[])).collect::<Result<Vec<_>, _>>().ok()?;
        Some((set, marks.concat()))
    };
    READ[index].get_or_init(read).as_ref()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_that_comes_with_the_crate_can_be_read() {
        for &(name, text) in BUILT_IN {
            let set: MarkSet = serde_json::from_str(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(set.set, name);
            assert!(!set.source.is_empty(), "{name} names no source");
            for spec in &set.marks {
                let marks = spec.marks(0, &[]).unwrap_or_else(|faults| panic!("{name}: {faults:?}"));
                assert!(marks.iter().all(|mark| !mark.name.contains('{')), "{name}: {marks:?}");
                assert!(!spec.purpose.is_empty(), "{name}: {} has no purpose", spec.name);
            }
        }
    }
}
