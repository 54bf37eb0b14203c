//! The parts of the planner's page that show a plan.

use askama::Template;
use serde::Serialize;
use serde_json::{Value, json};
use session_plan::{Limit, Plan};

use crate::drawing::ink::number;
use crate::formats::plan_size::check_size;
use crate::formats::rendered::RenderError;
use crate::map::map_picture::phone_map;
use crate::map::run_picture::TrackPicture;
use crate::phone::block::PageBlock;
use crate::phone::page_data::scene;
use crate::phone::value_table::ValueTable;
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
    /// The track alone, to draw a run on, and how many lanes go round it.
    track: Value,
    /// For each block, the scene of each of its runs.
    runs: Vec<Vec<usize>>,
    /// Words and picture of runs, as data.
    scenes: Vec<Value>,
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
        check_size(std::slice::from_ref(plan), false, "html", Limit::PageLines)?;
        let sheet = &Sheet::of(plan);
        let blocks: Vec<PageBlock> = sheet.blocks.iter().map(PageBlock::of).collect();
        let mut scenes = ValueTable::default();
        let mut scene_of = |run| scenes.number(scene(&plan.track.ground, run));
        let runs = blocks.iter().map(|block| block.runs.iter().map(&mut scene_of).collect()).collect();
        let picture = TrackPicture::of(plan);
        let mistake = |error: askama::Error| RenderError::Mistake(error.to_string());
        Ok(Self {
            track: json!({
                "height": number(picture.height), "surfaces": picture.surfaces, "places": picture.places,
                "lanes": plan.track.lanes.len(),
            }),
            runs,
            scenes: scenes.into_values(),
            head: Head { sheet }.render().map_err(mistake)?,
            places: Places { blocks: &blocks }.render().map_err(mistake)?,
            map: phone_map(plan, "plan"),
            walk: Walk { sheet }.render().map_err(mistake)?,
            care: Care { sheet }.render().map_err(mistake)?,
        })
    }
}
