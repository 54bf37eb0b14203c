//! A session as a session file.

use chrono::NaiveTime;
use session_plan::{
    Athlete, Bests, BlockAt, Cones, Group, HazardBegun, LaneClosure, Prefer, RIEGEL_EXPONENT, Session,
    SkippedBlock, SquadRules, Wind, WindFrom,
};
use wave_plan::{Mode, Timers, TimingRules};
use workout_notation::{Block, Workout};

use crate::tables::yaml::{in_flow, scalar};
use crate::words::reading::unsure;

/// Where a session is to be run, as its file says it.
#[derive(Clone, Copy, Debug, Default)]
pub struct SessionGround<'a> {
    /// The name of a built-in track, or of a track file beside the session file.
    pub track: Option<&'a str>,
    /// Lanes that are closed for the session, on top of those that the track closes.
    pub closed_lanes: &'a [u8],
    /// Lanes closed for a part of the evening that the session does not know of.
    pub closures: &'a [LaneClosure],
    /// Hazards in use that the session does not know of, each with the time since when.
    pub hazards: &'a [(String, Option<NaiveTime>)],
}

/// A session as a session file, which reads back as the same session; without groups all its blocks stand in one list.
///
/// Each block stands in the one form of all those that mean the same; what was not read, and what could be read in
/// another way, stands above it as a comment. Late changes stand under their keys; the wind of a late change is written as
/// the wind, and a block that is left out is a comment.
///
/// ```
/// use plan_sheet::SessionGround;
/// use session_plan::Session;
/// use workout_notation::Workout;
///
/// let workout = Workout::parse("6x200, rec 90s").expect("it is well formed");
/// let yaml = plan_sheet::session_yaml(&Session::of_workout("Tuesday", workout), &SessionGround::default());
/// assert_eq!(yaml, "title: Tuesday\nblocks:\n  - 6 x 200 rest 1:30\n");
/// ```
pub fn session_yaml(session: &Session, ground: &SessionGround<'_>) -> String {
    let mut lines = vec![format!("title: {}", scalar(&session.title))];
    lines.extend(session.date.map(|date| format!("date: {date}")));
    lines.extend(session.hours.map(|hours| format!("hours: {hours}")));
    lines.extend(session.late.start.or(session.starts).map(|starts| format!("start: {}", clock(starts))));
    lines.extend(session.page.as_ref().map(|page| format!("page: {}", scalar(&page.to_string()))));
    lines.extend(ground.track.map(|track| format!("track: {}", scalar(track))));
    if !ground.closed_lanes.is_empty() {
        lines.push(format!("closed_lanes: {}", numbers(ground.closed_lanes)));
    }
    lines.extend(closures(&session.late.closures, ground.closures));
    lines.extend(settings(session));
    lines.extend(hazards(&session.late.hazards, ground.hazards));
    lines.extend(texts("without", &session.late.without));
    lines.extend(texts("notes", &session.notes));
    // Without groups nobody does anything before or after them.
    let [before, shared, after] =
        if session.groups.is_empty() { [&[], session.blocks.as_slice(), &[]] } else { session.parts() };
    let starts = [0, before.len(), before.len() + shared.len()];
    let of_all = |key: &str, blocks: &[Block], first: usize| {
        list(key, blocks, "", |place| left_out(session, BlockAt { group: None, block: first + place }))
    };
    lines.extend(of_all("before_groups", before, starts[0]));
    if !session.groups.is_empty() {
        lines.push("groups:".to_owned());
    }
    for (place, group) in session.groups.iter().enumerate() {
        lines.extend(group_lines(session, group));
        if let Some(blocks) = &group.blocks {
            let left_out = |block| left_out(session, BlockAt { group: Some(place), block });
            let own = list("blocks", blocks, "    ", left_out);
            // Without a list it would do the blocks of the session.
            lines.extend(if own.is_empty() { vec!["    blocks: []".to_owned()] } else { own });
        }
    }
    lines.extend(of_all("blocks", shared, starts[1]));
    lines.extend(of_all("after_groups", after, starts[2]));
    lines.join("\n") + "\n"
}

