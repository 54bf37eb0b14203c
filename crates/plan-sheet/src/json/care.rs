//! Cautions beside an answer.

use serde::Serialize;
use session_plan::Caution;

use crate::json::finding::{Finding, words};

/// The keys `cautions`, with the sentences, and `findings`, with the values beside them.
#[derive(Serialize)]
pub(crate) struct Care<'a> {
    cautions: Vec<String>,
    findings: Vec<Finding<'a>>,
}

impl<'a> Care<'a> {
    pub(crate) fn of(cautions: &'a [Caution]) -> Self {
        let findings: Vec<Finding<'a>> = cautions.iter().map(Finding::caution).collect();
        Self { cautions: words(&findings), findings }
    }
}

/// An answer about a track, and what to take care of there.
#[derive(Serialize)]
pub(crate) struct WithCare<'a, T: Serialize> {
    #[serde(flatten)]
    answer: &'a T,
    #[serde(flatten)]
    care: Care<'a>,
}

impl<'a, T: Serialize> WithCare<'a, T> {
    pub(crate) fn of(answer: &'a T, cautions: &'a [Caution]) -> Self {
        Self { answer, care: Care::of(cautions) }
    }
}
