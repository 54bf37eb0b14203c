//! Lines that are not runs, such as `warm-up 15 min`, and labels before runs, such as `main set:`.

use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::form::{Form, row};
use crate::forms::run_length::RunLength;
use crate::people::AGES;
use crate::phrases::Phrases;
use crate::rest_words::RESTS;
use crate::token::Kind;
use crate::vocabulary::Role;

pub(crate) const FORM: Form = Form {
    begins: Phrases::NONE,
    words: &[],
    rows: &[row(&["warm-up 15 min", "drills"], "lines that are not runs")],
};

/// Words that begin a line which is not a run.
#[rustfmt::skip]
pub(crate) const NOTES: [&str; 28] = [
    "warm", "warmup", "warming", "wu", "cool", "cooldown", "cooling", "cd", "warmdown", "wd", "drills",
    "stretch", "stretches", "stretching", "mobility", "core", "plyometrics", "skips", "strides",
    "technique", "break", "rest", "note", "gym", "weights", "talk", "game", "games",
];

/// Those that may follow a distance: `2 laps warm-up`.
const AFTER_A_DISTANCE: [&str; 10] =
    ["warm", "warmup", "warming", "wu", "cool", "cooldown", "cooling", "cd", "warmdown", "drills"];

/// What a number alone in a warm-up is taken for minutes up to.
const MINUTES_OF_NOTE: std::ops::RangeInclusive<f64> = 3.0..=60.0;

/// More of them than this are metres.
pub(crate) const MOST_COUNTED: f64 = 20.0;

/// The most words, numbers and signs of a label such as `main set:`.
const MOST_TOKENS: usize = 10;

/// Words in a label that make it something else: what is counted or rested.
#[rustfmt::skip]
const NO_LABEL: [&str; 16] = [
    "rest", "rests", "rec", "recovery", "recoveries", "r", "s", "p", "between", "jog", "walk", "off", "every", "cycle",
    "pace", "target",
];

/// Words behind a number that make a run or a count of it, and no label.
const COUNTED: [&str; 12] =
    ["series", "rounds", "lots", "sets", "set", "reps", "rep", "times", "min", "mins", "sec", "secs"];

/// A line that is not a run.
pub(crate) struct Note {
    pub(crate) words: String,
    pub(crate) lasts_s: Option<f64>,
    /// How far it goes, where that is said.
    pub(crate) length: Option<RunLength>,
}

/// A distance in a note that is shorter is one of its drills, in metres.
const LEAST_LENGTH_M: f64 = 200.0;

/// What is no run and has a name that nobody knows lasts longer, in seconds.
const LEAST_NOTE_S: f64 = 60.0;

