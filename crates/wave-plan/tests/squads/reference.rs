//! Twenty larger squads against the optima of a general solver, kept in `tests/reference/squad-optima`.

use serde_json::Value;
use wave_plan::{Ground, Mode, Timers, TimingRules};

use crate::planned::faults;
use crate::sets::{Runner, SquadSet, plan_squads};

const CASES: &str = include_str!("../../../../tests/reference/squad-optima/cases.json");

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is a number"))
}

fn whole(value: &Value) -> usize {
    number(value) as usize
}

fn sets(case: &Value) -> Vec<SquadSet> {
    let mut lane = 0;
    let sets = case["sets"].as_array().expect("a list of sets");
    sets.iter()
        .map(|set| {
            let lanes = (lane + 1..=lane + whole(&set["lanes"]) as u8).collect();
            lane += whole(&set["lanes"]) as u8;
            let most = whole(&set["most"]);
            let runners = set["runners"].as_array().expect("a list of runners").iter().enumerate();
            SquadSet {
                reps: whole(&set["reps"]) as u32,
                distance_m: number(&set["distance"]),
                ground: Ground::from_laps([number(&set["lap"][0]), number(&set["lap"][1])]),
                lanes,
                mode: match set["mode"].as_str() {
                    Some("one") => Mode::OneToALane { most: Some(most) },
                    _ => Mode::GroupToALane { most },
                },
                runners: runners
                    .map(|(n, r)| Runner::new(n.to_string(), number(&r[0]), number(&r[1])))
                    .collect(),
                ..SquadSet::default()
            }
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
        let (sets, rules) = (sets(case), rules(case));
        let plan = plan_squads(&sets, &rules, &[]).expect("everybody can run: nobody is pinned");
        assert_eq!(faults(&sets, &rules, &plan), [""; 0], "case {}", case["number"]);
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
