//! Spots that people name: a mark, or some metres past or behind it.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::{PaintReading, Spot};
use crate::paint::mark::MarkId;
use crate::track::lane_error::{LaneError, LaneList};
use crate::track::track::Track;

/// A name that leads to no spot in a lane.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LandmarkError {
    /// No mark has this name.
    #[error("no mark is called `{name}`{}", Suggested(.near))]
    Unknown {
        /// What was asked for.
        name: String,
        /// The names most like it.
        near: Vec<String>,
    },
    /// Several marks could be meant.
    #[error("`{name}` could be {}", Alternatives(.near, *.more))]
    Ambiguous {
        /// What was asked for.
        name: String,
        /// The marks that could be meant, or the first of them.
        near: Vec<String>,
        /// How many more there are.
        more: usize,
    },
    /// The mark is not painted in this lane.
    #[error("the {mark} is not painted in lane {lane}; it is in {}", LaneList(.lanes))]
    NotInLane {
        /// The mark.
        mark: String,
        /// The lane that was asked for.
        lane: LaneNumber,
        /// The lanes in which it is painted.
        lanes: Vec<LaneNumber>,
    },
    /// The place lies beyond the ends of its straight.
    #[error("`{name}` lies off the {course}, which is {length_m:.2} m long with its chute")]
    OffCourse {
        /// What was asked for.
        name: String,
        /// The straight.
        course: Course,
        /// Its length, in metres.
        length_m: f64,
    },
    /// What follows the mark's name is not a number of metres.
    #[error("`{0}` is not a number of metres; write for example `400 m start + 5`")]
    Metres(String),
    /// The track has no such lane.
    #[error(transparent)]
    Lane(#[from] LaneError),
}

struct Suggested<'a>(&'a [String]);

impl std::fmt::Display for Suggested<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.0.is_empty() { Ok(()) } else { write!(f, "; near it: {}", Alternatives(self.0, 0)) }
    }
}

/// Names, and how many more there are.
struct Alternatives<'a>(&'a [String], usize);

impl std::fmt::Display for Alternatives<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self(names, more) = self;
        for (index, name) in names.iter().enumerate() {
            let separator = match index {
                0 => "",
                _ if index + 1 == names.len() && *more == 0 => " or ",
                _ => ", ",
            };
            write!(f, "{separator}`{name}`")?;
        }
        if *more == 0 { Ok(()) } else { write!(f, " or one of {more} more") }
    }
}

/// How far a name to the centimetre may be from its spot, in metres.
const NAMED_M: f64 = 0.0101;

/// The most names that are suggested.
const MOST_SUGGESTED: usize = 6;

impl Track {
    /// The spot in a lane that a name means: `400 m start`, `finish line`, `400 m start + 5`
    /// (5 m past it), `finish line - 10` (10 m behind it).
    ///
    /// A name that is the beginning or a part of just one mark's name means that mark, and so do the words by which the
    /// eye finds it (`7th green tick`). Case and spaces do not matter.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// assert_eq!(track.landmark("200m start - 5", LaneNumber::of::<3>())?.to_finish_m, 205.0);
    /// let hurdle = track.landmark("400 m hurdle tick 7", LaneNumber::of::<3>())?;
    /// assert_eq!(track.landmark("the 7th green tick", LaneNumber::of::<3>())?, hurdle);
    /// let error = track.landmark("zone exit", LaneNumber::of::<3>()).expect_err("there are several");
    /// assert!(matches!(error, lane_distance::LandmarkError::Ambiguous { .. }));
    /// # Ok::<(), lane_distance::LandmarkError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`LandmarkError`], which lists the near names where the name is unknown or ambiguous.
    pub fn landmark(&self, name: &str, lane: LaneNumber) -> Result<Spot, LandmarkError> {
        Ok(self.landmark_with_reading(name, lane)?.0)
    }

