//! What each command does.

use anyhow::{Result, bail};
use lane_distance::Course;
use plan_sheet::{Choices, LaneTable, MarkTable, Measurement};
use session_plan::{Block, Plan, PlanError, Problem, Problems, Session, SourceText};

use crate::failure::InputError;
use crate::flags::{Command, Common};
use crate::input;
use crate::output;

pub(crate) fn run(command: &Command) -> Result<()> {
    let common = command.common();
    match command {
        Command::Plan { workouts, .. } => {
            let plans =
                workouts.iter().map(|workout| plan(workout, common)).collect::<Result<Vec<Plan>>>()?;
            output::write(&plans, common)
        }
        Command::Spots { workout, .. } => output::write(&[spots(workout, common)?], common),
        Command::Measure { lane, from, to, .. } => {
            let track = input::track(common)?;
            let place = |name: &str| track.landmark(name, *lane).map_err(InputError::new);
            let (from, to) = (place(from)?, place(to)?);
            output::write(&[Measurement::of(&track, from, to).map_err(InputError::new)?], common)
        }
        Command::Lanes { .. } => output::write(&[LaneTable::of(&input::track(common)?)], common),
        Command::Marks { lane, .. } => {
            let track = input::track(common)?;
            // A closed lane can still be walked; a lane that does not exist cannot.
            track.check_lane_exists(*lane).map_err(InputError::new)?;
            output::write(&[MarkTable::of(&track, *lane)], common)
        }
    }
}

fn plan(workout: &str, common: &Common) -> Result<Plan> {
    if input::is_file_name(workout) {
        let file = input::session_file(workout)?;
        let track = input::track_of(&file, workout, common)?;
        session_plan::plan(&track, &file.session)
            .map_err(|errors| InputError::new(file.locate(errors)).into())
    } else {
        let track = input::track(common)?;
        let (source, block) = block(workout)?;
        let session = Session::of_block(workout.trim(), block);
        session_plan::plan(&track, &session).map_err(|errors| in_text(source, errors).into())
    }
}

fn spots(workout: &str, common: &Common) -> Result<Choices> {
    let track = input::track(common)?;
    let (source, block) = block(workout)?;
    let lane = match block.lanes.as_ref().map(|lanes| lanes.numbers.as_slice()) {
        None => match track.open_lanes(Course::Oval).first() {
            Some(&lane) => lane,
            None => bail!(InputError::new(anyhow::anyhow!("no lane of the oval is open"))),
        },
        Some([lane]) => *lane,
        Some(_) => {
            let span = block.lanes.map_or(0..0, |lanes| lanes.span);
            let problem = Problem::new(span, "spots are looked for in one lane").with_help("name one lane");
            bail!(InputError::new(Problems::new(source, vec![problem])));
        }
    };
    let pairs = session_plan::pairs(&track, &block, lane)
        .map_err(|problem| InputError::new(Problems::new(source, vec![problem])))?;
    Ok(Choices::of(&track, &pairs))
}

fn block(workout: &str) -> Result<(SourceText, Block)> {
    let source = SourceText { name: "workout".to_owned(), text: workout.to_owned() };
    match Block::parse(workout) {
        Ok(block) => Ok((source, block)),
        Err(problems) => bail!(InputError::new(Problems::new(source, problems))),
    }
}

fn in_text(source: SourceText, errors: Vec<PlanError>) -> InputError {
    InputError::new(Problems::new(source, errors.into_iter().map(|error| error.problem).collect()))
}
