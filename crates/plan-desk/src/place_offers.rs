//! Where else the runs of a block can start and finish.

use askama::Template;
use lane_distance::{ON_PAINT_M, PaintReading, Pair, Placement, Track};
use plan_sheet::spot_words;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use workout_notation::Body;

use crate::evening::Evening;
use crate::plan_request::PlanRequest;
use crate::problem::{Field, Problem, Problems, Refusal};
use crate::reply::Reply;

/// The places of a block.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PlacesRequest {
    /// The evening.
    evening: PlanRequest,
    /// The number of the block in the plan, from 1.
    block: usize,
}

/// The places of a block.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct PlacesAnswer {
    /// The places, best first, as buttons.
    html: String,
}

/// A start and a finish that are offered.
struct Offer {
    start: String,
    finish: String,
    from: Option<String>,
    to: Option<String>,
    is_chosen: bool,
}

#[derive(Template)]
#[template(path = "places.html")]
struct Offers {
    offers: Vec<Offer>,
    is_free: bool,
}

/// The most places that are offered: nobody reads more at the track.
const MOST_OFFERS: usize = 8;

/// Offers the places of a block.
pub(crate) fn places(request: &PlacesRequest) -> Reply {
    match offers(request) {
        Ok(offers) => match offers.render() {
            Ok(html) => Reply::json(&PlacesAnswer { html }),
            Err(error) => Reply::refusal(&Refusal::mistake(&error)),
        },
        Err(problems) => problems.into(),
    }
}

fn offers(request: &PlacesRequest) -> Result<Offers, Problems> {
    let evening = Evening::of(&request.evening)?;
    let track = evening.venue.track();
    let choices = &request.evening.choices;
    let chosen = choices.iter().find(|choice| choice.block == request.block);
    let none = || {
        let message = format!("there is no block {} to choose places for", request.block);
        Problems::from(Problem::new(Field::Choices, message))
    };
    let block =
        request.block.checked_sub(1).and_then(|place| evening.plan.blocks.get(place)).ok_or_else(none)?;
    let rep = block.reps.first().ok_or_else(none)?;
    let free = block.read.with_ends(None, None);
    let Body::Runs(_) = &free.body else { return Err(none()) };
    let pairs = session_plan::pairs_in_lane(&evening.venue, &free, rep.start.spot().lane);
    let pairs = pairs.map_err(|fault| {
        let (message, help) = plan_sheet::plan_fault_words(&fault.value);
        Problem { help, ..Problem::new(Field::Choices, message) }
    })?;
    let offers = pairs.iter().filter_map(|pair| offer(track, pair)).take(MOST_OFFERS).map(|offer| Offer {
        is_chosen: chosen.is_some_and(|chosen| chosen.from == offer.from && chosen.to == offer.to),
        ..offer
    });
    Ok(Offers { offers: offers.collect(), is_free: chosen.is_none() })
}

/// A pair as it can be written: by its start where a mark of the lane names it, else by its finish.
fn offer(track: &Track, pair: &Pair) -> Option<Offer> {
    let words = |spot, reading| spot_words(&Placement::from_reading(track, spot, reading));
    let start_mark = landmark(track, pair.start_reading);
    let is_start = start_mark.as_ref().is_some_and(|_| pair.start_reading.past_m.abs() <= ON_PAINT_M);
    let (from, to) = match landmark(track, pair.finish_reading) {
        Some(finish) if !is_start => (None, Some(finish)),
        _ => (Some(start_mark?), None),
    };
    Some(Offer {
        start: words(pair.start, pair.start_reading),
        finish: words(pair.finish, pair.finish_reading),
        from,
        to,
        is_chosen: false,
    })
}

/// The place of a reading as workouts write it: `400 m start`, `200 m start + 4.5`.
fn landmark(track: &Track, reading: PaintReading) -> Option<String> {
    let name = &track.mark(reading.mark?)?.name;
    if reading.past_m.abs() <= ON_PAINT_M {
        return Some(name.to_string());
    }
    let sign = if reading.past_m < 0.0 { '-' } else { '+' };
    Some(format!("{name} {sign} {:.2}", reading.past_m.abs()))
}
