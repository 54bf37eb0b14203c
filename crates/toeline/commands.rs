//! What each command does.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow, bail};
use lane_distance::{Course, LaneNumber, Route, Track};
use plan_sheet::{
    Choices, Curve, InFull, LaneTable, MarkTable, Measurement, SessionGround, doubts, notation_screen,
    notation_text, plan_fault_words,
};
use session_plan::{FileKind, PageAddress, Plan, PlanFault, Session, Venue, Week, YamlText};
use workout_notation::{Block, Problem, Problems, SourceText, Spanned};

use crate::failure::{self, InputError};
use crate::flags::{Command, Common, Kind, Lanes, LateFlags, SquadFlags};
use crate::given::{self, Given};
use crate::input;
use crate::late_changes;
use crate::manual;
use crate::new_file::{self, Name, NewFile};
use crate::output;
use crate::publish::publish;
use crate::week_files::WeekFiles;

pub(crate) fn run(command: &Command) -> Result<()> {
    match command {
        Command::Plan { workouts, full, squad, late, print, page_address, with, common } => {
            let plan = |workout: &String| plan(workout, squad, late, page_address.as_ref(), common);
            let whole = given::unquoted(workouts);
            let workouts = whole.as_ref().map_or(workouts.as_slice(), std::slice::from_ref);
            let plans = workouts.iter().map(plan).collect::<Result<Vec<Plan>>>()?;
            // A file has no end of the screen.
            if *full || common.out.is_some() {
                let in_full: Vec<InFull<'_>> = plans.iter().map(InFull).collect();
                return output::write_about(&in_full, Some(&plans), *print, with, common);
            }
            output::write_about(&plans, Some(&plans), *print, with, common)
        }
        Command::Week { paths, print, common } => {
            let mut plans = plans_of(paths, common)?;
            plans.sort_by_key(Plan::order);
            output::write_about(&[Week::of(&plans)], Some(&plans), *print, &[], common)
        }
        Command::Spots { workout, common } => output::write(&[spots(workout, common)?], common),
        Command::Measure {
            lane,
            to_lane,
            from,
            to,
            laps,
            the_other_way,
            time,
            intended,
            running_line,
            common,
        } => {
            let venue = input::venue(common)?;
            let track = venue.track();
            let place = |name: &str, lane: u8| {
                let found = track.lane_number(lane).map_err(Into::into);
                found.and_then(|lane| track.landmark_with_reading(name, lane)).map_err(InputError::new)
            };
            let (from, from_reading) = place(from, *lane)?;
            let (to, to_reading) = place(to, to_lane.unwrap_or(*lane))?;
            let route = Route { from, to, against: *the_other_way, laps: *laps };
            let mut measurement =
                Measurement::of(track, &route, [from_reading, to_reading]).map_err(InputError::new)?;
            if let Some(time_s) = time {
                measurement = measurement.timed(*time_s, *intended);
            }
            if let Some(outside_m) = running_line {
                measurement =
                    measurement.with_running_line(track, &route, *outside_m).map_err(InputError::new)?;
            }
            output::write(&[measurement], common)
        }
        Command::Curve { distance, at, common } => {
            let venue = input::venue(common)?;
            let track = venue.track();
            let inside = innermost_open(track)?;
            let to_finish_m = match (at, distance) {
                (Some(place), _) => {
                    let spot = track.landmark(place, inside).map_err(InputError::new)?;
                    let on_oval = track.layout().on_course(spot, Course::Oval);
                    on_oval
                        .ok_or_else(|| InputError::new(anyhow!("`{place}` is not on the oval")))?
                        .to_finish_m
                }
                (None, distance_m) => distance_m.unwrap_or_default(),
            };
            output::write(&[Curve::of(track, inside, to_finish_m, *distance)], common)
        }
        Command::Check { files, common } => check(files, common),
        Command::Lanes { common } => output::write(&[LaneTable::of(input::venue(common)?.track())], common),
        Command::Marks { lane, common } => {
            let venue = input::venue(common)?;
            // A closed lane can still be walked; a lane that does not exist cannot.
            let lane = venue.track().lane_number(*lane).map_err(InputError::new)?;
            output::write(&[MarkTable::of(venue.track(), lane)], common)
        }
        #[cfg(feature = "serve")]
        Command::Serve(flags) => crate::serve::serve(flags),
        Command::Schema { kind } => {
            let kind = match kind {
                Kind::Session => FileKind::Session,
                Kind::Track => FileKind::Track,
            };
            output::line(&serde_json::to_string_pretty(&kind.schema())?)
        }
        Command::Publish { folder } => publish(folder),
        Command::Session { text, out } => session(text, out.as_deref()),
        Command::Notation { all: true } => output::print(&notation_text()),
        Command::Notation { all: false } => {
            output::print(&format!("{}Every form: toeline notation --all\n", notation_screen()))
        }
        Command::Completions { shell } => output::print(&manual::completions(*shell)),
        Command::Manual { page } => manual::show(&manual::page(page.as_deref())?),
    }
}

