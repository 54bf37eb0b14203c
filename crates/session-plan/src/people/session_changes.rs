//! Late changes to a session, each checked.

use std::collections::BTreeSet;

use chrono::NaiveTime;
use lane_distance::{Course, HazardKind, LaneError, Track};
use workout_notation::{Block, hurdles_race_m};

use crate::people::lane_closure::LaneClosure;
use crate::people::late_changes::{HazardBegun, LateChanges, SkippedBlock};
use crate::people::late_fault::LateFault;
use crate::people::session::{Athlete, Group, NoAthlete, Session};
use crate::people::venue::Venue;
use crate::people::wind::Wind;
use crate::plan::plan::Plan;

/// A lane that somebody is to run in and the track does not have.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("lanes of {whose}: {error}")]
pub struct OwnLaneError {
    /// The athlete, the group, or the squad.
    pub whose: String,
    /// What is wrong with the lane.
    pub error: LaneError,
}

impl Session {
    /// Whether anything has changed since it was written.
    pub fn has_late_changes(&self) -> bool {
        let mut athletes = self.groups.iter().flat_map(|group| &group.athletes);
        !self.late.is_empty()
            || self.groups.iter().any(|group| group.late.is_some())
            || athletes.any(|athlete| athlete.reps.is_some())
    }

    /// The session without its late changes.
    pub fn as_written(&self) -> Self {
        let mut session = Self { late: LateChanges::default(), ..self.clone() };
        for &(group, at) in self.late.apart.iter().rev() {
            if let Some(own) = session.groups.pop()
                && let Some(group) = session.groups.get_mut(group)
            {
                let at = at.min(group.athletes.len());
                group.athletes.splice(at..at, own.athletes);
            }
        }
        for group in &mut session.groups {
            group.late = None;
            group.athletes.iter_mut().for_each(|athlete| athlete.reps = None);
        }
        session
    }

    /// The session without those who are absent, and with what the names of groups say of their blocks.
    pub(crate) fn of_present(&self) -> Self {
        let mut session = self.clone();
        session.settle_hurdles();
        for group in session.groups.iter_mut().filter(|group| !group.athletes.is_empty()) {
            group.athletes.retain(|athlete| !self.late.without.contains(&athlete.name));
            for athlete in &mut group.athletes {
                athlete.guide.take_if(|guide| self.late.without.contains(guide));
            }
            if group.athletes.is_empty() {
                // Nobody is there to do the blocks of the session.
                group.blocks = Some(Vec::new());
            }
        }
        session
    }

    /// `Women 100H`: who is named for a race over hurdles runs over those of that race.
    fn settle_hurdles(&mut self) {
        let over = |blocks: &mut [Block], group: Option<&str>| {
            for block in blocks {
                let names = [block.label.as_deref(), group];
                let race_m = names.into_iter().flatten().find_map(hurdles_race_m);
                race_m.into_iter().for_each(|race_m| *block = block.over_hurdles_of(race_m));
            }
        };
        over(&mut self.blocks, None);
        for Group { name, blocks, .. } in &mut self.groups {
            over(blocks.as_deref_mut().unwrap_or_default(), Some(name));
        }
    }

    /// Goes by another wind than the file says.
    pub fn turn_wind(&mut self, wind: Wind) {
        self.late.wind = Some(wind);
    }

    /// The wind that it is planned for, if one is known.
    pub fn wind_now(&self) -> Option<&Wind> {
        self.late.wind.as_ref().or(self.wind.as_ref())
    }

    /// Starts at another time than the beginning of the booking.
    ///
    /// # Errors
    ///
    /// [`LateFault::OutsideBooking`].
    pub fn start_at(&mut self, time: NaiveTime) -> Result<(), LateFault> {
        self.check_booked(time)?;
        self.late.start = Some(time);
        Ok(())
    }

    /// Lets groups, by their names, begin later than the session. An athlete who comes late does the same as before in a
    /// group of their own.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where there is no such group or athlete, one is named twice, the time makes no sense, or an athlete
    /// hands on batons with others.
    pub fn come_late(&mut self, groups: &[(String, NaiveTime)]) -> Result<(), LateFault> {
        let mut seen = BTreeSet::new();
        for (name, time) in groups {
            let place = self.group_to_come(name)?;
            if !seen.insert(place) {
                return Err(LateFault::Twice { name: self.groups[place].name.clone() });
            }
            self.check_late(&self.groups[place].name, *time)?;
            self.groups[place].late = Some(*time);
        }
        Ok(())
    }

