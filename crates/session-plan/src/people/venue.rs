//! A track with the rules and hours of its venue.

use lane_distance::{Key, MOST_LANES, Track, TrackFault, TrackFaultKind, TrackSpec};
use serde_yaml::Value;

use crate::files::fault::Fault;
use crate::files::follow::follows;
use crate::files::form::{self, Unsure};
use crate::files::form_words::{self, Wrong};
use crate::files::yaml::Yaml;
use crate::people::hours::Hours;
use crate::people::house_rules::{HouseRules, RuleFault};
use crate::people::timezone::Timezone;
use workout_notation::{Problems, SourceText};

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
/// let source = SourceText { name: "track.yaml".into(), text: text.into() };
/// let error = Venue::read(&source).expect_err("one straight is shorter");
/// assert!(error.to_string().starts_with("track.yaml:3:7: the path does not close"));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Venue {
    track: Track,
    /// The hours of each hazard of the track; none means always.
    hazard_hours: Vec<Vec<Hours>>,
    /// The rules that the venue posts.
    pub rules: HouseRules,
    /// The time zone of its clocks, if it is known.
    pub timezone: Option<Timezone>,
}

impl From<Track> for Venue {
    /// A track with no rules, whose hazards are always in use.
    fn from(track: Track) -> Self {
        let hazard_hours = vec![Vec::new(); track.hazards().len()];
        Self { track, hazard_hours, rules: HouseRules::default(), timezone: None }
    }
}

