//! The workout notation in a table, for those who write workouts.

/// A form of the notation and what it means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotationForm {
    /// Workouts that show the form: each can be read as it stands.
    pub examples: &'static [&'static str],
    /// What the form means.
    pub meaning: &'static str,
}

const fn form(examples: &'static [&'static str], meaning: &'static str) -> NotationForm {
    NotationForm { examples, meaning }
}

/// Every form of the notation. What follows a run in an example can follow any other run as well.
pub const NOTATION: [NotationForm; 28] = [
    form(&["6 x 200", "200"], "repetitions of one distance"),
    form(&["3 x (4 x 200)", "3 sets of 4 x 200"], "sets"),
    form(&["300 + 200 + 100", "2 x (500, 300, 200)"], "runs of several distances"),
    form(&["200-400-600-400-200"], "a ladder"),
    form(&["1km", "110yd", "1 mile", "2 laps"], "units; a lap is a lap of the lane that is run"),
    form(&["flying 30 with 20 run-in"], "20 m to get up to speed, then 30 m"),
    form(&["110h", "110h to hurdle 5"], "over hurdles, to the finish or to a hurdle"),
    form(&["exchange zone 2"], "a baton exchange through the second takeover zone"),
    form(
        &["in-and-out 50s", "800 in-and-out 50s"],
        "fast and easy by turns of 50 m, over a lap or a distance",
    ),
    form(&["20 min steady"], "a run by time"),
    form(&["200 in lane 2", "200 lanes 2-5"], "the lanes; several run side by side"),
    form(&["80 on the bend", "60 on the back straight"], "a place"),
    form(&["60 on the home straight the other way", "60 against the wind"], "a straight, run the other way"),
    form(&["150 from the 400 m start", "150 to the finish line"], "an end that is fixed"),
    form(&["1500 in lanes 2-4 starting together"], "a group start on a curved line"),
    form(&["200 @ 32", "400 @ 1:12", "300 in 48-50s"], "a time for each run"),
    form(&["600 @ 75/400", "1000 @ 3:20/km"], "a pace"),
    form(&["200 @ 90%"], "a part of the speed of a best"),
    form(&["200 @ 800 pace", "1000 @ 5k pace"], "the pace of a race"),
    form(&["4 x 200 easy", "1000 steady", "300 hard"], "an effort"),
    form(&["6 x 200 rest 90s", "6 x 200 rec 2min"], "from the end of a run to the next start"),
    form(&["6 x 200 off 3:00"], "from one start to the next"),
    form(&["2 x (3 x 200) rest 2min / 8min"], "between runs, and between sets"),
    form(&["4 x 300 jog 100", "4 x 300 walk 100"], "on to where the next run starts"),
    form(&["4 x 150 walk back"], "back to the start"),
    form(&["4 x 400 standing"], "the next run starts where the last ended"),
    form(&["6 x 200 changing ends"], "the next run starts at other paint, and so on by turns"),
    form(&["warm-up 15 min", "drills"], "lines that are not runs"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Block;

    #[test]
    fn every_example_can_be_read() {
        for form in NOTATION {
            for example in form.examples {
                let read = Block::parse(example);
                assert!(read.is_ok(), "{example}: {read:?}");
            }
        }
    }

    #[test]
    fn every_example_but_the_last_two_is_a_run() {
        let runs = NOTATION[..NOTATION.len() - 1].iter().flat_map(|form| form.examples);
        for example in runs {
            let block = Block::parse(example).unwrap_or_else(|problems| panic!("{example}: {problems:?}"));
            assert!(block.count() > 0, "{example} was read as a note");
        }
    }
}