    /// The group of a name; that of an athlete is one of their own, made now where they train with others.
    fn group_to_come(&mut self, name: &str) -> Result<usize, LateFault> {
        let place = self.groups.iter().position(|group| group.name == name.trim());
        let place = place.or_else(|| self.groups.iter().position(|group| is_called(&group.name, name)));
        if let Some(place) = place {
            return Ok(place);
        }
        let Ok(athlete) = self.athlete(name).map(|(_, athlete)| athlete.name.clone()) else {
            return Err(LateFault::NoGroup {
                name: name.to_owned(),
                groups: self.groups.iter().map(|group| group.name.clone()).collect(),
            });
        };
        let (place, from) = self.split_off(&athlete)?;
        self.late.apart.extend(from);
        Ok(place)
    }

    /// Gives an athlete, by the exact name, a group of their own that does the same, behind all others; says which it is,
    /// and from which group and place the athlete came.
    pub(crate) fn split_off(&mut self, name: &str) -> Result<(usize, Option<(usize, usize)>), LateFault> {
        let is_one = |athlete: &Athlete| athlete.name == name;
        let found = (self.groups.iter().enumerate())
            .find_map(|(at, group)| Some((at, group.athletes.iter().position(is_one)?)));
        let Some((place, at)) = found else {
            return Err(LateFault::NoAthlete(NoAthlete { name: name.to_owned(), names: Vec::new() }));
        };
        let group = &mut self.groups[place];
        if group.athletes.len() == 1 {
            return Ok((place, None));
        }
        if group.relay.iter().flatten().any(|of_team| of_team == name) {
            return Err(LateFault::InRelay { athlete: name.to_owned(), group: group.name.clone() });
        }
        let athlete = group.athletes.remove(at);
        let own =
            Group { name: name.to_owned(), athletes: vec![athlete], relay: Vec::new(), ..group.clone() };
        self.groups.push(own);
        Ok((self.groups.len() - 1, Some((place, at))))
    }

    /// Leaves out an athlete or a guide who is absent, or all athletes of a group; capitals and spaces around the name do not matter.
    ///
    /// ```
    /// let mut session = session_plan::Session::default();
    /// session.add_athletes(2);
    /// session.leave_out("2")?;
    /// assert_eq!(session.late.without, ["2"]);
    /// # Ok::<(), session_plan::LateFault>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where nobody is called so, or nobody would be left.
    pub fn leave_out(&mut self, name: &str) -> Result<(), LateFault> {
        let of_group = self.groups.iter().find(|group| is_called(&group.name, name));
        let names = match (self.athlete(name), of_group) {
            (Ok((_, athlete)), _) => vec![athlete.name.clone()],
            (Err(_), Some(group)) if !group.athletes.is_empty() => {
                group.athletes.iter().map(|athlete| athlete.name.clone()).collect()
            }
            (Err(nobody), _) => vec![self.guide(name).ok_or(nobody)?],
        };
        for name in names {
            if !self.late.without.contains(&name) {
                self.late.without.push(name);
            }
        }
        let mut athletes = self.groups.iter().flat_map(|group| &group.athletes);
        let is_left = |athlete: &Athlete| !self.late.without.contains(&athlete.name);
        let somebody = athletes.any(is_left) || self.groups.iter().any(|group| group.athletes.is_empty());
        if somebody { Ok(()) } else { Err(LateFault::NobodyLeft) }
    }

    /// Lets athletes, by their names, do only the first repetitions of every block.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where nobody is called so, somebody is named twice, or does no more anyway.
    pub fn do_fewer(&mut self, reps: &[(String, u32)]) -> Result<(), LateFault> {
        let mut seen = BTreeSet::new();
        for (name, reps) in reps {
            let (group, athlete) = self.athlete(name)?;
            let name = athlete.name.clone();
            let most = self.blocks_of(group).map(Block::count).max().unwrap_or(0);
            if !seen.insert(name.clone()) {
                return Err(LateFault::Twice { name });
            }
            if *reps >= most {
                return Err(LateFault::NotFewer { name, reps: *reps, most });
            }
            let athletes = self.groups.iter_mut().flat_map(|group| &mut group.athletes);
            athletes.filter(|athlete| athlete.name == name).for_each(|athlete| athlete.reps = Some(*reps));
        }
        Ok(())
    }

