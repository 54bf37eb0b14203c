//! A training session, before it is laid out on a track.

use chrono::{NaiveDate, NaiveTime};

use crate::people::age_group::AgeGroup;
use crate::people::bests::{Bests, RIEGEL_EXPONENT};
use crate::people::hours::Hours;
use crate::people::late_changes::LateChanges;
use crate::people::page_address::PageAddress;
use crate::people::shares::Shares;
use crate::people::wind::Wind;
use crate::plan::block_at::BlockAt;
use crate::plan::cone::Cones;
use crate::plan::pairing::Prefer;
use wave_plan::{Mode, Timers, TimingRules};
use workout_notation::{Block, LateAthlete, Watches, Workout};

/// The break between two blocks where nobody says how long it is, in seconds.
pub const BETWEEN_BLOCKS_S: f64 = 300.0;

/// The most runners of a group in one lane unless the session says otherwise.
pub(crate) const GROUP_OF: usize = 8;

/// A training session: what is to be run, before it is laid out on a track.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Session {
    /// What the session is called.
    pub title: String,
    /// The day, if it is known.
    pub date: Option<NaiveDate>,
    /// The booking: when the track is the squad's.
    pub hours: Option<Hours>,
    /// When it starts, where no booking is known.
    pub starts: Option<NaiveTime>,
    /// The blocks, in the order they are run: those of everybody, and of groups that have none of their own.
    pub blocks: Vec<Block>,
    /// How many blocks, from the first on, all groups do together before each goes on with its own.
    pub before_groups: usize,
    /// How many blocks, up to the last, all groups do together when each is done with its own.
    pub after_groups: usize,
    /// The training groups; none means that everybody does the same.
    pub groups: Vec<Group>,
    /// How squads share lanes and time.
    pub squad: SquadRules,
    /// Whether a target that nobody has ever run, or a cycle shorter than its run, is planned all the same.
    pub force: bool,
    /// The bests that targets are taken from where a group has none.
    pub bests: Bests,
    /// Which starts and finishes are wanted most, if given; else runs that somebody times finish on the finish line
    /// from 120 m on, and all others need the fewest tapes.
    pub prefer: Option<Prefer>,
    /// Which spots get a cone.
    pub cones: Cones,
    /// The walker's stride, in metres, for those who set out without a tape.
    pub stride_m: Option<f64>,
    /// The break between two blocks, in seconds, if given.
    pub between_blocks_s: Option<f64>,
    /// The wind, if it is known.
    pub wind: Option<Wind>,
    /// Anything else for the sheet.
    pub notes: Vec<String>,
    /// Where its page is published.
    pub page: Option<PageAddress>,
    /// What has changed since it was written.
    pub late: LateChanges,
}

/// How squads share lanes and time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SquadRules {
    /// How a set shares the lanes; by its distance unless given.
    pub mode: Option<Mode>,
    /// The lanes that squads use where their blocks name none.
    pub lanes: Option<Vec<u8>>,
    /// Whether everybody stays in one lane through a block; unless given, over hurdles and from blocks, which nobody
    /// carries to the next lane.
    pub keeps_lanes: Option<bool>,
    /// What keeps waves apart.
    pub timing: TimingRules,
}

/// Nobody in a session is called so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoAthlete {
    /// The name that was asked for.
    pub name: String,
    /// The names that there are.
    pub names: Vec<String>,
}

/// A training group.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// What it is called.
    pub name: String,
    /// Who belongs to it.
    pub athletes: Vec<Athlete>,
    /// How old they are, where that is given.
    pub age: Option<AgeGroup>,
    /// Bests that stand for the whole group.
    pub bests: Bests,
    /// The lanes that it runs in where a block names none.
    pub lanes: Option<Vec<u8>>,
    /// Its own blocks; nothing means those of the session.
    pub blocks: Option<Vec<Block>>,
    /// When it begins, where that is later than the others and was planned so.
    pub start: Option<NaiveTime>,
    /// When it begins, where it comes later than was planned.
    pub late: Option<NaiveTime>,
    /// Its relay teams, each the names of athletes of whom each hands the baton to the next, in turn; those who are in
    /// none are paired in their order.
    pub relay: Vec<Vec<String>>,
}

/// Somebody who trains.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Athlete {
    /// The name.
    pub name: String,
    /// How old the athlete is, where that is given.
    pub age: Option<AgeGroup>,
    /// Best times.
    pub bests: Bests,
    /// The target of each run, in seconds, where the athlete has one of their own: it belongs to the blocks whose runs
    /// are all alike, as a target belongs to a distance.
    pub target_s: Option<f64>,
    /// Targets by distance: metres and seconds. They serve flat runs from a standing start that their block gives no
    /// pace, and go before `target_s`.
    pub targets: Vec<(f64, f64)>,
    /// The lanes that the athlete may run in, if not all.
    pub lanes: Option<Vec<u8>>,
    /// How many repetitions of each block the athlete does, if not all.
    pub reps: Option<u32>,
    /// Who guides the athlete, in the next lane on the outside.
    pub guide: Option<String>,
}

