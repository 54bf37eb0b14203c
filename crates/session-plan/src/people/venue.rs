//! A track with the rules and hours of its venue.

use lane_distance::spec::{MarkSpec, OneOrMany, TrackSpec};
use lane_distance::{HazardKind, Key, LaneNumber, MOST_LANES, Track};
use workout_notation::SourceText;

use crate::files::file_fault::{FileFaultKind, FileFaults};
use crate::files::limit::Limit;
use crate::files::reader::{KeysApart, Reader};
use crate::files::yaml_text::YamlText;
use crate::people::hours::Hours;
use crate::people::house_rules::HouseRules;
use crate::people::lane_closure::LaneClosure;
use crate::people::late_fault::LateFault;
use crate::people::timezone::Timezone;

/// The keys of a track file that the geometry does not know.
const VENUE_KEYS: KeysApart = &[("TrackSpec", &["house_rules", "timezone"]), ("Hazard", &["hours"])];

/// A track with the rules and hours of its venue: what a track file describes.
///
/// ```
/// use session_plan::Venue;
/// use workout_notation::SourceText;
///
/// let text = "
/// name: a short one
/// path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.00 }]
/// lanes: 6
/// lane_width: 1.22
/// ";
/// let source = SourceText::new("track.yaml", text);
/// let error = Venue::read(&source).expect_err("one straight is shorter");
/// assert_eq!(error.to_string(), "track.yaml:3: 1 fault");
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Venue {
    track: Track,
    /// The hours of each hazard of the track; none means always.
    hazard_hours: Vec<Vec<Hours>>,
    /// The lanes that are closed for a part of the evening, and when.
    closures: Vec<(Vec<LaneNumber>, Hours)>,
    /// The rules that the venue posts.
    pub rules: HouseRules,
    /// The time zone of its clocks, if it is known.
    pub timezone: Option<Timezone>,
}

impl From<Track> for Venue {
    /// A track with no rules, whose hazards are always in use.
    fn from(track: Track) -> Self {
        let hazard_hours = vec![Vec::new(); track.hazards().len()];
        Self { track, hazard_hours, closures: Vec::new(), rules: HouseRules::default(), timezone: None }
    }
}

impl Venue {
    /// Reads a venue from the text of its track file.
    ///
    /// # Errors
    ///
    /// [`FileFaults`] with the place of everything that is wrong.
    pub fn read(source: &SourceText) -> Result<Self, FileFaults> {
        Self::from_yaml(YamlText::read(source.clone()))
    }

    /// Reads a venue from the YAML of its track file.
    ///
    /// # Errors
    ///
    /// The same.
    pub fn from_yaml(yaml: YamlText) -> Result<Self, FileFaults> {
        let (source, document) = yaml.into_document()?;
        let wrong = |faults| FileFaults::new(source.clone(), faults);
        let reader = Reader::new(&document, VENUE_KEYS);
        let spec = reader.read::<TrackSpec>(&[]);
        let rules = reader.read::<HouseRules>(&[Key::from("house_rules")]).unwrap_or_default();
        let timezone = reader.read::<Timezone>(&[Key::from("timezone")]);
        let hours = |index: usize| {
            let at = [Key::from("hazards"), Key::from(index), Key::from("hours")];
            reader.read::<OneOrMany<Hours>>(&at).map_or_else(Vec::new, |hours| hours.as_slice().to_vec())
        };
        let hazards = spec.as_ref().map_or(0, |spec| spec.hazards.len());
        let hazard_hours: Vec<Vec<Hours>> = (0..hazards).map(hours).collect();
        let (mut faults, others, unsure) = reader.into_faults();
        let wrong = |faults| wrong(faults).and_more(others);
        let Some(spec) = spec else { return Err(wrong(faults)) };
        // What is too much is not looked at any further.
        let too_much = too_much(&spec);
        if !too_much.is_empty() {
            faults.extend(too_much.into_iter().map(|fault| document.fault(fault)));
            return Err(wrong(faults));
        }
        let built = Track::build(&spec);
        let more = built.as_ref().err().into_iter().flatten();
        let more = more.map(|fault| (fault.at.clone(), FileFaultKind::Track(fault.kind.clone())));
        let more = more.chain(rules.faults(spec.most_lanes(&mut Vec::new()).unwrap_or(MOST_LANES)));
        let more = more.filter(|(at, kind)| !unsure.explains(at, kind));
        faults.extend(more.map(|fault| document.fault(fault)));
        match built {
            Ok(track) if faults.is_empty() => {
                Ok(Self { track, hazard_hours, closures: Vec::new(), rules, timezone })
            }
            _ => Err(wrong(faults)),
        }
    }

