//! A plan on a terminal.

use std::collections::{BTreeMap, BTreeSet};

use crate::words::numbers::{clock, metres};
use chrono::NaiveTime;
use lane_distance::LaneList;
use session_plan::{Plan, PlanBlock, Rep};

use crate::sheet::cone_group::ConeGroup;
use crate::terminal::board;
use crate::terminal::table::{heading, item, table};
use crate::terminal::take_care::take_care;
use crate::words::occasion::Occasion;
use crate::words::spot::spot;
use crate::words::target::target;
use crate::words::{capital, caution, coach, cone, house_rule, remark, walk_words, warning};

/// The coach's question first: where do I stand, where do they finish.
pub(crate) fn text(plan: &Plan) -> String {
    let mut parts = vec![title(plan)];
    for (number, block) in (1..).zip(&plan.blocks) {
        parts.push(block_text(number, block, plan.begins));
    }
    parts.extend(notes("Please note", &warning::notes(plan)));
    parts.extend((!plan.setup.is_empty()).then(|| setup(plan)));
    parts.extend(notes("On this track", &house_rule::etiquette(&plan.rules)));
    parts.push(take_care(&plan.cautions));
    parts.join("\n\n")
}

fn title(plan: &Plan) -> String {
    let occasion = Occasion::of(plan);
    let date = occasion.date.map_or_else(String::new, |date| format!(", {date}"));
    let mut lines = vec![format!("{}{date}", heading(&plan.title)), format!("Track: {}", occasion.track)];
    lines.extend(occasion.times.map(|times| capital(&times)));
    lines.extend(occasion.wind.map(|wind| format!("Wind: {wind}")));
    lines.join("\n")
}

fn block_text(number: usize, block: &PlanBlock, begins: Option<NaiveTime>) -> String {
    let title = heading(&format!("Block {number}: {}", block.text.trim()));
    if block.reps.is_empty() {
        let lasts = block
            .lasts_s
            .map_or_else(|| "No place is needed.".to_owned(), |s| format!("Lasts {}.", clock(s)));
        return [
            vec![title, lasts],
            block.remarks.iter().map(|line| item("!", &remark::remark(line))).collect(),
        ]
        .concat()
        .join("\n");
    }
    let is_board = board::is_board(block);
    let rows = if is_board { lane_rows(block) } else { rows(block) };
    let columns = if is_board { Columns::default() } else { Columns::of(&rows) };
    let cells = rows.iter().map(|row| columns.cells(row));
    let mut text =
        format!("{title}\n{}\n{}", table(&columns.header(), &columns.right(), cells), total(block));
    if is_board {
        text += &format!("\n\n{}", board::board(block, begins));
    }
    if block.reps.iter().any(|rep| rep.the_other_way) {
        text += " Run the other way: towards the start of the straight.";
    }
    for line in splits(&rows) {
        text += &format!("\n{}", item("-", &line));
    }
    for line in run_ins(block) {
        text += &format!("\n{}", item("-", &line));
    }
    if let Some(coach) = &block.coach {
        text += &format!("\n{}", item("-", &format!("Coach: {}.", coach::coach(coach))));
    }
    for line in block.remarks.iter().map(remark::remark).chain(caution::of_block(block)) {
        text += &format!("\n{}", item("!", &line));
    }
    text
}

fn total(block: &PlanBlock) -> String {
    if board::is_board(block) {
        let (least, most) = board::each_athlete_m(block);
        let to = if metres(least) == metres(most) { String::new() } else { format!(" to {}", metres(most)) };
        return format!("Total {}{to} m for each athlete.", metres(least));
    }
    let lanes = block.reps.iter().map(|rep| rep.lane).collect::<BTreeSet<_>>().len();
    let total_m: f64 = block.reps.iter().map(|rep| rep.distance_m).sum();
    let each = if lanes > 1 { " in each lane" } else { "" };
    let group = block.reps.first().and_then(|rep| rep.group.as_ref());
    let whom = group.map_or_else(String::new, |group| format!(" for {group}"));
    format!("Total {} m{each}{whom}.", metres(total_m / lanes.max(1) as f64))
}

/// Where run-ins begin, lane by lane; with the repetitions, where a lane has several.
fn run_ins(block: &PlanBlock) -> Vec<String> {
    let mut places: BTreeMap<(u8, String), BTreeSet<u32>> = BTreeMap::new();
    for rep in &block.reps {
        if let Some(run_in) = &rep.run_in {
            places.entry((rep.lane, spot(run_in))).or_default().insert(rep.rep);
        }
    }
    let is_shared = |lane: u8| places.keys().filter(|(other, _)| *other == lane).count() > 1;
    let line = |((lane, words), reps): (&(u8, String), &BTreeSet<u32>)| {
        let reps: Vec<String> = reps.iter().map(u32::to_string).collect();
        let of = if is_shared(*lane) { format!(" of run {}", reps.join(", ")) } else { String::new() };
        format!("Run-in{of} in lane {lane}: {words}")
    };
    places.iter().map(line).collect()
}

