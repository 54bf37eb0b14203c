//! Every workout of `workouts.txt` is read as its line says.

use std::fmt::Debug;

use lane_distance::{Course, LaneNumber, Place, Track};
use session_plan::{Session, Venue};
use workout_notation::Block;
use workout_notation::{Body, Gap, HurdlePart, Pace, RecoveryKind, RunKind, RunLength, RunPlace, Step};

const TABLE: &str = include_str!("workouts.txt");

/// The fewest workouts that the table must hold.
const FEWEST: usize = 120;

/// One line of the table.
struct Row {
    text: &'static str,
    cells: Vec<&'static str>,
}

impl Row {
    fn all() -> Vec<Self> {
        let lines = TABLE.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty());
        lines
            .map(|line| {
                let mut cells = line.split('|').map(str::trim);
                let text = line.split('|').next().expect("a split has a first part");
                cells.next();
                Self { text, cells: cells.collect() }
            })
            .collect()
    }

    fn cell(&self, index: usize) -> &'static str {
        self.cells.get(index).copied().unwrap_or("-")
    }

    fn block(&self) -> Result<Block, String> {
        Block::parse(self.text).map_err(|problems| format!("refused: {problems:?}"))
    }

    fn is_note(&self) -> bool {
        self.cell(0).starts_with("note")
    }
}

