//! Over hurdles: `110h`, `110h to hurdle 5`, `6H`, `H1-H3`, `300 over first 7 hurdles`, `200mH`.

use std::fmt;

use crate::cursor::{Cursor, Read};
use crate::form::{Form, row};
use crate::forms::hurdle_part::HurdlePart;
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;
use crate::phrases::Phrases;
use crate::quantity::LAPS;
use crate::spanned::Spanned;

const NAMES: [&str; 2] = ["hurdle", "hurdles"];
const SHORT: [&str; 8] = ["h", "hs", "mh", "hurdle", "hurdles", "hdls", "flight", "flights"];
const ORDINALS: [&str; 4] = ["st", "nd", "rd", "th"];
const HELP: &str = "write from 1 to 10, for example `110h to hurdle 5`";

/// A number of hurdles is no larger than this, and a race no shorter.
const MOST_HURDLES: f64 = 12.0;

/// The longest race over hurdles that are not those of a steeplechase, in metres.
const LONGEST_RACE_M: f64 = 400.0;

pub(crate) const HURDLES: RunForm = RunForm {
    form: Form {
        begins: Phrases::NONE,
        words: &NAMES,
        rows: &[
            row(&["110h", "110h to hurdle 5"], "over hurdles, to the finish or to a hurdle"),
            row(
                &["5H", "H1-H3", "2 x 8 hurdles"],
                "over so many hurdles, with the spacing of the sprint race",
            ),
            row(&["300 over first 7 hurdles", "200 over last 5 hurdles"], "a part of the 400 m hurdles"),
        ],
    },
    is_counted: |_| false,
    named,
    behind,
};

pub(crate) fn print(f: &mut fmt::Formatter<'_>, race_m: Option<f64>, part: HurdlePart) -> fmt::Result {
    let race = race_m.map_or(String::new(), |race_m| format!("{race_m}h"));
    match (part, race_m) {
        (HurdlePart::Whole, _) => f.write_str(&race),
        (HurdlePart::To(hurdle), Some(_)) => write!(f, "{race} to hurdle {hurdle}"),
        (HurdlePart::To(hurdle), None) => write!(f, "H1-H{hurdle}"),
        (HurdlePart::Between { first, last }, Some(_)) => write!(f, "{race} H{first}-H{last}"),
        (HurdlePart::Between { first, last }, None) => write!(f, "H{first}-H{last}"),
        (HurdlePart::Last { hurdles, .. }, Some(_)) => write!(f, "{race} over last {hurdles} hurdles"),
        (HurdlePart::First { run_m, hurdles }, _) => write!(f, "{run_m} over first {hurdles} hurdles"),
        (HurdlePart::Last { run_m, hurdles }, _) => write!(f, "{run_m} over last {hurdles} hurdles"),
    }
}

/// `H1-H3`, `6H`, `5 hurdles`
fn named(cursor: &mut Cursor<'_>) -> Reading {
    let race_m = cursor.hurdles_event_m;
    // `3 x to H5`, `4 x over 3 flights`
    let is_counted = |ahead: usize| {
        cursor.number_at(ahead).is_some_and(|hurdles| hurdles <= MOST_HURDLES)
            && cursor.is_word(ahead + 1, &SHORT)
            && !cursor.is_word(ahead + 1, &["mh"])
    };
    if cursor.is_word(0, &["to", "over", "off"]) && (cursor.is_hurdle_range(1) || is_counted(1)) {
        cursor.skip();
    }
    if cursor.is_hurdle_range(0) {
        let part = cursor.hurdle_range()?;
        let race_m = cursor.race_behind_hurdles().or(race_m);
        return Ok(Some(RunKind::Hurdles { race_m, part }));
    }
    if cursor.is_word(0, &["first"]) && cursor.is_number(1) && cursor.is_word(2, &SHORT) {
        cursor.skip();
    }
    let is_count =
        cursor.number_at(0).is_some_and(|hurdles| hurdles <= MOST_HURDLES) && cursor.is_word(1, &SHORT);
    if !is_count || cursor.is_word(1, &["mh"]) {
        return Ok(None);
    }
    let hurdle = cursor.hurdle()?;
    cursor.skip();
    Ok(Some(RunKind::Hurdles {
        race_m: cursor.race_behind_hurdles().or(race_m),
        part: HurdlePart::To(hurdle),
    }))
}

