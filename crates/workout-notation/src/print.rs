//! A block as text, in one form of all those that mean the same.

use std::fmt;

use lane_distance::{Course, Place};

use crate::block::{Block, Body, Details, Gap, Group, Item, Length, Pace, Recovery, Run, RunKind, Way};

impl fmt::Display for Block {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.body {
            Body::Runs(group) => fmt::Display::fmt(group, f),
            Body::Note { words, .. } => f.write_str(words),
        }
    }
}

impl fmt::Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.count != 1 {
            write!(f, "{} x ", self.count)?;
        }
        // In brackets what is said behind several items cannot be taken for what is said of the last.
        let is_said = self.details != Details::default();
        let is_single_run = matches!(self.items.as_slice(), [Item::Run(_)]);
        let in_brackets = !is_single_run && (self.count != 1 || is_said);
        if in_brackets {
            f.write_str("(")?;
        }
        for (index, item) in self.items.iter().enumerate() {
            if index > 0 {
                f.write_str(" + ")?;
            }
            let is_last_of_several = index > 0 && index + 1 == self.items.len();
            match item {
                Item::Run(run) => write!(f, "{run}")?,
                Item::Group(group)
                    if group.count == 1 || is_last_of_several && group.details != Details::default() =>
                {
                    write!(f, "({group})")?;
                }
                Item::Group(group) => write!(f, "{group}")?,
            }
        }
        if in_brackets {
            f.write_str(")")?;
        }
        write!(f, "{}", self.details)
    }
}

impl fmt::Display for Run {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.kind.value, self.details)
    }
}

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Metres(metres) => write!(f, "{metres}"),
            Self::Laps(laps) => write!(f, "{laps} laps"),
        }
    }
}

impl fmt::Display for RunKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Plain(length) => write!(f, "{length}"),
            Self::Flying { metres, run_in_m } => write!(f, "flying {metres} with {run_in_m} run-in"),
            Self::Hurdles { race_m, to_hurdle: None } => write!(f, "{race_m}h"),
            Self::Hurdles { race_m, to_hurdle: Some(hurdle) } => write!(f, "{race_m}h to hurdle {hurdle}"),
            Self::Exchange { zone } => write!(f, "exchange zone {zone}"),
            Self::InAndOut { length, turn_m } => write!(f, "{length} in-and-out {turn_m}s"),
            Self::Timed { seconds } => write!(f, "{}", Duration(*seconds)),
        }
    }
}

impl fmt::Display for Details {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // `easy jog 200` is an easy jog, and not an easy run.
        let (first, last) = match self.effort.as_deref() {
            Some(effort) if effort.ends_with("easy") => (None, Some(effort)),
            effort => (effort, None),
        };
        if let Some(effort) = first {
            write!(f, " {effort}")?;
        }
        if let Some(pace) = &self.pace {
            write!(f, " @ {}", pace.value)?;
        }
        if let Some(lanes) = &self.lanes {
            let lanes: Vec<String> = lanes.iter().map(u8::to_string).collect();
            write!(f, " in lanes {}", lanes.join(","))?;
        }
        if let Some(place) = &self.place {
            f.write_str(match place.value {
                Place::Bend => " on the bend",
                Place::On(Course::HomeStraight) => " on the home straight",
                Place::On(Course::BackStraight) => " on the back straight",
                Place::Against(Course::BackStraight) => " on the back straight the other way",
                Place::Against(_) => " on the home straight the other way",
                Place::On(Course::Oval) | Place::Anywhere => " on the oval",
            })?;
        }
        if let Some(from) = &self.from {
            write!(f, " from the {}", from.value)?;
        }
        if let Some(to) = &self.to {
            write!(f, " to the {}", to.value)?;
        }
        if self.together.is_some() {
            f.write_str(" starting together")?;
        }
        write!(f, "{}", self.recovery)?;
        last.map_or(Ok(()), |effort| write!(f, " {effort}"))
    }
}

impl fmt::Display for Pace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Time { seconds, to_s: None } => write!(f, "{}", Duration(seconds)),
            Self::Time { seconds, to_s: Some(to_s) } => write!(f, "{}-{}", Duration(seconds), Duration(to_s)),
            Self::Rate { seconds, per_m } => write!(f, "{}/{per_m}", Duration(seconds)),
            Self::Percent(percent) => write!(f, "{percent}%"),
            Self::Race(metres) => write!(f, "{metres} pace"),
        }
    }
}

impl fmt::Display for Recovery {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.way.as_ref().map(|way| way.value) {
            None => {}
            Some(Way::Jog(metres)) => write!(f, " jog {metres}m")?,
            Some(Way::Walk(metres)) => write!(f, " walk {metres}m")?,
            Some(Way::WalkBack) => f.write_str(" walk back")?,
            Some(Way::Stand) => f.write_str(" standing")?,
            Some(Way::ChangeEnds) => f.write_str(" changing ends")?,
        }
        match self.between.as_ref().map(|gap| gap.value) {
            None => {}
            Some(Gap::Rest(seconds)) => write!(f, " rest {}", Duration(seconds))?,
            Some(Gap::Off(seconds)) => write!(f, " off {}", Duration(seconds))?,
        }
        match self.sets.as_ref().map(|gap| gap.value) {
            None => Ok(()),
            Some(Gap::Rest(seconds) | Gap::Off(seconds)) => write!(f, " {} between sets", Duration(seconds)),
        }
    }
}

/// A duration as the notation reads it.
struct Duration(f64);

impl fmt::Display for Duration {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let minutes = (self.0 / 60.0).floor();
        let seconds = self.0 - minutes * 60.0;
        // Only where nothing is lost on the way.
        if minutes >= 1.0 && minutes * 60.0 + seconds == self.0 && seconds.fract() == 0.0 {
            write!(f, "{minutes}:{seconds:02}")
        } else {
            write!(f, "{}s", self.0)
        }
    }
}
