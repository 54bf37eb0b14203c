//! Who the entrants of a draft are: athletes, or the teams of exchanges.

use lane_distance::LaneNumber;

use crate::plan::crew::Entrant;
use crate::plan::draft::Draft;

impl<'a> Draft<'a> {
    /// Who an entrant is: the members of a team of exchanges, else one.
    pub(crate) fn members(&self, entrant: usize) -> Vec<Entrant<'a>> {
        match &self.relay {
            Some(relay) => relay.members(entrant).collect(),
            None => vec![self.entrants[entrant]],
        }
    }

    /// Who of an entrant does a run: in an exchange the one who brings the baton and the one who takes it.
    pub(crate) fn runners(&self, entrant: usize, run: usize) -> Vec<Entrant<'a>> {
        match &self.relay {
            Some(relay) => relay.handing(entrant, run).to_vec(),
            None => vec![self.entrants[entrant]],
        }
    }

    /// How many lanes an entrant needs next to its own.
    pub(crate) fn lanes_beside(&self, entrant: usize) -> u8 {
        match &self.relay {
            Some(relay) => relay.lanes_beside(entrant),
            None => self.entrants[entrant].lanes_beside(),
        }
    }

    /// The lanes that an entrant may run in, if not all.
    pub(crate) fn lanes_of(&self, entrant: usize) -> Option<Vec<u8>> {
        let own = match &self.relay {
            Some(relay) => relay.lanes(entrant),
            None => self.entrants[entrant].athlete.and_then(|athlete| athlete.lanes.clone()),
        };
        let now = |lane: u8| match self.moved.iter().find(|moved| moved.from.get() == lane) {
            Some(moved) => moved.to.map(LaneNumber::get),
            None => Some(lane),
        };
        own.map(|lanes| lanes.into_iter().filter_map(now).collect())
    }
}