/// A run is of the distance of a target where they differ by no more than this, in metres.
const SAME_DISTANCE_M: f64 = 0.5;

impl Athlete {
    /// The athlete's own target over a distance, in seconds, where they have one for it.
    ///
    /// ```
    /// let ada = session_plan::Athlete { targets: vec![(200.0, 30.0)], ..Default::default() };
    /// assert_eq!((ada.target_over(200.0), ada.target_over(300.0)), (Some(30.0), None));
    /// ```
    pub fn target_over(&self, distance_m: f64) -> Option<f64> {
        let of_distance = |(known_m, _): &&(f64, f64)| (known_m - distance_m).abs() <= SAME_DISTANCE_M;
        self.targets.iter().find(of_distance).map(|(_, target_s)| *target_s)
    }
}

impl Session {
    /// A session of some blocks.
    pub fn of_blocks(title: impl Into<String>, blocks: Vec<Block>) -> Self {
        Self { title: title.into(), blocks, ..Self::default() }
    }

    /// Adds a group of this many athletes, named by their numbers.
    pub fn add_athletes(&mut self, count: usize) {
        let athlete = |number: usize| Athlete { name: number.to_string(), ..Athlete::default() };
        let athletes = (1..=count).map(athlete).collect();
        self.groups.push(Group { name: "squad".to_owned(), athletes, ..Group::default() });
    }

    /// How long after the start of the session a group begins, in seconds.
    pub(crate) fn late_s(&self, group: &Group) -> f64 {
        let late = group.late.or(group.start).zip(self.begins()).map(|(late, begins)| late - begins);
        late.map_or(0.0, |late| late.num_seconds().max(0) as f64)
    }

    /// The time of day at which it begins, if that is known.
    pub fn begins(&self) -> Option<NaiveTime> {
        self.late.start.or(self.hours.map(|hours| hours.from)).or(self.starts)
    }

    /// The blocks that all groups do together before their own, those of groups that have none of their own, and those
    /// that all do together after that.
    pub fn parts(&self) -> [&[Block]; 3] {
        let before = self.before_groups.min(self.blocks.len());
        let (before, more) = self.blocks.split_at(before);
        let (own, after) = more.split_at(more.len() - self.after_groups.min(more.len()));
        [before, own, after]
    }

    /// A block by its place, to be changed.
    pub fn block_mut(&mut self, at: BlockAt) -> Option<&mut Block> {
        match at.group {
            None => self.blocks.get_mut(at.block),
            Some(group) => self.groups.get_mut(group)?.blocks.as_mut()?.get_mut(at.block),
        }
    }

    /// The blocks that a group does, in its order: what all do first, its own, what all do last.
    ///
    /// ```
    /// use session_plan::{Group, Session};
    /// use workout_notation::{Block, Workout};
    ///
    /// let blocks = Workout::parse_blocks("6 x 200 in lane 2").expect("it is well formed");
    /// let session = Session::of_blocks("six", blocks);
    /// let counts: Vec<u32> = session.blocks_of(&Group::default()).map(Block::count).collect();
    /// assert_eq!(counts, [6]);
    /// ```
    pub fn blocks_of<'a>(&'a self, group: &'a Group) -> impl Iterator<Item = &'a Block> {
        let [before, own, after] = self.parts();
        before.iter().chain(group.blocks.as_deref().unwrap_or(own)).chain(after)
    }

