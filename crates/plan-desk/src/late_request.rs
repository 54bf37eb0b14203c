//! What has changed since the evening was written.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use session_plan::{Session, Since, TimeOfDay, Venue, Wind};
use workout_notation::visible_line;

use crate::problem::{Field, Problem, Problems};

/// What has changed since the evening was written.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LateRequest {
    /// When it starts, such as `18:30`.
    pub start: Option<String>,
    /// Groups that come late.
    pub groups: Vec<LateGroup>,
    /// The names of athletes who are absent.
    pub without: Vec<String>,
    /// Athletes who do fewer repetitions.
    pub reps: Vec<AthleteReps>,
    /// Lanes that have been closed.
    pub closed: Vec<u8>,
    /// Hazards that are in use.
    pub hazards: Vec<HazardSince>,
    /// The wind now, such as `3 m/s against on the home straight`.
    pub wind: Option<String>,
    /// Blocks that are left out, by their numbers in the plan that has them.
    pub skip: Vec<usize>,
}

/// A group that comes late.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LateGroup {
    /// Its name.
    pub group: String,
    /// When it begins, such as `18:20`.
    pub begins: String,
}

/// An athlete who does fewer repetitions.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AthleteReps {
    /// The athlete's name.
    pub name: String,
    /// How many repetitions of each block.
    pub reps: u32,
}

/// A hazard that is in use.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HazardSince {
    /// Its kind, or a word of it.
    pub hazard: String,
    /// From when on: `now`, or a time such as `18:30`.
    pub since: String,
}

impl LateRequest {
    /// Makes the changes, but for blocks that are left out and lanes that are closed.
    pub(crate) fn make(&self, session: &mut Session, venue: &Venue) -> Result<(), Problems> {
        let late = |field: Field| move |fault| Problems::from(Problem::late(field, &fault));
        let time = |field: Field, text: &str| {
            text.parse::<TimeOfDay>()
                .map(|TimeOfDay(time)| time)
                .map_err(|error| not_valid(field, text, &error))
        };
        if let Some(start) = &self.start {
            session.start_at(time(Field::Start, start)?).map_err(late(Field::Start))?;
        }
        let comes =
            self.groups.iter().map(|group| Ok((seen(&group.group), time(Field::Late, &group.begins)?)));
        session.come_late(&comes.collect::<Result<Vec<_>, Problems>>()?).map_err(late(Field::Late))?;
        for name in &self.without {
            session.leave_out(&seen(name)).map_err(late(Field::Without))?;
        }
        let reps: Vec<(String, u32)> = self.reps.iter().map(|one| (seen(&one.name), one.reps)).collect();
        if self.reps.iter().any(|one| one.reps == 0) {
            return Err(Problem::new(
                Field::Reps,
                "0 repetitions is nobody's training; mark the athlete absent",
            )
            .into());
        }
        session.do_fewer(&reps).map_err(late(Field::Reps))?;
        if let Some(text) = &self.wind {
            let wind = Wind::from_text(&seen(text));
            if wind.from.is_none() {
                let message =
                    "the wind needs a straight and a side, for example `3 m/s against on the home straight`";
                return Err(Problem::new(Field::Wind, message).into());
            }
            session.turn_wind(wind);
        }
        let hazards = self.hazards.iter().map(|begun| {
            let since = begun.since.parse().map_err(|error| not_valid(Field::Hazards, &begun.since, &error));
            since.map(|Since(from)| (seen(&begun.hazard), from))
        });
        let hazards = hazards.collect::<Result<Vec<_>, Problems>>()?;
        session.begin_hazards(venue, &hazards).map_err(late(Field::Hazards))
    }
}

/// A text with everything in it to be seen.
fn seen(text: &str) -> String {
    visible_line(text).into_owned()
}

fn not_valid(field: Field, text: &str, error: &dyn std::fmt::Display) -> Problems {
    Problem::new(field, format!("`{}` is {error}", visible_line(text))).into()
}
