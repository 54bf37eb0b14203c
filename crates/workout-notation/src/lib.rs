//! How coaches write a block of a workout.
//!
//! Spacing and case do not matter; `x`, `X`, `×` and `*` are the same; `+`, `,`, `&` and `then` are the
//! same between runs. A number without a unit is metres where a distance is meant, seconds where a time is.
//!
//! | written | read as |
//! |---|---|
//! | `6 x 200`, `200`, `200 x 6`, `6 reps of 200` | repetitions of one distance |
//! | `3 x (4 x 200)`, `3 x 4 x 200`, `3 sets of 4 x 200` | sets |
//! | `300 + 200 + 100`, `2 x (500, 300, 200)` | runs of several distances |
//! | `200-400-600-400-200`, `600/400/200` | a ladder |
//! | `200m`, `1km`, `110yd`, `1 mile`, `2 laps` | units; a lap is a lap of the lane that is run |
//! | `flying 30 with 20 run-in` | a rolling start: 20 m to get up to speed, then 30 m |
//! | `110h`, `110h to hurdle 5`, `110h over 5 hurdles` | over hurdles, to the finish or to a hurdle |
//! | `exchange zone 2` | a baton exchange through the second takeover zone |
//! | `in-and-out 50s`, `800 in-and-out 50s` | fast and easy by turns of 50 m, over a lap or a distance |
//! | `20 min steady`, `10 min jog` | a run by time |
//! | `in lane 2`, `L2`, `lanes 2-5`, `lanes 2,4,6` | the lanes; several run side by side |
//! | `on the bend`, `on the home straight`, `on the back straight` | a place |
//! | `on the home straight the other way`, `against the wind`, `into the wind` | a straight, run the other way |
//! | `from the 400 m start`, `to the finish line`, `finishing at …` | an end that is fixed |
//! | `starting together` | a group start on a curved line, breaking for the inside |
//! | `@ 32`, `@ 32s`, `@ 1:12`, `in 48-50s` | a time for each run |
//! | `@ 75/400`, `@ 3:20/km` | a pace |
//! | `@ 90%`, `@ 800 pace`, `@ 5k` | a part of the speed of a best; the pace of a race |
//! | `easy`, `steady`, `fast and relaxed`, `time trial`, … | an effort |
//! | `rest 90s`, `rec 2min`, `90s rest`, `r 3'`, `(2')`, `90s jog` | from the end of a run to the next start |
//! | `off 3:00`, `every 3:00`, `on 3:00` | from one start to the next |
//! | `rest 2min / 8min`, `8min between sets`, `r 2' R 8'` | between runs, and between sets |
//! | `jog 200`, `200 jog`, `walk 100`, `jog 200 in 90s` | on to where the next run starts |
//! | `walk back` | back to the start |
//! | `standing` | the next run starts where the last ended |
//! | `changing ends` | the next run starts at other paint, and so on by turns |
//! | `full recovery`, `from blocks`, `with the wind` | understood, and left to coach and athlete |
//! | `warm-up 15 min`, `drills`, `2 laps warm-up` | lines that are not runs |
//! | `main set: 6 x 200` | a label before the runs, which changes nothing |
//!
//! What is printed is one form of all those that mean the same, and shows how a text was understood:
//!
//! ```
//! # use workout_notation::Block;
//! # fn read(text: &str) -> String { Block::parse(text).expect("it is well formed").to_string() }
//! assert_eq!(read("6X200M,LANE 2,90S REST"), "6 x 200 in lanes 2 rest 1:30");
//! ```
//!
//! # Counts, lists and sets
//!
//! ```
//! # use workout_notation::Block;
//! # fn read(text: &str) -> String { Block::parse(text).expect("it is well formed").to_string() }
//! for text in ["6 x 200", "6×200m", "6 * 200", "6 times 200", "6 reps of 200", "200 x 6"] {
//!     assert_eq!(read(text), "6 x 200");
//! }
//! for text in ["3 x (4 x 200)", "3 x 4 x 200", "3 sets of 4 x 200", "3 sets of 4 reps of 200"] {
//!     assert_eq!(read(text), "3 x (4 x 200)");
//! }
//! for text in ["300 + 200 + 100", "300, 200, 100", "300-200-100", "300/200/100", "300 then 200 then 100"] {
//!     assert_eq!(read(text), "300 + 200 + 100");
//! }
//! assert_eq!(read("(300, 150) x 2"), "2 x (300 + 150)");
//! assert_eq!(read("main set: 2 x [300 & 150]"), "2 x (300 + 150)");
//! ```
//!
//! # Kinds of run
//!
//! ```
//! use workout_notation::{Block, Length, RunKind};
//!
//! let kind = |text: &str| Block::parse(text).expect("it is well formed").steps()[0].run.kind.value;
//! let plain = |metres| RunKind::Plain(Length::Metres(metres));
//! assert_eq!(kind("1,000m"), plain(1000.0));
//! assert_eq!(kind("1.5km"), plain(1500.0));
//! assert_eq!(kind("100 yards"), plain(91.44));
//! assert_eq!(kind("mile"), plain(1609.344));
//! assert_eq!(kind("2 laps"), RunKind::Plain(Length::Laps(2.0)));
//!
//! let flying = RunKind::Flying { metres: 30.0, run_in_m: 20.0 };
//! assert_eq!(kind("flying 30 with 20 run-in"), flying);
//! assert_eq!(kind("30m flying (20m run-in)"), flying);
//! assert_eq!(kind("4 flying 30s"), flying); // 20 m where nothing is said
//!
//! let hurdles = RunKind::Hurdles { race_m: 110.0, to_hurdle: Some(5) };
//! assert_eq!(kind("110h to hurdle 5"), hurdles);
//! assert_eq!(kind("110mH over 5 hurdles"), hurdles);
//! assert_eq!(kind("110m hurdles to the 5th hurdle"), hurdles);
//! assert_eq!(kind("110h"), RunKind::Hurdles { race_m: 110.0, to_hurdle: None });
//!
//! assert_eq!(kind("4 x exchange zone 2 in lane 3"), RunKind::Exchange { zone: 2 });
//! let (length, turn_m) = (Length::Metres(800.0), 50.0);
//! assert_eq!(kind("800 in-and-out 50s"), RunKind::InAndOut { length, turn_m });
//! assert_eq!(kind("in-and-out 50s"), RunKind::InAndOut { length: Length::Laps(1.0), turn_m });
//! assert_eq!(kind("20 min steady"), RunKind::Timed { seconds: 1200.0 });
//! assert_eq!(kind("jog 10 min"), RunKind::Timed { seconds: 600.0 });
//! ```
//!
//! # Where
//!
//! ```
//! # use workout_notation::Block;
//! # fn read(text: &str) -> String { Block::parse(text).expect("it is well formed").to_string() }
//! assert_eq!(read("200 in lanes 2-4"), "200 in lanes 2,3,4");
//! assert_eq!(read("200 L2 and 4"), "200 in lanes 2,4");
//! assert_eq!(read("80 round the bend"), "80 on the bend");
//! assert_eq!(read("60 on the back straight"), "60 on the back straight");
//! for text in ["60 against the wind", "60 into the wind", "60 on the home straight against the wind side"] {
//!     assert_eq!(read(text), "60 on the home straight the other way");
//! }
//! assert_eq!(read("200 finishing at the finish line"), "200 to the finish line");
//! assert_eq!(read("800 from 400 m start, starting together"), "800 from the 400 m start starting together");
//! assert_eq!(read("200 from the 400 m start + 5"), "200 from the 400 m start + 5"); // 5 m past it
//! ```
//!
//! # Pace and effort
//!
//! ```
//! use workout_notation::{Block, Pace};
//!
//! let pace = |text: &str| Block::parse(text).expect("it is well formed").steps()[0].pace.map(|pace| pace.value);
//! let time = |seconds, to_s| Some(Pace::Time { seconds, to_s });
//! assert_eq!(pace("200 @ 32"), time(32.0, None));
//! assert_eq!(pace("400 at 1:12"), time(72.0, None));
//! assert_eq!(pace("300 in 48-50s"), time(48.0, Some(50.0)));
//! assert_eq!(pace("400 @ 1:10-12"), time(70.0, Some(72.0)));
//! assert_eq!(pace("600 @ 75/400"), Some(Pace::Rate { seconds: 75.0, per_m: 400.0 }));
//! assert_eq!(pace("1000 @ 3:20 per km"), Some(Pace::Rate { seconds: 200.0, per_m: 1000.0 }));
//! assert_eq!(pace("150 @ 90% of best"), Some(Pace::Percent(90.0)));
//! for text in ["1000 @ 5k pace", "1000 at 5k pace", "1000 5k pace", "1000 @ 5k"] {
//!     assert_eq!(pace(text), Some(Pace::Race(5000.0)));
//! }
//!
//! let block = Block::parse("8 x 80 fast & relaxed").expect("it is well formed");
//! assert_eq!(block.steps()[0].effort, Some("fast relaxed"));
//! ```
//!
//! # Recovery
//!
//! ```
//! use workout_notation::{Block, Gap, Way};
//!
//! let block = |text: &str| Block::parse(text).expect("it is well formed");
//! for text in ["3 x 300 rest 90s", "3 x 300 r 90", "3x300 (90s)", "3 x 300, 1'30\" rest", "3 x 300 w/ 90s jog"] {
//!     let gaps: Vec<_> = block(text).steps().iter().map(|step| step.gap).collect();
//!     let gap = Some(Gap::Rest(90.0));
//!     assert_eq!(gaps, [gap, gap, None]); // nothing follows the last run
//! }
//! assert_eq!(block("10 x 400 off 3:00").steps()[0].gap, Some(Gap::Off(180.0)));
//!
//! for text in ["2 x 2 x 60 rest 2min / 8min", "2 x 2 x 60 r 2' R 8'", "2 x (2 x 60 rest 2min) rest 8min"] {
//!     let gaps: Vec<_> = block(text).steps().iter().map(|step| step.gap).collect();
//!     let (rep, set) = (Some(Gap::Rest(120.0)), Some(Gap::Rest(480.0)));
//!     assert_eq!(gaps, [rep, set, rep, None]);
//! }
//!
//! let way = |text: &str| block(text).steps()[0].way;
//! assert_eq!(way("6 x 200 jog 200"), Some(Way::Jog(200.0)));
//! assert_eq!(way("6 x 200, 200m jog"), Some(Way::Jog(200.0)));
//! assert_eq!(way("6 x 200 walk 100 in 60s"), Some(Way::Walk(100.0)));
//! assert_eq!(way("6 x 60, slow walk back, 3min"), Some(Way::WalkBack));
//! assert_eq!(way("4 x 100 standing 20s"), Some(Way::Stand));
//! assert_eq!(way("4 x 60 changing ends rest 3min"), Some(Way::ChangeEnds));
//! assert_eq!(way("4 x 60, full recovery"), None); // as long as it takes
//! ```
//!
//! # What is said of one run, and what of all
//!
//! What is said behind the last run of a list means the whole list, unless an earlier run has the same of
//! its own. A time or an effort means that run alone, where the runs are not alike. A second rest behind a
//! bracket is the one between its turns.
//!
//! ```
//! # use workout_notation::Block;
//! # fn read(text: &str) -> String { Block::parse(text).expect("it is well formed").to_string() }
//! let text = "2 x (300 @ 48 + 200 @ 30) rest 2min / 8min in lane 3";
//! assert_eq!(read(text), "2 x (300 @ 48s + 200 @ 30s) in lanes 3 rest 2:00 8:00 between sets");
//! assert_eq!(read("300 + 200 rest 5min"), "(300 + 200) rest 5:00");
//! assert_eq!(read("300 rest 8min + 200 rest 5min + 100"), "300 rest 8:00 + 200 rest 5:00 + 100");
//! assert_eq!(read("3 x (300 + 150 rest 90s) rest 8min"), "3 x (300 + 150) rest 1:30 8:00 between sets");
//! ```
//!
//! # Lines that are not runs
//!
//! A line that begins with the name of one, or that has words and no numbers but durations:
//!
//! ```
//! use workout_notation::{Block, Body};
//!
//! for (text, lasts) in [
//!     ("warm-up 15 min", Some(900.0)),
//!     ("15 min warm up", Some(900.0)),
//!     ("2 laps warm-up", None),
//!     ("drills: 4 x 30 m high knees", None),
//!     ("talk about the relay order", None),
//! ] {
//!     let block = Block::parse(text).expect("it is well formed");
//!     assert_eq!(block.body, Body::Note { words: text.to_owned(), lasts_s: lasts });
//! }
//! ```
//!
//! # What is wrong, and where
//!
//! Reading is total: any text gives a block or problems, in time linear in the text. Several problems
//! in one text are all reported. What could be read in two ways is asked about rather than guessed:
//!
//! ```
//! use workout_notation::Block;
//!
//! let problems = Block::parse("6 x 200 in lain 2 rset 90").expect_err("two words are misspelt");
//! assert_eq!(problems[0].message, "expected `lane` after `in`, found `lain`");
//! assert_eq!(problems[1].help.as_deref(), Some("did you mean `rest`?"));
//! assert_eq!(problems[1].span, 18..22);
//!
//! let problem = |text: &str| Block::parse(text).expect_err("it could be either")[0].message.clone();
//! assert_eq!(problem("6 x 200 rest 3"), "`3` could be seconds or minutes");
//! assert_eq!(problem("6 x 200s"), "`200s` could be 200 m or 200 seconds");
//! assert_eq!(problem("10 x 400, 90s"), "`90s` could be a rest or a run");
//! ```
//!
//! A block that is printed and read again is the same block.

