//! The keys of a session file.

use std::collections::BTreeMap;

use chrono::Datelike;
use lane_distance::Key;
use schemars::JsonSchema;
use serde::Deserialize;
use workout_notation::Problem;

use crate::files::file_fault::{FileFaultKind, Named, SessionNumber};
use crate::files::limit::Limit;
use crate::files::spec::block_spec::{BlockSpec, blocks_schema};
use crate::files::spec::closure_spec::ClosureSpec;
use crate::files::spec::group_spec::{BestsSpec, GroupSpec, bests};
use crate::files::spec::quantities::{Date, Name, RaceDistance, Time};
use crate::files::spec::squad_spec::SquadSpec;
use crate::files::spec::wind_spec::WindSpec;
use crate::files::text_places::TextPlaces;
use crate::people::bests::RIEGEL_EXPONENT;
use crate::people::fastest::slowest_s;
use crate::people::hours::Hours;
use crate::people::late_changes::LateChanges;
use crate::people::late_fault::LateFault;
use crate::people::page_address::PageAddress;
use crate::people::session::{Group, Session};
use crate::people::since::Since;
use crate::people::time_of_day::TimeOfDay;
use crate::plan::cone::Cones;
use crate::plan::pairing::Prefer;

/// A session file.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SessionSpec {
    /// What the session is called.
    #[schemars(extend("maxLength" = Limit::NameLetters.most()))]
    pub(crate) title: String,
    /// The day, such as 2027-04-13.
    #[serde(default)]
    pub(crate) date: Option<Date>,
    /// When the track is booked, such as 18:00-19:30.
    #[serde(default)]
    pub(crate) hours: Option<Hours>,
    /// When it starts, where no booking is given or that is not its beginning, such as 18:30.
    #[serde(default)]
    pub(crate) start: Option<TimeOfDay>,
    /// A built-in track, or a track file beside this one.
    #[serde(default)]
    pub(crate) track: Option<String>,
    /// Lanes closed for this session, on top of those that the track closes.
    #[serde(default)]
    pub(crate) closed_lanes: Vec<u8>,
    /// Lanes closed for a part of the evening.
    #[serde(default)]
    #[schemars(extend("maxItems" = Limit::Items.most()))]
    pub(crate) lane_closures: Vec<ClosureSpec>,
    /// The wind, in words or as data: `{ on: home straight, from: ahead, m_s: 3 }`.
    #[serde(default)]
    pub(crate) wind: Option<WindSpec>,
    /// Which starts and finishes to prefer.
    #[serde(default)]
    pub(crate) prefer: Option<Prefer>,
    /// Which places get a cone; by default those off the paint.
    #[serde(default)]
    pub(crate) cones: Option<Cones>,
    /// The walker's stride in metres, for setting out without a tape.
    #[serde(default)]
    pub(crate) stride: Option<f64>,
    /// The break between two blocks.
    #[serde(default)]
    pub(crate) between_blocks: Option<Time>,
    /// Best times by race distance, for targets.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, Time>")]
    pub(crate) bests: BestsSpec,
    /// Riegel's exponent, which carries best times to other distances.
    #[serde(default)]
    pub(crate) riegel_exponent: Option<f64>,
    /// How squads share lanes and time.
    #[serde(default)]
    pub(crate) squad: SquadSpec,
    /// Whether to plan targets that nobody has ever run, and cycles shorter than their run.
    #[serde(default)]
    pub(crate) force: bool,
    /// Where the page of the session is published, such as https://example.org/tuesday.html; the printed sheet has a
    /// code of it to scan.
    #[serde(default)]
    pub(crate) page: Option<PageAddress>,
    /// Notes for the sheet.
    #[serde(default)]
    #[schemars(extend("maxItems" = Limit::Items.most()))]
    pub(crate) notes: Vec<String>,
    /// The blocks that all groups do together before their own, such as a warm-up.
    #[serde(default)]
    #[schemars(schema_with = "blocks_schema")]
    pub(crate) before_groups: Vec<BlockSpec>,
    /// The training groups.
    #[serde(default)]
    #[schemars(extend("maxItems" = Limit::Groups.most()))]
    pub(crate) groups: Vec<GroupSpec>,
    /// The blocks that all groups do together after their own, such as a cool-down.
    #[serde(default)]
    #[schemars(schema_with = "blocks_schema")]
    pub(crate) after_groups: Vec<BlockSpec>,
    /// The names of those who are absent.
    #[serde(default)]
    pub(crate) without: Vec<Name>,
    /// Hazards of the track that have come into use, each with `now` or a time.
    #[serde(default)]
    pub(crate) hazards: BTreeMap<String, Since>,
    /// The workout, a line of the notation for each block.
    #[serde(default)]
    #[schemars(schema_with = "blocks_schema")]
    pub(crate) blocks: Vec<BlockSpec>,
}

