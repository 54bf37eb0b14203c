//! Where on the track: `on the bend`, `on the home straight the other way`, `against the wind`.

use lane_distance::{Course, Place};

use crate::cursor::Cursor;
use crate::form::{Form, Phrase, row};
use crate::forms::clause::Clause;
use crate::spanned::Spanned;

const NAME: &str = "place";
const HELP: &str = "write `on the bend`, `on the home straight` or `on the back straight`";

const BEND: &[Phrase] = &[&[&["bend", "bends", "curve", "turn"]]];
const HOME: &[Phrase] =
    &[&[&["home"], &["straight", "stretch"]], &[&["straight", "straights", "homestraight", "homestretch"]]];
const BACK: &[Phrase] = &[&[&["back"], &["straight", "stretch"]], &[&["backstraight", "backstretch"]]];
const OVAL: &[Phrase] = &[&[&["oval", "track"]]];

pub(crate) const PLACE: Clause<Place> = Clause {
    form: Form {
        begins: &[&[&["in", "on", "round", "around", "along", "down", "against", "into", "with", "the"]]],
        words: &[
            "on", "against", "into", "with", "the", "round", "around", "along", "down", "back", "bend",
            "home", "other", "straight", "way", "wind",
        ],
        rows: &[
            row(&["80 on the bend", "60 on the back straight"], "a place"),
            row(
                &["60 on the home straight the other way", "60 against the wind"],
                "a straight, run the other way",
            ),
        ],
    },
    name: NAME,
    read,
    print: |place, f| {
        f.write_str(match place {
            Place::Bend => "on the bend",
            Place::On(Course::HomeStraight) => "on the home straight",
            Place::On(Course::BackStraight) => "on the back straight",
            Place::Against(Course::BackStraight) => "on the back straight the other way",
            Place::Against(_) => "on the home straight the other way",
            Place::On(Course::Oval) | Place::Anywhere => "on the oval",
        })
    },
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

fn read(cursor: &mut Cursor<'_>, value: &mut Option<Spanned<Place>>) -> bool {
    // Left to the weather.
    const WITH_THE_WIND: &[Phrase] = &[
        &[&["with"], &["the"], &["wind"], &["side"]],
        &[&["with"], &["the"], &["wind"]],
        &[&["with"], &["wind"]],
    ];
    let begins = cursor.place();
    let is_in = cursor.word(&["in"]);
    let is_named = cursor.is_place_name() && (is_in || !cursor.is_word(0, &["the", "track"]));
    // `on 3:00`
    let is_cycle = cursor.is_word(0, &["on"]) && cursor.is_number(1);
    let is_on = !is_in && !is_cycle && cursor.word(&["on", "round", "around", "along", "down", "up"]);
    if is_named || is_on {
        cursor.named_place(value, begins);
        return true;
    }
    let is_read = cursor.the_other_way(value, begins) || !is_in && cursor.one_of(WITH_THE_WIND);
    if !is_read {
        cursor.go_back(begins);
    }
    is_read
}

impl Cursor<'_> {
    fn is_place_name(&self) -> bool {
        let the = usize::from(self.is_word(0, &["the", "a", "one"]));
        [BEND, HOME, BACK, OVAL].iter().any(|names| self.is_one_of(the, names))
    }

    fn named_place(&mut self, value: &mut Option<Spanned<Place>>, begins: usize) {
        self.word(&["the", "a", "one"]);
        let place = if self.one_of(BEND) {
            Place::Bend
        } else if self.one_of(HOME) {
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
        self.set(value, Spanned::new(place, self.since(begins)), begins, NAME);
    }

    /// `the other way`, `against the wind`, `against the wind side`, `into the wind`
    fn the_other_way(&mut self, value: &mut Option<Spanned<Place>>, begins: usize) -> bool {
        const WAYS: &[Phrase] = &[
            &[&["the"], &["other"], &["way", "direction"]],
            &[&["into"], &["the"], &["wind"]],
            &[&["into"], &["wind"]],
        ];
        if self.word(&["against"]) {
            self.word(&["the"]);
            while self.word(&["wind", "side", "running", "direction", "of"]) {}
        } else if !self.one_of(WAYS) {
            return false;
        }
        let span = self.since(begins);
        match value {
            Some(place) => match place.value {
                Place::On(course) if course != Course::Oval => {
                    place.value = Place::Against(course);
                    place.span.end = span.end;
                }
                Place::Against(_) => {}
                Place::Bend => {
                    self.problem(span, "a bend can only be run anticlockwise", "leave out the other way");
                }
                _ => {
                    self.problem(span, "laps can only be run anticlockwise", "name a straight first");
                }
            },
            None => *value = Some(Spanned::new(Place::Against(Course::HomeStraight), span)),
        }
        true
    }
}