/// What is wrong with the rows, all of it at once.
fn check(wrong: impl Fn(&Row, &Block) -> Result<(), String>) {
    let told = |row: &Row| row.block().and_then(|block| wrong(row, &block)).err();
    let faults: Vec<String> = Row::all()
        .iter()
        .filter_map(|row| told(row).map(|fault| format!("{:?}: {fault}", row.text)))
        .collect();
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

fn same<T: PartialEq + Debug>(found: T, expected: T) -> Result<(), String> {
    if found == expected { Ok(()) } else { Err(format!("{found:?}, not {expected:?}")) }
}

/// `2x(300 150) 4x200` as all its items in turn.
fn expanded(list: &str) -> Vec<String> {
    let mut items = Vec::new();
    let mut rest = list.trim();
    while !rest.is_empty() {
        let (count, after) = match rest.split_once('x') {
            Some((count, after)) if count.parse::<usize>().is_ok() => {
                (count.parse().expect("it was parsed before"), after)
            }
            _ => (1, rest),
        };
        let (turn, after) = match after.strip_prefix('(') {
            Some(inner) => inner.split_once(')').expect("a bracket of the table is closed"),
            None => after.split_once(' ').unwrap_or((after, "")),
        };
        for _ in 0..count {
            items.extend(turn.split_whitespace().map(str::to_owned));
        }
        rest = after.trim();
    }
    items
}

fn length(length: RunLength) -> String {
    match length {
        RunLength::Metres(metres) => metres.to_string(),
        RunLength::Laps(laps) => format!("{laps}laps"),
    }
}

fn run(kind: RunKind) -> String {
    match kind {
        RunKind::Plain(far) => length(far),
        RunKind::Flying { metres, run_in_m } => format!("fly{metres}+{run_in_m}"),
        RunKind::Hurdles { race_m, part } => {
            let race = race_m.map_or("?".to_owned(), |race_m| race_m.to_string());
            match part {
                HurdlePart::Whole => format!("{race}h"),
                HurdlePart::To(hurdle) => format!("{race}h>{hurdle}"),
                other => format!("{race}h {other:?}"),
            }
        }
        RunKind::Exchange { zone } => format!("zone{zone}"),
        RunKind::InAndOut { length: far, turns } => {
            format!("inout{}/{}", turns.to_string().trim_end_matches('s'), length(far))
        }
        RunKind::Part(part) => part.to_string(),
        RunKind::Timed { seconds } => format!("{seconds}s"),
    }
}

fn gap(step: &Step<'_>) -> String {
    match step.gap {
        None => "-".to_owned(),
        Some(Gap::Rest(seconds)) => seconds.to_string(),
        Some(Gap::Cycle(seconds)) => format!("off{seconds}"),
    }
}

fn recovery(kind: RecoveryKind) -> String {
    match kind {
        RecoveryKind::Jog(metres) => format!("jog{metres}"),
        RecoveryKind::JogExactly(metres) => format!("jog={metres}"),
        RecoveryKind::WalkExactly(metres) => format!("walk={metres}"),
        RecoveryKind::Walk(metres) => format!("walk{metres}"),
        RecoveryKind::JogPart(part) => format!("jog {part}"),
        RecoveryKind::WalkPart(part) => format!("walk {part}"),
        RecoveryKind::WalkBack => "back".to_owned(),
        RecoveryKind::JogBack => "jog back".to_owned(),
        RecoveryKind::Stand => "stand".to_owned(),
        RecoveryKind::ChangeEnds => "ends".to_owned(),
    }
}

fn pace(pace: Pace) -> String {
    match pace {
        Pace::Time { seconds, to_s: None } => format!("{seconds}s"),
        Pace::Time { seconds, to_s: Some(to_s) } => format!("{seconds}-{to_s}s"),
        Pace::Rate { seconds, per_m } => format!("{seconds}/{per_m}"),
        Pace::Percent(percent) => format!("{percent}%"),
        Pace::Race(metres) => format!("{metres}p"),
        Pace::OffRace { race_m, seconds, per_m } => {
            format!("{race_m}p{seconds:+}/{}", per_m.unwrap_or_default())
        }
    }
}

/// What differs among the runs, each once, in its order.
fn each_once(words: impl Iterator<Item = String>) -> String {
    let mut all: Vec<String> = Vec::new();
    for word in words {
        if !all.contains(&word) {
            all.push(word);
        }
    }
    if all.is_empty() { "-".to_owned() } else { all.join(" ") }
}

#[test]
fn the_table_holds_enough_workouts_and_each_once() {
    let rows = Row::all();
    assert!(rows.len() >= FEWEST, "{} are too few", rows.len());
    for (index, row) in rows.iter().enumerate() {
        assert!(rows[..index].iter().all(|other| other.text != row.text), "{:?} is there twice", row.text);
    }
}

#[test]
fn runs_and_notes() {
    check(|row, block| match &block.body {
        Body::Note { lasts_s, .. } => {
            let lasts = lasts_s.map_or(String::new(), |seconds| format!(" {seconds}"));
            same(format!("note{lasts}"), row.cell(0).to_owned())
        }
        Body::Runs(_) => {
            let found: Vec<String> = block.steps().iter().map(|step| run(step.run.kind.value)).collect();
            same(found.len(), block.count() as usize)?;
            same(found, expanded(row.cell(0)))
        }
    });
}

#[test]
fn lanes() {
    check(|row, block| {
        let lanes = |step: &Step<'_>| step.lanes.map(|lanes| lanes.value.clone());
        let found = block
            .steps()
            .iter()
            .filter_map(lanes)
            .map(|lanes| lanes.iter().map(LaneNumber::to_string).collect::<Vec<_>>().join(","))
            .collect::<Vec<_>>();
        same(each_once(found.into_iter()), row.cell(2).to_owned())
    });
}

#[test]
fn recoveries() {
    check(|row, block| {
        let steps = block.steps();
        let between = steps.split_last().map_or(&[][..], |(_, before)| before);
        let found: Vec<String> = between.iter().map(gap).collect();
        let cell = row.cell(3);
        let expected = if cell.contains(' ') {
            expanded(cell)
        } else {
            let (in_set, after_set) = cell.split_once('/').unwrap_or((cell, cell));
            let is_in_set = steps.windows(2).map(|pair| pair[0].set == pair[1].set);
            is_in_set.map(|is_in_set| if is_in_set { in_set } else { after_set }.to_owned()).collect()
        };
        same(found, expected)
    });
}

#[test]
fn ways_to_the_next_start() {
    check(|row, block| {
        let found = each_once(block.steps().iter().filter_map(|step| step.recovery).map(recovery));
        same(found, row.cell(4).to_owned())
    });
}

#[test]
fn paces_and_efforts() {
    check(|row, block| {
        let steps = block.steps();
        let said = steps.iter().flat_map(|step| {
            [step.pace.map(|said| pace(said.value)), step.effort.map(|effort| effort.value.clone())]
                .into_iter()
                .flatten()
        });
        same(each_once(said), row.cell(5).to_owned())
    });
}

#[test]
fn places() {
    check(|row, block| {
        let place = |step: &Step<'_>| {
            Some(match step.place?.value {
                RunPlace::At(Place::Bend) => "bend",
                RunPlace::At(Place::On(Course::HomeStraight)) => "home",
                RunPlace::At(Place::On(Course::BackStraight)) => "back",
                RunPlace::At(Place::Against(Course::HomeStraight)) => "home-",
                RunPlace::Wind { on: Some(Course::HomeStraight), against: true } => "home against the wind",
                RunPlace::Wind { on: None, against: true } => "against the wind",
                RunPlace::Wind { on: None, against: false } => "with the wind",
                _ => "another",
            })
        };
        let found = each_once(block.steps().iter().filter_map(place).map(str::to_owned));
        same(found, row.cell(6).to_owned())
    });
}

#[test]
fn the_standard_track_has_room_for_every_metre_of_them() {
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    check(|row, block| {
        if row.is_note() {
            return Ok(());
        }
        let session = Session::of_block("a table", block.clone());
        let plan = session_plan::plan(&venue, &session).map_err(|errors| format!("{errors:?}"))?;
        let reps = &plan.blocks[0].reps;
        let lane = reps.first().map(|rep| rep.lane);
        let found: f64 = reps.iter().filter(|rep| Some(rep.lane) == lane).map(|rep| rep.distance_m).sum();
        let expected: f64 = row.cell(1).parse().map_err(|error| format!("{error}"))?;
        if (found - expected).abs() < 0.02 { Ok(()) } else { Err(format!("{found} m, not {expected} m")) }
    });
}

#[test]
fn each_is_the_same_block_after_printing_and_reading() {
    check(|_, block| same(Block::parse(&block.to_string()).as_ref(), Ok(block)));
}
