//! Evenings made by chance, the same ones each time: who comes, what each is to run, and the file that says so.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use wave_plan::{Timers, TimingRules};

use crate::dice::Dice;

/// What follows a run.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Recovery {
    /// Rest from the finish, in seconds.
    Rest(f64),
    /// From one start to the next, in seconds.
    Cycle(f64),
}

/// Repetitions of one distance.
#[derive(Clone, Debug)]
pub(crate) struct Reps {
    pub(crate) text: String,
    pub(crate) count: u32,
    pub(crate) recovery: Recovery,
    /// The lanes that its text names, if it does.
    pub(crate) lanes: Vec<u8>,
}

/// An athlete, with the target of each run in seconds and the lanes allowed; none means all.
#[derive(Clone, Debug)]
pub(crate) struct Athlete {
    pub(crate) name: String,
    pub(crate) target_s: f64,
    pub(crate) lanes: Vec<u8>,
}

/// Athletes who do the same.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    pub(crate) name: String,
    pub(crate) athletes: Vec<Athlete>,
    /// Its own blocks; none means those that are shared.
    pub(crate) blocks: Vec<Reps>,
}

/// What a coach asks for.
#[derive(Clone, Debug)]
pub(crate) struct Evening {
    pub(crate) track: &'static str,
    pub(crate) closed: Vec<u8>,
    pub(crate) rules: TimingRules,
    pub(crate) groups: Vec<Group>,
    pub(crate) shared: Vec<Reps>,
}

/// How large evenings may be.
pub(crate) struct Size {
    pub(crate) athletes: u64,
    pub(crate) reps: u64,
    pub(crate) blocks: u64,
    /// Whether every block names its lanes and everybody may use them all.
    pub(crate) is_plain: bool,
}

/// Distances with the places that they are run at.
const RUNS: [(f64, &str); 14] = [
    (60.0, ""),
    (60.0, " on the home straight"),
    (60.0, " on the home straight the other way"),
    (60.0, " on the back straight"),
    (80.0, " on the bend"),
    (100.0, ""),
    (150.0, ""),
    (150.0, " to the finish line"),
    (200.0, ""),
    (300.0, ""),
    (350.0, ""),
    (400.0, ""),
    (600.0, ""),
    (1000.0, ""),
];

impl Evening {
    pub(crate) fn new(dice: &mut Dice, size: &Size) -> Self {
        let track = dice.pick(&["standard", "standard", "standard-6", "oval-300", "double-bend-1"]);
        let closed = if dice.whole(0, 2) == 0 { vec![dice.whole(1, 6) as u8] } else { Vec::new() };
        let open: Vec<u8> = (1..=6).filter(|lane| !closed.contains(lane)).collect();
        let count = dice.whole(1, 3);
        let (shared_m, shared) = blocks(dice, size, &open);
        let mut groups = Vec::new();
        let mut left = size.athletes;
        for number in 0..count {
            let is_own = dice.whole(0, 2) > 0;
            let (distance_m, own) = if is_own { blocks(dice, size, &open) } else { (shared_m, Vec::new()) };
            let athletes = dice.whole(1, left.saturating_sub(count - number - 1).max(1));
            left = left.saturating_sub(athletes);
            let s_per_100_m = dice.pick(&[13.0, 15.0, 17.0]);
            let athlete = |n| Athlete {
                name: format!("{}{n}", char::from(b'A' + number as u8)),
                target_s: (distance_m * (s_per_100_m + dice.whole(0, 3) as f64) / 100.0).round(),
                lanes: match dice.whole(0, 7) {
                    0 if !size.is_plain => open[open.len() / 2..].to_vec(),
                    _ => Vec::new(),
                },
            };
            let athletes = (0..athletes).map(athlete).collect();
            groups.push(Group { name: format!("group {number}"), athletes, blocks: own });
        }
        let rules = TimingRules {
            timing_gap_s: dice.pick(&[1.0, 3.0, 5.0, 8.0]),
            start_gap_s: dice.pick(&[5.0, 10.0, 15.0]),
            timers: dice.pick(&[Timers::One, Timers::One, Timers::Two, Timers::Untimed]),
        };
        Self { track, closed, rules, groups, shared }
    }

