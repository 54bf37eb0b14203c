//! From tokens to a block.

use std::ops::Range;

use lane_distance::{Course, MOST_LANES, Place, REP_RANGE_M};

use super::block::{Block, Distance, Lanes, MOST_REPS, PlaceWords, Seconds};
use super::token::{Kind, Token, tokens};
use crate::problem::Problem;

/// The longest target or rest, in seconds.
const LONGEST_S: f64 = 6.0 * 3600.0;

/// Words that begin a part of a block, for hints.
const PARTS: [&str; 6] = ["in", "lane", "lanes", "on", "rest", "x"];

/// The longest text that is read, in bytes.
const LONGEST_TEXT: usize = 10_000;

const EXAMPLE: &str = "write for example `6 x 200 in lane 2`";

pub(crate) fn block(text: &str) -> Result<Block, Vec<Problem>> {
    if text.len() > LONGEST_TEXT {
        let message = format!("a block of {} characters is too long: at most {LONGEST_TEXT}", text.len());
        return Err(vec![Problem::new(0..0, message)]);
    }
    let tokens = tokens(text);
    let mut parser = Parser { text, tokens: &tokens, at: 0, problems: Vec::new() };
    let block = parser.block();
    match block {
        Some(block) if parser.problems.is_empty() => Ok(block),
        _ => Err(parser.problems),
    }
}

/// A distance alone.
pub(crate) fn distance(text: &str) -> Result<f64, Problem> {
    alone(text, |parser| parser.distance().map(|distance| distance.metres))
}

/// A duration alone.
pub(crate) fn seconds(text: &str) -> Result<f64, Problem> {
    let help = "write for example `48`, `48s` or `1:12`";
    alone(text, |parser| parser.seconds("a time", help).map(|seconds| seconds.seconds))
}

fn alone<T>(text: &str, read: impl FnOnce(&mut Parser<'_>) -> Option<T>) -> Result<T, Problem> {
    let tokens = tokens(text);
    let mut parser = Parser { text, tokens: &tokens, at: 0, problems: Vec::new() };
    let value = read(&mut parser);
    let here = parser.here();
    match (value, parser.problems.into_iter().next()) {
        (Some(value), None) if parser.at == tokens.len() => Ok(value),
        (_, Some(problem)) => Err(problem),
        _ => Err(Problem::new(here, format!("`{text}` is not understood"))),
    }
}

struct Parser<'a> {
    text: &'a str,
    tokens: &'a [Token],
    at: usize,
    problems: Vec<Problem>,
}