    /// The spot in a lane that a name means, and its reading from the mark of that name, trap or not.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let (spot, reading) = track.landmark_with_reading("break line + 5", LaneNumber::of::<4>())?;
    /// let place = lane_distance::Placement::from_reading(&track, spot, reading);
    /// assert_eq!((place.mark.as_deref(), place.past_mark_m), (Some("break line"), 5.0));
    /// # Ok::<(), lane_distance::LandmarkError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`LandmarkError`], which lists the near names where the name is unknown or ambiguous.
    pub fn landmark_with_reading(
        &self,
        name: &str,
        lane: LaneNumber,
    ) -> Result<(Spot, PaintReading), LandmarkError> {
        self.lane_number(lane.get())?;
        let (mark_name, past_m) = split_metres(name)?;
        let index = self.mark_called(mark_name)?;
        let spot = self.mark_in_lane(index, lane).ok_or_else(|| LandmarkError::NotInLane {
            mark: self.marks()[index].name.to_string(),
            lane,
            lanes: (self.layout().lanes().iter().map(|lane| lane.number))
                .filter(|&lane| self.mark_in_lane(index, lane).is_some())
                .collect(),
        })?;
        let to_finish_m = spot.to_finish_m - past_m;
        let place = match self.layout().straight(spot.course) {
            None => Spot { to_finish_m: self.layout().measure(lane).within_lap_m(to_finish_m), ..spot },
            Some(ground) if (0.0..=ground.length_m()).contains(&to_finish_m) => Spot { to_finish_m, ..spot },
            Some(ground) => {
                return Err(LandmarkError::OffCourse {
                    name: name.to_owned(),
                    course: spot.course,
                    length_m: ground.length_m(),
                });
            }
        };
        let tape_m = self.layout().tape_m(spot, place);
        Ok((place, PaintReading { mark: Some(MarkId(index as u32)), past_m, tape_m }))
    }