/// The splits at round distances, once for each distance and target.
fn splits(rows: &[Row<'_>]) -> Vec<String> {
    let mut lines = Vec::new();
    for row in rows {
        let round = row.first.splits.iter().filter(|split| split.round);
        let times: Vec<String> =
            round.map(|split| format!("{} m {}", metres(split.from_start_m), clock(split.time_s))).collect();
        if times.is_empty() || times.len() > MOST_SPLITS {
            continue;
        }
        let line = format!("Splits of {} m: {}", metres(row.first.distance_m), times.join(", "));
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}

/// More splits than this are left to the other views.
const MOST_SPLITS: usize = 12;

/// Where the runners of a squad stand: once for each lane where that is the same in all its repetitions, else
/// by repetition too. Their times are told elsewhere.
pub(crate) fn lane_rows(block: &PlanBlock) -> Vec<Row<'_>> {
    let last = block.reps.iter().map(|rep| rep.rep).max().unwrap_or(1);
    let mut rows: Vec<Row<'_>> = Vec::new();
    for rep in &block.reps {
        if !rows.iter().any(|row| row.first.lane == rep.lane && has_places_of(row.first, rep)) {
            rows.push(Row { first: rep, from: 1, last, lanes: vec![rep.lane] });
        }
    }
    let lanes: BTreeSet<u8> = block.reps.iter().map(|rep| rep.lane).collect();
    if rows.len() > lanes.len() {
        rows = rep_rows(block);
    }
    rows.sort_by_key(|row| (row.from, row.first.lane));
    join_lanes(&mut rows, |_, _| true);
    rows
}

/// The columns that a block needs.
#[derive(Default)]
struct Columns {
    sets: bool,
    targets: bool,
    rests: bool,
    go: bool,
}

impl Columns {
    fn of(rows: &[Row<'_>]) -> Self {
        let any = |is: &dyn Fn(&Rep) -> bool| rows.iter().any(|row| is(row.first));
        Self {
            sets: any(&|rep| rep.set > 1),
            targets: any(&|rep| rep.target_s.is_some()),
            rests: any(&|rep| rep.rest_s.is_some()),
            // Start times tell most where each row is one run.
            go: rows.len() > 1
                && rows.iter().all(|row| row.first.rep == row.last && row.first.go_s.is_some()),
        }
    }

    fn header(&self) -> Vec<&'static str> {
        let mut header = vec!["Reps", "Lane", "Metres", "Stand", "Finish"];
        if self.sets {
            header.insert(0, "Set");
        }
        for (is_there, name) in [(self.targets, "Target"), (self.rests, "Rest"), (self.go, "Go at")] {
            if is_there {
                header.push(name);
            }
        }
        header
    }

    fn right(&self) -> [usize; 1] {
        [if self.sets { 3 } else { 2 }]
    }

    fn cells(&self, row: &Row<'_>) -> Vec<String> {
        let rep = row.first;
        let time = |seconds: Option<f64>| seconds.map_or_else(String::new, clock);
        let target = target(rep).unwrap_or_default();
        let mut cells = vec![
            row.reps(),
            LaneList(&row.lanes).numbers(),
            sure(rep.distance_m, rep.plus_minus_m),
            spot(&rep.start),
            spot(&rep.finish),
        ];
        if self.sets {
            cells.insert(0, rep.set.to_string());
        }
        for (is_there, cell) in
            [(self.targets, target), (self.rests, time(rep.rest_s)), (self.go, time(rep.go_s))]
        {
            if is_there {
                cells.push(cell);
            }
        }
        cells
    }
}

/// A distance, with how sure it is where that matters on the ground.
pub(crate) fn sure(distance_m: f64, plus_minus_m: f64) -> String {
    if plus_minus_m < SHOWN_FROM_M {
        metres(distance_m)
    } else {
        format!("{} ±{plus_minus_m:.1}", metres(distance_m))
    }
}

/// A plus or minus is shown from here on, in metres.
const SHOWN_FROM_M: f64 = 0.1;

/// Repetitions that are alike but for their number and lane.
pub(crate) struct Row<'a> {
    pub(crate) first: &'a Rep,
    pub(crate) from: u32,
    pub(crate) last: u32,
    pub(crate) lanes: Vec<u8>,
}

