//! What there is to say of a plan, as a value and as a sentence.

use chrono::NaiveTime;
use serde::Serialize;
use session_plan::{Caution, Remark, Warning};

use crate::words::caution::caution;
use crate::words::remark::remark;
use crate::words::warning::warning;

/// A value, named by its `kind`, and the sentence that says it.
#[derive(Serialize)]
pub(crate) struct Finding<'a> {
    #[serde(flatten)]
    fact: Fact<'a>,
    words: String,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Fact<'a> {
    Caution(&'a Caution),
    Remark(&'a Remark),
    Warning(&'a Warning),
}

impl<'a> Finding<'a> {
    pub(crate) fn caution(value: &'a Caution) -> Self {
        Self { fact: Fact::Caution(value), words: caution(value) }
    }

    pub(crate) fn remark(value: &'a Remark) -> Self {
        Self { fact: Fact::Remark(value), words: remark(value) }
    }

    /// A warning of a session that begins at a time of day.
    pub(crate) fn warning(value: &'a Warning, begins: Option<NaiveTime>) -> Self {
        Self { fact: Fact::Warning(value), words: warning(value, begins) }
    }
}

/// The sentences of findings.
pub(crate) fn words(findings: &[Finding<'_>]) -> Vec<String> {
    findings.iter().map(|finding| finding.words.clone()).collect()
}
