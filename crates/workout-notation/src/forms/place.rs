//! Where on the track: `on the bend`, `on the home straight the other way`, `against the wind`.

use std::fmt;

use lane_distance::{Course, Place};

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::forms::run_place::RunPlace;
use crate::last_run::LastRun;
use crate::phrases::Phrases;
use crate::spanned::Spanned;
use crate::track_part::TrackPart;

const NAME: &str = "place";
const HELP: &str = "write `on the bend`, `on the home straight` or `on the back straight`";

/// How far ahead a bend is looked for that makes `flat` a straight.
const MOST_LOOKED_AT: usize = 10;

const BEND: Phrases = Phrases::new(&[&[&["bend", "bends", "curve", "turn"]]]);
const HOME: Phrases = Phrases::new(&[
    &[&["home"], &["straight", "stretch"]],
    &[&["straight", "straights", "homestraight", "homestretch"]],
]);
const BACK: Phrases =
    Phrases::new(&[&[&["back"], &["straight", "stretch"]], &[&["backstraight", "backstretch"]]]);
const OVAL: Phrases = Phrases::new(&[&[&["oval", "track"]]]);

pub(crate) const PLACE: Clause<RunPlace> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&[
            "in", "on", "round", "around", "along", "down", "against", "into", "with", "the",
        ]]]),
        words: &[
            "on", "against", "into", "with", "the", "round", "around", "along", "down", "back", "bend",
            "home", "other", "straight", "way", "wind",
        ],
        rows: &[
            row(&["80 on the bend", "60 on the back straight"], "a place"),
            row(&["60 on the home straight the other way"], "a straight, run the other way"),
            row(&["60 against the wind", "60 with the wind"], "a straight, run as the wind says"),
        ],
    },
    name: NAME,
    read,
    print,
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

fn print(place: &RunPlace, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let (on, way) = match place {
        RunPlace::At(Place::Bend) => ("on the bend", ""),
        RunPlace::At(Place::On(Course::HomeStraight)) => (HOME_STRAIGHT, ""),
        RunPlace::At(Place::On(Course::BackStraight)) => (BACK_STRAIGHT, ""),
        RunPlace::At(Place::Against(Course::BackStraight)) => (BACK_STRAIGHT, "the other way"),
        RunPlace::At(Place::Against(_)) => (HOME_STRAIGHT, "the other way"),
        RunPlace::At(Place::On(Course::Oval) | Place::Anywhere) => ("on the oval", ""),
        RunPlace::Wind { on, against } => {
            let on = match on {
                Some(Course::BackStraight) => BACK_STRAIGHT,
                Some(_) => HOME_STRAIGHT,
                None => "",
            };
            (on, if *against { "against the wind" } else { "with the wind" })
        }
    };
    let space = if on.is_empty() || way.is_empty() { "" } else { " " };
    write!(f, "{on}{space}{way}")
}

const HOME_STRAIGHT: &str = "on the home straight";
const BACK_STRAIGHT: &str = "on the back straight";

fn read(cursor: &mut Cursor<'_>, value: &mut Option<Spanned<RunPlace>>) -> bool {
    if cursor.word_at(0).is_none() {
        return false;
    }
    let begins = cursor.place();
    let is_in = cursor.word(&["in"]);
    let is_named = cursor.is_place_name() && (is_in || !cursor.is_word(0, &["the", "track"]));
    // `on 3:00`
    let is_cycle = cursor.is_word(0, &["on"])
        && (cursor.is_number(1) || cursor.is_word(1, &["a", "the"]) && cursor.is_number(2))
        || cursor.every_minute_tokens().is_some();
    let is_on = !is_in && !is_cycle && cursor.word(&["on", "round", "around", "along", "down", "up"]);
    if is_named || is_on || cursor.is_flat_beside_bend() {
        cursor.named_place(value, begins);
        return true;
    }
    let is_read = cursor.the_other_way(value, begins) || !is_in && cursor.by_the_wind(value, begins);
    if !is_read {
        cursor.go_back(begins);
    }
    is_read
}

