//! Where a run is: lanes, places, and marks by name.

use lane_distance::{Course, Place};

use super::vocabulary;
use crate::block::Details;
use crate::cursor::Cursor;
use crate::spanned::Spanned;

const PLACE_HELP: &str = "write `on the bend`, `on the home straight` or `on the back straight`";
const MARK_HELP: &str = "write for example `from the 400 m start` or `to the finish line`";
const LANES: [&str; 5] = ["lane", "lanes", "l", "ln", "lns"];

/// Metres past a mark that no run has: `400 m start + 5` is one place.
const LEAST_RUN_M: f64 = 10.0;

impl Cursor<'_> {
    /// `in lane 2`, `lanes 2-5`, `L2`
    pub(crate) fn is_in_lane(&self) -> bool {
        let ahead = usize::from(self.is_word(0, &["in"]));
        self.is_word(ahead, &LANES[..2]) || self.is_word(ahead, &LANES) && self.is_number(ahead + 1)
    }

    pub(crate) fn lanes_clause(&mut self, details: &mut Details, begins: usize) {
        self.word(&["in"]);
        self.skip();
        match self.lanes() {
            Some(lanes) => {
                self.once(details.lanes.is_some(), begins, "list of lanes");
                details.lanes = Some(lanes);
            }
            None => self.skip_to_clause(),
        }
    }

    /// A place, or a straight run the other way; false where none comes next.
    pub(crate) fn wherein_clause(&mut self, details: &mut Details) -> bool {
        const WITH_THE_WIND: [&[&str]; 3] =
            [&["with", "the", "wind", "side"], &["with", "the", "wind"], &["with", "wind"]];
        let begins = self.place();
        let is_place = self.word(&["on", "round", "around", "along", "down", "up"])
            || self.is_place_name() && !self.is_word(0, &["the", "track"]);
        if is_place {
            self.place_clause(details, begins);
        }
        is_place || self.the_other_way(details, begins) || self.one_of(&WITH_THE_WIND)
    }

    /// Where a run starts or ends, or that all start together; false where nothing of it comes next.
    pub(crate) fn end_clause(&mut self, details: &mut Details) -> bool {
        const TOGETHER: [&[&str]; 5] = [
            &["starting", "together"],
            &["start", "together"],
            &["together"],
            &["group", "start"],
            &["mass", "start"],
        ];
        const FROM: [&[&str]; 6] = [
            &["from"],
            &["starting", "from"],
            &["starting", "at"],
            &["starting", "on"],
            &["start", "from"],
            &["start", "at"],
        ];
        const TO: [&[&str]; 5] =
            [&["to"], &["finishing", "at"], &["finishing", "on"], &["finish", "at"], &["finish", "on"]];
        let begins = self.place();
        if self.one_of(&TOGETHER) {
            let span = self.since(begins);
            self.once(details.together.is_some(), begins, "start as a group");
            details.together = Some(Spanned::new((), span));
        } else if self.one_of(&FROM) {
            let mark = self.mark_name("a mark to start from");
            self.once(details.from.is_some(), begins, "start");
            details.from = mark.or(details.from.take());
        } else if self.one_of(&TO) {
            let mark = self.mark_name("a mark to finish at");
            self.once(details.to.is_some(), begins, "finish");
            details.to = mark.or(details.to.take());
        } else {
            return false;
        }
        true
    }

    /// Whether the name of a place comes next: `bend`, `the home straight`.
    pub(crate) fn is_place_name(&self) -> bool {
        let the = usize::from(self.is_word(0, &["the", "a", "one"]));
        self.is_word(the, &["bend", "bends", "curve", "turn", "straight", "straights", "oval", "track"])
            || self.is_word(the, &["home", "back"]) && self.is_word(the + 1, &["straight", "stretch"])
            || self.is_word(the, &["homestraight", "backstraight", "homestretch", "backstretch"])
    }

    pub(crate) fn place_clause(&mut self, details: &mut Details, begins: usize) {
        self.word(&["the", "a", "one"]);
        let here = self.here();
        let place = if self.word(&["bend", "bends", "curve", "turn"]) {
            Some(Place::Bend)
        } else if self.one_of(&[&["home", "straight"], &["home", "stretch"]])
            || self.word(&["straight", "straights", "homestraight", "homestretch"])
        {
            Some(Place::On(Course::HomeStraight))
        } else if self.one_of(&[&["back", "straight"], &["back", "stretch"]])
            || self.word(&["backstraight", "backstretch"])
        {
            Some(Place::On(Course::BackStraight))
        } else if self.word(&["oval", "track"]) {
            Some(Place::On(Course::Oval))
        } else {
            None
        };
        match place {
            Some(place) => {
                self.once(details.place.is_some(), begins, "place");
                details.place = Some(Spanned::new(place, self.since(begins)));
            }
            None => {
                let message = format!("expected a place, found {}", self.found());
                let near = self.word_at(0).and_then(vocabulary::did_you_mean);
                self.problem(here, message, near.unwrap_or_else(|| PLACE_HELP.to_owned()));
                self.skip_to_clause();
            }
        }
    }

    /// `the other way`, `against the wind`, `against the wind side`, `into the wind`
    pub(crate) fn the_other_way(&mut self, details: &mut Details, begins: usize) -> bool {
        const WAYS: [&[&str]; 4] = [
            &["the", "other", "way"],
            &["the", "other", "direction"],
            &["into", "the", "wind"],
            &["into", "wind"],
        ];
        let is_here = self.one_of(&WAYS) || {
            let is_against = self.word(&["against"]);
            if is_against {
                self.word(&["the"]);
                while self.word(&["wind", "side", "running", "direction", "of"]) {}
            }
            is_against
        };
        if !is_here {
            return false;
        }
        let span = self.since(begins);
        match &mut details.place {
            Some(place) => match place.value {
                Place::On(course) if course != Course::Oval => {
                    place.value = Place::Against(course);
                    place.span.end = span.end;
                }
                Place::Against(_) => {}
                Place::Bend => {
                    self.problem(span, "a bend is run anticlockwise only", "leave out the other way");
                }
                _ => self.problem(
                    span,
                    "round the track runs are anticlockwise only",
                    "name a straight before it",
                ),
            },
            None => details.place = Some(Spanned::new(Place::Against(Course::HomeStraight), span)),
        }
        true
    }

    /// The name of a mark, up to where something else begins.
    fn mark_name(&mut self, what: &str) -> Option<Spanned<String>> {
        self.word(&["the", "a"]);
        let begins = self.place();
        while !self.is_mark_over() {
            self.skip();
        }
        // `400 m start + 5`: metres past it.
        let is_past = self.place() > begins
            && self.is_sign(0, '+')
            && self.number_at(1).is_some_and(|value| value < LEAST_RUN_M)
            && !self.is_times(2)
            && !self.is_count_word(2)
            && !self.is_word(2, &["lap", "laps", "km", "k", "mile", "miles"])
            && !self.is_duration_at(1);
        if is_past {
            self.skip();
            self.skip();
        }
        let span = self.since(begins);
        let name = self.text[span.clone()].trim();
        if self.place() == begins || name.is_empty() {
            let message = format!("expected {what}, found {}", self.found());
            self.problem(self.here(), message, MARK_HELP);
            return None;
        }
        Some(Spanned::new(name.split_whitespace().collect::<Vec<_>>().join(" "), span))
    }

    fn is_mark_over(&self) -> bool {
        self.is_at_end()
            || [')', ',', ';', '+', '@', '(', '/'].iter().any(|&sign| self.is_sign(0, sign))
            || self.is_clause(0) && !self.is_word(0, &["the", "start", "finish"])
            || self.is_in_lane()
            || self.is_duration()
            || self.is_distance_way()
            || self.is_bare_pace()
    }
}