    /// The track, with all its hazards.
    pub fn track(&self) -> &Track {
        &self.track
    }

    /// The same venue with more lanes closed.
    ///
    /// # Errors
    ///
    /// [`lane_distance::LaneError`] where the track has no such lane.
    pub fn with_closed(mut self, lanes: &[u8]) -> Result<Self, lane_distance::LaneError> {
        let lanes = lanes.iter().map(|&lane| self.track.lane_number(lane)).collect::<Result<Vec<_>, _>>()?;
        self.track = self.track.with_closed(&lanes)?;
        Ok(self)
    }

    /// The same venue with lanes closed that its track has.
    pub(crate) fn with_lanes_closed(mut self, lanes: &[LaneNumber]) -> Self {
        // A lane that the track does not have is closed already.
        self.track = self.track.clone().with_closed(lanes).unwrap_or(self.track);
        self
    }

    /// The same venue with lanes closed for a part of the evening.
    pub(crate) fn with_closures(mut self, closures: &[LaneClosure]) -> Self {
        self.closures.extend(closures.iter().map(|closure| {
            let lanes = closure.lanes.iter().filter_map(|&lane| self.track.lane_number(lane).ok());
            (lanes.collect(), closure.hours())
        }));
        self
    }

    /// The same venue with its closed lanes open.
    pub(crate) fn with_all_open(mut self) -> Self {
        self.track = self.track.with_all_open();
        self
    }

    /// The same venue with the hazards of a kind in use in these hours as well.
    pub(crate) fn with_hazard_in(mut self, kind: HazardKind, hours: Hours) -> Self {
        for (hazard, used) in self.track.hazards().iter().zip(&mut self.hazard_hours) {
            // One without hours is always in use.
            if hazard.kind == kind && !used.is_empty() {
                used.push(hours);
            }
        }
        self
    }

    /// The hazard of the track that a name means: its kind, or a word of it that fits no other.
    pub(crate) fn hazard_called(&self, name: &str) -> Result<HazardKind, LateFault> {
        let mut hazards: Vec<HazardKind> = Vec::new();
        for hazard in self.track.hazards() {
            if !hazards.contains(&hazard.kind) {
                hazards.push(hazard.kind);
            }
        }
        let asked = name.trim().to_lowercase();
        let words = |text: &str| -> Vec<String> {
            text.split([' ', '-']).filter(|word| !word.is_empty()).map(str::to_owned).collect()
        };
        let (asked_words, is_kind) = (words(&asked), |kind: &&HazardKind| kind.to_string() == asked);
        if let Some(kind) = hazards.iter().find(is_kind) {
            return Ok(*kind);
        }
        let fits = |kind: &HazardKind| {
            let known = words(&kind.to_string());
            !asked_words.is_empty() && asked_words.iter().all(|word| known.contains(word))
        };
        match hazards.iter().copied().filter(fits).collect::<Vec<_>>().as_slice() {
            [only] => Ok(*only),
            [] => Err(LateFault::NoHazard { name: name.trim().to_owned(), hazards }),
            several => {
                Err(LateFault::SeveralHazards { name: name.trim().to_owned(), hazards: several.to_vec() })
            }
        }
    }