    /// The blocks that a group does.
    pub(crate) fn blocks_of<'a>(&'a self, group: &'a Group) -> &'a [Reps] {
        if group.blocks.is_empty() { &self.shared } else { &group.blocks }
    }

    /// Everybody, by name.
    pub(crate) fn athletes(&self) -> BTreeMap<&str, &Athlete> {
        self.groups.iter().flat_map(|group| &group.athletes).map(|one| (one.name.as_str(), one)).collect()
    }

    /// The session file.
    pub(crate) fn file(&self) -> String {
        let list = |blocks: &[Reps]| {
            let texts: Vec<String> = blocks.iter().map(|reps| format!("\"{}\"", reps.text)).collect();
            texts.join(", ")
        };
        let mut file = format!("title: evening\nclosed_lanes: {:?}\ngroups:\n", self.closed);
        for group in &self.groups {
            let athlete = |one: &Athlete| {
                let lanes =
                    if one.lanes.is_empty() { String::new() } else { format!(", lanes: {:?}", one.lanes) };
                format!("{{ name: {}, target: {}{lanes} }}", one.name, one.target_s)
            };
            let athletes: Vec<String> = group.athletes.iter().map(athlete).collect();
            let _ = writeln!(file, "  - name: {}\n    athletes: [{}]", group.name, athletes.join(", "));
            if !group.blocks.is_empty() {
                let _ = writeln!(file, "    blocks: [{}]", list(&group.blocks));
            }
        }
        if self.groups.iter().any(|group| group.blocks.is_empty()) {
            let _ = writeln!(file, "blocks: [{}]", list(&self.shared));
        } else {
            file.push_str("blocks: []\n");
        }
        let timers = match self.rules.timers {
            Timers::One => "one",
            Timers::Two => "two",
            Timers::EachGroup => "each group",
            Timers::Untimed => "untimed",
        };
        let TimingRules { timing_gap_s, start_gap_s, .. } = self.rules;
        let _ = writeln!(
            file,
            "squad: {{ timing_gap: {timing_gap_s}s, start_gap: {start_gap_s}s, timers: {timers} }}"
        );
        file
    }
}

/// Blocks of one distance, in metres, and the distance.
fn blocks(dice: &mut Dice, size: &Size, open: &[u8]) -> (f64, Vec<Reps>) {
    let (distance_m, place) = dice.pick(&RUNS);
    let many = dice.whole(1, size.blocks);
    let block = |_| {
        let count = dice.whole(1, size.reps) as u32;
        let recovery = match dice.whole(0, 2) {
            0 => Recovery::Cycle((distance_m / 5.0 + dice.pick(&[30.0, 60.0, 120.0])).round()),
            _ => Recovery::Rest(dice.pick(&[20.0, 45.0, 90.0, 180.0])),
        };
        let words = match recovery {
            Recovery::Rest(rest_s) => format!("rest {rest_s}s"),
            Recovery::Cycle(cycle_s) => format!("off {cycle_s}s"),
        };
        let first = dice.whole(0, open.len() as u64 - 1) as usize;
        let lanes = &open[first..open.len().min(first + dice.whole(1, 3) as usize)];
        let is_named = size.is_plain || dice.whole(0, 1) == 0;
        let lanes = if is_named { lanes.to_vec() } else { Vec::new() };
        let listed: Vec<String> = lanes.iter().map(u8::to_string).collect();
        let wherein = if is_named { format!(" in lanes {}", listed.join(",")) } else { String::new() };
        Reps { text: format!("{count} x {distance_m}{place}{wherein} {words}"), count, recovery, lanes }
    };
    (distance_m, (0..many).map(block).collect())
}
