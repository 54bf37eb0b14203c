//! What the keys of kept times are made of.

use session_plan::{Plan, Rep};
use sha2::{Digest, Sha256};

/// A hash of texts, one after the other.
#[derive(Default)]
struct KeyDigest(Sha256);

impl KeyDigest {
    /// Adds a text with its length, so that no two lists of texts are alike.
    fn add(&mut self, text: impl AsRef<str>) {
        let text = text.as_ref();
        // As many bytes on every machine.
        self.0.update((text.len() as u64).to_le_bytes());
        self.0.update(text);
    }
}

/// The first twelve bytes, in hexadecimal digits, of a hash of a version, the session's title, its date, its track
/// and, for each run in the order of the boxes on the page, its numbers, its places and who runs.
pub(super) fn digest(plan: &Plan, version: &str, places: impl Fn(&Rep) -> Vec<String>) -> String {
    let mut digest = KeyDigest::default();
    let date = plan.date.map(|date| date.to_string()).unwrap_or_default();
    for part in [version, &plan.title, &date, &plan.track.name] {
        digest.add(part);
    }
    for (number, block) in (1_usize..).zip(&plan.blocks) {
        let mut reps: Vec<&Rep> = block.reps.iter().collect();
        reps.sort_by_key(|rep| (rep.rep, rep.wave, rep.lane));
        for rep in reps {
            let lane = rep.lane.get().into();
            for count in [number, rep.set as usize, rep.rep as usize, rep.wave as usize, lane] {
                digest.add(count.to_string());
            }
            places(rep).iter().for_each(|part| digest.add(part));
            digest.add(rep.athletes.len().to_string());
            rep.athletes.iter().for_each(|name| digest.add(name));
        }
    }
    digest.0.finalize().iter().take(12).map(|byte| format!("{byte:02x}")).collect()
}