    /// Takes hazards of the venue, by their kinds or words of them, to be in use: from the start on where no time is
    /// given.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where the name fits none or several of them, or one is named twice.
    pub fn begin_hazards(
        &mut self,
        venue: &Venue,
        hazards: &[(String, Option<NaiveTime>)],
    ) -> Result<(), LateFault> {
        let mut seen: Vec<HazardKind> = Vec::new();
        for (name, from) in hazards {
            let hazard = venue.hazard_called(name)?;
            if seen.contains(&hazard) {
                return Err(LateFault::Twice { name: hazard.to_string() });
            }
            from.map_or(Ok(()), |from| self.check_booked(from))?;
            seen.push(hazard);
            self.late.hazards.retain(|begun| begun.hazard != hazard);
            self.late.hazards.push(HazardBegun { hazard, from: *from });
        }
        Ok(())
    }

    /// Closes lanes of the venue; what is to be run in them moves to open ones.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where the track has no such lane, or none would be left.
    pub fn close_lanes(&mut self, venue: &Venue, lanes: &[u8]) -> Result<(), LateFault> {
        for &lane in lanes {
            let lane = venue.track().lane_number(lane).map_err(LateFault::Lane)?;
            if !venue.track().closed_lanes().contains(&lane) && !self.late.closed.contains(&lane) {
                self.late.closed.push(lane);
            }
        }
        self.late.closed.sort_unstable();
        let is_open = |course: &Course| {
            venue.track().open_lanes(*course).iter().any(|lane| !self.late.closed.contains(lane))
        };
        if Course::ALL.iter().any(is_open) { Ok(()) } else { Err(LateFault::NoLaneLeft) }
    }

    /// Closes lanes of the venue for parts of the evening.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where the track has no such lane, a time makes no sense, or nobody knows when the session begins.
    pub fn close_for(&mut self, venue: &Venue, closures: &[LaneClosure]) -> Result<(), LateFault> {
        for closure in closures {
            let lanes = closure.lanes.iter().map(|&lane| venue.track().lane_number(lane));
            let lanes = lanes.collect::<Result<Vec<_>, _>>().map_err(LateFault::Lane)?;
            if self.begins().is_none() {
                return Err(LateFault::NoStartOfClosure { lanes });
            }
            if let (Some(from), Some(until)) = (closure.from, closure.until)
                && from >= until
            {
                return Err(LateFault::ClosureBackwards { from, until });
            }
            closure.from.or(closure.until).map_or(Ok(()), |time| self.check_booked(time))?;
            if !self.late.closures.contains(closure) {
                self.late.closures.push(closure.clone());
            }
        }
        Ok(())
    }

    /// The venue without some lanes: closed where nothing is to be run in them. What is to be run in the others moves to
    /// open ones.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where the track has no such lane, or none would be left.
    pub fn without_lanes(&mut self, venue: Venue, lanes: &[u8]) -> Result<Venue, LateFault> {
        let (named, others): (Vec<u8>, Vec<u8>) = lanes.iter().partition(|lane| self.names_lane(**lane));
        let venue = venue.with_closed(&others).map_err(LateFault::Lane)?;
        self.close_lanes(&venue, &named)?;
        Ok(venue)
    }

    /// Checks that a track has the lanes of its squad, its groups and its athletes, whether or not a block uses them.
    ///
    /// # Errors
    ///
    /// [`OwnLaneError`] with whose lane it is.
    pub fn check_lanes(&self, track: &Track) -> Result<(), OwnLaneError> {
        let athletes = self.groups.iter().flat_map(|group| &group.athletes);
        let of_athletes = athletes.map(|athlete| (athlete.name.as_str(), &athlete.lanes));
        let of_groups = self.groups.iter().map(|group| (group.name.as_str(), &group.lanes));
        for (whose, lanes) in of_athletes.chain(of_groups).chain([("the squad", &self.squad.lanes)]) {
            for lane in lanes.iter().flatten() {
                let known = track.lane_number(*lane);
                known.map_err(|error| OwnLaneError { whose: whose.to_owned(), error })?;
            }
        }
        Ok(())
    }