impl<'a> Parser<'a> {
    fn peek(&self) -> Option<&'a Token> {
        self.tokens.get(self.at)
    }

    fn peek_kind(&self) -> Option<Kind> {
        self.peek().map(|token| token.kind)
    }

    /// The word that comes next, in small letters; nothing where no word comes next.
    fn peek_word(&self) -> Option<String> {
        self.peek().filter(|token| token.kind == Kind::Word).map(|token| self.written(token).to_lowercase())
    }

    fn written(&self, token: &Token) -> &'a str {
        &self.text[token.span.clone()]
    }

    /// Steps over the next token if it is one of these words.
    fn word(&mut self, words: &[&str]) -> bool {
        let found = self.peek_word().is_some_and(|word| words.contains(&word.as_str()));
        self.at += usize::from(found);
        found
    }

    /// Steps over the next token if it is this sign.
    fn sign(&mut self, sign: char) -> bool {
        let found = self.peek_kind() == Some(Kind::Sign(sign));
        self.at += usize::from(found);
        found
    }

    /// Steps over a times sign: x, ×, * or the letter.
    fn times(&mut self) -> bool {
        self.sign('x') || self.word(&["x"])
    }

    /// The place of the next token, or the end of the text.
    fn here(&self) -> Range<usize> {
        self.peek().map_or(self.text.len()..self.text.len(), |token| token.span.clone())
    }

    fn problem(&mut self, span: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        self.problems.push(Problem::new(span, message).with_help(help));
    }

    fn number(&mut self) -> Option<(f64, Range<usize>)> {
        let token = self.peek()?;
        let Kind::Number(value) = token.kind else { return None };
        self.at += 1;
        Some((value, token.span.clone()))
    }

    fn block(&mut self) -> Option<Block> {
        if self.tokens.is_empty() {
            self.problem(0..0, "the workout is empty", EXAMPLE);
            return None;
        }
        let (count, distance) = self.count_and_distance();
        let mut block = Block {
            text: self.text.to_owned(),
            count: count.unwrap_or(1),
            distance: distance.unwrap_or(Distance { metres: 0.0, span: 0..0 }),
            lanes: None,
            place: None,
            target: None,
            rest: None,
        };
        while let Some(token) = self.peek() {
            self.part(token, &mut block);
        }
        Some(block)
    }

    fn count_and_distance(&mut self) -> (Option<u32>, Option<Distance>) {
        let begins = self.at;
        let counted = self.number().is_some() && self.times();
        self.at = begins;
        let count = if counted { self.count() } else { Some(1) };
        (count, self.distance())
    }

    fn count(&mut self) -> Option<u32> {
        let (value, span) = self.number()?;
        self.times();
        if value.fract() != 0.0 || !(1.0..=f64::from(MOST_REPS)).contains(&value) {
            let written = &self.text[span.clone()];
            let message = format!("`{written}` is no number of repetitions");
            self.problem(span, message, format!("write a whole number from 1 to {MOST_REPS}"));
            return None;
        }
        Some(value as u32)
    }

    fn distance(&mut self) -> Option<Distance> {
        let begins = self.here();
        let negative = self.sign('-');
        let Some((value, number)) = self.number() else {
            let written = self.peek().map(|token| self.written(token));
            let message = match written {
                Some(written) => format!("expected a distance, found `{written}`"),
                None => "expected a distance, found the end of the text".to_owned(),
            };
            self.problem(self.here(), message, EXAMPLE);
            self.skip_to_part();
            return None;
        };
        let mut span = begins.start..number.end;
        let metre = match self.peek_word().as_deref() {
            Some("m" | "metre" | "metres" | "meter" | "meters") => Some(1.0),
            Some("km" | "k") => Some(1000.0),
            Some("yd" | "yds" | "yard" | "yards") => Some(0.9144),
            Some("mile" | "miles" | "mi") => Some(1609.344),
            _ => None,
        };
        if metre.is_some() {
            span.end = self.here().end;
            self.at += 1;
        }
        let metres = value * metre.unwrap_or(1.0);
        let written = &self.text[span.clone()];
        if negative || !REP_RANGE_M.contains(&metres) {
            let message = format!("a repetition of `{written}` is out of range");
            let (least, most) = (REP_RANGE_M.start(), REP_RANGE_M.end());
            self.problem(span, message, format!("write a distance from {least} m to {most} m"));
            return None;
        }
        Some(Distance { metres, span })
    }

    /// One part after the distance: lanes, a target or a rest.
    fn part(&mut self, token: &'a Token, block: &mut Block) {
        let begins = token.span.clone();
        match (token.kind, self.peek_word().as_deref()) {
            (_, Some("in")) => {
                self.at += 1;
                if self.peek_word().is_none_or(|word| word != "lane" && word != "lanes") {
                    let message = "expected `lane` after `in`";
                    self.problem(self.here(), message, "write for example `in lane 2` or `in lanes 2-5`");
                    self.skip_to_part();
                } else {
                    self.lanes_part(begins, block);
                }
            }
            (_, Some("lane" | "lanes")) => self.lanes_part(begins, block),
            (_, Some("on")) => self.place_part(begins, block),
            (Kind::Sign('@'), _) => {
                self.at += 1;
                let target = self.seconds("a target time", "write for example `@ 48s` or `@ 1:12`");
                self.once(block.target.is_some(), begins, "target time");
                block.target = target.or(block.target.take());
            }
            (_, Some("rest")) => {
                self.at += 1;
                let rest = self.seconds("a rest", "write for example `rest 90s` or `rest 3min`");
                self.once(block.rest.is_some(), begins, "rest");
                block.rest = rest.or(block.rest.take());
            }
            (Kind::Sign(',' | ';'), _) => self.at += 1,
            (_, word) => {
                let near = word.and_then(|word| {
                    let near = PARTS.iter().max_by(|a, b| {
                        strsim::jaro_winkler(word, a).total_cmp(&strsim::jaro_winkler(word, b))
                    })?;
                    (strsim::jaro_winkler(word, near) > 0.75).then_some(*near)
                });
                let message = format!("`{}` is not understood here", self.written(token));
                let help = match near {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => "after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`"
                        .to_owned(),
                };
                self.problem(begins, message, help);
                self.at += 1;
                self.skip_to_part();
            }
        }
    }

    fn once(&mut self, again: bool, span: Range<usize>, what: &str) {
        if again {
            self.problem(span, format!("a second {what} for the same block"), "keep one of them");
        }
    }

    /// Goes on where a part of a block may begin, so that one problem hides no other.
    fn skip_to_part(&mut self) {
        while let Some(token) = self.peek() {
            let begins_part = token.kind == Kind::Sign('@')
                || self
                    .peek_word()
                    .is_some_and(|word| matches!(word.as_str(), "in" | "lane" | "lanes" | "on" | "rest"));
            if begins_part {
                break;
            }
            self.at += 1;
        }
    }

    fn place_part(&mut self, begins: Range<usize>, block: &mut Block) {
        const HELP: &str = "write `on the bend`, `on the home straight` or `on the back straight`";
        self.at += 1;
        self.word(&["the", "a"]);
        let here = self.here();
        let mut end = here.end;
        let place = if self.word(&["bend", "curve"]) {
            Some(Place::Bend)
        } else {
            let course = if self.word(&["home"]) {
                Some(Course::HomeStraight)
            } else if self.word(&["back"]) {
                Some(Course::BackStraight)
            } else {
                None
            };
            end = self.here().end;
            course.filter(|_| self.word(&["straight"])).map(Place::On)
        };
        let Some(mut place) = place else {
            self.problem(here, "expected a place after `on`", HELP);
            self.skip_to_part();
            return;
        };
        let before = self.at;
        self.word(&["the"]);
        let way = self.here();
        if self.word(&["other"]) && self.word(&["way"]) {
            end = self.tokens[self.at - 1].span.end;
            match place {
                Place::On(course) => place = Place::Against(course),
                _ => self.problem(
                    way.start..end,
                    "a bend is run anticlockwise only",
                    "leave out `the other way`",
                ),
            }
        } else {
            self.at = before;
        }
        self.once(block.place.is_some(), begins.clone(), "place");
        block.place = Some(PlaceWords { place, span: begins.start..end });
    }

    fn lanes_part(&mut self, begins: Range<usize>, block: &mut Block) {
        self.at += 1;
        self.once(block.lanes.is_some(), begins, "list of lanes");
        let mut lanes = Lanes { numbers: Vec::new(), span: self.here() };
        loop {
            let Some(first) = self.lane() else { return };
            lanes.span.end = first.1.end;
            let mut last = first.0;
            if self.sign('-') || self.word(&["to"]) {
                let Some((to, span)) = self.lane() else { return };
                if to < first.0 {
                    let message = format!("lanes {} to {to} run backwards", first.0);
                    self.problem(span.clone(), message, format!("write `lanes {to}-{}`", first.0));
                }
                last = to;
                lanes.span.end = span.end;
            }
            for lane in first.0..=last {
                if lanes.numbers.contains(&lane) {
                    self.problem(lanes.span.clone(), format!("lane {lane} is named twice"), "name it once");
                } else {
                    lanes.numbers.push(lane);
                }
            }
            // A comma goes on with the list only where a number follows it.
            let next = self.tokens.get(self.at + 1).map(|token| token.kind);
            let goes_on = matches!(next, Some(Kind::Number(_))) && (self.sign(',') || self.word(&["and"]));
            if !goes_on {
                break;
            }
        }
        block.lanes = Some(lanes);
    }

    fn lane(&mut self) -> Option<(u8, Range<usize>)> {
        let help = format!("write a lane from 1 to {MOST_LANES}, for example `in lane 2`");
        let Some((value, span)) = self.number() else {
            self.problem(self.here(), "expected the number of a lane", help);
            self.skip_to_part();
            return None;
        };
        if value.fract() != 0.0 || !(1.0..=f64::from(MOST_LANES)).contains(&value) {
            let message = format!("`{}` is no lane", &self.text[span.clone()]);
            self.problem(span, message, help);
            self.skip_to_part();
            return None;
        }
        Some((value as u8, span))
    }

    /// A duration: `48`, `48s`, `3min`, `1:12`, `1:02.5`.
    fn seconds(&mut self, what: &str, help: &str) -> Option<Seconds> {
        let Some((value, mut span)) = self.number() else {
            self.problem(self.here(), format!("expected {what}"), help);
            self.skip_to_part();
            return None;
        };
        let mut seconds = value;
        if self.sign(':') {
            match self.number() {
                Some((more, more_span)) if more < 60.0 && more_span.start == span.end + 1 => {
                    seconds = value * 60.0 + more;
                    span.end = more_span.end;
                }
                _ => {
                    self.problem(span, "expected seconds below 60 after the colon", help);
                    self.skip_to_part();
                    return None;
                }
            }
        } else if let Some(unit) = self.peek_word() {
            let second = match unit.as_str() {
                "s" | "sec" | "secs" | "second" | "seconds" => Some(1.0),
                "min" | "mins" | "minute" | "minutes" => Some(60.0),
                _ => None,
            };
            if let Some(second) = second {
                seconds = value * second;
                span.end = self.here().end;
                self.at += 1;
            }
        }
        if !(0.0..=LONGEST_S).contains(&seconds) || seconds == 0.0 {
            let message = format!("`{}` is out of range for {what}", &self.text[span.clone()]);
            self.problem(span, message, "write more than 0 s and at most 6 hours");
            return None;
        }
        Some(Seconds { seconds, span })
    }
}
