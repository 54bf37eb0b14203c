//! The tracks that come with the crate.

use crate::spec::track_spec::TrackSpec;
use crate::track::track::Track;

/// Name and YAML text of each built-in track.
const BUILT_IN: &[(&str, &str)] = &[
    ("standard", include_str!("../../tracks/standard.yaml")),
    ("standard-6", include_str!("../../tracks/standard-6.yaml")),
    ("double-bend-1", include_str!("../../tracks/double-bend-1.yaml")),
    ("double-bend-2", include_str!("../../tracks/double-bend-2.yaml")),
    ("double-bend-3", include_str!("../../tracks/double-bend-3.yaml")),
    ("indoor-200", include_str!("../../tracks/indoor-200.yaml")),
    ("oval-300", include_str!("../../tracks/oval-300.yaml")),
    ("yards-440", include_str!("../../tracks/yards-440.yaml")),
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
        serde_yaml::from_str(text).ok()
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
                serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(spec.name, name);
            assert!(!spec.source.is_empty(), "{name} names no source");
            Track::build(&spec).unwrap_or_else(|faults| panic!("{name}: {faults:?}"));
        }
    }
}