/// The keys of a session that are one line each.
fn settings(session: &Session) -> Vec<String> {
    let mut lines: Vec<String> =
        session.wind_now().map(|wind| format!("wind: {}", wind_value(wind))).into_iter().collect();
    lines.extend(session.prefer.map(|prefer| {
        let prefer = match prefer {
            Prefer::FewestTapes => "fewest tapes",
            Prefer::FinishLine => "finish on the line",
            Prefer::EndsClose => "ends close together",
        };
        format!("prefer: {prefer}")
    }));
    match session.cones {
        Cones::OffPaint => {}
        Cones::EverySpot => lines.push("cones: every spot".to_owned()),
    }
    lines.extend(session.stride_m.map(|stride_m| format!("stride: {stride_m}")));
    lines.extend(session.between_blocks_s.map(|seconds| format!("between_blocks: {}", time(seconds))));
    lines.extend(bests(&session.bests).map(|bests| format!("bests: {bests}")));
    let exponent = session.bests.exponent;
    lines.extend((exponent != RIEGEL_EXPONENT).then(|| format!("riegel_exponent: {exponent}")));
    lines.extend(squad(&session.squad).map(|squad| format!("squad: {squad}")));
    lines.extend(session.force.then(|| "force: true".to_owned()));
    lines
}

/// A group but for its blocks.
fn group_lines(session: &Session, group: &Group) -> Vec<String> {
    let mut lines = vec![format!("  - name: {}", scalar(&group.name))];
    lines.extend(group.age.map(|age| format!("    age: {age}")));
    lines.extend(bests(&group.bests).map(|bests| format!("    bests: {bests}")));
    lines.extend(group.lanes.as_ref().map(|lanes| format!("    lanes: {}", numbers(lanes))));
    // One that comes no later than the others is not late.
    let is_later = |time: &NaiveTime| session.begins().is_none_or(|begins| *time >= begins);
    lines.extend(group.start.filter(is_later).map(|start| format!("    start: {}", clock(start))));
    lines.extend(group.late.filter(is_later).map(|late| format!("    late: {}", clock(late))));
    let athletes: Vec<String> = group.athletes.iter().map(athlete).collect();
    if athletes.iter().any(|athlete| athlete.starts_with('{')) {
        lines.push("    athletes:".to_owned());
        lines.extend(athletes.iter().map(|athlete| format!("      - {athlete}")));
    } else if !athletes.is_empty() {
        lines.push(format!("    athletes: [{}]", athletes.join(", ")));
    }
    if !group.relay.is_empty() {
        let team = |team: &Vec<String>| {
            format!("[{}]", team.iter().map(|name| in_flow(name)).collect::<Vec<_>>().join(", "))
        };
        let teams: Vec<String> = group.relay.iter().map(team).collect();
        lines.push(format!("    relay: [{}]", teams.join(", ")));
    }
    lines
}

/// An athlete: the name alone where there is no more.
fn athlete(athlete: &Athlete) -> String {
    let name = in_flow(&athlete.name);
    let mut more: Vec<String> = athlete.age.map(|age| format!("age: {age}")).into_iter().collect();
    more.extend(bests(&athlete.bests).map(|bests| format!("bests: {bests}")));
    more.extend(athlete.target_s.map(|target_s| format!("target: {}", time(target_s))));
    more.extend(times(&athlete.targets).map(|targets| format!("targets: {targets}")));
    more.extend(athlete.lanes.as_ref().map(|lanes| format!("lanes: {}", numbers(lanes))));
    more.extend(athlete.reps.map(|reps| format!("reps: {reps}")));
    more.extend(athlete.guide.as_ref().map(|guide| format!("guide: {}", in_flow(guide))));
    if more.is_empty() { name } else { format!("{{ name: {name}, {} }}", more.join(", ")) }
}

/// Best times, where some are known.
fn bests(bests: &Bests) -> Option<String> {
    times(bests.times())
}

/// Times by distance, where there are some.
fn times(times: &[(f64, f64)]) -> Option<String> {
    // Of two times over one distance the first counts.
    let is_first = |place: usize| !times[..place].iter().any(|(known, _)| *known == times[place].0);
    let times: Vec<String> = (0..times.len())
        .filter(|place| is_first(*place))
        .map(|place| format!("{}: {}", times[place].0, time(times[place].1)))
        .collect();
    (!times.is_empty()).then(|| format!("{{ {} }}", times.join(", ")))
}

