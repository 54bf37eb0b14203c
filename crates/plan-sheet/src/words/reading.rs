//! How a text was read, in words and numbers.

use std::ops::Range;

use lane_distance::{Course, Place};
use workout_notation::{
    Block, Body, Details, Gap, HurdlePart, Item, Pace, Recovery, RecoveryKind, RestAfter, Run, RunKind,
    RunLength, RunPlace, Series, Spanned, Stance,
};

use crate::words::capital;
use crate::words::doubt::{doubt, is_of_day};
use crate::words::numbers::{clock, to_cm};
use crate::words::quantity::{Kind, as_written, quantities};

/// A number up to here in a run over hurdles is that of a hurdle.
const MOST_HURDLES: u32 = 12;

/// How a block was read, in a line: its runs with every number as it is written, then what could be read in another
/// way, and what was not read.
///
/// ```
/// use workout_notation::Block;
///
/// let reading = |text: &str| plan_sheet::reading(&Block::parse(text).expect("it is well formed"));
/// assert_eq!(reading("12x400m rest 75s"), "12 × 400 m, 75 s rest");
/// assert_eq!(
///     reading("2 x (3 x 200 @ 32) rec 2min / 8min in lanes 2-4"),
///     "2 × (3 × 200 m @ 32 s) in lanes 2-4, 2 min rest, 8 min between sets"
/// );
/// ```
pub fn reading(block: &Block) -> String {
    let mut parts = vec![said(block)];
    parts.extend(block.doubts.iter().map(doubt));
    parts.extend(not_read(block));
    parts.join("; ")
}

/// What a block says, as it was read: the label in front, what is done, and the rest after it.
pub(crate) fn said(block: &Block) -> String {
    let mut text = Text { text: &block.text, efforts: Vec::new() };
    if let Body::Runs(series) = &block.body {
        efforts(series, &mut text.efforts);
    }
    let done = match &block.body {
        Body::Runs(series) => text.series(series),
        Body::Note { words, .. } => words.split_whitespace().collect::<Vec<_>>().join(" "),
    };
    // A note is told as it was written, whatever stands in front.
    let label = block.label.as_ref().filter(|label| !done.starts_with(label.as_str()));
    let label = label.map_or_else(String::new, |label| format!("{label}: "));
    let after = block.rest_after.as_ref().map_or_else(String::new, rest_after);
    let asides: String = block.asides.iter().map(|aside| format!(", {aside}")).collect();
    let said = format!("{label}{done}{asides}{after}");
    // No number is lost, however it was written.
    let doubts = block.doubts.iter().map(doubt);
    let shown: Vec<String> = doubts.chain([said.clone()]).flat_map(|words| numbers(&words)).collect();
    if numbers(&block.text).iter().all(|number| shown.contains(number)) {
        return said;
    }
    format!("{said} (written: {})", block.text.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// The rest after a block: `, then 5 min`.
fn rest_after(rest: &RestAfter) -> String {
    format!(", then {}", as_written(&rest.text, Kind::Time(Some(rest.seconds))))
}

/// The numbers in a text.
fn numbers(text: &str) -> Vec<String> {
    let mut numbers = vec![String::new()];
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let is_point = letter == '.' && letters.peek().is_some_and(char::is_ascii_digit);
        let Some(number) = numbers.last_mut() else { break };
        if letter.is_ascii_digit() || is_point && !number.is_empty() {
            number.push(letter);
        } else if !number.is_empty() {
            numbers.push(String::new());
        }
    }
    numbers.retain(|number| !number.is_empty());
    numbers
}

/// The words that were not read: `not read: relaxed, tall`.
pub(crate) fn not_read(block: &Block) -> Option<String> {
    let words = block.not_read.join(", ");
    (!words.is_empty()).then(|| format!("not read: {words}"))
}

/// What of a block could be read in another way and what was not read, each as a sentence.
///
/// ```
/// use workout_notation::Block;
///
/// let block = Block::parse("6 x 400, 90s, no gimmicks").expect("it is well formed");
/// assert_eq!(plan_sheet::doubts(&block), ["Or 90 s could be the time of each run.", "Not read: no gimmicks."]);
/// ```
pub fn doubts(block: &Block) -> Vec<String> {
    let unsure = block.doubts.iter().map(doubt).chain(not_read(block));
    unsure.map(|words| format!("{}.", capital(&words))).collect()
}

/// The same, then the text as it was written.
pub(crate) fn unsure(block: &Block) -> Vec<String> {
    let mut lines = doubts(block);
    if block.doubts.iter().any(|doubt| !is_of_day(doubt)) || !block.not_read.is_empty() {
        let text = block.text.split_whitespace().collect::<Vec<_>>().join(" ");
        lines.push(format!("Written: {text}"));
    }
    lines
}

/// A text that was read.
struct Text<'a> {
    text: &'a str,
    /// Where it says how hard something is: that may stand inside the place of a run.
    efforts: Vec<Range<usize>>,
}

