//! The built program, run as its users run it, with whole outputs compared.

mod age_groups;
mod answers;
mod bounded;
mod brief;
mod calendar;
#[cfg(feature = "pdf")]
mod cards;
mod cautions;
mod check;
mod closed_800;
mod closed_for_a_part;
mod csv;
mod curve;
mod drawn;
mod evening_maps;
mod evenings;
mod failing_calls;
mod flying;
mod guides;
mod hazards;
mod help;
mod hidden;
#[cfg(feature = "serve")]
mod hostile_requests;
mod house_rules;
mod json;
mod kept_files;
mod late_changes;
mod late_for_some;
mod map;
mod measure;
mod measure_json;
mod measure_refused;
mod message;
mod mixed_relay;
mod named_groups;
mod names;
mod one_coach;
mod out;
#[cfg(feature = "pdf")]
mod pdf;
mod places;
mod plan;
#[cfg(feature = "serve")]
mod planner;
mod publish;
mod readme;
mod relay;
mod schema;
mod script;
#[cfg(feature = "serve")]
mod serve;
mod setup;
mod spoiled_files;
mod squad;
mod straights_and_bends;
mod surveyed_lap;
mod targets;
mod text_day;
mod texts;
mod views;
mod week;
mod week_left_out;
mod wind;
mod wrenbeck_others;
mod wrenbeck_squads;
mod wrong_input;

// What the tests share.
mod answer;
#[path = "../../crates/plan-sheet/tests/boxes/mod.rs"]
mod boxes;
mod console;
mod folder;
mod left_out;
mod picture;
#[cfg(feature = "pdf")]
mod poppler;
mod run;
mod said;
#[cfg(feature = "serve")]
mod served;
#[cfg(target_os = "linux")]
mod strace;
mod venue;
mod wrenbeck;
