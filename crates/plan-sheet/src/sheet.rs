//! A plan as the sheets print it: every value in words.

use chrono::{NaiveTime, TimeDelta};
use lane_distance::{LaneList, Mark};
use serde::Serialize;
use session_plan::plan_words::{clock, metres};
use session_plan::{Plan, PlanBlock, Rep, SetupItem};

use crate::day;
use crate::occasion::Occasion;
use crate::place_row::{PlaceRow, place_rows};
use crate::plan_text::sure;
use crate::walk_words;
use crate::wave_times::{WaveTimes, wave_times};

/// A plan as the printed sheet and the page show it: every value in words, so that both say the same.
///
/// ```
/// use lane_distance::Track;
/// use plan_sheet::Sheet;
/// use session_plan::{Block, Session, Venue};
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let session = Session::of_block("6 x 200 in lane 2", Block::parse("6 x 200 in lane 2").expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &session).expect("lane 2 is open");
/// let sheet = Sheet::of(&plan);
/// assert_eq!(sheet.blocks[0].rows.len(), 6);
/// assert_eq!(sheet.blocks[0].rows[0].start, "on the 200 m start line");
/// assert_eq!(sheet.cones.len(), 2); // one on the start line, one on the finish line
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sheet {
    /// What the session is called.
    pub title: String,
    /// The day, in words.
    pub date: Option<String>,
    /// The time of day at which the session begins, to the second, as `18:00:00`.
    pub begins: Option<String>,
    /// When it is, or how long it lasts.
    pub times: Option<String>,
    /// What the track is called, and what is closed there.
    pub track: String,
    /// The wind.
    pub wind: Option<String>,
    /// The blocks, in the order they are run.
    pub blocks: Vec<SheetBlock>,
    /// What a picture of the track with the cones shows, for those who do not see it.
    pub map_words: String,
    /// What the walk is called that sets the cones out.
    pub walk_title: &'static str,
    /// How far and how long the walk is.
    pub walk: String,
    /// How long the steps are, where cones are told in steps.
    pub stride: Option<String>,
    /// Every cone, in the order of the walk.
    pub cones: Vec<ConeRow>,
    /// What each athlete needs to know.
    pub cards: Vec<Card>,
    /// What the coach or the plan has to say.
    pub notes: Vec<String>,
    /// How people behave on this track.
    pub etiquette: Vec<String>,
    /// What to take care of.
    pub cautions: Vec<String>,
    /// The same in short, for what is carried on the track.
    pub short_cautions: String,
}

/// A block of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetBlock {
    /// Its place in the session, from 1.
    pub number: usize,
    /// The block as it was written.
    pub text: String,
    /// The group that runs it.
    pub group: Option<String>,
    /// How long it lasts, where it has no runs.
    pub lasts: Option<String>,
    /// When its first run goes and its last one is done, where that is known.
    pub when: Option<String>,
    /// Its runs.
    pub rows: Vec<SheetRow>,
    /// Where they start and finish, each place said once.
    pub places: Vec<PlaceRow>,
    /// Its waves, with who runs in them.
    pub waves: Vec<WaveTimes>,
    /// Whether any run has a number of its set.
    pub has_sets: bool,
    /// Whether runs go in waves.
    pub has_waves: bool,
    /// Where the coach stands.
    pub coach: Option<String>,
    /// What its runs come by, to be read before it is run.
    pub cautions: Vec<String>,
    /// What else there is to say of it.
    pub remarks: Vec<String>,
}

/// A run of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetRow {
    /// The number of the repetition.
    pub rep: u32,
    /// The number of its set.
    pub set: u32,
    /// The number of its wave.
    pub wave: u32,
    /// The lane.
    pub lane: u8,
    /// Who runs.
    pub athletes: Vec<String>,
    /// How far, in metres.
    pub metres: String,
    /// Where it starts.
    pub start: String,
    /// The number of the cone there.
    pub start_cone: Option<u32>,
    /// Where it finishes.
    pub finish: String,
    /// The number of the cone there.
    pub finish_cone: Option<u32>,
    /// Where the run-in begins.
    pub run_in: Option<String>,
    /// The number of the cone there.
    pub run_in_cone: Option<u32>,
    /// Whether it is run on a straight towards its start.
    pub the_other_way: bool,
    /// The target time, or the range of them, or the effort.
    pub target: Option<String>,
    /// The target time in seconds, for a clock; of a range the slower.
    pub target_s: Option<f64>,
    /// When it goes: the time of day where that is known, else from the start of the session.
    pub go: Option<String>,
    /// When it goes, in seconds from the start of the session.
    pub go_s: Option<f64>,
    /// When it is done, as `go` is told.
    pub done: Option<String>,
    /// The rest after it.
    pub rest: Option<String>,
    /// The rest after it in seconds.
    pub rest_s: Option<f64>,
    /// When to pass what, at round distances.
    pub splits: Vec<SheetSplit>,
    /// When to pass what, at the paint on the way.
    pub paint: Vec<SheetSplit>,
}