mod block;
mod clauses;
mod cursor;
mod effort;
mod list;
mod note;
mod pace;
mod parser;
mod print;
mod problem;
mod quantity;
mod recovery;
mod run;
mod spanned;
mod summary;
mod token;
mod vocabulary;
mod wherein;

pub use block::{
    Block, Body, Details, Gap, Group, Item, Length, MOST_REPS, Pace, Recovery, Run, RunKind, Step, Way,
};
pub use problem::{Problem, Problems, SourceText};
pub use spanned::Spanned;
pub use summary::{NOTATION, NotationForm};

/// Reads a distance alone, in metres: `200`, `1km`, `110 yd`.
///
/// ```
/// assert_eq!(workout_notation::distance("1 mile"), Ok(1609.344));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn distance(text: &str) -> Result<f64, Problem> {
    parser::distance(text)
}

/// Reads a duration alone, in seconds: `48`, `48.5s`, `3min`, `1:12`.
///
/// ```
/// assert_eq!(workout_notation::seconds("1:12.5"), Ok(72.5));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn seconds(text: &str) -> Result<f64, Problem> {
    parser::seconds(text)
}

/// Reads lanes alone: `2`, `2-5`, `2,4,6`.
///
/// ```
/// assert_eq!(workout_notation::lanes("2-4, 6"), Ok(vec![2, 3, 4, 6]));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn lanes(text: &str) -> Result<Vec<u8>, Problem> {
    parser::lanes(text)
}

/// Reads the distance of a race alone, in metres, up to 100 km: `800`, `5k`, `mile`.
///
/// ```
/// assert_eq!(workout_notation::race_distance("mile"), Ok(1609.344));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn race_distance(text: &str) -> Result<f64, Problem> {
    parser::race_distance(text)
}