impl Cursor<'_> {
    fn is_place_name(&self) -> bool {
        let the = usize::from(self.is_word(0, &["the", "a", "one"]));
        [BEND, HOME, BACK, OVAL].into_iter().any(|names| self.is_one_of(the, names))
    }

    /// `3 x 120 flat, 3 x 120 bend`: what is flat is straight where the next runs are on the bend.
    fn is_flat_beside_bend(&self) -> bool {
        let is_joint = |ahead: usize| {
            [',', ';', '+', '/', '-'].iter().any(|&sign| self.is_sign(ahead, sign))
                || self.is_word(ahead, &["and", "then"])
        };
        self.is_word(0, &["flat"])
            && is_joint(1)
            && self.is_counted_item(2)
            && (3..MOST_LOOKED_AT)
                .take_while(|&ahead| !is_joint(ahead))
                .any(|ahead| self.is_one_of(ahead, BEND))
    }

    fn named_place(&mut self, value: &mut Option<Spanned<RunPlace>>, begins: usize) {
        let is_bare = self.place() == begins;
        self.word(&["the", "a", "one"]);
        let place = if self.one_of(BEND) {
            Place::Bend
        } else if self.one_of(HOME) {
            Place::On(Course::HomeStraight)
        } else if self.is_flat_beside_bend() {
            self.skip();
            Place::On(Course::HomeStraight)
        } else if self.one_of(BACK) {
            Place::On(Course::BackStraight)
        } else if self.one_of(OVAL) {
            Place::On(Course::Oval)
        } else {
            self.expected("a place", self.did_you_mean().unwrap_or_else(|| HELP.to_owned()));
            self.skip_to_clause();
            return;
        };
        // `8 straights @ 85%, bends …`: without `on` it is the other part, of which nothing was understood.
        let is_elsewhere = match self.last_run {
            Some(LastRun::Part(TrackPart::Straight)) => place == Place::Bend,
            Some(LastRun::Part(TrackPart::Bend)) => {
                matches!(place, Place::On(Course::HomeStraight | Course::BackStraight))
            }
            _ => false,
        };
        if is_bare && is_elsewhere {
            let help = "write for example `8 straights, bends easy`";
            self.problem(
                self.since(begins),
                "a straight is not run on a bend, nor a bend on a straight",
                help,
            );
            return;
        }
        self.set(value, Spanned::new(RunPlace::At(place), self.since(begins)), begins, NAME);
    }

    /// `the other way`, `against the running direction`
    fn the_other_way(&mut self, value: &mut Option<Spanned<RunPlace>>, begins: usize) -> bool {
        const WAYS: Phrases = Phrases::new(&[
            &[&["the"], &["other"], &["way", "direction"]],
            &[&["against"], &["the"], &["running"], &["direction"]],
            &[&["against"], &["the"], &["direction"], &["of"], &["running"]],
        ]);
        if !self.one_of(WAYS) {
            return false;
        }
        let other_way = |on: Option<Course>| RunPlace::At(Place::Against(on.unwrap_or(Course::HomeStraight)));
        self.straight(value, begins, other_way)
    }

    /// `against the wind`, `into the wind`, `with the wind`
    fn by_the_wind(&mut self, value: &mut Option<Spanned<RunPlace>>, begins: usize) -> bool {
        const WIND: Phrases = Phrases::new(&[
            &[&["the"], &["wind"], &["side"]],
            &[&["the"], &["wind"]],
            &[&["wind"], &["side"]],
            &[&["wind"]],
        ]);
        let against = self.word(&["against", "into"]);
        if !against && !self.word(&["with"]) || !self.one_of(WIND) {
            self.go_back(begins);
            return false;
        }
        self.straight(value, begins, |on| RunPlace::Wind { on, against })
    }

    /// What is run on the straight that was named before, if any.
    fn straight(
        &mut self,
        value: &mut Option<Spanned<RunPlace>>,
        begins: usize,
        way: impl Fn(Option<Course>) -> RunPlace,
    ) -> bool {
        let span = self.since(begins);
        match value {
            Some(place) => match place.value {
                RunPlace::At(Place::On(course)) if course != Course::Oval => {
                    place.value = way(Some(course));
                    place.span.end = span.end;
                }
                RunPlace::At(Place::Against(_)) | RunPlace::Wind { .. } => {}
                RunPlace::At(Place::Bend) => {
                    self.problem(span, "a bend can only be run anticlockwise", "leave out the other way");
                }
                RunPlace::At(_) => {
                    self.problem(span, "laps can only be run anticlockwise", "name a straight first");
                }
            },
            None => *value = Some(Spanned::new(way(None), span)),
        }
        true
    }
}