impl Row<'_> {
    pub(crate) fn reps(&self) -> String {
        if self.from == self.last { self.last.to_string() } else { format!("{} to {}", self.from, self.last) }
    }
}

/// A row for each lane and the repetitions, one after the other, that have their places there.
fn rep_rows(block: &PlanBlock) -> Vec<Row<'_>> {
    let mut reps: Vec<&Rep> = block.reps.iter().collect();
    reps.sort_by_key(|rep| (rep.rep, rep.lane));
    let mut rows: Vec<Row<'_>> = Vec::new();
    for rep in reps {
        // Several waves run a repetition in a lane.
        let goes_on = |row: &&mut Row<'_>| {
            row.first.lane == rep.lane
                && (row.last == rep.rep || row.last + 1 == rep.rep)
                && has_places_of(row.first, rep)
        };
        match rows.iter_mut().find(goes_on) {
            Some(row) => row.last = rep.rep,
            None => rows.push(Row { first: rep, from: rep.rep, last: rep.rep, lanes: vec![rep.lane] }),
        }
    }
    rows
}

/// Whether two repetitions of a lane are run between the same places.
fn has_places_of(a: &Rep, b: &Rep) -> bool {
    a.distance_m == b.distance_m
        && (&a.start, &a.finish, &a.run_in, a.the_other_way)
            == (&b.start, &b.finish, &b.run_in, b.the_other_way)
}

pub(crate) fn rows(block: &PlanBlock) -> Vec<Row<'_>> {
    let mut rows: Vec<Row<'_>> = Vec::new();
    for rep in &block.reps {
        let like = |row: &&mut Row<'_>| {
            let first = row.first;
            first.lane == rep.lane
                && first.set == rep.set
                && has_places_of(first, rep)
                && (first.target_s, first.target_from_s) == (rep.target_s, rep.target_from_s)
                // The last repetition has no rest after it; that needs no row of its own.
                && (first.rest_s == rep.rest_s || rep.rest_s.is_none())
                && row.last + 1 == rep.rep
        };
        match rows.iter_mut().find(like) {
            Some(row) => row.last = rep.rep,
            None => rows.push(Row { first: rep, from: rep.rep, last: rep.rep, lanes: vec![rep.lane] }),
        }
    }
    rows.sort_by_key(|row| (row.first.rep, row.first.lane));
    let times = |rep: &Rep| (rep.target_s, rep.target_from_s, rep.rest_s);
    join_lanes(&mut rows, |a, b| times(a) == times(b));
    rows
}

/// Lanes side by side whose spots are said in the same words share a row, where `alike` says so.
fn join_lanes(rows: &mut Vec<Row<'_>>, alike: impl Fn(&Rep, &Rep) -> bool) {
    rows.dedup_by(|next, row| {
        let (a, b) = (row.first, next.first);
        let run_in = |rep: &Rep| rep.run_in.as_ref().map(spot);
        let alike = (row.from, row.last) == (next.from, next.last)
            && (spot(&a.start), spot(&a.finish)) == (spot(&b.start), spot(&b.finish))
            && run_in(a) == run_in(b)
            && (a.distance_m, a.the_other_way) == (b.distance_m, b.the_other_way)
            && alike(a, b);
        if alike {
            row.lanes.append(&mut next.lanes);
        }
        alike
    });
}

fn setup(plan: &Plan) -> String {
    let stride = walk_words::stride(plan);
    let rows = ConeGroup::of(plan).into_iter().map(|group| {
        let item = group.first;
        let mut cells = vec![
            group.numbers(),
            cone::marks(item),
            LaneList(&group.lanes).numbers(),
            spot(&item.spot),
            cone::serves(item),
        ];
        if stride.is_some() {
            cells.insert(4, group.steps.unwrap_or_default());
        }
        cells
    });
    let mut header = vec!["Cone", "Marks", "Lane", "Where", "For"];
    if stride.is_some() {
        header.insert(4, "Steps");
    }
    let table = table(&header, &[0], rows);
    let mut text = format!("{}\n{table}\n{}", heading(walk_words::TITLE), walk_words::walk(&plan.walk));
    if let Some(stride) = stride {
        text += &format!("\n{stride}");
    }
    text
}

fn notes(title: &str, lines: &[String]) -> Option<String> {
    let items: Vec<String> = lines.iter().map(|line| item("-", line)).collect();
    (!items.is_empty()).then(|| format!("{}\n{}", heading(title), items.join("\n")))
}
