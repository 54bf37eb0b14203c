//! Cautions beside an answer.

use serde::Serialize;
use session_plan::Caution;

use crate::json::finding::{Finding, words};

/// An answer; beside it `cautions`, the sentences of what to take care of, and `findings`, their values.
#[derive(Serialize)]
pub(crate) struct WithCare<'a, T> {
    #[serde(flatten)]
    answer: T,
    cautions: Vec<String>,
    findings: Vec<Finding<'a>>,
}

impl<'a, T> WithCare<'a, T> {
    pub(crate) fn of(answer: T, cautions: &'a [Caution]) -> Self {
        let findings: Vec<Finding<'a>> = cautions.iter().map(Finding::caution).collect();
        Self { answer, cautions: words(&findings), findings }
    }
}
