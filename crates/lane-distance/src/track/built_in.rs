//! The tracks that come with the crate.

use crate::spec::track_spec::TrackSpec;
use crate::track::track::Track;

/// Name and JSON text of each built-in track.
const BUILT_IN: &[(&str, &str)] = &[
    ("standard", include_str!(concat!(env!("OUT_DIR"), "/tracks/standard.json"))),
    ("standard-6", include_str!(concat!(env!("OUT_DIR"), "/tracks/standard-6.json"))),
    ("double-bend-1", include_str!(concat!(env!("OUT_DIR"), "/tracks/double-bend-1.json"))),
    ("double-bend-2", include_str!(concat!(env!("OUT_DIR"), "/tracks/double-bend-2.json"))),
    ("double-bend-3", include_str!(concat!(env!("OUT_DIR"), "/tracks/double-bend-3.json"))),
    ("indoor-200", include_str!(concat!(env!("OUT_DIR"), "/tracks/indoor-200.json"))),
    ("oval-300", include_str!(concat!(env!("OUT_DIR"), "/tracks/oval-300.json"))),
    ("yards-440", include_str!(concat!(env!("OUT_DIR"), "/tracks/yards-440.json"))),
];

impl TrackSpec {
    /// The file of a built-in track, by its name.
    pub fn built_in_text(name: &str) -> Option<&'static str> {
        BUILT_IN.iter().find(|(known, _)| *known == name).map(|(_, text)| *text)
    }

    /// The description of a built-in track.
    pub fn built_in(name: &str) -> Option<Self> {
        let text = Self::built_in_text(name)?;
        // A track that does not parse never leaves the crate: a test builds every one.
        serde_json::from_str(text).ok()
    }
}

impl Track {
    /// The names of the built-in tracks.
    pub fn built_in_names() -> impl Iterator<Item = &'static str> {
        BUILT_IN.iter().map(|(name, _)| *name)
    }

    /// A built-in track.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// assert!((track.lap_m(LaneNumber::FIRST)? - 400.001).abs() < 0.001);
    /// # Ok::<(), lane_distance::LaneError>(())
    /// ```
    pub fn built_in(name: &str) -> Option<Self> {
        Self::build(&TrackSpec::built_in(name)?).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_track_can_be_built() {
        for &(name, text) in BUILT_IN {
            let spec: TrackSpec =
                serde_json::from_str(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(spec.name, name);
            assert!(!spec.source.is_empty(), "{name} names no source");
            Track::build(&spec).unwrap_or_else(|faults| panic!("{name}: {faults:?}"));
        }
    }
}