/// How squads share lanes and time, where that is not the usual way.
fn squad(rules: &SquadRules) -> Option<String> {
    let SquadRules { mode, lanes, keeps_lanes, timing } = rules;
    let usual = TimingRules::default();
    let (mode, most) = match *mode {
        None => (None, None),
        Some(Mode::OneToALane { most }) => (Some("one to a lane"), most),
        Some(Mode::GroupToALane { most }) => (Some("a group to a lane"), Some(most)),
        // No file asks for this one.
        Some(Mode::Together) => (None, None),
    };
    let keeps = keeps_lanes.map(|keeps| if keeps { "keep" } else { "turn" }.to_owned());
    let timers = match timing.timers {
        Timers::One => None,
        Timers::Two => Some("two"),
        Timers::EachGroup => Some("each group"),
        Timers::Untimed => Some("untimed"),
    };
    let gap = |seconds: f64, usual_s: f64| (seconds != usual_s).then(|| time(seconds));
    let keys: Vec<String> = [
        ("mode", mode.map(str::to_owned)),
        ("most", most.map(|most| most.to_string())),
        ("lanes", lanes.as_ref().map(|lanes| numbers(lanes)).or(keeps)),
        ("timing_gap", gap(timing.timing_gap_s, usual.timing_gap_s)),
        ("start_gap", gap(timing.start_gap_s, usual.start_gap_s)),
        ("timers", timers.map(str::to_owned)),
    ]
    .into_iter()
    .filter_map(|(key, value)| Some(format!("{key}: {}", value?)))
    .collect();
    (!keys.is_empty()).then(|| format!("{{ {} }}", keys.join(", ")))
}

/// The wind: in the words that it was written in, else as data.
fn wind_value(wind: &Wind) -> String {
    if let Some(words) = &wind.words {
        return scalar(words);
    }
    let on = wind.on.map(|on| format!("on: {on}"));
    let from = wind.from.map(|from| match from {
        WindFrom::Ahead => "from: ahead".to_owned(),
        WindFrom::Behind => "from: behind".to_owned(),
    });
    let m_s = wind.m_s.map(|m_s| format!("m_s: {m_s}"));
    format!("{{ {} }}", [on, from, m_s].into_iter().flatten().collect::<Vec<_>>().join(", "))
}

/// The lanes that are closed for a part of the evening.
fn closures(known: &[LaneClosure], others: &[LaneClosure]) -> Vec<String> {
    let others = others.iter().filter(|other| !known.contains(other));
    let line = |closure: &LaneClosure| {
        let time = |key: &str, time: Option<NaiveTime>| {
            time.map_or_else(String::new, |time| format!(", {key}: {}", clock(time)))
        };
        let (from, until) = (time("from", closure.from), time("until", closure.until));
        format!("  - {{ lanes: {}{from}{until} }}", numbers(&closure.lanes))
    };
    let lines: Vec<String> = known.iter().chain(others).map(line).collect();
    if lines.is_empty() { lines } else { std::iter::once("lane_closures:".to_owned()).chain(lines).collect() }
}

/// What is in use, each with its time.
fn hazards(begun: &[HazardBegun], others: &[(String, Option<NaiveTime>)]) -> Vec<String> {
    let begun = begun.iter().map(|begun| (begun.hazard.to_string(), begun.from));
    let mut all: Vec<(String, Option<NaiveTime>)> = Vec::new();
    for (name, from) in begun.chain(others.iter().cloned()) {
        if all.iter().all(|(known, _)| *known != name) {
            all.push((name, from));
        }
    }
    let since = |from: Option<NaiveTime>| from.map_or_else(|| "now".to_owned(), clock);
    let lines = all.into_iter().map(|(name, from)| format!("  {}: {}", scalar(&name), since(from)));
    let lines: Vec<String> = lines.collect();
    if lines.is_empty() { lines } else { std::iter::once("hazards:".to_owned()).chain(lines).collect() }
}

/// Texts one under the other under their key; none where there are none.
fn texts(key: &str, texts: &[String]) -> Vec<String> {
    let items = texts.iter().map(|text| format!("  - {}", scalar(text)));
    let head = (!texts.is_empty()).then(|| format!("{key}:"));
    head.into_iter().chain(items).collect()
}

/// How a block of a session is left out.
enum LeftOut<'a> {
    /// By everybody.
    ByAll,
    /// By some of the groups that do it, and not by others.
    ByGroups(Vec<&'a str>),
}

