//! Twenty larger squads and twenty larger evenings against the optima of general solvers, kept in
//! `tests/reference/squad-optima` and `tests/reference/evening-optima`.

use serde_json::Value;
use wave_plan::{
    Ground, Itinerary, Mode, Party, RunTimes, Runner, Stretch, Timers, TimingRules, plan_evening,
};

use crate::planned::faults;

const SQUADS: &str = include_str!("../../../../tests/reference/squad-optima/cases.json");
const EVENINGS: &str = include_str!("../../../../tests/reference/evening-optima/cases.json");

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
        timers: match rules["timers"].as_u64() {
            Some(0) => Timers::Untimed,
            Some(1) => Timers::One,
            Some(2) => Timers::Two,
            _ => Timers::EachGroup,
        },
    }
}

#[test]
fn larger_squads_end_as_early_as_a_general_solver_finds() {
    let cases: Vec<Value> = serde_json::from_str(SQUADS).expect("the cases are JSON");
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

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is a list"))
}

fn block(block: &Value) -> Itinerary {
    let lanes: Vec<u8> = list(&block["lanes"]).iter().map(|lane| whole(lane) as u8).collect();
    let stretch = |run: &Value| {
        let lap_m = Some(number(&run["lap"])).filter(|lap_m| *lap_m > 0.0);
        Stretch {
            distance_m: number(&run["distance"]),
            ground: Ground::from_laps(lap_m),
            finish_m: lanes.iter().map(|lane| (*lane, number(&run["finish"]))).collect(),
            is_reversed: run["reversed"] == true,
        }
    };
    let runner = |(n, runner): (usize, &Value)| {
        let rest_s = number(&runner["rest"]);
        let times = |target: &Value| RunTimes { target_s: number(target), rest_s };
        let times = list(&runner["targets"]).iter().map(times).collect();
        Runner { name: n.to_string(), times, ..Runner::default() }
    };
    let most = whole(&block["most"]);
    Itinerary {
        after_s: number(&block["after"]),
        runs: list(&block["runs"]).iter().map(|run| (!run.is_null()).then(|| stretch(run))).collect(),
        mode: match block["mode"].as_str() {
            Some("one") => Mode::OneToALane { most: Some(most) },
            _ => Mode::GroupToALane { most },
        },
        runners: list(&block["runners"]).iter().enumerate().map(runner).collect(),
        keeps_lanes: false,
        lanes,
    }
}

fn evening(case: &Value) -> Vec<Party> {
    let party = |party: &Value| Party {
        begins_s: number(&party["begins"]),
        itineraries: list(&party["blocks"]).iter().map(block).collect(),
    };
    list(&case["parties"]).iter().map(party).collect()
}

/// How much later than the first end there can be an evening may end that is too large to look at every way of it.
const MOST_LATER: f64 = 0.01;

#[test]
fn larger_evenings_end_within_their_bound_of_what_a_general_solver_finds() {
    let cases: Vec<Value> = serde_json::from_str(EVENINGS).expect("the cases are JSON");
    assert_eq!(cases.len(), 20);
    let (mut wrong, mut equal) = (Vec::new(), 0);
    for case in &cases {
        let (parties, rules) = (evening(case), rules(case));
        let plan = plan_evening(&parties, &rules, &[]).expect("everybody can run: nobody is pinned");
        assert_eq!(faults(&parties, &rules, &plan), [""; 0], "case {}", case["number"]);
        // The solver's times are tenths of a second: the first end there can be lies between its bound and its end.
        let (end_s, bound_s) = (number(&case["end"]), number(&case["bound"]));
        equal += usize::from(plan.end_s < end_s + 1e-3);
        let is_right = plan.end_s > bound_s - 1e-3
            && plan.bound_s < end_s + 1e-3
            && plan.end_s <= end_s * (1.0 + MOST_LATER)
            && (!plan.is_proven || plan.end_s < end_s + 1e-3);
        if !is_right {
            wrong.push(format!(
                "case {}: end {}, bound {}, proven: {}; the solver's end {end_s}, bound {bound_s}",
                case["number"], plan.end_s, plan.bound_s, plan.is_proven
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(equal >= 17, "{equal} of 20 end as early as can be");
}