impl<'a> Text<'a> {
    fn at(&self, span: Range<usize>) -> &'a str {
        self.text.get(span).unwrap_or_default()
    }

    fn time(&self, span: Range<usize>, seconds: f64) -> String {
        let written = self.at(span);
        // `equal recovery`, `on the minute`
        if !written.contains(char::is_numeric) && !written.is_empty() {
            return clock(seconds);
        }
        let written = as_written(written, Kind::Time(Some(seconds)));
        if written.is_empty() { clock(seconds) } else { written }
    }

    fn series(&self, series: &Series) -> String {
        if let Some(written_once) = self.written_once(series) {
            return written_once;
        }
        let items: Vec<String> = series.items.iter().map(|item| self.item(item)).collect();
        let is_single_run = matches!(series.items.as_slice(), [Item::Run(_)]);
        let details = self.details(&series.details);
        let in_brackets = !is_single_run && (series.count != 1 || !details.is_empty());
        let items = items.join(", ");
        let items = if in_brackets { format!("({items})") } else { items };
        let count = if series.count == 1 { String::new() } else { format!("{} × ", series.count) };
        format!("{count}{items}{details}")
    }

    /// Runs that were written once and have a target or a rest each: `5 × 200 m @ 30 s, 29 s, 28 s`.
    fn written_once(&self, series: &Series) -> Option<String> {
        let runs: Vec<&Run> = series
            .items
            .iter()
            .map(|item| match item {
                Item::Run(run) => Some(run.as_ref()),
                Item::Series(_) => None,
            })
            .collect::<Option<_>>()?;
        let first = *runs.first().filter(|_| runs.len() > 1 && series.count == 1)?;
        let without = |run: &Run| {
            let recovery = Recovery { gap: None, ..run.details.recovery.clone() };
            Details { pace: None, recovery, ..run.details.clone() }
        };
        let is_alike = |run: &&Run| run.kind.span == first.kind.span && without(run) == without(first);
        if !runs.iter().all(is_alike) {
            return None;
        }
        let paces = once(runs.iter().filter_map(|run| run.details.pace.as_ref()));
        let paces = paces.into_iter().map(|pace| self.pace(pace).trim_start_matches("@ ").to_owned());
        let paces = paces.collect::<Vec<_>>().join(", ");
        let gaps = once(runs.iter().filter_map(|run| run.details.recovery.gap.as_ref()));
        let jogs = first.details.recovery.jogs;
        let of_gap = |gap: &Spanned<Gap>| {
            let recovery = Recovery { gap: Some(gap.clone()), jogs, ..Recovery::default() };
            self.recovery(&recovery).concat()
        };
        let gaps: String = gaps.into_iter().map(|gap| format!(", {}", of_gap(gap))).collect();
        let paces = if paces.is_empty() { paces } else { format!(" @ {paces}") };
        let rest = self.details(&without(first));
        let of_all = self.details(&series.details);
        Some(format!("{} × {}{paces}{rest}{gaps}{of_all}", runs.len(), self.kind(&first.kind)))
    }

    fn item(&self, item: &Item) -> String {
        match item {
            Item::Run(run) => self.run(run),
            Item::Series(series) => self.series(series),
        }
    }

    fn run(&self, run: &Run) -> String {
        format!("{}{}", self.kind(&run.kind), self.details(&run.details))
    }

    /// What kind of run it is, without the effort that may stand before or behind it.
    fn kind(&self, kind: &Spanned<RunKind>) -> String {
        let written = self.without_effort(&kind.span);
        let distances = || quantities(written, Kind::Distance);
        match kind.value {
            RunKind::Plain(length) => {
                let words = as_written(&without_words(written), Kind::Distance);
                match words.as_str() {
                    "" => self::length(length),
                    // `5 x K`
                    "k" | "K" | "km" => "1 km".to_owned(),
                    _ => words,
                }
            }
            RunKind::Timed { seconds } => {
                // What stands in brackets is said behind it.
                let written = written.split('(').next().unwrap_or_default();
                let words = as_written(&without_words(written), Kind::Time(Some(seconds)));
                if words.is_empty() { clock(seconds) } else { words }
            }
            RunKind::Flying { metres, run_in_m } => {
                let mut distances = distances().into_iter();
                let mut next = |of_m: f64| distances.next().unwrap_or_else(|| format!("{} m", to_cm(of_m)));
                let fast = next(metres);
                format!("flying {fast} with {} run-in", next(run_in_m))
            }
            RunKind::Hurdles { race_m, part } => {
                // The number of a hurdle is no distance.
                let is_length = |written: &String| {
                    let digits = written.split(|letter: char| !letter.is_ascii_digit()).next();
                    digits
                        .and_then(|digits| digits.parse().ok())
                        .is_some_and(|number: u32| number > MOST_HURDLES)
                };
                let mut distances = distances().into_iter().filter(is_length);
                let mut next = |of_m: f64| distances.next().unwrap_or_else(|| format!("{} m", to_cm(of_m)));
                let race = race_m.map_or_else(String::new, |race_m| format!("{} ", next(race_m)));
                match part {
                    HurdlePart::Whole => format!("{race}hurdles"),
                    HurdlePart::To(1) => format!("{race}hurdles to the first"),
                    HurdlePart::To(hurdle) if race.is_empty() => format!("hurdles 1 to {hurdle}"),
                    HurdlePart::To(hurdle) => format!("{race}hurdles to hurdle {hurdle}"),
                    HurdlePart::Between { first, last } => format!("{race}hurdles, {first} to {last}"),
                    HurdlePart::First { run_m, hurdles } => {
                        format!("{} over the first {hurdles} hurdles", next(run_m))
                    }
                    HurdlePart::Last { run_m, hurdles } => {
                        format!("{} over the last {hurdles} hurdles", next(run_m))
                    }
                }
            }
            RunKind::Exchange { zone } => format!("exchange in zone {zone}"),
            RunKind::Part(part) => part.to_string(),
            RunKind::InAndOut { length, turns } => match turns.metres() {
                [turn_m] => {
                    let distances = distances();
                    let (of, turn) = match distances.as_slice() {
                        [of, turn, ..] => (of.clone(), turn.clone()),
                        _ => (self::length(length), format!("{} m", to_cm(*turn_m))),
                    };
                    format!("{of} in and out every {turn}")
                }
                several => {
                    let of = distances().into_iter().next();
                    let of = of.filter(|_| distances().len() == several.len() + 1);
                    let of = of.unwrap_or_else(|| self::length(length));
                    let several: Vec<String> = several.iter().map(|metres| to_cm(*metres)).collect();
                    format!("{of} as {} m", several.join(" + "))
                }
            },
        }
    }

    /// A run as it is written, without the effort that may stand before it, behind it, or both.
    fn without_effort(&self, span: &Range<usize>) -> &'a str {
        let written = self.at(span.clone());
        let touches = |effort: &&Range<usize>| effort.start < span.end && span.start < effort.end;
        let Some(effort) = self.efforts.iter().find(touches) else { return written };
        match (effort.start <= span.start, effort.end >= span.end) {
            // What stands before and behind is one effort: the run between them begins with its number.
            (true, true) => &written[written.find(char::is_numeric).unwrap_or(0)..],
            (true, false) => self.at(effort.end..span.end),
            (false, true) => self.at(span.start..effort.start),
            (false, false) => written,
        }
    }

    fn details(&self, details: &Details) -> String {
        let Details { effort, pace, lanes, place, stance, from, to, together, recovery } = details;
        let mut words = Vec::new();
        words.extend(effort.as_ref().map(|effort| effort.value.clone()));
        words.extend(pace.as_ref().map(|pace| self.pace(pace)));
        words.extend(lanes.as_ref().map(|lanes| {
            let lane = if lanes.value.len() == 1 { "lane" } else { "lanes" };
            format!("in {lane} {}", as_written(self.at(lanes.span.clone()), Kind::Number))
        }));
        words.extend(place.as_ref().map(|place| self.place(place)));
        words.extend(stance.as_ref().map(|stance| {
            // `from a 3-point start`
            if let Some(points) = numbers(self.at(stance.span.clone())).first() {
                return format!("from a {points}-point start");
            }
            match stance.value {
                Stance::Blocks => "from blocks",
                Stance::Standing => "from standing",
                Stance::Crouch => "from a crouch",
                Stance::Rolling => "from a rolling start",
            }
            .to_owned()
        }));
        words.extend(from.as_ref().map(|mark| format!("from the {}", mark.value)));
        words.extend(to.as_ref().map(|mark| format!("to the {}", mark.value)));
        words.extend(together.as_ref().map(|_| "starting together".to_owned()));
        let mut words: String = words.iter().map(|word| format!(" {word}")).collect();
        for recovery in self.recovery(recovery) {
            words += &format!(", {recovery}");
        }
        words
    }

    fn pace(&self, pace: &Spanned<Pace>) -> String {
        let written = self.at(pace.span.clone()).trim();
        let begins = written.trim_start_matches('@');
        let begins = ["in ", "at "].into_iter().find_map(|word| begins.strip_prefix(word)).unwrap_or(begins);
        let words = match pace.value {
            Pace::Time { seconds, to_s } => as_written(begins, Kind::Time(Some(to_s.unwrap_or(seconds)))),
            Pace::Rate { seconds, .. } => {
                let time = |time: &str| as_written(time, Kind::Time(Some(seconds)));
                match begins.split_once('/').or_else(|| begins.split_once(" per ")) {
                    Some((each, distance)) => {
                        format!("{} per {}", time(each), as_written(distance, Kind::Distance))
                    }
                    // `31 s pace`
                    None if begins.to_lowercase().contains("pace") => time(begins),
                    // `3 laps @ 80s`
                    None => format!("{} per lap", time(begins)),
                }
            }
            Pace::Percent(_) => as_written(begins, Kind::Number),
            Pace::OffRace { .. } => match begins.rsplit_once(['+', '-', '–']) {
                Some((race, off)) => {
                    let sign = if begins[race.len()..].starts_with('+') { '+' } else { '-' };
                    format!("{} {sign} {}", as_written(race, Kind::Number), as_written(off, Kind::Number))
                }
                None => as_written(begins, Kind::Number),
            },
            Pace::Race(_) => {
                let words = as_written(begins, Kind::Number);
                let is_named = ["pace", "effort"].iter().any(|name| words.ends_with(name));
                if is_named { words } else { format!("{words} pace") }
            }
        };
        format!("@ {words}")
    }

    fn recovery(&self, recovery: &Recovery) -> Vec<String> {
        let Recovery { kind, gap, jogs, set_rest, after } = recovery;
        let mut words = Vec::new();
        let mut gap_words = gap.as_ref().map(|gap| match gap.value {
            Gap::Rest(seconds) => (self.time(gap.span.clone(), seconds), true),
            Gap::Cycle(seconds) => (self.cycle(gap.span.clone(), seconds), false),
        });
        if let Some(kind) = kind {
            let way = self.way(kind);
            // How long a recovery over a distance may take is the rest.
            let is_way = kind.value.is_onward() && kind.value != RecoveryKind::Stand;
            let takes = gap_words.take_if(|(_, is_rest)| is_way && *is_rest);
            words.push(takes.map_or(way.clone(), |(time, _)| format!("{way} in {time}")));
        }
        let rest = if *jogs { "jog" } else { "rest" };
        words.extend(gap_words.map(|(time, is_rest)| if is_rest { format!("{time} {rest}") } else { time }));
        let sets = set_rest.as_ref();
        words.extend(sets.map(|rest| format!("{} between sets", self.time(rest.span.clone(), rest.value))));
        words.extend(after.as_ref().map(|rest| format!("then {}", self.time(rest.span.clone(), rest.value))));
        words
    }

    /// From one start to the next: the words before the time are left out.
    fn cycle(&self, span: Range<usize>, seconds: f64) -> String {
        let written = self.at(span);
        let words = written
            .find(char::is_numeric)
            .map(|begins| as_written(&written[begins..], Kind::Time(Some(seconds))));
        format!("every {}", words.unwrap_or_else(|| clock(seconds)))
    }

    /// Where the runs are; both straights in turn where the text names several.
    fn place(&self, place: &Spanned<RunPlace>) -> String {
        let is_of_several = self.at(place.span.clone()).to_lowercase().ends_with("straights");
        match place.value {
            RunPlace::At(Place::On(Course::HomeStraight)) if is_of_several => "on the straights".to_owned(),
            value => self::place(value),
        }
    }

    /// The part of the track that a recovery of so many metres goes along, where the text names one: `the bends, 100 m`.
    fn part(&self, kind: &Spanned<RecoveryKind>) -> Option<String> {
        let written = self.at(kind.span.clone()).to_lowercase();
        let part =
            ["bends", "bend", "straights", "straight"].into_iter().find(|part| written.ends_with(part))?;
        let metres =
            kind.value.on_m().filter(|_| !written.contains(|letter: char| letter.is_ascii_digit()))?;
        Some(format!("the {part}, {} m", to_cm(metres)))
    }

    /// How the runners get to the next start.
    fn way(&self, kind: &Spanned<RecoveryKind>) -> String {
        let distance = |metres: f64| {
            let written = quantities(self.at(kind.span.clone()), Kind::Distance).into_iter().next();
            written.unwrap_or_else(|| format!("{} m", to_cm(metres)))
        };
        match (kind.value, self.part(kind)) {
            (RecoveryKind::Jog(_), Some(part)) => return format!("jog {part}"),
            (RecoveryKind::Walk(_), Some(part)) => return format!("walk {part}"),
            _ => {}
        }
        match kind.value {
            RecoveryKind::Jog(metres) => format!("{} jog", distance(metres)),
            RecoveryKind::JogExactly(metres) => format!("jog exactly {}", distance(metres)),
            RecoveryKind::Walk(metres) => format!("{} walk", distance(metres)),
            RecoveryKind::WalkExactly(metres) => format!("walk exactly {}", distance(metres)),
            RecoveryKind::JogPart(part) => format!("jog the {part}"),
            RecoveryKind::WalkPart(part) => format!("walk the {part}"),
            RecoveryKind::WalkBack => "walk back".to_owned(),
            RecoveryKind::JogBack => "jog back".to_owned(),
            RecoveryKind::Stand => "standing".to_owned(),
            RecoveryKind::ChangeEnds => "changing ends".to_owned(),
        }
    }
}