impl Venue {
    /// Reads a venue from the text of its track file.
    ///
    /// # Errors
    ///
    /// [`Problems`] with the place of everything that is wrong.
    pub fn read(source: &SourceText) -> Result<Self, Problems> {
        let mut yaml = Yaml::read(source)?;
        let (hazard_hours, mut faults) = take_hazard_hours(&mut yaml.value);
        let (timezone, more) = take_timezone(&mut yaml.value);
        faults.extend(more);
        let rules_at = [Key::from("house_rules")];
        let mut unsure = Unsure::default();
        let rules = match take(&mut yaml.value, "house_rules") {
            None => Some(HouseRules::default()),
            Some(mut rules) => {
                let read = form::typed::<HouseRules>(&mut rules, &rules_at);
                faults.extend(read.faults);
                unsure.extend(read.unsure);
                read.value
            }
        };
        let read = form::typed::<TrackSpec>(&mut yaml.value, &[]);
        faults.extend(read.faults.into_iter().map(with_own_keys));
        unsure.extend(read.unsure);
        let track = read.value.as_ref().map(Track::build).and_then(|built| match built {
            Ok(track) => Some(track),
            Err(more) => {
                faults.extend(more.into_iter().filter(|fault| !follows(fault, &unsure)).map(Fault::from));
                None
            }
        });
        if let (Some(rules), Some(spec)) = (&rules, &read.value) {
            for (index, fault) in rules.faults(most_lanes(spec)) {
                let at =
                    |name| vec![rules_at[0].clone(), Key::from("lanes"), Key::from(index), Key::from(name)];
                match fault {
                    RuleFault::NoLane { lane, outermost } => {
                        let kind = TrackFaultKind::NoLane { lane, outermost };
                        let fault = TrackFault { at: at("lanes"), kind };
                        faults.extend((!follows(&fault, &unsure)).then(|| Fault::from(fault)));
                    }
                    RuleFault::NoDistance => {
                        let message = "no run fits this rule: its distances exclude each other";
                        let at = at("up_to");
                        faults.extend((!unsure.holds(&at)).then(|| Fault::new(at, message)));
                    }
                }
            }
        }
        match (track, rules) {
            (Some(track), Some(rules)) if faults.is_empty() && yaml.is_sound() => {
                Ok(Self { track, hazard_hours, rules, timezone })
            }
            _ => Err(yaml.locate(faults)),
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
        self.track = self.track.with_closed(lanes)?;
        Ok(self)
    }

    /// The track with the hazards that are in use at some time of these hours; where they are not
    /// known, every hazard is taken to be in use.
    pub fn track_at(&self, hours: Option<&Hours>) -> Track {
        let mut in_use = self.hazard_hours.iter().map(|hazard| {
            hazard.is_empty() || hours.is_none_or(|hours| hazard.iter().any(|used| used.overlaps(hours)))
        });
        self.track.clone().with_hazards(|_| in_use.next().unwrap_or(true))
    }
}

/// How many lanes the widest course has; as many as there may be, where a number is out of range.
fn most_lanes(spec: &TrackSpec) -> u8 {
    let counts = [Some(spec.lanes), spec.home_straight.lanes, spec.back_straight.lanes];
    let counts = counts.into_iter().flatten();
    if counts.clone().all(|lanes| (1..=MOST_LANES).contains(&lanes)) {
        counts.fold(1, u8::max)
    } else {
        MOST_LANES
    }
}

/// The keys that are taken out before the geometry is read are known as well.
fn with_own_keys(mut fault: Fault) -> Fault {
    if !fault.message.starts_with(form_words::NO_KEY) {
        return fault;
    }
    let (name, known) = match fault.at.as_slice() {
        [Key::Name(name)] => (name, ["house_rules", "timezone"].as_slice()),
        [Key::Name(hazards), Key::Index(_), Key::Name(name)] if hazards == "hazards" => {
            (name, ["hours"].as_slice())
        }
        _ => return fault,
    };
    if let Some(near) = known.iter().find(|known| strsim::jaro_winkler(name, known) > 0.85) {
        fault.help = Some(format!("did you mean `{near}`?"));
    }
    fault
}

fn take(value: &mut Value, name: &str) -> Option<Value> {
    value.as_mapping_mut()?.remove(name)
}

/// Takes the time zone out: the geometry knows no time.
fn take_timezone(value: &mut Value) -> (Option<Timezone>, Option<Fault>) {
    let Some(name) = take(value, "timezone") else { return (None, None) };
    let fault = |message: String| Fault::new(vec![Key::from("timezone")], message);
    let read = match name.as_str() {
        Some(name) => name.parse::<Timezone>(),
        None => {
            let fault =
                fault("a time zone is a name".to_owned()).with_help("write for example `Europe/London`");
            return (None, Some(fault));
        }
    };
    match read {
        Ok(timezone) => (Some(timezone), None),
        Err(error) => {
            let help = match error.near {
                Some(near) => format!("did you mean `{near}`?"),
                None => "write a name of the IANA database, for example `Europe/London`".to_owned(),
            };
            (None, Some(fault(error.to_string()).with_help(help)))
        }
    }
}

/// Takes the hours out of the hazards: when a hazard is in use is no matter of the track's geometry.
fn take_hazard_hours(value: &mut Value) -> (Vec<Vec<Hours>>, Vec<Fault>) {
    let mut faults = Vec::new();
    let hazards = value.get_mut("hazards").and_then(Value::as_sequence_mut);
    let hours = hazards.into_iter().flatten().enumerate().map(|(index, hazard)| {
        let Some(hours) = take(hazard, "hours") else { return Vec::new() };
        let texts = match hours {
            Value::Sequence(items) => items,
            one => vec![one],
        };
        let is_one = texts.len() == 1;
        let mut read = Vec::new();
        for (item, text) in texts.into_iter().enumerate() {
            let mut at = vec![Key::from("hazards"), Key::from(index), Key::from("hours")];
            if !is_one {
                at.push(Key::from(item));
            }
            match serde_yaml::from_value::<Hours>(text) {
                Ok(hours) => read.push(hours),
                Err(error) => {
                    let (message, help) = form_words::words(&Wrong::of(&error.to_string()), &at);
                    faults.push(Fault { at, message, help });
                }
            }
        }
        read
    });
    let hours = hours.collect();
    (hours, faults)
}
