//! What is planned for many evenings, so that a change of it is seen before it is made.
//!
//! `kept.txt` holds what the crate makes of them today. It does not say that this is best: the other tests hold plans to
//! their promises and to an exhaustive search, but of plans that end together they take any. Which one it is, coaches
//! see: who goes first, and in which lanes.

use std::fmt::Write;

use wave_plan::{EveningPlan, Itinerary, Party, WavePlan, plan_evening};

use crate::dice::Dice;
use crate::evenings::{LARGE, MIDDLING, SMALL, Size, evening};

/// The numbers of the evenings of a size, a headline each.
const EVENINGS: [(&str, &Size, std::ops::Range<u64>); 3] = [
    ("small", &SMALL, 2_000..2_080),
    ("middling", &MIDDLING, 20_000..20_030),
    ("large", &LARGE, 200_000..200_008),
];

/// `0+3: 0.0 45.0 lanes 12 21`: members, go times in seconds, and the lane of each member in each run.
fn row(wave: &WavePlan) -> String {
    let members: Vec<String> = wave.members.iter().map(ToString::to_string).collect();
    let go: Vec<String> = wave.go_s.iter().map(|go_s| format!("{go_s:.1}")).collect();
    let in_run = |lanes: &Vec<u8>| lanes.iter().map(ToString::to_string).collect::<String>();
    let lanes: Vec<String> = wave.lanes.iter().map(in_run).collect();
    format!("{}: {} lanes {}", members.join("+"), go.join(" "), lanes.join(" "))
}

fn rows(plan: &EveningPlan) -> String {
    let end = |bound_s: f64, end_s: f64, is_proven: bool| match is_proven {
        true => format!("ends {end_s:.1}, proven"),
        false => format!("ends {end_s:.1}, not before {bound_s:.1}"),
    };
    let mut rows = format!("  {}\n", end(plan.bound_s, plan.end_s, plan.is_proven));
    for (party, itineraries) in plan.parties.iter().enumerate() {
        for (block, itinerary) in itineraries.iter().enumerate() {
            let ends = end(itinerary.begins_s + itinerary.bound_s, itinerary.end_s, itinerary.is_proven);
            let _ = writeln!(rows, "  {party}.{block} from {:.1}, {ends}", itinerary.begins_s);
            itinerary.waves.iter().for_each(|wave| {
                let _ = writeln!(rows, "    {}", row(wave));
            });
        }
    }
    rows
}

/// The wave that each runner of each block of each party had.
type WavesBefore = Vec<Vec<Vec<Option<usize>>>>;

/// The evening without the first of each block that has more than one, and the wave that each of the others had.
fn without_the_first(parties: &[Party], plan: &EveningPlan) -> (Vec<Party>, WavesBefore) {
    let wave_of =
        |waves: &[WavePlan], runner: usize| waves.iter().position(|wave| wave.members.contains(&runner));
    let left = |itinerary: &Itinerary| usize::from(itinerary.runners.len() > 1);
    let before = (parties.iter().zip(&plan.parties))
        .map(|(party, planned)| {
            (party.itineraries.iter().zip(planned))
                .map(|(itinerary, planned)| {
                    let others = left(itinerary)..itinerary.runners.len();
                    others.map(|runner| wave_of(&planned.waves, runner)).collect()
                })
                .collect()
        })
        .collect();
    let mut parties = parties.to_vec();
    for itinerary in parties.iter_mut().flat_map(|party| &mut party.itineraries) {
        itinerary.runners.drain(..left(itinerary));
    }
    (parties, before)
}

/// Every evening as it is planned, and planned again when somebody is missing.
#[test]
fn every_evening_is_planned_as_it_was() {
    let mut planned = String::new();
    for (size_name, size, numbers) in EVENINGS {
        for number in numbers {
            let (parties, rules) = evening(&mut Dice(number), size);
            let plan = plan_evening(&parties, &rules, &[]).expect("everybody can run: nobody is pinned");
            let (others, before) = without_the_first(&parties, &plan);
            let again = plan_evening(&others, &rules, &before).expect("everybody can run: nobody is pinned");
            let _ =
                write!(planned, "{size_name} {number}\n{}without the first\n{}\n", rows(&plan), rows(&again));
        }
    }
    snapbox::assert_data_eq!(planned, snapbox::file!["kept.txt"].raw());
}
