//! Twenty larger squads against the optima of a general solver, kept in `tests/reference/squad-optima`.

use serde_json::Value;
use wave_plan::{Ground, Itinerary, Mode, Party, Runner, Stretch, Timers, TimingRules, plan_evening};

use crate::planned::faults;

const CASES: &str = include_str!("../../../../tests/reference/squad-optima/cases.json");

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is a number"))
}

fn whole(value: &Value) -> usize {
    number(value) as usize
}

fn squads(case: &Value) -> Vec<Party> {
    let mut lane = 0;
    let sets = case["sets"].as_array().expect("a list of sets");
    sets.iter()
        .map(|set| {
            let lanes = (lane + 1..=lane + whole(&set["lanes"]) as u8).collect();
            lane += whole(&set["lanes"]) as u8;
            let (most, reps) = (whole(&set["most"]), whole(&set["reps"]));
            let runners = set["runners"].as_array().expect("a list of runners").iter().enumerate();
            let runners = runners
                .map(|(n, r)| Runner::new(n.to_string(), reps, number(&r[0]), number(&r[1])))
                .collect();
            let ground = Ground::from_laps([number(&set["lap"][0]), number(&set["lap"][1])]);
            let stretch = Stretch { distance_m: number(&set["distance"]), ground, ..Stretch::default() };
            let mode = match set["mode"].as_str() {
                Some("one") => Mode::OneToALane { most: Some(most) },
                _ => Mode::GroupToALane { most },
            };
            let itinerary = Itinerary { mode, ..Itinerary::repetitions(reps, stretch, lanes, runners) };
            Party { begins_s: 0.0, itineraries: vec![itinerary] }
        })
        .collect()
}

fn rules(case: &Value) -> TimingRules {
    let rules = &case["rules"];
    TimingRules {
        timing_gap_s: number(&rules["timing_gap"]),
        start_gap_s: number(&rules["start_gap"]),
        timers: [Timers::Untimed, Timers::One, Timers::Two][whole(&rules["timers"])],
    }
}

#[test]
fn larger_squads_end_as_early_as_a_general_solver_finds() {
    let cases: Vec<Value> = serde_json::from_str(CASES).expect("the cases are JSON");
    assert_eq!(cases.len(), 20);
    let mut wrong = Vec::new();
    for case in &cases {
        let (parties, rules) = (squads(case), rules(case));
        let plan = plan_evening(&parties, &rules, &[]).expect("everybody can run: nobody is pinned");
        assert_eq!(faults(&parties, &rules, &plan), [""; 0], "case {}", case["number"]);
        let end_s = number(&case["end"]);
        if (plan.end_s - end_s).abs() >= 1e-3 || !plan.is_proven {
            wrong.push(format!(
                "case {}: end {} and {end_s}, proven: {}",
                case["number"], plan.end_s, plan.is_proven
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
