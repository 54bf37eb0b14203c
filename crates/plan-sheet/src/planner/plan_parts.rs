//! The parts of the planner's page that show a plan.

use askama::Template;
use serde::Serialize;
use session_plan::Plan;

use super::run_on_map::RunOnMap;
use crate::formats::plan_size::{MOST_ON_PHONE, check_size};
use crate::formats::rendered::RenderError;
use crate::map::map_picture::phone_map;
use crate::phone::block::PageBlock;
use crate::phone::stages::stages;
use crate::sheet::sheet::Sheet;

/// The parts of the planner's page that show a plan: HTML without scripts and styles of its own.
///
/// ```
/// use lane_distance::Track;
/// use plan_sheet::PlanParts;
/// use session_plan::{Session, Venue};
/// use workout_notation::Block;
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let block = Block::parse("6 x 200 in lane 2").expect("it is well formed");
/// let plan = session_plan::plan(&venue, &Session::of_block("t", block)).expect("lane 2 is open");
/// let parts = PlanParts::of(&plan)?;
/// assert!(parts.places.contains("on the 200 m start line"));
/// # Ok::<(), plan_sheet::RenderError>(())
/// ```
#[derive(Clone, Debug, Serialize)]
pub struct PlanParts {
    /// Title, day, times, track.
    pub head: String,
    /// How the text was read: the blocks, each with where its runs start and finish and when they go.
    pub places: String,
    /// The map, as SVG.
    pub map: String,
    /// The walk that sets out the cones.
    pub walk: String,
    /// What to take care of, and notes.
    pub care: String,
    /// Each run, to be drawn on the map. Its coordinates are metres, as the map's are.
    runs: Vec<RunOnMap>,
}

#[derive(Template)]
#[template(path = "planner_head.html")]
struct Head<'a> {
    sheet: &'a Sheet,
}

#[derive(Template)]
#[template(path = "planner_places.html")]
struct Places<'a> {
    blocks: &'a [PageBlock],
}

#[derive(Template)]
#[template(path = "planner_walk.html")]
struct Walk<'a> {
    sheet: &'a Sheet,
}

#[derive(Template)]
#[template(path = "planner_care.html")]
struct Care<'a> {
    sheet: &'a Sheet,
}

impl PlanParts {
    /// The parts of a plan.
    ///
    /// # Errors
    ///
    /// [`RenderError::TooLong`] where the plan is longer than any page should be.
    pub fn of(plan: &Plan) -> Result<Self, RenderError> {
        check_size(std::slice::from_ref(plan), "html", MOST_ON_PHONE)?;
        let sheet = &Sheet::of(plan);
        let mut blocks: Vec<PageBlock> = sheet.blocks.iter().map(PageBlock::of).collect();
        for (stage, block) in stages(&blocks).into_iter().zip(&mut blocks) {
            block.stage = stage;
        }
        let runs = blocks.iter().flat_map(|block| {
            let runs = block.runs.iter().enumerate();
            runs.map(|(number, run)| RunOnMap::of(&plan.track.ground, block.sheet.number, number, run))
        });
        let mistake = |error: askama::Error| RenderError::Mistake(error.to_string());
        Ok(Self {
            runs: runs.collect(),
            head: Head { sheet }.render().map_err(mistake)?,
            places: Places { blocks: &blocks }.render().map_err(mistake)?,
            map: phone_map(plan, "plan"),
            walk: Walk { sheet }.render().map_err(mistake)?,
            care: Care { sheet }.render().map_err(mistake)?,
        })
    }
}