    /// The session of a text: what stands above the first heading, or behind the last group, all groups do together.
    /// Where the text has no title, it gets another.
    ///
    /// ```
    /// use session_plan::Session;
    /// use workout_notation::{Part, Workout};
    ///
    /// let part = |group: Option<&str>, text: &str| Part {
    ///     group: group.map(str::to_owned),
    ///     blocks: Workout::parse(text).expect("it is well formed").into_blocks(),
    ///     ..Part::default()
    /// };
    /// let parts = vec![part(None, "drills"), part(Some("sprints"), "4 x 60"), part(Some("distance"), "6 x 400")];
    /// let session = Session::of_workout("Tuesday", Workout { parts, ..Workout::default() });
    /// let blocks = session.groups.iter().map(|group| group.blocks.as_ref().map_or(0, Vec::len));
    /// assert_eq!(blocks.collect::<Vec<_>>(), [1, 1]);
    /// assert_eq!((session.blocks[0].text.as_str(), session.before_groups), ("drills", 1));
    /// ```
    pub fn of_workout(title: impl Into<String>, workout: Workout) -> Self {
        let shares = Shares::of(&workout);
        let everybody = shares.everybody().collect();
        let Shares { before, after, groups } = shares;
        let (own_title, date) = (workout.title.clone(), workout.date);
        let (begins, ends) = (workout.begins, workout.ends);
        let late = workout.late.clone();
        let (between_blocks_s, notes) = (workout.between_blocks_s, workout.notes.clone());
        let reps = workout.reps.clone();
        let mut squad = SquadRules::default();
        squad.timing.timers = match workout.watches {
            Some(Watches::Two) => Timers::Two,
            Some(Watches::EachGroup) => Timers::EachGroup,
            Some(Watches::One) | None => Timers::One,
        };
        squad.lanes = Some(workout.lanes.iter().map(|lane| lane.get()).collect())
            .filter(|lanes: &Vec<u8>| !lanes.is_empty());
        let hours = begins.zip(ends).map(|(from, to)| Hours { from, to });
        // Nobody runs and guides as well, or guides two.
        let runs = |name: &String| workout.parts.iter().any(|part| part.athletes.contains(name));
        let guides: Vec<&(String, String)> = workout.parts.iter().flat_map(|part| &part.guides).collect();
        let guide = |athlete: &String| {
            let place = guides.iter().position(|(guided, _)| guided == athlete)?;
            let guide = &guides[place].1;
            let is_free = !runs(guide) && guides[..place].iter().all(|(_, other)| other != guide);
            is_free.then(|| guide.clone())
        };
        let bests_of = |name: Option<&String>| {
            let own = workout.bests.iter().filter(|best| best.name.as_ref() == name);
            Bests::new(own.map(|best| (best.metres, best.seconds)).collect(), RIEGEL_EXPONENT)
        };
        let bests = bests_of(None);
        let athletes = |group: &str| -> Vec<Athlete> {
            let parts = workout.parts.iter().filter(|part| part.group.as_deref() == Some(group));
            let names = parts.flat_map(|part| &part.athletes);
            names
                .map(|name| {
                    let bests = bests_of(Some(name));
                    Athlete { name: name.clone(), guide: guide(name), bests, ..Athlete::default() }
                })
                .collect()
        };
        let lanes = |group: &str| -> Option<Vec<u8>> {
            let parts = workout.parts.iter().filter(|part| part.group.as_deref() == Some(group));
            let mut lanes = parts.map(|part| &part.lanes).filter(|lanes| !lanes.is_empty());
            lanes.next().map(|lanes| lanes.iter().map(|lane| lane.get()).collect())
        };
        let start = |group: &str| {
            let mut parts = workout.parts.iter().filter(|part| part.group.as_deref() == Some(group));
            parts.find_map(|part| part.begins).filter(|start| begins.is_some_and(|begins| *start > begins))
        };
        let starts: Vec<Option<NaiveTime>> = groups.iter().map(|(name, _)| start(name)).collect();
        let lanes: Vec<Option<Vec<u8>>> = groups.iter().map(|(name, _)| lanes(name)).collect();
        let athletes: Vec<Vec<Athlete>> = groups.iter().map(|(name, _)| athletes(name)).collect();
        let blocks = workout.into_blocks();
        let of =
            |places: Vec<usize>| places.into_iter().map(|place| blocks[place].clone()).collect::<Vec<_>>();
        let group = |((((name, places), athletes), start), lanes)| Group {
            name,
            athletes,
            lanes,
            start,
            blocks: Some(of(places)),
            ..Group::default()
        };
        let mut session = Self {
            between_blocks_s,
            notes,
            title: own_title.unwrap_or_else(|| title.into()),
            date,
            hours,
            starts: if hours.is_none() { begins } else { None },
            groups: groups.into_iter().zip(athletes).zip(starts).zip(lanes).map(group).collect(),
            blocks: of(everybody),
            before_groups: before.len(),
            after_groups: after.len(),
            bests,
            squad,
            ..Self::default()
        };
        for (name, reps) in reps {
            // Who does no more anyway does as the others.
            let _ = session.do_fewer(&[(name, reps)]);
        }
        session.let_come_later(late);
        session
    }

    /// Gives athletes who come later groups of their own that do the same: those of one group who come at one time are
    /// together.
    fn let_come_later(&mut self, late: Vec<LateAthlete>) {
        // The group that they are of, when they come, and their own.
        let mut comers: Vec<(usize, NaiveTime, usize)> = Vec::new();
        for LateAthlete { name, begins } in late {
            let is_one = |athlete: &Athlete| athlete.name == name;
            let Some(of) = self.groups.iter().position(|group| group.athletes.iter().any(is_one)) else {
                continue;
            };
            let together = comers.iter().find(|(from, at, _)| (*from, *at) == (of, begins)).map(|own| own.2);
            if let (Some(own), Some(place)) = (together, self.groups[of].athletes.iter().position(is_one))
                && self.groups[of].athletes.len() > 1
            {
                let athlete = self.groups[of].athletes.remove(place);
                self.groups[own].athletes.push(athlete);
                self.groups[own].name = together_called(&self.groups[own].athletes);
            // Nobody of a text hands on a baton.
            } else if let Ok((own, _)) = self.split_off(&name) {
                self.groups[own].start = Some(begins);
                comers.push((of, begins, own));
            }
        }
    }

    /// A session of a single block.
    pub fn of_block(title: impl Into<String>, block: Block) -> Self {
        Self::of_blocks(title, vec![block])
    }
}

/// What athletes are called who come later together: `Ada and Ben`, `Ada and 2 others`.
fn together_called(athletes: &[Athlete]) -> String {
    match athletes {
        [] => String::new(),
        [one] => one.name.clone(),
        [first, second] => format!("{} and {}", first.name, second.name),
        [first, others @ ..] => format!("{} and {} others", first.name, others.len()),
    }
}
