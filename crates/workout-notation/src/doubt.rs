//! What could have been read in another way.

use chrono::NaiveTime;

use crate::track_part::TrackPart;

/// A place of a text that could be read in two ways: what was taken, and what else it could mean.
#[derive(Clone, Debug, PartialEq)]
pub enum Doubt {
    /// A time alone, taken for the rest, could be the time of each run.
    RestOrTarget {
        /// The time, in seconds.
        seconds: f64,
    },
    /// A time alone in brackets, taken for the time of each run, could be the rest.
    TargetOrRest {
        /// The time, in seconds.
        seconds: f64,
    },
    /// A time that stands like a run of a list, taken for the rest before it, could be a run.
    RestOrRun {
        /// The time, in seconds.
        seconds: f64,
    },
    /// A number alone at the end of repetitions with a time, taken for a run in metres, could be their rest.
    RunOrRest {
        /// The number, as seconds.
        seconds: f64,
    },
    /// `off 60s` is too short to be from one start to the next, so that it is the rest.
    CycleTooShort {
        /// The time, in seconds.
        seconds: f64,
    },
    /// `off 2 min` behind a run that takes nearly as long, taken for the time from one start to the next, could be the rest.
    CycleOrRest {
        /// The time, in seconds.
        seconds: f64,
    },
    /// `repeat` behind blocks, taken for all of their line, could be for its last block.
    LineRepeated {
        /// How often all of it is done.
        count: u32,
    },
    /// A count behind a list, taken for the whole list, could be that of its last run.
    WholeListRepeated {
        /// The count.
        count: u32,
    },
    /// A range of repetitions, planned at the higher number.
    CountRange {
        /// The fewest.
        least: u32,
        /// The most.
        most: u32,
    },
    /// A range of rests, planned at the longer.
    RestRange {
        /// The shortest, in seconds.
        least_s: f64,
        /// The longest, in seconds.
        most_s: f64,
    },
    /// A range of times to run, planned at the longer.
    TimeRange {
        /// The shortest, in seconds.
        least_s: f64,
        /// The longest, in seconds.
        most_s: f64,
    },
    /// A range of percentages, planned at the higher.
    PercentRange {
        /// The lowest.
        least: f64,
        /// The highest.
        most: f64,
    },
    /// A count of straights and bends, taken for laps, could be that of one of them.
    LapsOrParts {
        /// The part that is run fast.
        part: TrackPart,
    },
    /// Two small numbers in brackets, taken for minutes between runs and between sets.
    BareMinutes,
    /// Baton exchanges of no zone, laid in the first.
    FirstZone,
    /// A count of distances called a relay, taken for runs of each athlete, could be the legs of one relay.
    RelayOrRuns,
    /// Several targets for more repetitions, taken for as many repetitions each, one after the other.
    TargetsInTurn {
        /// How many repetitions have the same target.
        each: u32,
    },
    /// A number alone in a warm-up or a cool-down, taken for minutes.
    MinutesOfNote {
        /// The number.
        minutes: f64,
    },
    /// Drills or the like of which nobody says how long they take, in front of runs: no time is allowed for them.
    NoTimeForNote {
        /// What they are called.
        note: String,
    },
    /// A time of several laps that nobody could run them in, taken for that of each.
    TimeOfEachLap {
        /// The time, in seconds.
        seconds: f64,
    },
    /// A distance without a unit that is rather one in yards, taken for metres.
    MetresOrYards {
        /// The number.
        distance: f64,
    },
    /// The time of a run in which nobody needs to run.
    SlowerThanWalking {
        /// How far the run is, in metres.
        metres: f64,
        /// Its time, in seconds.
        seconds: f64,
    },
    /// A time of day without a word for morning or evening, taken for the evening.
    InTheEvening {
        /// When the session begins.
        begins: NaiveTime,
    },
    /// When a block is to begin: it begins when those who do it are done with the one before.
    BeginsWithoutWaiting {
        /// When it is to begin.
        begins: NaiveTime,
    },
    /// When a group ends, where that is before the end of the session: nothing holds its blocks to it.
    EndOfGroup {
        /// When it ends.
        ends: NaiveTime,
    },
    /// An athlete who is said not to be there, and is left out.
    LeftOut {
        /// Who.
        name: String,
    },
    /// What a text says of somebody who goes earlier, and is planned to the end.
    LeavesEarly {
        /// Who.
        name: String,
        /// What it says.
        words: String,
    },
    /// Words behind the name of an athlete, which change nothing in the plan.
    SaidOfOne {
        /// Of whom.
        name: String,
        /// The words.
        words: String,
    },
    /// Words in front of runs, beside groups, that could name one: it is done by everybody, or by the group above.
    LabelOrGroup {
        /// The words.
        label: String,
    },
    /// Letters or names in front of runs, taken for parts that are done one after the other, could be groups.
    LabelsInTurn {
        /// The letters or names.
        labels: Vec<String>,
    },
    /// Words of a title about a hazard, which change nothing in the plan.
    HazardInTitle {
        /// The title.
        title: String,
    },
    /// Words of a title about the track, which choose none.
    TrackInTitle {
        /// The title.
        title: String,
    },
    /// A line of nothing but names, taken for those who train.
    NamesAlone {
        /// Who.
        names: Vec<String>,
    },
    /// Somebody is said not to be there whom the text does not name.
    NotNamed {
        /// Who.
        name: String,
    },
}