impl Cursor<'_> {
    /// The whole text as a note if it is one: it begins with the name of something that is not a run,
    /// or with a word that begins no run and all its numbers are durations.
    pub(crate) fn note(&mut self) -> Option<Note> {
        let is_named = self.is_named_note() || self.is_note_alone();
        let is_run =
            !matches!(self.kind(0), Some(Kind::Word)) || self.is_run_word() || self.label_tokens().is_some();
        if is_run && !is_named {
            return None;
        }
        let begins_clause = self.is_clause(0);
        let (mut lasts_s, mut length) = (None, None);
        let (mut has_number, mut has_duration) = (false, false);
        while !self.is_at_end() {
            // `U13s` is no time.
            let is_age = self.is_word_before(1, &AGES) && self.is_glued(0);
            if self.is_duration() && !is_age {
                has_duration = true;
                lasts_s = self.seconds("", "").map_or(lasts_s, |seconds| Some(*seconds));
            } else {
                has_number |= self.is_number(0) && !is_age;
                length = length.or_else(|| self.length_of_note());
                self.skip();
            }
        }
        let has_problem = !std::mem::take(&mut self.problems).is_empty();
        self.go_back(0);
        // `Nora 22.5s`: a few seconds are somebody's time.
        let is_short = lasts_s.is_some_and(|seconds| seconds < LEAST_NOTE_S);
        if !is_named && (has_number || has_problem || is_short || begins_clause && has_duration) {
            return None;
        }
        if self.is_on_hill() {
            return Some(Note { words: self.text.trim().to_owned(), lasts_s: None, length: None });
        }
        if lasts_s.is_none() && length.is_none() {
            lasts_s = self.minutes_of_note();
        }
        Some(Note { words: self.text.trim().to_owned(), lasts_s, length })
    }

    /// `warm up 15`: a number alone behind the words for a warm-up or a cool-down.
    fn minutes_of_note(&mut self) -> Option<f64> {
        const WORDS: [&str; 10] =
            ["warm", "up", "warmup", "wu", "cool", "down", "cooldown", "cd", "warmdown", "easy"];
        let words = (0..MOST_TOKENS).take_while(|&ahead| self.is_word(ahead, &WORDS)).count();
        let minutes = self.number_at(words).filter(|minutes| MINUTES_OF_NOTE.contains(minutes))?;
        if words == 0 || self.kind(words + 1).is_some() {
            return None;
        }
        self.doubts.push(Doubt::MinutesOfNote { minutes });
        Some(minutes * 60.0)
    }

    /// `2 laps`, `800m`: how far a note goes, where that stands next.
    fn length_of_note(&mut self) -> Option<RunLength> {
        let is_length = self.is_laps(0) || self.is_number(0) && self.metres_in(1).is_some();
        if !is_length {
            return None;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let length = self.length().ok().map(|length| length.value);
        self.problems.truncate(problems);
        self.go_back(before);
        length.filter(|length| !matches!(length, RunLength::Metres(metres) if *metres < LEAST_LENGTH_M))
    }

    /// Whether the whole text is a note beside runs: a warm-up, drills, an easy jog of so long, and no counted runs.
    pub(crate) fn is_note_alone(&mut self) -> bool {
        if self.is_easy_jog() || self.is_counted_note() || self.is_exercise() || self.is_on_hill() {
            return true;
        }
        if self.is_word(0, &["strides"]) && !(0..40).any(|ahead| self.is_number(ahead)) {
            return true;
        }
        // `W/up`, `2km c/d`
        let is_far =
            self.is_number(0) && (self.metres_in(1).is_some() || self.is_laps(0) || self.is_duration());
        let short = if is_far { 2 } else { 0 };
        if self.is_word(short, &["w", "c"])
            && self.is_sign(short + 1, '/')
            && self.is_word(short + 2, &["up", "down", "u", "d"])
        {
            return !(0..40).any(|ahead| self.is_counted_item(ahead));
        }
        let name = (0..5).find(|&ahead| self.begins(ahead, Role::NOTE));
        let holds = |ahead: usize| self.is_word(ahead, &["rest", "break", "strides", "note", "talk"]);
        if name.is_none_or(holds) || !self.is_named_note() {
            return false;
        }
        let begins = self.place();
        let is_drills =
            self.is_word(0, &["drills", "skips", "technique", "plyometrics", "core", "gym", "weights"]);
        let mut has_runs = false;
        while !self.is_at_end() {
            has_runs |= self.is_counted_item(0);
            self.skip();
        }
        self.go_back(begins);
        !has_runs || is_drills
    }

    /// `4 strides`, `6 x strides`, `8 hills`: so many of what has no set distance.
    fn is_counted_note(&self) -> bool {
        const COUNTED: [&str; 6] = ["strides", "hills", "hill", "bounds", "buildups", "accelerations"];
        let is_count = self.number_at(0).is_some_and(|count| count.fract() == 0.0 && count <= MOST_COUNTED);
        let name = 1 + usize::from(self.is_times(1));
        is_count
            && self.is_word(name, &COUNTED)
            && !(name + 1..MOST_TOKENS + 30).any(|ahead| {
                self.is_number(ahead) && !self.is_duration_at(ahead) && !self.is_in_word(ahead)
                    || self.is_sign(ahead, 'x')
            })
    }

    /// `8 x hill sprints 80m`, `hill reps: 6 x 80m`, `6 x 80m hills`: a distance that no track has. What is run by time may be
    /// run anywhere.
    fn is_on_hill(&self) -> bool {
        const ON_HILL: [&str; 6] = ["sprint", "sprints", "reps", "repeats", "runs", "session"];
        let count = if self.is_times(1) { 2 } else { 0 };
        let is_metres = self.metres_in(count + 1).is_some();
        let hill = if is_metres { count + 2 } else { count };
        let is_behind =
            hill > 0 || self.is_word(1, &ON_HILL) || self.is_sign(1, ':') || self.is_counted_item(1);
        self.is_word(hill, &["hill", "hills"]) && is_behind
    }

    /// `3 x 10 press ups`, `20 squats`, `2 x 30s plank`: so many of what is done on one spot.
    fn is_exercise(&self) -> bool {
        #[rustfmt::skip]
        const EXERCISES: [&str; 21] = [
            "press", "push", "pull", "sit", "chin", "squat", "squats", "burpee", "burpees", "lunge", "lunges", "plank",
            "planks", "crunches", "crunch", "hops", "jumps", "dips", "star", "tuck", "calf",
        ];
        if !self.is_number(0) {
            return false;
        }
        let count = if self.is_times(1) && self.is_number(2) { 2 } else { 0 };
        let unit = count + 1 + usize::from(self.seconds_in(count + 1).is_some());
        self.is_word(unit, &EXERCISES)
    }

    /// `2 laps easy jog`, `10 min jog`, `jog 2 laps`: to warm up or to cool down.
    pub(crate) fn is_easy_jog(&mut self) -> bool {
        let begins = self.place();
        self.word(&["easy"]);
        let is_first = self.skip_jog_alone();
        let is_far = if self.is_laps(0) {
            self.skip_all(2);
            true
        } else {
            self.word(&["lap", "mile"])
        };
        self.word(&["easy", "of", "slow"]);
        let is_last = self.skip_jog_alone();
        let is_so = is_far && (is_first || is_last) && self.is_at_end();
        self.go_back(begins);
        is_so
    }

    /// Steps over `jog`, `easy jog`.
    fn skip_jog_alone(&mut self) -> bool {
        let jog = self.jog_tokens(0).filter(|_| self.is_jog_alone());
        self.skip_all(jog.unwrap_or_default());
        jog.is_some()
    }

    /// `warm-up 15 min`, `15 min warm-up`, `2 laps warm-up`
    fn is_named_note(&mut self) -> bool {
        let names: &[&str] = if self.is_duration() {
            let _ = self.seconds("", "");
            &NOTES
        } else if self.is_number(0) {
            self.skip();
            if self.metres_in(0).is_some() || self.is_word(0, &["lap", "laps"]) {
                self.skip();
            }
            &AFTER_A_DISTANCE
        } else {
            &NOTES
        };
        if self.place() > 0 {
            while self.word(&["easy", "of", "jog", "jogging", "x"]) {}
        }
        // `20 min rest 60s` is a run by time.
        // `rest is a 200 jog` says what is done between runs.
        let is_said = self.place() == 0 && self.is_word(1, &["is", "of", "half", "equal", "same"]);
        let is_rest_of_run = self.is_word(0, &["rest"]) && (self.place() > 0 && self.is_number(1) || is_said);
        // `20 min strides` is one too, as `20 min easy` is.
        let is_strides_of_run =
            if self.place() == 0 { self.is_labelled_strides() } else { self.is_word(0, &["strides"]) };
        let is_named = self.is_word(0, names) && !is_rest_of_run && !is_strides_of_run;
        self.problems.clear();
        self.go_back(0);
        is_named
    }

    /// `strides: 4 x 80`, `strides 4 x 80` are runs.
    fn is_labelled_strides(&self) -> bool {
        self.is_word(0, &["strides"]) && (self.label_tokens().is_some() || self.is_counted_item(1))
    }

    /// Whether a word comes next that begins a run.
    fn is_run_word(&self) -> bool {
        self.is_run_name(0) || self.is_word(0, &["in"]) && self.is_sign(1, '-')
    }

    /// Steps over a label before the runs, such as `main set:`, `Day 2)`, `Mon -`, `U13s`, and gives its words.
    pub(crate) fn label(&mut self) -> Option<String> {
        let begins = self.place();
        let (words, sign) = self.label_tokens()?;
        self.hurdles_event_m = self.hurdles_event_tokens().and_then(|_| self.number_at(0));
        self.skip_all(words);
        self.bind_since(begins);
        let label = self.text[self.since(begins)].split_whitespace().collect::<Vec<_>>().join(" ");
        self.skip_all(sign);
        Some(label)
    }

    /// How many tokens the words of a label have, and the sign behind them.
    fn label_tokens(&self) -> Option<(usize, usize)> {
        // `400H - 3 x 200` names the event.
        let event = self.hurdles_event_tokens();
        let is_event = |end: &usize| {
            (self.is_sign(*end, '-') || self.is_sign(*end, ':')) && self.is_counted_item(*end + 1)
        };
        if let Some(end) = event.filter(is_event) {
            return Some((end, 1));
        }
        // `3k worth - 5 x 600` says how far all is.
        let worth = self.metres_tokens(0).filter(|&metres| self.is_word(metres, &["worth"]));
        if let Some(end) = worth.map(|metres| metres + 1)
            && (self.is_sign(end, '-') || self.is_sign(end, ':'))
            && self.begins_item(end + 1)
        {
            return Some((end, 1));
        }
        // `in/out 150: 50-50-50`
        let first = if self.is_number(0) && self.is_times(1) { 2 } else { 0 };
        let is_in_and_out = self.is_word(first, &["in"])
            && (self.is_sign(first + 1, '/') || self.is_sign(first + 1, '-'))
            && self.is_word(first + 2, &["out"])
            && self.is_number(first + 3);
        if is_in_and_out {
            return None;
        }
        let starts_with_word = self.word_at(0).is_some();
        if self.limit_tokens().is_some() {
            return None;
        }
        if !starts_with_word && !(1..MOST_TOKENS).any(|ahead| self.is_sign(ahead, ':')) {
            return None;
        }
        // A number in front makes a label only of words that are unknown: `4th week: 6 x 200`.
        let has_unknown = |end: usize| {
            (0..end)
                .any(|ahead| !self.is_known(ahead) && self.word_at(ahead).is_some_and(|word| word.len() > 1))
        };
        for ahead in 0..MOST_TOKENS {
            let is_clock = self.is_sign(ahead, ':')
                && ahead > 0
                && self.is_number(ahead - 1)
                && self.is_glued(ahead)
                && self.is_glued(ahead + 1)
                && self.is_number(ahead + 1);
            if self.is_sign(ahead, ':') && !is_clock {
                // `6 x 300 on grass: 2 min`: what is counted is done.
                let has_runs = (0..ahead).any(|ahead| self.is_counted_item(ahead));
                let is_label = (starts_with_word || has_unknown(ahead))
                    && self.begins_item(ahead + 1)
                    && (!has_runs || self.is_counted_item(ahead + 1));
                return is_label.then_some((ahead, 1));
            }
            if self.kind(ahead).is_none()
                || self.is_sign(ahead, '@')
                || self.is_word(ahead, &NO_LABEL)
                    && !self.is_glued(ahead)
                    && !(ahead > 0 && self.is_word(ahead - 1, &["race"]))
            {
                break;
            }
            if ahead > 0 && self.is_number(ahead - 1) && self.is_word(ahead, &COUNTED) {
                break;
            }
        }
        if !starts_with_word
            || self.is_hurdle_range(0)
            || self.is_run_word()
            || self.is_effort(0)
            || self.is_word(0, &NO_LABEL)
        {
            return None;
        }
        self.label_without_colon()
    }

    /// `Day 2) 6 x 60`, `Mon - 6 x 60`, `U13s 6 x 60`, `Ins & outs 3 x 100`, where a word comes next.
    fn label_without_colon(&self) -> Option<(usize, usize)> {
        let mut end = 0;
        while end < MOST_TOKENS {
            if self.is_sign(end, ')') {
                return self.begins_item(end + 1).then_some((end, 1));
            }
            if self.is_sign(end, '-') && self.begins_item(end + 1) && !self.is_glued(end + 1) {
                return Some((end, 1));
            }
            // `Billat 30-30 x 20`
            if self.number_at(end).is_some() && self.number_at(end) == self.number_at(end + 2) {
                let is_pair = self.is_sign(end + 1, '-') || self.is_sign(end + 1, '/');
                if is_pair && self.is_times(end + 3) {
                    return Some((end, 0));
                }
            }
            // `U13s`, `Day 2`
            let is_glued_number = self.is_number(end) && (self.is_glued(end) || !self.is_times(end + 1));
            if self.is_number(end) && self.is_counted_item(end) {
                return Some((end, 0));
            }
            let is_joint = ['+', '/', '-', '\''].iter().any(|&sign| self.is_sign(end, sign));
            let is_word = self.word_at(end).is_some() && !self.is_clause(end) && !self.is_effort(end);
            if !is_word && !is_joint && !is_glued_number {
                break;
            }
            end += 1;
        }
        // `Stride 600m untimed`: words alone in front of a run.
        let words = (0..MOST_TOKENS)
            .take_while(|&ahead| self.word_at(ahead).is_some() && !self.is_clause(ahead))
            .count();
        let is_run = self.metres_in(words + 1).is_some()
            || self.is_list_of_distances(words)
            || self.ladder_at(words).is_some();
        (words <= 3 && self.is_number(words) && is_run).then_some((words, 0))
    }

    /// Whether runs may begin `ahead`.
    fn begins_item(&self, ahead: usize) -> bool {
        self.is_item(ahead)
            || self.is_effort(ahead)
            || self.word_at(ahead).is_some_and(|_| self.is_item(ahead + 1) && !self.is_clause(ahead))
    }

    /// Whether a rest stands outside of all brackets: a time that neither `in` nor `@` makes a pace.
    pub(crate) fn has_rest_outside_brackets(&mut self) -> bool {
        let begins = self.place();
        let mut depth = 0_u32;
        let mut is_found = false;
        while !self.is_at_end() && !is_found {
            if self.is_sign(0, '(') {
                depth += 1;
            } else if self.is_sign(0, ')') {
                depth = depth.saturating_sub(1);
            } else if depth == 0 && self.is_duration() {
                let is_pace = self.is_behind('@') || self.is_behind_word(&["in", "at"]);
                is_found = !is_pace && !self.is_times(2);
            } else if depth == 0 {
                // `(5:20) 400 jog`, `(35s) R 200m jog`
                let is_behind =
                    self.is_behind(')') || self.is_sign_before(2, ')') && self.is_behind_word(RESTS);
                is_found = is_behind && self.is_distance_jog();
            }
            self.skip();
        }
        self.go_back(begins);
        is_found
    }
}