/// How a block is left out; nothing where everybody does it.
fn left_out(session: &Session, at: BlockAt) -> Option<LeftOut<'_>> {
    let here = || session.late.skipped.iter().filter(|skipped| skipped.at == at);
    let groups: Vec<&str> = here().filter_map(|SkippedBlock { group, .. }| group.as_deref()).collect();
    let is_everybodys = here().any(|skipped| skipped.group.is_none() || at.group.is_some());
    let does = |group: &&Group| at.group.is_none() && group.blocks.is_none();
    let mut others =
        session.groups.iter().filter(does).filter(|group| !groups.contains(&group.name.as_str()));
    match groups.as_slice() {
        _ if is_everybodys => Some(LeftOut::ByAll),
        [] => None,
        _ if others.next().is_none() => Some(LeftOut::ByAll),
        _ => Some(LeftOut::ByGroups(groups)),
    }
}

/// The lines of a list of blocks under its key; none where there are no blocks.
fn list<'a>(
    key: &str,
    blocks: &[Block],
    indent: &str,
    left_out: impl Fn(usize) -> Option<LeftOut<'a>>,
) -> Vec<String> {
    let inner = format!("{indent}  ");
    let mut is_empty = true;
    let mut lines = Vec::new();
    for (place, block) in blocks.iter().enumerate() {
        match left_out(place) {
            Some(LeftOut::ByAll) => {
                lines.push(comment(&inner, &format!("left out: {}", text(block))));
                continue;
            }
            Some(LeftOut::ByGroups(groups)) => {
                lines.push(comment(&inner, &format!("left out by {}:", groups.join(", "))));
            }
            None => {}
        }
        is_empty = false;
        lines.extend(item(block, &inner));
    }
    if blocks.is_empty() {
        return lines;
    }
    let head = if is_empty { format!("{indent}{key}: []") } else { format!("{indent}{key}:") };
    std::iter::once(head).chain(lines).collect()
}

fn comment(indent: &str, line: &str) -> String {
    format!("{indent}# {}", line.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// The lines of a block in a list.
fn item(block: &Block, indent: &str) -> Vec<String> {
    let mut lines: Vec<String> = unsure(block).iter().map(|line| comment(indent, line)).collect();
    let text = scalar(&text(block));
    match &block.rest_after {
        None => lines.push(format!("{indent}- {text}")),
        Some(rest) => {
            lines.push(format!("{indent}- text: {text}"));
            let is_whole = rest.seconds % 60.0 == 0.0;
            let (number, unit) = if is_whole { (rest.seconds / 60.0, "min") } else { (rest.seconds, "s") };
            lines.push(format!("{indent}  rest_after: {number}{unit}"));
        }
    }
    lines
}

/// The text of a block: the one form of all those that mean the same, with what stands beside it; as it was written
/// where that form would lose anything.
fn text(block: &Block) -> String {
    let label = block.label.as_ref().map_or_else(String::new, |label| format!("{label}: "));
    let asides: String = block.asides.iter().map(|aside| format!(", {aside}")).collect();
    let written = block.text.split_whitespace().collect::<Vec<_>>().join(" ");
    let is_same = |text: &String| {
        let blocks = Workout::parse(text).map(Workout::into_blocks).unwrap_or_default();
        matches!(blocks.as_slice(), [one] if one == block && one.label == block.label && one.asides == block.asides)
    };
    let forms = [format!("{label}{block}{asides}"), written, format!("{label}{block}"), block.to_string()];
    forms.iter().find(|text| is_same(text)).unwrap_or(&forms[3]).clone()
}

/// A time of day.
fn clock(time: NaiveTime) -> String {
    time.format("%H:%M").to_string()
}

/// A duration: as a stopwatch shows it where that is read as the same number, else in seconds.
fn time(seconds: f64) -> String {
    let minutes = (seconds / 60.0).floor();
    let rest = ((seconds - 60.0 * minutes) * 1000.0).round() / 1000.0;
    let shown = if rest < 10.0 { format!("{minutes}:0{rest}") } else { format!("{minutes}:{rest}") };
    let is_same = minutes >= 1.0 && workout_notation::seconds(&shown) == Ok(seconds);
    if is_same { shown } else { seconds.to_string() }
}

/// Lanes, as a list.
fn numbers(numbers: &[u8]) -> String {
    let numbers: Vec<String> = numbers.iter().map(u8::to_string).collect();
    format!("[{}]", numbers.join(", "))
}