fn length(length: RunLength) -> String {
    match length {
        RunLength::Metres(metres) => format!("{} m", to_cm(metres)),
        RunLength::Laps(1.0) => "1 lap".to_owned(),
        RunLength::Laps(laps) => format!("{laps} laps"),
    }
}

fn place(place: RunPlace) -> String {
    let on = |course: Course| match course {
        Course::HomeStraight => "on the home straight",
        Course::BackStraight => "on the back straight",
        Course::Oval => "on the oval",
    };
    match place {
        RunPlace::At(Place::Bend) => "on the bend".to_owned(),
        RunPlace::At(Place::On(course)) => on(course).to_owned(),
        RunPlace::At(Place::Against(course)) => format!("{} the other way", on(course)),
        RunPlace::At(Place::Anywhere) => on(Course::Oval).to_owned(),
        RunPlace::Wind { on: course, against } => {
            let wind = if against { "against the wind" } else { "with the wind" };
            course.map_or_else(|| wind.to_owned(), |course| format!("{} {wind}", on(course)))
        }
    }
}

/// Values in their order, each once that was written once.
fn once<'a, T>(values: impl Iterator<Item = &'a Spanned<T>>) -> Vec<&'a Spanned<T>> {
    let mut once: Vec<&Spanned<T>> = Vec::new();
    for value in values {
        if once.iter().all(|known| known.span != value.span) {
            once.push(value);
        }
    }
    once
}

/// Adds where a series says how hard something is.
fn efforts(series: &Series, found: &mut Vec<Range<usize>>) {
    found.extend(series.details.effort.as_ref().map(|effort| effort.span.clone()));
    for item in &series.items {
        match item {
            Item::Run(run) => found.extend(run.details.effort.as_ref().map(|effort| effort.span.clone())),
            Item::Series(series) => efforts(series, found),
        }
    }
}

/// What stands with a distance or a time and adds nothing to it.
fn without_words(written: &str) -> String {
    const ADD_NOTHING: [&str; 10] =
        ["run", "runs", "rep", "reps", "repeat", "repeats", "jog", "walk", "of", "over"];
    let words = written.split_whitespace();
    let words = words.filter(|word| !ADD_NOTHING.iter().any(|nothing| word.eq_ignore_ascii_case(nothing)));
    words.collect::<Vec<_>>().join(" ")
}