/// The shortest race that a file can name, in metres.
const SHORTEST_RACE_M: f64 = 10.0;

/// What is wrong with a text of a session file: the keys that lead to it, and why.
pub(crate) type SpecFault = (Vec<Key>, FileFaultKind);

impl SessionSpec {
    /// The session that is described, without the blocks that are wrong, and what is wrong.
    pub(crate) fn session(&self) -> (Session, TextPlaces, Vec<SpecFault>) {
        let mut faults = self.faults();
        let exponent = self.riegel_exponent.unwrap_or(RIEGEL_EXPONENT);
        let mut places = TextPlaces::default();
        let mut count = 0;
        let mut blocks_of = |texts: &[BlockSpec], list: &'static str, group: Option<usize>| {
            let mut blocks = Vec::with_capacity(texts.len());
            for (index, text) in texts.iter().enumerate() {
                if count > Limit::Blocks.most() {
                    break;
                }
                let group_keys = group.map(|group| [Key::from("groups"), Key::from(group)]);
                let keys = group_keys.into_iter().flatten().chain([Key::from(list), Key::from(index)]);
                let at: Vec<Key> = keys.collect();
                match text.blocks() {
                    Ok(read) => {
                        count += read.len();
                        if count > Limit::Blocks.most() {
                            faults.push((at, FileFaultKind::TooMuch(Limit::Blocks)));
                            break;
                        }
                        places.add(group, &at, &read);
                        blocks.extend(read);
                    }
                    Err(problems) => {
                        let fault = |problem: Problem| (at.clone(), FileFaultKind::Notation(problem));
                        faults.extend(problems.into_iter().map(fault));
                    }
                }
            }
            blocks
        };
        let mut blocks = blocks_of(&self.before_groups, "before_groups", None);
        let before_groups = blocks.len();
        blocks.extend(blocks_of(&self.blocks, "blocks", None));
        let after = blocks_of(&self.after_groups, "after_groups", None);
        let after_groups = after.len();
        blocks.extend(after);
        let groups = self.groups.iter().enumerate().map(|(index, group)| Group {
            name: group.name.clone(),
            athletes: group.athletes.iter().map(|athlete| athlete.athlete(exponent)).collect(),
            age: group.age,
            bests: bests(&group.bests, exponent),
            lanes: group.lanes.clone(),
            blocks: group.blocks.as_ref().map(|texts| blocks_of(texts, "blocks", Some(index))),
            start: group.start.map(|start| start.0),
            late: group.late.map(|late| late.0),
            relay: group.relay(),
        });
        let mut session = Session {
            groups: groups.collect(),
            title: self.title.clone(),
            date: self.date.map(|date| date.0),
            hours: self.hours,
            starts: self.start.filter(|_| self.hours.is_none()).map(|start| start.0),
            blocks,
            before_groups,
            after_groups,
            squad: self.squad.rules(),
            force: self.force,
            bests: bests(&self.bests, exponent),
            prefer: self.prefer,
            cones: self.cones.unwrap_or_default(),
            stride_m: self.stride,
            between_blocks_s: self.between_blocks.map(|time| time.0),
            wind: self.wind.as_ref().and_then(WindSpec::wind),
            // An empty item is a line begun and left.
            notes: self.notes.iter().filter(|note| !is_blank(note)).cloned().collect(),
            page: self.page.clone(),
            late: LateChanges::default(),
        };
        faults.extend(self.change(&mut session));
        (session, places, faults)
    }

    /// Makes the late changes that need no track, and gives what is wrong with them.
    fn change(&self, session: &mut Session) -> Vec<SpecFault> {
        let mut faults = Vec::new();
        let mut check = |at: Vec<Key>, made: Result<(), LateFault>| {
            faults.extend(made.err().map(|fault| (at, FileFaultKind::Late(fault))));
        };
        if let Some(TimeOfDay(start)) = self.start.filter(|_| self.hours.is_some()) {
            check(vec![Key::from("start")], session.start_at(start));
        }
        for (index, group) in self.groups.iter().enumerate() {
            for (key, time) in [("start", group.start), ("late", group.late)] {
                if let Some(TimeOfDay(time)) = time {
                    let at = vec![Key::from("groups"), Key::from(index), Key::from(key)];
                    check(at, session.check_late(&group.name, time));
                }
            }
        }
        for (index, Name(name)) in self.without.iter().enumerate() {
            check(vec![Key::from("without"), Key::from(index)], session.leave_out(name));
        }
        faults
    }

    /// What there is more of than a session may have.
    pub(crate) fn too_much(&self) -> Vec<SpecFault> {
        let mut faults = Vec::new();
        let mut check = |at: &[&str], limit: Limit, found: usize| {
            if found > limit.most() {
                faults.push((at.iter().map(|key| Key::from(*key)).collect(), FileFaultKind::TooMuch(limit)));
            }
        };
        check(&["title"], Limit::NameLetters, self.title.chars().count());
        check(&["groups"], Limit::Groups, self.groups.len());
        check(&["groups"], Limit::Athletes, self.groups.iter().map(|group| group.athletes.len()).sum());
        let own: usize = self.groups.iter().flat_map(|group| &group.blocks).map(Vec::len).sum();
        let together = self.before_groups.len() + self.blocks.len() + self.after_groups.len();
        check(&[if own > together { "groups" } else { "blocks" }], Limit::BlockLines, own + together);
        for (index, group) in self.groups.iter().enumerate() {
            let at = vec![Key::from("groups"), Key::from(index)];
            if group.name.chars().count() > Limit::NameLetters.most() {
                let name = [at.as_slice(), &[Key::from("name")]].concat();
                faults.push((name, FileFaultKind::TooMuch(Limit::NameLetters)));
            }
            for (place, athlete) in group.athletes.iter().enumerate() {
                let is_long = |Name(name): &Name| name.chars().count() > Limit::NameLetters.most();
                if is_long(&athlete.name) || athlete.guide.as_ref().is_some_and(is_long) {
                    let athlete = [at.as_slice(), &[Key::from("athletes"), Key::from(place)]].concat();
                    faults.push((athlete, FileFaultKind::TooMuch(Limit::NameLetters)));
                }
            }
        }
        faults
    }

    fn faults(&self) -> Vec<SpecFault> {
        let mut faults = Vec::new();
        // Calendars and pages write a year in four digits; what is earlier is a slip of the pen.
        let year = self.date.map(|date| f64::from(date.0.year()));
        let wind_m_s = self.wind.as_ref().and_then(WindSpec::m_s);
        for (value, name, of, least, most) in [
            (wind_m_s, "wind", SessionNumber::Wind, 0.0, 40.0),
            (self.stride, "stride", SessionNumber::Stride, 0.3, 2.0),
            (self.riegel_exponent, "riegel_exponent", SessionNumber::RiegelExponent, 1.0, 1.3),
            (year, "date", SessionNumber::Year, 1900.0, 9999.0),
        ] {
            if let Some(value) = value.filter(|value| !(least..=most).contains(value)) {
                faults.push((vec![Key::from(name)], FileFaultKind::OutOfRange { of, value, least, most }));
            }
        }
        if let Some(most @ 0) = self.squad.most {
            let (of, value) = (SessionNumber::Most, f64::from(most));
            let kind = FileFaultKind::OutOfRange { of, value, least: 1.0, most: 255.0 };
            faults.push((vec![Key::from("squad"), Key::from("most")], kind));
        }
        if is_blank(&self.title) {
            faults.push((vec![Key::from("title")], FileFaultKind::EmptyName(Named::Session)));
        }
        let has_own_blocks =
            !self.groups.is_empty() && self.groups.iter().all(|group| group.blocks.is_some());
        let are_together = !self.before_groups.is_empty() || !self.after_groups.is_empty();
        if self.blocks.is_empty() && !has_own_blocks && !are_together {
            faults.push((vec![Key::from("blocks")], FileFaultKind::NoBlocks));
        }
        let (mut groups, mut athletes, mut guides) = (Vec::new(), Vec::new(), Vec::new());
        let names: Vec<&str> = self
            .groups
            .iter()
            .flat_map(|group| &group.athletes)
            .map(|athlete| athlete.name.0.as_str())
            .collect();
        for (index, group) in self.groups.iter().enumerate() {
            let at = vec![Key::from("groups"), Key::from(index)];
            let name = [at.as_slice(), &[Key::from("name")]].concat();
            check_name(&group.name, Named::Group, name, &mut groups, &mut faults);
            faults.extend(group.relay_faults(&at));
            for (place, athlete) in group.athletes.iter().enumerate() {
                let name = [at.as_slice(), &[Key::from("athletes"), Key::from(place)]].concat();
                let called = [name.as_slice(), &[Key::from("name")]].concat();
                check_name(&athlete.name.0, Named::Athlete, called, &mut athletes, &mut faults);
                if let Some(Name(guide)) = &athlete.guide {
                    let at = [name.as_slice(), &[Key::from("guide")]].concat();
                    if is_blank(guide) {
                        faults.push((at, FileFaultKind::EmptyName(Named::Athlete)));
                    } else if names.contains(&guide.as_str()) || guides.contains(&guide.as_str()) {
                        faults.push((at, FileFaultKind::GuideTwice(guide.clone())));
                    }
                    guides.push(guide.as_str());
                }
                for (RaceDistance(distance_m), Time(target_s)) in &athlete.targets {
                    // What stands in for a distance that cannot be read is shorter than any race.
                    if *distance_m >= SHORTEST_RACE_M && *target_s > slowest_s(*distance_m) {
                        let (distance_m, target_s) = (*distance_m, *target_s);
                        let targets = [Key::from("targets"), Key::from(distance_m.to_string().as_str())];
                        let kind = FileFaultKind::TargetTooSlow { distance_m, target_s };
                        faults.push(([name.as_slice(), &targets].concat(), kind));
                    }
                }
                if let Some(reps @ 0) = athlete.reps {
                    let at = [at.as_slice(), &[Key::from("athletes"), Key::from(place), Key::from("reps")]];
                    let (of, value) = (SessionNumber::Reps, f64::from(reps));
                    let kind = FileFaultKind::OutOfRange { of, value, least: 1.0, most: 255.0 };
                    faults.push((at.concat(), kind));
                }
            }
        }
        faults
    }
}

/// Notes a name that is empty, or that another one has.
fn check_name<'a>(
    name: &'a str,
    of: Named,
    at: Vec<Key>,
    others: &mut Vec<&'a str>,
    faults: &mut Vec<SpecFault>,
) {
    if is_blank(name) {
        faults.push((at, FileFaultKind::EmptyName(of)));
    } else if others.contains(&name) {
        faults.push((at, FileFaultKind::SameName(of, name.to_owned())));
    } else {
        others.push(name);
    }
}

fn is_blank(text: &str) -> bool {
    text.trim().is_empty()
}