/// The plans of all session files under some paths. Shows the faults of each file.
fn plans_of(paths: &[PathBuf], common: &Common) -> Result<Vec<Plan>> {
    let mut plans = Vec::new();
    let mut worst = None;
    let mut files = WeekFiles::new(paths)?;
    while let Some(given) = files.next() {
        match given.and_then(|given| plan_given(given, common)) {
            Ok(plan) => plans.push(plan),
            Err(error) => show_worst(error, &mut worst),
        }
    }
    files.note_left_out()?;
    match worst {
        None => Ok(plans),
        Some(error) => Err(failure::Shown(error).into()),
    }
}

/// Shows an error, and keeps the worst: a file that cannot be read weighs more than one that is
/// wrong.
fn show_worst(error: anyhow::Error, worst: &mut Option<anyhow::Error>) {
    failure::show(&error);
    if worst.is_none() || error.downcast_ref::<InputError>().is_none() {
        *worst = Some(error);
    }
}

fn plan(
    workout: &str,
    squad: &SquadFlags,
    late: &LateFlags,
    page: Option<&PageAddress>,
    common: &Common,
) -> Result<Plan> {
    let mut given = Given::read(workout)?;
    if page.is_some() {
        given.session_mut().page = page.cloned();
    }
    squad_of(given.session_mut(), squad)?;
    let venue = given.venue(common)?;
    given.begin(&venue)?;
    late_changes::make(given.session_mut(), &venue, late)?;
    let closed = given.closed_late(common);
    late_changes::close(given.session_mut(), &venue, &closed, common)?;
    late_changes::skip(given.session(), late, |session| given.plan(&venue, session))
}

/// Writes a text out as a session file.
fn session(text: &str, out: Option<&Path>) -> Result<()> {
    let given = Given::read(text)?;
    if let Some(path) = given.file_path() {
        bail!(InputError::new(anyhow!(
            "`{}` is a session file already; write the name of a text file",
            input::shown(path)
        )));
    }
    let ground = SessionGround {
        closed_lanes: given.closed_lanes(),
        closures: given.closures(),
        ..SessionGround::default()
    };
    let yaml = plan_sheet::session_yaml(given.session(), &ground);
    match out {
        Some(path) if input::is_file_name(&path.to_string_lossy()) => {
            let file = NewFile { path: path.to_owned(), bytes: yaml.into_bytes(), name: Name::Given };
            new_file::write(&[file])
        }
        Some(path) => bail!(InputError::new(anyhow!(
            "a session file ends in .yaml or .yml; `{}` does not",
            input::shown(path)
        ))),
        None => output::print(&yaml),
    }
}

/// Adds what the flags say of those who run to a session.
fn squad_of(session: &mut Session, squad: &SquadFlags) -> Result<()> {
    session.force |= squad.force;
    if let Some(athletes) = squad.athletes {
        if !session.groups.is_empty() {
            let groups: Vec<&str> = session.groups.iter().map(|group| group.name.as_str()).collect();
            bail!(InputError::new(anyhow!(
                "--athletes is for a session without groups, and this one has {}; name their athletes in it",
                groups.join(", ")
            )));
        }
        session.add_athletes(athletes.into());
    }
    if let Some(Lanes(lanes)) = &squad.lanes {
        if session.groups.is_empty() {
            let error = "--lanes needs --athletes, or a session file that names athletes; \
                         for a workout alone write `in lanes 2-6` in it";
            bail!(InputError::new(anyhow!(error)));
        }
        session.squad.lanes = Some(lanes.iter().map(|lane| lane.get()).collect());
    }
    Ok(())
}

