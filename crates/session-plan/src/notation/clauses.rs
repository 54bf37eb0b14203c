//! What is said of a run besides how far it is: lanes, place, pace, recovery.

use lane_distance::{Course, Place};

use super::block::{Details, Gap, Pace, Way};
use super::cursor::Cursor;
use super::spanned::Spanned;

/// Words that begin a clause.
const BEGINNINGS: [&str; 24] = [
    "in",
    "lane",
    "lanes",
    "on",
    "at",
    "from",
    "to",
    "finishing",
    "starting",
    "rest",
    "rec",
    "recovery",
    "off",
    "every",
    "jog",
    "walk",
    "stand",
    "standing",
    "change",
    "changing",
    "against",
    "with",
    "between",
    "the",
];

/// Words for how hard a run is.
const EFFORTS: [&str; 17] = [
    "easy",
    "steady",
    "hard",
    "fast",
    "relaxed",
    "tempo",
    "threshold",
    "float",
    "controlled",
    "smooth",
    "brisk",
    "strong",
    "sprint",
    "strides",
    "progressive",
    "maximal",
    "submaximal",
];

const PLACE_HELP: &str = "write `on the bend`, `on the home straight` or `on the back straight`";
const PACE_HELP: &str = "write for example `@ 48s`, `@ 1:12`, `@ 75/400`, `@ 90%` or `@ 800 pace`";
const REST_HELP: &str = "write for example `rest 90s` or `rest 3min / 8min between sets`";

