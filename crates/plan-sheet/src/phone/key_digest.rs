//! What the keys of kept times are made of.

use session_plan::{Plan, Rep};
use sha2::{Digest, Sha256};

/// A hash of texts, one after the other.
#[derive(Default)]
pub(super) struct KeyDigest(Sha256);

impl KeyDigest {
    /// Adds a text with its length, so that no two lists of texts are alike.
    pub(super) fn add(&mut self, text: &str) {
        self.0.update(text.len().to_le_bytes());
        self.0.update(text);
    }

    /// Adds how many names there are, and the names.
    pub(super) fn add_names(&mut self, names: &[String]) {
        self.add(&names.len().to_string());
        names.iter().for_each(|name| self.add(name));
    }

    /// The first twelve bytes, in hexadecimal digits.
    pub(super) fn key(self) -> String {
        self.0.finalize().iter().take(12).map(|byte| format!("{byte:02x}")).collect()
    }
}

/// The runs of a plan with the numbers of their blocks, in the order of their boxes on the page.
pub(super) fn runs(plan: &Plan) -> impl Iterator<Item = (usize, &Rep)> {
    (1..).zip(&plan.blocks).flat_map(|(number, block)| {
        let mut reps: Vec<&Rep> = block.reps.iter().collect();
        reps.sort_by_key(|rep| (rep.rep, rep.wave, rep.lane));
        reps.into_iter().map(move |rep| (number, rep))
    })
}