    /// The track with the hazards that are in use at some time of these hours; where they are not
    /// known, every hazard is taken to be in use. Lanes that are closed for a part of the hours are open on it.
    pub fn track_at(&self, hours: Option<&Hours>) -> Track {
        let Some(hours) = hours else { return self.track_with(&self.all_in_the_way()) };
        let mut in_the_way = self.in_the_way(hours);
        let of_lanes = in_the_way.iter_mut().skip(self.hazard_hours.len());
        for (is_closed, (_, closed)) in of_lanes.zip(&self.closures) {
            *is_closed = closed.from <= hours.from && closed.to >= hours.to;
        }
        self.track_with(&in_the_way)
    }

    /// What is in the way at some time of these hours: each hazard, by its place on the track, and behind them the lanes
    /// that are closed for a part of the evening.
    pub(crate) fn in_the_way(&self, hours: &Hours) -> Vec<bool> {
        let is_used =
            |hazard: &Vec<Hours>| hazard.is_empty() || hazard.iter().any(|used| used.overlaps(hours));
        let is_closed = |(_, closed): &(Vec<LaneNumber>, Hours)| closed.overlaps(hours);
        self.hazard_hours.iter().map(is_used).chain(self.closures.iter().map(is_closed)).collect()
    }

    /// The track with these in the way only.
    pub(crate) fn track_with(&self, in_the_way: &[bool]) -> Track {
        let mut in_use = in_the_way.iter().copied();
        let track = self.track.clone().with_hazards(|_| in_use.next().unwrap_or(true));
        let closed = self.closures.iter().zip(in_use).filter(|(_, is_closed)| *is_closed);
        let lanes: Vec<LaneNumber> = closed.flat_map(|((lanes, _), _)| lanes).copied().collect();
        // All of them are lanes of the track.
        track.clone().with_closed(&lanes).unwrap_or(track)
    }

    /// What is in the way at all times.
    pub(crate) fn always_in_the_way(&self) -> Vec<bool> {
        let closures = self.closures.iter().map(|_| false);
        self.hazard_hours.iter().map(Vec::is_empty).chain(closures).collect()
    }

    /// Everything that is in the way at some time.
    pub(crate) fn all_in_the_way(&self) -> Vec<bool> {
        vec![true; self.hazard_hours.len() + self.closures.len()]
    }

    /// Whether something is in the way at some times and not at others.
    pub(crate) fn has_hours(&self) -> bool {
        !self.closures.is_empty() || self.hazard_hours.iter().any(|hours| !hours.is_empty())
    }
}

/// What there is more of than a track may have, and the keys that lead to it.
fn too_much(spec: &TrackSpec) -> Vec<(Vec<Key>, FileFaultKind)> {
    let places = |mark: &MarkSpec| {
        let rows = [&mark.to_finish, &mark.before_finish, &mark.across].into_iter().flatten();
        let of_hurdles = mark.hurdles.map_or(0, |hurdles| usize::from(hurdles.count));
        (of_hurdles + rows.map(|row| row.as_slice().len()).sum::<usize>()).max(1)
    };
    let of_marks = |key: &str| vec![Key::from("marks"), Key::from(key)];
    [
        (vec![Key::from("name")], Limit::NameLetters, spec.name.chars().count()),
        (vec![Key::from("path")], Limit::Pieces, spec.path.len()),
        (vec![Key::from("hazards")], Limit::Hazards, spec.hazards.len()),
        (of_marks("own"), Limit::Marks, spec.marks.own.iter().map(places).sum()),
        (of_marks("worn"), Limit::WornMarks, spec.marks.worn.len()),
    ]
    .into_iter()
    .filter(|(_, limit, found)| *found > limit.most())
    .map(|(at, limit, _)| (at, FileFaultKind::TooMuch(limit)))
    .collect()
}
