//! The lanes: `in lane 2`, `L2`, `lanes 2-5`, `lanes 2,4,6`.

use std::ops::Range;

use lane_distance::{LaneNumber, MOST_LANES, REP_RANGE_M};

use crate::cursor::{Cursor, Read, Reported};
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::phrases::Phrases;
use crate::spanned::Spanned;

const NAME: &str = "list of lanes";
pub(crate) const LANE_NAMES: [&str; 5] = ["lane", "lanes", "l", "ln", "lns"];

/// A number without a unit from here on is a run, and not a lane.
const LEAST_RUN_M: f64 = 20.0;

pub(crate) const LANES: Clause<Vec<LaneNumber>> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&["in", "lane", "lanes"]]]),
        words: &["in", "lane", "lanes"],
        rows: &[row(&["200 in lane 2", "200 lanes 2-5"], "lanes; several run side by side")],
    },
    name: NAME,
    read: |cursor, value| {
        if !cursor.is_in_lane() {
            return false;
        }
        let begins = cursor.place();
        cursor.word(&["in"]);
        cursor.skip();
        match cursor.lanes() {
            Ok(lanes) => cursor.set(value, lanes, begins, NAME),
            Err(Reported) => cursor.skip_to_clause(),
        }
        true
    },
    print: |lanes, f| {
        let lanes: Vec<String> = lanes.iter().map(LaneNumber::to_string).collect();
        write!(f, "in lanes {}", lanes.join(","))
    },
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

impl Cursor<'_> {
    pub(crate) fn is_in_lane(&self) -> bool {
        let ahead = usize::from(self.is_word(0, &["in"]));
        // `outside lane 4min`
        let is_time =
            self.is_number(ahead + 1) && self.is_glued(ahead + 2) && self.seconds_in(ahead + 2).is_some();
        !is_time
            && (self.is_word(ahead, &LANE_NAMES[..2])
                || self.is_word(ahead, &LANE_NAMES) && self.is_number(ahead + 1))
    }

    /// Lanes: `2`, `2-5`, `2,4,6`, `2 and 4`, `2 to 5`.
    pub(crate) fn lanes(&mut self) -> Read<Spanned<Vec<LaneNumber>>> {
        let begins = self.place();
        let mut lanes = Vec::new();
        loop {
            let (first, span) = self.lane()?;
            let mut last = first;
            // `in lane 2 - 6 x 200`: the second number counts runs.
            if self.is_number(1) && !self.is_counted_item(1) && (self.sign('-') || self.word(&["to"])) {
                let (to, to_span) = self.lane()?;
                if to < first {
                    let message = format!("lanes {first} to {to} are in reverse order");
                    self.problem(span.start..to_span.end, message, format!("write `lanes {to}-{first}`"));
                }
                last = to;
            }
            for lane in LaneNumber::ALL.into_iter().filter(|lane| (first..=last).contains(lane)) {
                if lanes.contains(&lane) {
                    self.problem(span.clone(), format!("lane {lane} is named twice"), "name it once");
                } else {
                    lanes.push(lane);
                }
            }
            if !self.is_lane_more() {
                break;
            }
            self.skip();
        }
        self.refuse_unsaid_lanes(begins)?;
        Ok(Spanned::new(lanes, self.since(begins)))
    }

    /// `lanes 3 and up`, `lane 4 or 5`: the last lane, or which of two, is not said.
    fn refuse_unsaid_lanes(&mut self, begins: usize) -> Read<()> {
        const OUTWARDS: [&str; 5] = ["up", "upwards", "above", "outwards", "outward"];
        let joint = usize::from(self.is_word(0, &["and", "or"]) || self.is_sign(0, '+'));
        let (message, help) = if self.is_word(joint, &OUTWARDS) {
            ("the last of these lanes is not said", "write for example `lanes 3-8`")
        } else if self.is_word(0, &["or"]) && self.is_number(1) {
            ("which of these lanes is not said", "write one of them, or `lanes 4,5` for both")
        } else {
            return Ok(());
        };
        self.skip_all(joint + 1);
        let span = self.since(begins);
        Err(self.problem(span, message, help))
    }

    /// Whether the list of lanes goes on: a number follows the comma and begins nothing else.
    fn is_lane_more(&self) -> bool {
        let is_separator = self.is_sign(0, ',') || self.is_word(0, &["and"]) || self.is_sign(0, '+');
        // A number this large is a run. A plus joins runs rather than lanes.
        let least_run_m = if self.written() == Some("+") { *REP_RANGE_M.start() } else { LEAST_RUN_M };
        let is_run = self.number_at(1).is_none_or(|value| value >= least_run_m);
        let is_else = self.is_times(2) || self.is_count_word(2) || self.is_unit(2);
        is_separator && !is_run && !is_else
    }

    pub(crate) fn lane(&mut self) -> Read<(LaneNumber, Range<usize>)> {
        let help = || format!("write a lane from 1 to {MOST_LANES}, for example `in lane 2`");
        let Some((value, span)) = self.number() else {
            return Err(self.expected("a lane number", help()));
        };
        match LaneNumber::new(value as u8) {
            Some(lane) if value == f64::from(lane.get()) => Ok((lane, span)),
            _ => {
                let message = format!("`{}` is not a lane", &self.text[span.clone()]);
                Err(self.problem(span, message, help()))
            }
        }
    }
}