fn plan_given(mut given: Given, common: &Common) -> Result<Plan> {
    let venue = given.venue(common)?;
    given.begin(&venue)?;
    let closed = given.closed_late(common);
    late_changes::close(given.session_mut(), &venue, &closed, common)?;
    given.plan(&venue, given.session())
}

fn spots(workout: &str, common: &Common) -> Result<Choices> {
    let venue = input::venue(common)?;
    let (source, block) = block(workout)?;
    let pairs = session_plan::pairs(&venue, &block).map_err(|fault| in_text(source, [&fault]))?;
    Ok(Choices::of(venue.track(), &pairs))
}

fn innermost_open(track: &Track) -> Result<LaneNumber> {
    match track.open_lanes(Course::Oval).first() {
        Some(&lane) => Ok(lane),
        None => bail!(InputError::new(anyhow!("no lane of the oval is open"))),
    }
}

fn block(workout: &str) -> Result<(SourceText, Block)> {
    let source = SourceText::new("workout", workout).without_tabs();
    match Block::parse(source.text()) {
        Ok(block) => Ok((source, block)),
        Err(problems) => bail!(InputError::new(Problems::new(source, problems))),
    }
}

/// What is wrong with a workout that is given as text.
fn in_text<'a>(source: SourceText, faults: impl IntoIterator<Item = &'a Spanned<PlanFault>>) -> InputError {
    let problem = |fault: &Spanned<PlanFault>| {
        let (message, help) = plan_fault_words(&fault.value);
        Problem { span: fault.span.clone(), message, help }
    };
    InputError::new(Problems::new(source, faults.into_iter().map(problem).collect()))
}

/// Shows everything that is wrong with each file, and names the sound ones on standard output.
fn check(files: &[String], common: &Common) -> Result<()> {
    let mut worst = None;
    for path in files {
        match check_file(path, common) {
            Ok(summary) => {
                output::line(&format!("{}: {}", input::shown(Path::new(path)), summary.join("\n  ")))?
            }
            Err(error) => show_worst(error, &mut worst),
        }
    }
    match worst {
        None => Ok(()),
        Some(error) => Err(failure::Shown(error).into()),
    }
}

/// What there is to say of a file without a fault: what it is, and a line for each doubt.
fn check_file(path: &str, common: &Common) -> Result<Vec<String>> {
    let path = Path::new(path);
    let given = if input::is_file_name(&path.to_string_lossy()) {
        let yaml = YamlText::read(input::source(path)?);
        if FileKind::of(&yaml) == Some(FileKind::Track) {
            let venue = Venue::from_yaml(yaml).map_err(InputError::new)?;
            let lanes = venue.track().layout().lanes_of(Course::Oval);
            return Ok(vec![format!("no faults; a track with {lanes} lanes on the oval")]);
        }
        Given::of_yaml(yaml, path)?
    } else {
        Given::of_file(path)?
    };
    let plan = plan_given(given, common)?;
    let reps: usize = plan.blocks.iter().map(|block| block.reps.len()).sum();
    let count = |count: usize, one: &str| format!("{count} {one}{}", if count == 1 { "" } else { "s" });
    let (blocks, runs) = (count(plan.blocks.len(), "block"), count(reps, "run"));
    let mut lines = vec![format!("no faults; a session of {blocks} with {runs}")];
    for (number, block) in (1..).zip(&plan.blocks) {
        let text = block.text().split_whitespace().collect::<Vec<_>>().join(" ");
        lines.extend(doubts(&block.read).iter().map(|doubt| format!("block {number}, {text}: {doubt}")));
    }
    Ok(lines)
}
