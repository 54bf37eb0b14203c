//! A block of a workout, as read.

use lane_distance::Place;

use super::parser;
use crate::problem::Problem;
use crate::spanned::Spanned;

/// The most repetitions in one session.
pub const MOST_REPS: u32 = 500;

/// One line of a workout, as read.
#[derive(Clone, Debug)]
pub struct Block {
    /// The line as it was written.
    pub text: String,
    /// What is done.
    pub body: Body,
}

impl PartialEq for Block {
    /// Two blocks are the same where they say the same, however it is written.
    fn eq(&self, other: &Self) -> bool {
        self.body == other.body
    }
}

/// What a line of a workout says.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// Runs: the outermost group has a count of 1 unless the whole line is repeated.
    Runs(Box<Group>),
    /// Something that is not a run: a warm-up, drills, free text; with how long it lasts.
    Note {
        /// The words.
        words: String,
        /// How long it lasts, in seconds.
        lasts_s: Option<f64>,
    },
}

/// Items that are done one after the other, so many times.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// How many times.
    pub count: u32,
    /// What is done each time.
    pub items: Vec<Item>,
    /// What is said of all of them.
    pub details: Details,
}

/// One item of a group.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A run.
    Run(Box<Run>),
    /// Items within the item.
    Group(Box<Group>),
}

/// One run.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What kind of run it is, and how far.
    pub kind: Spanned<RunKind>,
    /// What is said of this run alone.
    pub details: Details,
}

/// What kind of run it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunKind {
    /// So far.
    Plain(Length),
    /// So far at full speed, after a run-in.
    Flying {
        /// The timed part, in metres.
        metres: f64,
        /// The run-in before it, in metres.
        run_in_m: f64,
    },
    /// A race over hurdles, from its start to one of the hurdles or the finish.
    Hurdles {
        /// Length of the race, in metres.
        race_m: f64,
        /// The last hurdle that is run, counted from 1; nothing means to the finish.
        to_hurdle: Option<u8>,
    },
    /// A baton exchange, through one takeover zone of the 4x100 m.
    Exchange {
        /// The zone, from 1 to 3.
        zone: u8,
    },
    /// Fast and easy by turns.
    InAndOut {
        /// How far in all.
        length: Length,
        /// How far each turn is, in metres.
        turn_m: f64,
    },
    /// For so long, wherever that leads.
    Timed {
        /// How long, in seconds.
        seconds: f64,
    },
}

/// How far a run is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Length {
    /// Metres.
    Metres(f64),
    /// Laps of the lane that is run.
    Laps(f64),
}

/// What is said of a run or of a group besides how far it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Details {
    /// The lanes, in the order written.
    pub lanes: Option<Spanned<Vec<u8>>>,
    /// Where on the track.
    pub place: Option<Spanned<Place>>,
    /// The mark from which each run starts.
    pub from: Option<Spanned<String>>,
    /// The mark at which each run ends.
    pub to: Option<Spanned<String>>,
    /// Whether all lanes start as one group, on a curved line.
    pub together: Option<Spanned<()>>,
    /// How fast.
    pub pace: Option<Spanned<Pace>>,
    /// How hard, in a word.
    pub effort: Option<Spanned<String>>,
    /// What is done between runs.
    pub recovery: Recovery,
}

/// How fast a run is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pace {
    /// In this time, in seconds; or between two.
    Time {
        /// The time, or the faster of two.
        seconds: f64,
        /// The slower of two.
        to_s: Option<f64>,
    },
    /// In this time for each of these distances.
    Rate {
        /// The time, in seconds.
        seconds: f64,
        /// The distance, in metres.
        per_m: f64,
    },
    /// At this part of the speed of a best, in percent.
    Percent(f64),
    /// At the pace of a race over this distance, in metres.
    Race(f64),
}

/// What is done between runs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recovery {
    /// How the runners get to the next start.
    pub way: Option<Spanned<Way>>,
    /// How long between runs.
    pub between: Option<Spanned<Gap>>,
    /// How long between sets.
    pub sets: Option<Spanned<Gap>>,
}

/// How long a recovery is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gap {
    /// So long from the end of a run to the next start, in seconds.
    Rest(f64),
    /// So long from one start to the next, in seconds.
    Off(f64),
}

/// How the runners get to the next start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// They jog on for so many metres; the next run starts there.
    Jog(f64),
    /// They walk on for so many metres; the next run starts there.
    Walk(f64),
    /// They walk back to the start.
    WalkBack,
    /// They stay; the next run starts where the last ended.
    Stand,
    /// They change ends: the next run starts elsewhere and ends where the last started, or as near as
    /// there is paint.
    ChangeEnds,
}

