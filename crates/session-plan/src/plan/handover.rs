//! A baton handed on.

use lane_distance::Placement;
use serde::Serialize;

use crate::plan::check_mark::CheckMark;

/// A baton handed on in a takeover zone: who to whom, and where.
///
/// The run that it belongs to starts where the outgoing runner stands and finishes at the zone's exit; its run-in is
/// the incoming runner's. Serialised, it is its numbers; views add the mark's place in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Handover {
    /// The zone of the 4x100 m, from 1 to 3.
    pub zone: u8,
    /// How long the zone is, in metres: 30, or 20 on a track that has only the zones of former rules.
    pub zone_m: f64,
    /// How far before the zone the outgoing runner stands, in metres: 10 before one of 20 m, whose rules let them get
    /// up to speed outside it.
    pub before_zone_m: f64,
    /// Who brings the baton.
    pub incoming: String,
    /// Who takes it.
    pub outgoing: String,
    /// The first check mark.
    pub check_mark: CheckMark,
    /// Where it lies.
    #[serde(skip)]
    pub spot: Placement,
}
