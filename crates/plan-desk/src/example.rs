//! Evenings to begin with.

use crate::ground::GroundRequest;
use crate::plan_request::PlanRequest;

/// An evening to begin with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Example {
    /// What it is called.
    pub(crate) name: &'static str,
    /// What is run.
    pub(crate) text: &'static str,
    /// Who runs.
    pub(crate) squad: &'static str,
    /// Lanes that are closed, as in `1,2`.
    pub(crate) closed: &'static str,
}

/// The evenings; the first is on the page when it opens.
pub(crate) static EXAMPLES: &[Example] = &[
    Example { name: "Six 200s", text: "6 x 200 in lane 2, 3 min rest", squad: "", closed: "1" },
    Example {
        name: "Two groups, one watch",
        text: "Tuesday 18:00-19:30\nwarm-up 15 min\n\nSprinters:\n4 x 60, walk back\n3 x 150, 6 min\n\nMilers:\n5 x 400, 2 min rest",
        squad: "Sprinters:\nAda, 60 7.9, 200 25.8\nBen, 200 24.1\nCyd, 200 26.4\n\nMilers:\nDot, 800 2:21\nEli, 800 2:08\nFay, 800 2:25\nGus, 800 2:12",
        closed: "1",
    },
    Example { name: "Ladder", text: "200, 400, 600, 400, 200 with 2 min rest", squad: "", closed: "" },
    Example { name: "Flying 30s", text: "5 x flying 30 with 20 run-in, 4 min", squad: "", closed: "" },
    Example { name: "Alone", text: "5 x 300 @ 54, walk 100", squad: "", closed: "1,2" },
];

impl Example {
    /// The lanes that are closed.
    pub(crate) fn lanes(&self) -> Vec<u8> {
        self.closed.split(',').filter_map(|lane| lane.parse().ok()).collect()
    }

    /// What it asks for.
    pub(crate) fn request(&self) -> PlanRequest {
        PlanRequest {
            text: self.text.to_owned(),
            squad: self.squad.to_owned(),
            ground: GroundRequest { closed: self.lanes(), ..GroundRequest::default() },
            ..PlanRequest::default()
        }
    }
}