/// A place on the way of a run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetSplit {
    /// The place.
    pub place: String,
    /// The time from the start.
    pub time: String,
    /// The same in seconds.
    pub time_s: f64,
}

/// A cone of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ConeRow {
    /// Its number on the walk and on the map.
    pub number: u32,
    /// What it marks.
    pub what: String,
    /// The lane.
    pub lane: u8,
    /// Where it stands.
    pub place: String,
    /// How many steps it is from the paint, where that is to be told.
    pub steps: Option<String>,
    /// The runs that it serves.
    pub serves: String,
}

/// What one athlete needs to know.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Card {
    /// The athlete.
    pub athlete: String,
    /// The group that the athlete trains with.
    pub group: Option<String>,
    /// The athlete's runs, in order.
    pub runs: Vec<CardRun>,
}

/// Runs of one block that an athlete does.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CardRun {
    /// The number of the block.
    pub block: usize,
    /// The block as it was written.
    pub text: String,
    /// Its runs.
    pub rows: Vec<SheetRow>,
    /// Where they start and finish, each place said once.
    pub places: Vec<PlaceRow>,
}

impl Sheet {
    /// A plan in words.
    pub fn of(plan: &Plan) -> Self {
        let blocks: Vec<SheetBlock> =
            (1..).zip(&plan.blocks).map(|(number, block)| SheetBlock::of(plan, number, block)).collect();
        let occasion = Occasion::of(plan);
        Self {
            title: plan.title.clone(),
            date: occasion.date,
            begins: plan.begins.map(|begins| begins.format("%H:%M:%S").to_string()),
            times: occasion.times,
            track: occasion.track,
            wind: occasion.wind,
            map_words: map_words(plan),
            walk_title: walk_words::TITLE,
            walk: walk_words::walk(&plan.walk),
            cones: plan.setup.iter().map(|item| ConeRow::of(plan, item)).collect(),
            stride: walk_words::stride(plan),
            cards: cards(&blocks),
            blocks,
            notes: [plan.notes.as_slice(), &plan.warnings].concat(),
            etiquette: plan.etiquette.clone(),
            cautions: plan.cautions.clone(),
            short_cautions: short_cautions(&plan.track.closed_lanes),
        }
    }
}

impl SheetBlock {
    fn of(plan: &Plan, number: usize, block: &PlanBlock) -> Self {
        let mut rows: Vec<SheetRow> = block.reps.iter().map(|rep| SheetRow::of(plan, rep)).collect();
        rows.sort_by_key(|row| (row.rep, row.wave, row.lane));
        Self {
            number,
            text: block.text.trim().to_owned(),
            group: block.group.clone(),
            lasts: block.lasts_s.filter(|_| block.reps.is_empty()).map(clock),
            has_sets: block.reps.iter().any(|rep| rep.set > 1),
            has_waves: block.reps.iter().any(|rep| rep.wave > 1),
            when: when(plan, block),
            places: place_rows(&rows),
            waves: wave_times(&rows),
            rows,
            coach: block.coach.as_ref().map(|coach| coach.words.clone()),
            cautions: block.cautions().map(str::to_owned).collect(),
            remarks: block.remarks.clone(),
        }
    }
}

impl SheetRow {
    fn of(plan: &Plan, rep: &Rep) -> Self {
        let at = |seconds: f64| time_at(plan.begins, seconds);
        let target = match (rep.target_s, rep.target_from_s, &rep.effort) {
            (Some(to_s), Some(from_s), _) => Some(format!("{} to {}", clock(from_s), clock(to_s))),
            (Some(target_s), None, _) => Some(clock(target_s)),
            (None, _, effort) => effort.clone(),
        };
        let split = |split: &session_plan::Split, place: String| SheetSplit {
            place,
            time: clock(split.time_s),
            time_s: split.time_s,
        };
        Self {
            rep: rep.rep,
            set: rep.set,
            wave: rep.wave,
            lane: rep.lane,
            athletes: rep.athletes.iter().map(|name| called(name)).collect(),
            metres: sure(rep.distance_m, rep.plus_minus_m),
            start: rep.start.words.clone(),
            start_cone: plan.cone_on(&rep.start),
            finish: rep.finish.words.clone(),
            finish_cone: plan.cone_on(&rep.finish),
            run_in: rep.run_in.as_ref().map(|run_in| run_in.words.clone()),
            run_in_cone: rep.run_in.as_ref().and_then(|run_in| plan.cone_on(run_in)),
            the_other_way: rep.the_other_way,
            target,
            target_s: rep.target_s,
            go: rep.go_s.map(at),
            go_s: rep.go_s,
            done: rep.done_s.map(at),
            rest: rep.rest_s.map(clock),
            rest_s: rep.rest_s,
            splits: (rep.splits.iter().filter(|split| split.round))
                .map(|round| split(round, format!("{} m", metres(round.from_start_m))))
                .collect(),
            paint: (rep.splits.iter())
                .filter_map(|painted| Some(split(painted, spoken(plan, painted.mark.as_ref()?))))
                .collect(),
        }
    }
}