    /// Whether it names a lane: in a block, for a group or for an athlete.
    ///
    /// ```
    /// let block = workout_notation::Block::parse("6 x 200 in lane 4").expect("it is well formed");
    /// let session = session_plan::Session::of_block("t", block);
    /// assert!(session.names_lane(4) && !session.names_lane(5));
    /// ```
    pub fn names_lane(&self, lane: u8) -> bool {
        let in_block = |block: &Block| {
            let steps = block.steps();
            steps.iter().filter_map(|step| step.lanes).any(|lanes| lanes.iter().any(|own| own.get() == lane))
        };
        let holds = |lanes: &Option<Vec<u8>>| lanes.as_ref().is_some_and(|lanes| lanes.contains(&lane));
        holds(&self.squad.lanes)
            || self.blocks.iter().any(in_block)
            || self.groups.iter().any(|group| {
                holds(&group.lanes)
                    || group.athletes.iter().any(|athlete| holds(&athlete.lanes))
                    || group.blocks.iter().flatten().any(in_block)
            })
    }

    /// Leaves out blocks by their numbers, from 1, in the plan that still has them.
    ///
    /// # Errors
    ///
    /// A [`LateFault`] where the plan has no such block, or none would be left.
    pub fn skip_blocks(&mut self, plan: &Plan, numbers: &[usize]) -> Result<(), LateFault> {
        let numbers: BTreeSet<usize> = numbers.iter().copied().collect();
        for &number in &numbers {
            let block = number.checked_sub(1).and_then(|place| plan.blocks.get(place));
            let block = block.ok_or_else(|| LateFault::NoBlock {
                number,
                blocks: plan.blocks.iter().map(|block| block.text().to_owned()).collect(),
            })?;
            let (at, group, text) = (block.at, block.group.clone(), block.text().to_owned());
            self.late.skipped.push(SkippedBlock { number, at, group, text });
        }
        if numbers.len() < plan.blocks.len() { Ok(()) } else { Err(LateFault::NoBlockLeft) }
    }

    /// The athlete of a name and their group: as it is written, else whatever its capitals, else the only one whose first
    /// name it is.
    fn athlete(&self, name: &str) -> Result<(&Group, &Athlete), LateFault> {
        let athletes = || {
            self.groups.iter().flat_map(|group| group.athletes.iter().map(move |athlete| (group, athlete)))
        };
        let exact = athletes().find(|(_, athlete)| athlete.name == name);
        let found = exact.or_else(|| athletes().find(|(_, athlete)| is_called(&athlete.name, name)));
        let of_first_name = || {
            let first = |name: &str| name.split_whitespace().next().unwrap_or_default().to_owned();
            let mut alike = athletes().filter(|(_, athlete)| is_called(&first(&athlete.name), name));
            alike.next().filter(|_| alike.next().is_none())
        };
        found.or_else(of_first_name).ok_or_else(|| {
            let names = athletes().map(|(_, athlete)| athlete.name.clone()).collect();
            LateFault::NoAthlete(NoAthlete { name: name.to_owned(), names })
        })
    }

    /// The guide of a name, whatever its capitals.
    fn guide(&self, name: &str) -> Option<String> {
        let athletes = self.groups.iter().flat_map(|group| &group.athletes);
        athletes.filter_map(|athlete| athlete.guide.clone()).find(|guide| is_called(guide, name))
    }

    /// Checks the time at which a group comes.
    pub(crate) fn check_late(&self, group: &str, time: NaiveTime) -> Result<(), LateFault> {
        let begins = self.begins().ok_or_else(|| LateFault::NoStart { group: group.to_owned() })?;
        if time < begins {
            return Err(LateFault::BeforeStart { group: group.to_owned(), time, begins });
        }
        self.check_booked(time)
    }

    /// Checks that a time is within the booking, where that is known.
    pub(crate) fn check_booked(&self, time: NaiveTime) -> Result<(), LateFault> {
        match self.hours {
            Some(hours) if !(hours.from..hours.to).contains(&time) => {
                Err(LateFault::OutsideBooking { time, hours })
            }
            _ => Ok(()),
        }
    }
}

/// Whether a name is meant, whatever its capitals and the spaces around it.
pub(crate) fn is_called(name: &str, asked: &str) -> bool {
    name.trim().to_lowercase() == asked.trim().to_lowercase()
}