/// What makes a distance a run over hurdles.
fn behind(cursor: &mut Cursor<'_>, length: &Spanned<RunLength>) -> Reading {
    const PARTS: Phrases =
        Phrases::new(&[&[&["over"], &["the"], &["first", "last"]], &[&["over"], &["first", "last"]]]);
    // `200 over 5 hurdles`, `200 over hurdles (5 hurdles)`: the first ones.
    const ALL: Phrases = Phrases::new(&[&[&["over"], &NAMES, &["("]], &[&["over"]], &[&["with"]]]);
    if cursor.is_one_of(0, ALL)
        && let RunLength::Metres(run_m) = length.value
        && run_m <= LONGEST_RACE_M
    {
        let before = cursor.place();
        cursor.one_of(ALL);
        let is_in_brackets = cursor.is_behind('(');
        // `with 4 hurdles per lap`
        let is_each = cursor.is_word(2, &["per", "a", "each", "every", "on"]);
        if cursor.is_number(0) && cursor.is_word(1, &SHORT) && !is_each {
            let hurdles = cursor.hurdle()?;
            cursor.skip();
            if !is_in_brackets || cursor.sign(')') {
                return Ok(Some(RunKind::Hurdles {
                    race_m: None,
                    part: HurdlePart::First { run_m, hurdles },
                }));
            }
        }
        cursor.go_back(before);
    }
    if cursor.is_one_of(0, PARTS)
        && let RunLength::Metres(run_m) = length.value
    {
        let before = cursor.place();
        cursor.one_of(PARTS);
        let is_last = cursor.is_behind_word(&["last"]);
        if !(cursor.is_number(0) && cursor.is_word(1, &SHORT)) {
            cursor.go_back(before);
            return Ok(None);
        }
        let hurdles = cursor.hurdle()?;
        cursor.skip();
        let part =
            if is_last { HurdlePart::Last { run_m, hurdles } } else { HurdlePart::First { run_m, hurdles } };
        return Ok(Some(RunKind::Hurdles { race_m: None, part }));
    }
    if cursor.is_number(0) || !(cursor.word(&["h", "mh"]) || cursor.word(&NAMES)) {
        return Ok(None);
    }
    let RunLength::Metres(race_m) = length.value else {
        let span = length.span.clone();
        return Err(cursor.problem(span, "a hurdles race is measured in metres", "write for example `110h`"));
    };
    cursor.word(&NAMES);
    if race_m <= MOST_HURDLES {
        let message = format!("no hurdles race is run over {race_m} m");
        let help = format!("write `{race_m}H` for so many hurdles, or for example `100mH`");
        return Err(cursor.problem(length.span.clone(), message, help));
    }
    cursor.refuse_metres_of_race(race_m)?;
    let part = cursor.hurdle_part(race_m)?;
    Ok(Some(RunKind::Hurdles { race_m: Some(race_m), part }))
}