impl Block {
    /// Reads a line of a workout.
    ///
    /// # Errors
    ///
    /// Every [`Problem`] of the text, in its order.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        parser::block(text)
    }

    /// How many runs the block has in one lane.
    pub fn count(&self) -> u32 {
        match &self.body {
            Body::Runs(group) => group.runs(),
            Body::Note { .. } => 0,
        }
    }

    /// The runs of the block one after the other; none for a note.
    ///
    /// ```
    /// use workout_notation::{Block, Gap};
    ///
    /// let block = Block::parse("2 x (300, 200) rest 3min / 8min between sets").expect("it is well formed");
    /// let rests: Vec<_> = block.steps().iter().map(|step| step.gap).collect();
    /// let (rep, set) = (Some(Gap::Rest(180.0)), Some(Gap::Rest(480.0)));
    /// assert_eq!(rests, [rep, set, rep, None]);
    /// ```
    pub fn steps(&self) -> Vec<Step<'_>> {
        let mut steps = Vec::new();
        if let Body::Runs(group) = &self.body {
            group.flatten(&mut Vec::new(), 1, &mut steps);
        }
        if let Some(last) = steps.last_mut() {
            last.gap = None;
            last.way = None;
        }
        steps
    }
}

/// One run of a block, with all that is said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step<'a> {
    /// The run.
    pub run: &'a Run,
    /// The set that it belongs to, from 1.
    pub set: u32,
    /// The lanes that it names.
    pub lanes: Option<&'a Spanned<Vec<u8>>>,
    /// Where on the track.
    pub place: Option<&'a Spanned<Place>>,
    /// The mark from which it starts.
    pub from: Option<&'a Spanned<String>>,
    /// The mark at which it ends.
    pub to: Option<&'a Spanned<String>>,
    /// Whether all lanes start as one group.
    pub together: Option<&'a Spanned<()>>,
    /// How fast.
    pub pace: Option<&'a Spanned<Pace>>,
    /// How hard.
    pub effort: Option<&'a str>,
    /// How long the recovery after it is.
    pub gap: Option<Gap>,
    /// How the runners get to the next start.
    pub way: Option<Way>,
}

impl Group {
    /// How many runs it has in all; at most [`MOST_REPS`] and one are counted.
    pub fn runs(&self) -> u32 {
        let once = self.items.iter().fold(0_u32, |sum, item| {
            sum.saturating_add(match item {
                Item::Run(_) => 1,
                Item::Group(group) => group.runs(),
            })
        });
        self.count.saturating_mul(once).min(MOST_REPS + 1)
    }

    fn flatten<'a>(&'a self, outer: &mut Vec<&'a Details>, set: u32, steps: &mut Vec<Step<'a>>) {
        outer.push(&self.details);
        let once = self.runs() / self.count.max(1);
        for turn in 0..self.count {
            for (index, item) in self.items.iter().enumerate() {
                // A set is a turn of the outermost group whose turns have several runs.
                let set = if once > 1 && outer.len() <= 2 && self.count > 1 { turn + 1 } else { set };
                match item {
                    Item::Run(run) => steps.push(step(run, outer, set)),
                    Item::Group(group) => {
                        group.flatten(outer, set, steps);
                        // `4 x 200 + 4 x 100` are sets as well, where a recovery between sets is said.
                        if group.runs() > 1 && index + 1 < self.items.len() {
                            set_gap(steps, outer, None);
                        }
                    }
                }
                if steps.len() > MOST_REPS as usize {
                    break;
                }
            }
            // Between the turns of a group with several runs lies the recovery between sets.
            if once > 1 {
                set_gap(steps, outer, self.details.recovery.between.as_ref());
            }
        }
        outer.pop();
    }
}

/// Puts the recovery between sets behind the last step: the one that is said, else the group's own.
fn set_gap(steps: &mut [Step<'_>], outer: &[&Details], own: Option<&Spanned<Gap>>) {
    let said = outer.iter().rev().find_map(|details| details.recovery.sets.as_ref());
    if let (Some(last), Some(gap)) = (steps.last_mut(), said.or(own)) {
        last.gap = Some(gap.value);
    }
}

fn step<'a>(run: &'a Run, outer: &[&'a Details], set: u32) -> Step<'a> {
    // What is said of the run itself goes before what is said of its group.
    let mut layers = std::iter::once(&run.details).chain(outer.iter().rev().copied());
    fn first<'a, T>(
        layers: &mut (impl Iterator<Item = &'a Details> + Clone),
        get: impl Fn(&'a Details) -> Option<&'a T>,
    ) -> Option<&'a T> {
        layers.clone().find_map(get)
    }
    Step {
        run,
        set,
        lanes: first(&mut layers, |details| details.lanes.as_ref()),
        place: first(&mut layers, |details| details.place.as_ref()),
        from: first(&mut layers, |details| details.from.as_ref()),
        to: first(&mut layers, |details| details.to.as_ref()),
        together: first(&mut layers, |details| details.together.as_ref()),
        pace: first(&mut layers, |details| details.pace.as_ref()),
        effort: first(&mut layers, |details| details.effort.as_ref()).map(|effort| effort.as_str()),
        gap: first(&mut layers, |details| details.recovery.between.as_ref()).map(|gap| gap.value),
        way: first(&mut layers, |details| details.recovery.way.as_ref()).map(|way| way.value),
    }
}