impl Cursor<'_> {
    /// Whether a clause begins `ahead` of the next token.
    pub(crate) fn is_clause(&self, ahead: usize) -> bool {
        self.is_sign(ahead, '@') || self.is_word(ahead, &BEGINNINGS) || self.is_word(ahead, &EFFORTS)
    }

    /// Goes on where a clause may begin, so that one problem hides no other.
    pub(crate) fn skip_to_clause(&mut self) {
        while !self.is_at_end() && !self.is_clause(0) && !self.is_sign(0, ')') {
            self.skip();
        }
    }

    /// Reads clauses until something else comes.
    pub(crate) fn clauses(&mut self, details: &mut Details) {
        loop {
            // A comma or a semicolon may stand before a clause.
            let before = self.place();
            while self.is_sign(0, ',') || self.is_sign(0, ';') {
                self.skip();
            }
            if !self.clause(details) {
                self.go_back(before);
                return;
            }
        }
    }

    /// Reads one clause; false where none comes next.
    fn clause(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        let is_range = self.is_word(0, &["in"]) && self.is_number(1);
        if self.is_duration_gap() {
            self.gaps(details, begins);
        } else if is_range {
            self.skip();
            self.pace(details, begins);
        } else if self.is_word(0, &["in"]) && self.is_sign(1, '-') {
            // `in-and-out` belongs to the run.
            return false;
        } else if self.word(&["in"]) {
            if self.word(&["lane", "lanes"]) {
                self.lanes_clause(details, begins);
            } else {
                let message = format!("expected `lane` after `in`, found {}", self.found());
                self.problem(self.here(), message, "write for example `in lane 2` or `in lanes 2-5`");
                self.skip_to_clause();
            }
        } else if self.word(&["lane", "lanes"]) {
            self.lanes_clause(details, begins);
        } else if self.sign('@') || self.is_word(0, &["at"]) && self.is_number(1) && self.word(&["at"]) {
            self.pace(details, begins);
        } else if self.word(&["on"]) {
            self.place_clause(details, begins);
        } else if self.phrase(&["the", "other", "way"]) || self.against() {
            self.other_way(details, begins);
        } else if self.phrase(&["with", "the", "wind"]) {
            self.word(&["side"]);
        } else if self.phrase(&["starting", "together"]) {
            let span = self.since(begins);
            self.once(details.together.is_some(), begins, "start as a group");
            details.together = Some(Spanned::new((), span));
        } else if self.word(&["from"])
            || self.phrase(&["starting", "from"])
            || self.phrase(&["starting", "at"])
        {
            let mark = self.mark_name("a mark to start from");
            self.once(details.from.is_some(), begins, "start");
            details.from = mark.or(details.from.take());
        } else if self.is_word(0, &["to"]) && self.is_word(1, &["hurdle"]) {
            return false;
        } else if self.word(&["to"]) || self.phrase(&["finishing", "at"]) || self.phrase(&["finishing", "on"])
        {
            let mark = self.mark_name("a mark to finish at");
            self.once(details.to.is_some(), begins, "finish");
            details.to = mark.or(details.to.take());
        } else if self.word(&["rest", "rec", "recovery"]) {
            self.gaps(details, begins);
        } else if self.word(&["off", "every"]) {
            if let Some(seconds) = self.seconds("a time from start to start", "write for example `off 3:00`")
            {
                self.once(details.recovery.between.is_some(), begins, "recovery");
                details.recovery.between = Some(Spanned::new(Gap::Off(*seconds), self.since(begins)));
            } else {
                self.skip_to_clause();
            }
        } else if self.is_word(0, &["jog", "walk", "stand", "standing", "change", "changing"]) {
            self.way(details, begins);
        } else if self.is_word(0, &EFFORTS) {
            let effort = self.word_at(0).unwrap_or_default();
            self.skip();
            self.once(details.effort.is_some(), begins, "effort");
            details.effort = Some(Spanned::new(effort, self.since(begins)));
        } else {
            return false;
        }
        true
    }

    pub(crate) fn once(&mut self, again: bool, begins: usize, what: &str) {
        if again {
            let span = self.since(begins);
            self.problem(span, format!("a second {what} for the same run"), "keep one of them");
        }
    }

    fn lanes_clause(&mut self, details: &mut Details, begins: usize) {
        match self.lanes() {
            Some(lanes) => {
                self.once(details.lanes.is_some(), begins, "list of lanes");
                details.lanes = Some(lanes);
            }
            None => self.skip_to_clause(),
        }
    }

    fn place_clause(&mut self, details: &mut Details, begins: usize) {
        self.word(&["the", "a", "one"]);
        let here = self.here();
        let place = if self.word(&["bend", "bends", "curve", "turn"]) {
            Some(Place::Bend)
        } else if self.phrase(&["home", "straight"])
            || self.phrase(&["home", "stretch"])
            || self.word(&["straight"])
        {
            Some(Place::On(Course::HomeStraight))
        } else if self.phrase(&["back", "straight"]) || self.phrase(&["back", "stretch"]) {
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
                let message = format!("expected a place after `on`, found {}", self.found());
                self.problem(here, message, PLACE_HELP);
                self.skip_to_clause();
            }
        }
    }

    /// `against the wind`, `against the wind side`, `against the running direction`
    fn against(&mut self) -> bool {
        if !self.word(&["against"]) {
            return false;
        }
        self.word(&["the"]);
        while self.word(&["wind", "side", "running", "direction", "of"]) {}
        true
    }

    fn other_way(&mut self, details: &mut Details, begins: usize) {
        let span = self.since(begins);
        match &mut details.place {
            Some(place) => match place.value {
                Place::On(course) if course != Course::Oval => {
                    place.value = Place::Against(course);
                    place.span.end = span.end;
                }
                Place::Against(_) => {}
                Place::Bend => {
                    self.problem(span, "a bend is run anticlockwise only", "leave out the other way")
                }
                _ => self.problem(
                    span,
                    "round the track runs are anticlockwise only",
                    "name a straight before it",
                ),
            },
            None => details.place = Some(Spanned::new(Place::Against(Course::HomeStraight), span)),
        }
    }

    /// The name of a mark, up to where something else begins.
    fn mark_name(&mut self, what: &str) -> Option<Spanned<String>> {
        self.word(&["the", "a"]);
        let begins = self.place();
        loop {
            let is_over = self.is_at_end()
                || [')', ',', ';', '+', '@', '(', '/'].iter().any(|&sign| self.is_sign(0, sign))
                || self.is_clause(0) && !self.is_word(0, &["the", "to"])
                || self.is_duration() && !self.is_word(1, &["m"]);
            if is_over {
                break;
            }
            self.skip();
        }
        let span = self.since(begins);
        let name = self.text[span.clone()].trim();
        if self.place() == begins || name.is_empty() {
            let message = format!("expected {what}, found {}", self.found());
            self.problem(
                self.here(),
                message,
                "write for example `from the 400 m start` or `to the finish line`",
            );
            return None;
        }
        Some(Spanned::new(name.split_whitespace().collect::<Vec<_>>().join(" "), span))
    }

    /// A pace: `48`, `48s`, `1:12`, `48-50s`, `75/400`, `3:20/km`, `90%`, `800 pace`, `5k pace`.
    fn pace(&mut self, details: &mut Details, begins: usize) {
        let pace = self.pace_value();
        match pace {
            Some(pace) => {
                self.once(details.pace.is_some(), begins, "pace");
                details.pace = Some(Spanned::new(pace, self.since(begins)));
            }
            None => self.skip_to_clause(),
        }
    }

    fn pace_value(&mut self) -> Option<Pace> {
        if self.is_number(0) && self.is_sign(1, '%') {
            let (percent, span) = self.number()?;
            self.skip();
            if self.phrase(&["of", "best"])
                || self.phrase(&["of", "a", "best"])
                || self.phrase(&["of", "the", "best"])
            {
                // Said in full.
            }
            if !(30.0..=120.0).contains(&percent) {
                let message = format!("`{}` % of a best is out of range", &self.text[span.clone()]);
                self.problem(span, message, "write from 30% to 120%");
                return None;
            }
            return Some(Pace::Percent(percent));
        }
        if let Some(metres) = self.race_pace() {
            return metres;
        }
        let first = self.seconds("a pace", PACE_HELP)?;
        if self.is_sign(0, '-') && self.is_number(1) {
            self.skip();
            let last = self.seconds("the slower of two times", PACE_HELP)?;
            // `48-50s` and `1:10-1:12`: the unit of the second is that of both.
            let first_s = if first.value * 60.0 <= last.value && first.value < 10.0 {
                first.value * 60.0
            } else {
                *first
            };
            if first_s > *last {
                let span = first.span.start..last.span.end;
                self.problem(span, "the first of two times is the faster one", "exchange them");
                return None;
            }
            return Some(Pace::Time { seconds: first_s, to_s: Some(*last) });
        }
        if self.sign('/') || self.word(&["per"]) {
            let per = if self.is_number(0) {
                self.metres()
            } else if self.is_word(0, &["km", "k", "mile", "mi", "m"]) {
                let metres = if self.word(&["km", "k"]) {
                    1000.0
                } else if self.word(&["mile", "mi"]) {
                    1609.344
                } else {
                    self.skip();
                    1.0
                };
                Some((metres, self.here()))
            } else {
                None
            };
            let Some((per_m, span)) = per else {
                let message = format!("expected a distance after `/`, found {}", self.found());
                self.problem(self.here(), message, "write for example `@ 75/400` or `@ 3:20/km`");
                return None;
            };
            if !(1.0..=10_000.0).contains(&per_m) {
                self.problem(span, format!("a pace for each {per_m} m is out of range"), PACE_HELP);
                return None;
            }
            return Some(Pace::Rate { seconds: *first, per_m });
        }
        Some(Pace::Time { seconds: *first, to_s: None })
    }

    /// `800 pace`, `5k pace`, `mile race pace`: the distance; nothing inside where it is out of range.
    fn race_pace(&mut self) -> Option<Option<Pace>> {
        let before = self.place();
        let problems = self.problems.len();
        let metres = self.metres();
        let is_pace = metres.is_some() && (self.word(&["pace"]) || self.phrase(&["race", "pace"]));
        match metres {
            Some((metres, _)) if is_pace && (10.0..=50_000.0).contains(&metres) => {
                Some(Some(Pace::Race(metres)))
            }
            Some((metres, span)) if is_pace => {
                self.problem(span, format!("a race of {metres} m is out of range"), PACE_HELP);
                Some(None)
            }
            _ => {
                self.problems.truncate(problems);
                self.go_back(before);
                None
            }
        }
    }

    /// Whether a duration comes next that says how long a recovery is: `2min / 8min between sets`,
    /// `8min between sets`.
    fn is_duration_gap(&mut self) -> bool {
        if !self.is_duration() {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let read = self.seconds("", "").is_some();
        let is_gap =
            read && (self.is_sign(0, '/') || self.is_word(0, &["between", "rest", "rec", "recovery"]));
        self.problems.truncate(problems);
        self.go_back(before);
        is_gap
    }

    /// How long recoveries are: `90s`, `2min / 8min`, `8min between sets`.
    fn gaps(&mut self, details: &mut Details, begins: usize) {
        if self.word(&["standing"]) {
            details.recovery.way = Some(Spanned::new(Way::Stand, self.since(begins)));
        }
        let Some(first) = self.seconds("a rest", REST_HELP) else {
            self.skip_to_clause();
            return;
        };
        self.word(&["rest", "rec", "recovery"]);
        let gap = |seconds: &Spanned<f64>| Spanned::new(Gap::Rest(seconds.value), seconds.span.clone());
        if self.sign('/') {
            let Some(sets) = self.seconds("a rest between sets", REST_HELP) else {
                self.skip_to_clause();
                return;
            };
            self.between_sets();
            self.once(details.recovery.between.is_some(), begins, "rest");
            self.once(details.recovery.sets.is_some(), begins, "rest between sets");
            details.recovery.between = Some(gap(&first));
            details.recovery.sets = Some(gap(&sets));
        } else if self.between_sets() {
            self.once(details.recovery.sets.is_some(), begins, "rest between sets");
            details.recovery.sets = Some(gap(&first));
        } else {
            if self.phrase(&["between", "reps"]) || self.phrase(&["between", "runs"]) {
                // Said in full.
            }
            self.once(details.recovery.between.is_some(), begins, "rest");
            details.recovery.between = Some(gap(&first));
        }
    }

    fn between_sets(&mut self) -> bool {
        self.phrase(&["between", "sets"]) || self.phrase(&["between", "the", "sets"])
    }

    /// How the runners get to the next start: `jog 200`, `walk back`, `walk 100`, `standing`,
    /// `changing ends`.
    fn way(&mut self, details: &mut Details, begins: usize) {
        let way = if self.phrase(&["walk", "back"]) || self.phrase(&["walk", "-", "back"]) {
            Some(Way::WalkBack)
        } else if self.phrase(&["changing", "ends"]) || self.phrase(&["change", "ends"]) {
            Some(Way::ChangeEnds)
        } else if self.word(&["stand", "standing"]) {
            Some(Way::Stand)
        } else if self.is_word(0, &["jog", "walk"]) {
            let is_jog = self.is_word(0, &["jog"]);
            self.skip();
            if self.word(&["back"]) {
                Some(Way::WalkBack)
            } else if self.is_duration() {
                // A jog for a time leads back to the start.
                self.gaps(details, begins);
                return;
            } else {
                match self.metres() {
                    Some((metres, _)) if metres > 0.0 && metres <= 10_000.0 => {
                        Some(if is_jog { Way::Jog(metres) } else { Way::Walk(metres) })
                    }
                    Some((_, span)) => {
                        let message =
                            format!("`{}` is out of range for a recovery", &self.text[span.clone()]);
                        self.problem(span, message, "write from 1 m to 10000 m");
                        return;
                    }
                    None => None,
                }
            }
        } else {
            None
        };
        let Some(way) = way else {
            let message = format!("expected a distance or `back`, found {}", self.found());
            self.problem(self.here(), message, "write for example `jog 200`, `walk back` or `changing ends`");
            self.skip_to_clause();
            return;
        };
        self.once(details.recovery.way.is_some(), begins, "way to the next start");
        details.recovery.way = Some(Spanned::new(way, self.since(begins)));
        // `jog 200 in 90s`, `walk back 2min`: how long it may take.
        let is_timed = self.is_word(0, &["in"]) && self.is_number(1);
        if is_timed {
            self.skip();
        }
        if is_timed || self.is_duration() && !self.is_duration_gap() {
            self.gaps(details, begins);
        }
    }
}