impl Cursor<'_> {
    /// Whether `H1-H3` or `hurdles 1-3` stands `ahead`.
    pub(crate) fn is_hurdle_range(&self, ahead: usize) -> bool {
        let is_in_words = self.is_word(ahead, &NAMES[1..])
            && (self.is_sign(ahead + 2, '-') || self.is_word(ahead + 2, &["to"]))
            && self.number_at(ahead + 3).is_some_and(|last| last <= MOST_HURDLES)
            && !self.is_times(ahead + 4);
        self.is_number(ahead + 1) && (self.is_word(ahead, &["h"]) && self.is_glued(ahead + 1) || is_in_words)
    }

    /// `5 hurdles 100mH`, `5 hurdles of the 110h`, `5 hurdles (100H spacing)`: the race behind so many hurdles, in metres.
    fn race_behind_hurdles(&mut self) -> Option<f64> {
        let before = self.place();
        let is_in_brackets = self.sign('(');
        self.word(&["of", "from", "in", "at", "with"]);
        self.word(&["the"]);
        let race_m = self.number_at(0);
        let tokens = self.hurdles_event_tokens().filter(|_| !self.is_behind(','));
        self.skip_all(tokens.unwrap_or_default());
        self.word(&["spacing", "spacings", "spaced", "marks"]);
        if tokens.is_none() || is_in_brackets && !self.sign(')') {
            self.go_back(before);
            return None;
        }
        self.bind_since(before);
        race_m
    }

    /// `400H`, `110m hurdles`: how many tokens a hurdles race has that comes next.
    pub(crate) fn hurdles_event_tokens(&self) -> Option<usize> {
        self.hurdles_event_at(0)
    }

    /// The same of one that stands `ahead`: the token behind it.
    pub(crate) fn hurdles_event_at(&self, ahead: usize) -> Option<usize> {
        self.number_at(ahead).filter(|&race_m| race_m > MOST_HURDLES)?;
        let unit = ahead + 1 + usize::from(self.is_word(ahead + 1, &["m"]));
        self.is_word(unit, &SHORT).then_some(unit + 1)
    }

    /// `400H first 200`: how many hurdles stand in so many metres is not said. What follows in words only tells how to
    /// run them, as in `400H first 200 hard`.
    fn refuse_metres_of_race(&mut self, race_m: f64) -> Read<()> {
        let over = usize::from(self.is_word(0, &["over"]));
        let the = over + usize::from(self.is_word(over, &["the"]));
        let Some(metres) = self.number_at(the + 1).filter(|_| self.is_word(the, &["first", "last"])) else {
            return Ok(());
        };
        let end = the + 2 + usize::from(self.is_word(the + 2, &["m"]));
        let is_told = self.is_effort(end) || self.is_sign(end, '@') || self.is_word(end, &["in", "at"]);
        if metres <= MOST_HURDLES || metres >= race_m || is_told || self.seconds_in(the + 2).is_some() {
            return Ok(());
        }
        let part = self.word_at(the).unwrap_or("first").to_lowercase();
        let begins = self.here().start;
        self.skip_all(end);
        let message = format!("how many hurdles stand in the {part} {metres} m is not said");
        let help = format!("write for example `{metres} over {part} 5 hurdles`");
        Err(self.problem(begins..self.since(self.place() - 1).end, message, help))
    }

    /// `H1-H3`, `H4 to H6`, `H3`
    fn hurdle_range(&mut self) -> Read<HurdlePart> {
        self.skip();
        let first = self.hurdle()?;
        let is_range = (self.is_sign(0, '-') || self.is_word(0, &["to"]))
            && (self.is_hurdle_range(1) || self.is_number(1) && !self.is_times(2));
        if !is_range {
            return Ok(HurdlePart::To(first));
        }
        self.skip();
        self.word(&["h"]);
        let here = self.here();
        let last = self.hurdle()?;
        if last < first {
            return Err(self.problem(here, format!("hurdles {first} to {last} are in reverse order"), HELP));
        }
        Ok(if first == 1 { HurdlePart::To(last) } else { HurdlePart::Between { first, last } })
    }

    /// What follows the name of a race: `to hurdle 5`, `over 5 hurdles`, `H4-H6`; the whole race where nothing does.
    fn hurdle_part(&mut self, race_m: f64) -> Read<HurdlePart> {
        const PARTS: Phrases = Phrases::new(&[
            &[&["over"], &["the"], &["first", "last"]],
            &[&["over"], &["first", "last"]],
            &[&["first", "last"]],
        ]);
        if self.is_one_of(0, PARTS) {
            let before = self.place();
            self.one_of(PARTS);
            let is_last = self.is_behind_word(&["last"]);
            if self.is_number(0) && self.is_word(1, &SHORT) {
                let hurdles = self.hurdle()?;
                self.skip();
                // The first hurdles of a race are those to the last of them; the last ones lead to the finish.
                return Ok(if is_last {
                    HurdlePart::Last { run_m: race_m, hurdles }
                } else {
                    HurdlePart::To(hurdles)
                });
            }
            self.go_back(before);
        }
        // `200mH (5 hurdles)`
        if self.is_sign(0, '(') && self.is_number(1) && self.is_word(2, &SHORT) && self.is_sign(3, ')') {
            self.skip();
            let hurdles = self.hurdle()?;
            self.skip_all(2);
            return Ok(HurdlePart::To(hurdles));
        }
        if self.is_hurdle_range(0) || self.is_word(0, &["to", "over"]) && self.is_hurdle_range(1) {
            self.word(&["to", "over"]);
            return self.hurdle_range();
        }
        // `to the 5th hurdle`, but not `to the 400 m start`
        let is_ordinal = self.is_word(0, &["to"])
            && self.is_word(1, &["the"])
            && self.is_number(2)
            && (self.is_word(3, &ORDINALS) || self.is_word(3, &NAMES[..1]));
        let is_numbered = self.one_of(const { Phrases::new(&[&[&["to"], &["hurdle", "h"]]]) });
        let is_counted = !is_numbered
            && (self.is_word(0, &["over", "to"]) && self.is_number(1) || is_ordinal)
            && self.word(&["over", "to"]);
        if !is_numbered && !is_counted {
            return Ok(HurdlePart::Whole);
        }
        self.word(&["the"]);
        let hurdle = self.hurdle()?;
        if is_counted {
            self.word(&ORDINALS);
            self.word(&SHORT);
        }
        Ok(HurdlePart::To(hurdle))
    }

    /// The number of a hurdle, or of hurdles.
    fn hurdle(&mut self) -> Read<u8> {
        let (span, found) = (self.here(), self.found());
        match self.number() {
            Some((hurdle, _)) if hurdle.fract() == 0.0 && (1.0..=10.0).contains(&hurdle) => Ok(hurdle as u8),
            _ => {
                let message = format!("expected the number of a hurdle, found {found}");
                Err(self.problem(span, message, HELP))
            }
        }
    }

    /// Whether laps are counted `ahead`, and not hurdles.
    pub(crate) fn is_laps(&self, ahead: usize) -> bool {
        self.is_number(ahead) && self.is_word(ahead + 1, &LAPS)
    }
}
