//! The plan: what every view shows.

use std::sync::Arc;

use chrono::{NaiveDate, NaiveTime};
use lane_distance::{LaneNumber, Placement, Track};
use serde::Serialize;

use crate::people::house_rules::HouseRules;
use crate::people::page_address::PageAddress;
use crate::people::timezone::Timezone;
use crate::people::wind::Wind;
use crate::plan::block_at::BlockAt;
use crate::plan::caution::Caution;
use crate::plan::change::Change;
use crate::plan::cone::{Cone, ConeLabel, PaintedSpot};
use crate::plan::overrun::Overrun;
use crate::plan::plan_block::PlanBlock;
use crate::plan::setup_walk::SetupWalk;
use crate::plan::warning::Warning;

/// A session laid out on a track: for every repetition, where it starts and finishes.
///
/// Serialised, it is what needs no words; whoever writes it adds the rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// What the session is called.
    pub title: String,
    /// The day, if it is known.
    pub date: Option<NaiveDate>,
    /// The time of day at which it begins, if it is known.
    pub begins: Option<NaiveTime>,
    /// The time of day until which the track is booked, if it is known.
    pub booked_until: Option<NaiveTime>,
    /// The time of day at which the last run is done, if it is known.
    pub ends: Option<NaiveTime>,
    /// How long it lasts, in seconds, if that is known.
    pub lasts_s: Option<f64>,
    /// Whether its end was estimated, as some time was not given.
    #[serde(rename = "about")]
    pub is_about: bool,
    /// What has changed since the session was written.
    #[serde(skip)]
    pub changes: Vec<Change>,
    /// That it ends after the booking, and what would bring it in.
    #[serde(skip)]
    pub overrun: Option<Overrun>,
    /// The wind, if it is known.
    #[serde(skip)]
    pub wind: Option<Wind>,
    /// Where its page is published, if it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub page: Option<PageAddress>,
    /// The track.
    pub track: PlanTrack,
    /// The training groups, in the order of the session file.
    pub groups: Vec<String>,
    /// The blocks, in the order they are run.
    #[serde(skip)]
    pub blocks: Vec<PlanBlock>,
    /// What to set out before the session, in the order met on one lap from the finish line.
    #[serde(skip)]
    pub setup: Vec<Cone>,
    /// The spots that paint shows, so that nothing is set out there, in the same order.
    #[serde(skip)]
    pub painted: Vec<PaintedSpot>,
    /// How far that lap is to walk.
    pub walk: SetupWalk,
    /// Anything else for the sheet.
    pub notes: Vec<String>,
    /// The rules that the venue posts.
    #[serde(skip)]
    pub rules: HouseRules,
    /// What to take care of.
    #[serde(skip)]
    pub cautions: Vec<Caution>,
    /// What the plan had to decide or could not do.
    #[serde(skip)]
    pub warnings: Vec<Warning>,
}

/// The track of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanTrack {
    /// What it is called.
    pub name: String,
    /// The time zone of its clocks, if it is known.
    pub timezone: Option<Timezone>,
    /// The lanes that are closed.
    pub closed_lanes: Vec<LaneNumber>,
    /// The lanes of the oval.
    pub lanes: Vec<PlanLane>,
    /// The track itself as the plan used it, for pictures: with what is closed and in use.
    #[serde(skip)]
    pub ground: Arc<Track>,
}

impl Plan {
    /// What plans are put in order by, from Monday morning to Sunday evening; those without a day come last.
    pub fn order(&self) -> impl Ord + use<> {
        (self.date.is_none(), self.date, self.begins)
    }

    /// A block as it was written, without the spaces around it; nothing where the plan has no such block.
    pub fn text_of(&self, at: BlockAt) -> Option<&str> {
        self.blocks.iter().find(|block| block.at == at).map(PlanBlock::text)
    }

    /// What the cone is called that stands on a spot.
    pub fn cone_on(&self, spot: &Placement) -> Option<ConeLabel> {
        self.setup.iter().find(|cone| cone.stands_on(spot)).map(|cone| cone.label)
    }
}

/// A lane of the oval.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanLane {
    /// Its number.
    pub lane: LaneNumber,
    /// A lap along its measure line, in metres.
    pub lap_m: f64,
}
