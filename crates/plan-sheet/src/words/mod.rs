//! All English about a plan: one noun a file.

pub(crate) mod athlete;
#[cfg(feature = "pdf")]
pub(crate) mod batons;
pub(crate) mod block_words;
pub(crate) mod caution;
pub(crate) mod change;
pub(crate) mod coach;
pub(crate) mod cone;
pub(crate) mod day;
pub(crate) mod doubt;
pub(crate) mod fault;
pub(crate) mod file_fault;
pub(crate) mod go_times;
pub(crate) mod groups;
pub(crate) mod handover;
pub(crate) mod house_rule;
pub(crate) mod late_fault;
pub(crate) mod names;
pub(crate) mod numbers;
pub(crate) mod occasion;
pub(crate) mod overrun;
pub(crate) mod pace_band;
pub(crate) mod pace_changes;
pub(crate) mod plan_fault;
pub(crate) mod quantity;
pub(crate) mod reading;
pub(crate) mod remark;
pub(crate) mod run_name;
pub(crate) mod spot;
pub(crate) mod target;
pub(crate) mod total;
pub(crate) mod track_fault;
pub(crate) mod walk_words;
pub(crate) mod warning;
pub(crate) mod wave_words;
pub(crate) mod week_entry;
pub(crate) mod week_words;
pub(crate) mod wind;

/// With a capital first letter.
pub(crate) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