    /// The name of a spot that [`Track::landmark`] reads as that spot, to the centimetre: the nearest mark that serves,
    /// and how far past or behind it the spot lies. Nothing where no mark of the lane serves, as in a chute without paint.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Spot};
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let name = |to_finish_m| track.landmark_name(Spot::on_oval(LaneNumber::of::<2>(), to_finish_m));
    /// assert_eq!(name(200.0).as_deref(), Some("200 m start"));
    /// assert_eq!(name(195.2).as_deref(), Some("200 m start + 4.80"));
    /// ```
    pub fn landmark_name(&self, spot: Spot) -> Option<String> {
        let layout = self.layout();
        let mut marks: Vec<(bool, f64, MarkId)> = (self.painted(spot.course, spot.lane).iter())
            .map(|painted| {
                let past_m = layout.past_m(Spot { to_finish_m: painted.to_finish_m, ..spot }, spot);
                (painted.ease.is_trap(), past_m, painted.mark)
            })
            .collect();
        marks.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.abs().total_cmp(&b.1.abs())));
        marks.iter().find_map(|&(_, past_m, mark)| {
            let name = &self.marks()[mark.index()].name;
            // At the very end of a straight a centimetre is cut off, so that the name does not lie beyond it.
            [(past_m * 100.0).round(), (past_m * 100.0).trunc()].into_iter().find_map(|past_cm| {
                let metres = match past_cm.abs() / 100.0 {
                    whole if whole.fract() == 0.0 => whole.to_string(),
                    metres => format!("{metres:.2}"),
                };
                let named = match past_cm {
                    0.0 => name.to_string(),
                    ..0.0 => format!("{name} - {metres}"),
                    _ => format!("{name} + {metres}"),
                };
                let read = self.landmark(&named, spot.lane).ok()?;
                let is_same = read.course == spot.course && layout.past_m(read, spot).abs() < NAMED_M;
                is_same.then_some(named)
            })
        })
    }

    /// A mark in a lane: on the oval where it lies there, else on its straight.
    fn mark_in_lane(&self, index: usize, lane: LaneNumber) -> Option<Spot> {
        Course::ALL.into_iter().find_map(|course| {
            self.painted(course, lane)
                .iter()
                .find(|painted| painted.mark.index() == index)
                .map(|painted| Spot { course, lane, to_finish_m: painted.to_finish_m })
        })
    }

    fn mark_called(&self, name: &str) -> Result<usize, LandmarkError> {
        let wanted = plain(name);
        if let Some(exact) = self.marks().iter().position(|mark| plain_letters(&mark.name).eq(wanted.chars()))
        {
            return Ok(exact);
        }
        // `7th green tick`, as plans say it.
        let looks = wanted.strip_prefix("the").unwrap_or(&wanted);
        if let Some(seen) =
            self.marks().iter().position(|mark| plain_letters(&mark.look_for()).eq(looks.chars()))
        {
            return Ok(seen);
        }
        let names: Vec<String> = self.marks().iter().map(|mark| plain(&mark.name)).collect();
        // `1500 start`
        let bare = without_metres(&wanted);
        let mut called = (0..names.len()).filter(|&index| without_metres(&names[index]) == bare);
        if let (Some(one), None) = (called.next(), called.next()) {
            return Ok(one);
        }
        // A worn-out mark is known by name, but stands in no lane.
        let tests: [fn(&str, &str) -> bool; 2] =
            [|name, wanted| name.starts_with(wanted), |name, wanted| name.contains(wanted)];
        for test in tests {
            let found: Vec<usize> = (0..names.len())
                .filter(|&index| !wanted.is_empty() && test(&names[index], &wanted))
                .collect();
            match found.as_slice() {
                [] => {}
                [one] => return Ok(*one),
                several => {
                    let near = several
                        .iter()
                        .take(MOST_SUGGESTED)
                        .map(|&index| self.marks()[index].name.to_string());
                    let more = several.len().saturating_sub(MOST_SUGGESTED);
                    return Err(LandmarkError::Ambiguous {
                        name: name.to_owned(),
                        near: near.collect(),
                        more,
                    });
                }
            }
        }
        let mut near: Vec<_> = (names.iter().enumerate())
            .map(|(index, known)| (strsim::jaro_winkler(&wanted, known), index))
            .filter(|(likeness, _)| *likeness > 0.7)
            .collect();
        near.sort_by(|a, b| b.0.total_cmp(&a.0));
        let near =
            near.into_iter().take(MOST_SUGGESTED / 2).map(|(_, index)| self.marks()[index].name.to_string());
        Err(LandmarkError::Unknown { name: name.to_owned(), near: near.collect() })
    }
}

/// A name without case and spaces.
fn plain(name: &str) -> String {
    plain_letters(name).collect()
}

/// A plain name without the unit behind its number: `1500start`.
fn without_metres(plain: &str) -> String {
    let digits = plain.bytes().take_while(u8::is_ascii_digit).count();
    match plain[digits..].strip_prefix('m').filter(|_| digits > 0) {
        Some(behind) => format!("{}{behind}", &plain[..digits]),
        None => plain.to_owned(),
    }
}

fn plain_letters(name: &str) -> impl Iterator<Item = char> + '_ {
    name.chars().filter(|c| !c.is_whitespace() && *c != ',').flat_map(char::to_lowercase)
}

/// Splits `400 m start + 5 m` into the name and the metres past it.
fn split_metres(text: &str) -> Result<(&str, f64), LandmarkError> {
    // A sign inside a name has no space on both sides.
    let Some(at) = text.rfind(" + ").max(text.rfind(" - ")) else {
        return Ok((text.trim(), 0.0));
    };
    let (name, rest) = text.split_at(at);
    let rest = rest.trim();
    let (sign, number) = rest.split_at(1);
    let number = number.trim().trim_end_matches('m').trim_end();
    let metres: f64 = number.parse().map_err(|_| LandmarkError::Metres(rest.to_owned()))?;
    if !metres.is_finite() || metres.abs() > 10_000.0 {
        return Err(LandmarkError::Metres(rest.to_owned()));
    }
    Ok((name.trim(), if sign == "-" { -metres } else { metres }))
}