/// What a walker looks for to find a mark.
fn spoken(plan: &Plan, mark: &str) -> String {
    let known = plan.track.ground.marks().iter().find(|known| known.name == mark);
    known.map_or_else(|| mark.to_owned(), Mark::spoken)
}

impl ConeRow {
    fn of(plan: &Plan, item: &SetupItem) -> Self {
        Self {
            number: item.order,
            what: item.what.clone(),
            lane: item.spot.lane,
            place: item.spot.words.clone(),
            steps: walk_words::steps(plan, item),
            serves: item.serves.clone(),
        }
    }
}

fn map_words(plan: &Plan) -> String {
    format!(
        "Map of the track ({}) from above, with numbered flags where the cones stand; the list of the walk says \
         each place in words.",
        Occasion::of(plan).track
    )
}

/// What to take care of, in short.
fn short_cautions(closed: &[u8]) -> String {
    let closed = match closed {
        [] => String::new(),
        closed => format!(" Stay out of {}.", LaneList(closed)),
    };
    format!(
        "Distances assume the measure line.{closed} Look both ways before you step on; keep clear of throws and \
         jumps. The venue's rules come first."
    )
}

/// One card for each athlete, in the order in which they first run.
fn cards(blocks: &[SheetBlock]) -> Vec<Card> {
    let mut cards: Vec<Card> = Vec::new();
    for block in blocks {
        for row in &block.rows {
            for athlete in &row.athletes {
                let index = cards.iter().position(|card| card.athlete == *athlete).unwrap_or_else(|| {
                    cards.push(Card {
                        athlete: athlete.clone(),
                        group: block.group.clone(),
                        runs: Vec::new(),
                    });
                    cards.len() - 1
                });
                let runs = &mut cards[index].runs;
                match runs.last_mut() {
                    Some(run) if run.block == block.number => run.rows.push(row.clone()),
                    _ => runs.push(CardRun {
                        block: block.number,
                        text: block.text.clone(),
                        rows: vec![row.clone()],
                        places: Vec::new(),
                    }),
                }
            }
        }
    }
    for run in cards.iter_mut().flat_map(|card| &mut card.runs) {
        run.places = place_rows(&run.rows);
    }
    cards
}

/// An athlete's name; one who has only a number is called by it, so that it is not taken for a lane's.
fn called(name: &str) -> String {
    if name.chars().all(|letter| letter.is_ascii_digit()) { format!("No. {name}") } else { name.to_owned() }
}

/// When the first run of a block goes and the last one is done, where that is known.
fn when(plan: &Plan, block: &PlanBlock) -> Option<String> {
    let go_s = block.reps.iter().filter_map(|rep| rep.go_s).reduce(f64::min)?;
    let done_s = block.reps.iter().filter_map(|rep| rep.done_s).reduce(f64::max);
    let minute = |begins: NaiveTime, seconds: f64| day::minute(later(begins, seconds));
    match (plan.begins, done_s) {
        // A run that is done within a minute takes that minute.
        (Some(begins), Some(done_s)) => {
            let full_s = (done_s / 60.0).ceil() * 60.0;
            Some(format!("{} to {}", minute(begins, go_s), minute(begins, full_s)))
        }
        (Some(begins), None) => Some(format!("from {}", minute(begins, go_s))),
        (None, Some(done_s)) => Some(format!("{} to {}", clock(go_s), clock(done_s))),
        // That the first run goes at 0 s says nothing.
        (None, None) => None,
    }
}

/// A time of the session: of the day where that is known, else from the start.
pub(crate) fn time_at(begins: Option<NaiveTime>, seconds: f64) -> String {
    match begins {
        None => clock(seconds),
        Some(begins) => later(begins, seconds).format("%H:%M:%S").to_string(),
    }
}

fn later(begins: NaiveTime, seconds: f64) -> NaiveTime {
    begins + TimeDelta::milliseconds((seconds * 1000.0).round() as i64)
}
