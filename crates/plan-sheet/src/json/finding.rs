//! What there is to say of a plan, as a value and as a sentence.

use serde::Serialize;
use session_plan::{Caution, Change, Plan, Remark, Remedy, Warning};

use crate::words::caution::caution;
use crate::words::remark::remark;
use crate::words::{change, overrun};

/// A value, named by its `kind`, and the sentence that says it.
#[derive(Serialize)]
pub(crate) struct Finding<'a> {
    #[serde(flatten)]
    fact: Fact<'a>,
    /// The block that it is about, as it was written.
    #[serde(skip_serializing_if = "Option::is_none")]
    block: Option<&'a str>,
    words: String,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Fact<'a> {
    Caution(&'a Caution),
    Change(&'a Change),
    Remedy(&'a Remedy),
    Remark(&'a Remark),
    Warning(&'a Warning),
}

impl<'a> Finding<'a> {
    pub(crate) fn caution(value: &'a Caution) -> Self {
        Self { fact: Fact::Caution(value), block: None, words: caution(value) }
    }

    /// A late change to a plan.
    pub(crate) fn change(plan: &'a Plan, value: &'a Change) -> Self {
        Self { fact: Fact::Change(value), block: None, words: change::sentence(value, plan) }
    }

    /// What would end a plan earlier.
    pub(crate) fn remedy(value: &'a Remedy) -> Self {
        Self { fact: Fact::Remedy(value), block: None, words: overrun::remedy(value) }
    }

    pub(crate) fn remark(value: &'a Remark) -> Self {
        Self { fact: Fact::Remark(value), block: None, words: remark(value) }
    }

    /// A warning of a plan, with its sentence.
    pub(crate) fn warning(plan: &'a Plan, value: &'a Warning, words: String) -> Self {
        Self { fact: Fact::Warning(value), block: value.at().and_then(|at| plan.text_of(at)), words }
    }
}

/// The sentences of findings.
pub(crate) fn words(findings: &[Finding<'_>]) -> Vec<String> {
    findings.iter().map(|finding| finding.words.clone()).collect()
}
