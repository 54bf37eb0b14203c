//! Evenings made by chance, the same ones each time: who comes, what each is to run, and the file that says so.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use wave_plan::{Timers, TimingRules};

use crate::asked::{Asked, Naming, block};
use crate::dice::Dice;
use crate::hazards::{self, Hazard};

/// The race whose pace every run is run at, in metres.
pub(crate) const RACE_M: f64 = 1_000.0;

/// An athlete, with the best over the race in seconds and the lanes allowed; none means all.
#[derive(Clone, Debug)]
pub(crate) struct Athlete {
    pub(crate) name: String,
    pub(crate) best_s: f64,
    pub(crate) lanes: Vec<u8>,
}

impl Athlete {
    /// The target of a run, in seconds.
    pub(crate) fn target_s(&self, distance_m: f64) -> f64 {
        self.best_s * distance_m / RACE_M
    }
}

/// Athletes who do the same.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    pub(crate) name: String,
    pub(crate) athletes: Vec<Athlete>,
    /// Its own blocks; none means those that are shared.
    pub(crate) blocks: Vec<Asked>,
    /// Its relay team, by the places of its athletes in the order of the baton; empty where it has none.
    pub(crate) relay: Vec<usize>,
}

/// What a coach asks for.
#[derive(Clone, Debug)]
pub(crate) struct Evening {
    pub(crate) track: &'static str,
    pub(crate) closed: Vec<u8>,
    pub(crate) rules: TimingRules,
    pub(crate) between_s: f64,
    pub(crate) groups: Vec<Group>,
    pub(crate) shared: Vec<Asked>,
    /// Hazards of the track.
    pub(crate) hazards: Vec<Hazard>,
}

/// How large evenings may be.
pub(crate) struct Size {
    pub(crate) athletes: u64,
    pub(crate) reps: u64,
    pub(crate) blocks: u64,
    /// Whether every block names its lanes, and everybody may use them all.
    pub(crate) is_plain: bool,
}

impl Size {
    fn names(&self) -> Naming {
        if self.is_plain { Naming::All } else { Naming::Half }
    }
}

impl Evening {
    pub(crate) fn new(dice: &mut Dice, size: &Size) -> Self {
        let track = dice.pick(&["standard", "standard", "standard-6", "oval-300", "double-bend-1"]);
        let closed = if dice.whole(0, 2) == 0 { vec![dice.whole(1, 6) as u8] } else { Vec::new() };
        let open: Vec<u8> = (1..=6).filter(|lane| !closed.contains(lane)).collect();
        let count = dice.whole(1, 3);
        // Where somebody may not use every lane, the blocks name none: they would often name the wrong ones.
        let has_pins = !size.is_plain && dice.whole(0, 3) == 0;
        let names = if has_pins { Naming::None } else { size.names() };
        // The training track has no hurdle marks and no exchange zones.
        let has_races = track != "oval-300";
        let blocks = |dice: &mut Dice| -> Vec<Asked> {
            let many = dice.whole(1, size.blocks);
            (0..many).map(|_| block(dice, size.reps, &open, names, has_races)).collect()
        };
        let shared = blocks(dice);
        let mut groups = Vec::new();
        let mut left = size.athletes;
        for number in 0..count {
            let own = if dice.whole(0, 2) > 0 { blocks(dice) } else { Vec::new() };
            let athletes = dice.whole(1, left.saturating_sub(count - number - 1).max(1));
            left = left.saturating_sub(athletes);
            let s_per_100_m = dice.pick(&[15.0, 17.0]);
            let athlete = |n| Athlete {
                name: format!("{}{n}", char::from(b'A' + number as u8)),
                best_s: 10.0 * (s_per_100_m + dice.whole(0, 3) as f64),
                lanes: match dice.whole(0, 3) {
                    0 if has_pins => open[open.len() / 2..].to_vec(),
                    _ => Vec::new(),
                },
            };
            let athletes: Vec<Athlete> = (0..athletes).map(athlete).collect();
            // Every second group lists a team of some of its athletes.
            let relay = if number % 2 == 0 { vec![3, 1, 0] } else { Vec::new() };
            let relay = if athletes.len() > 3 { relay } else { Vec::new() };
            groups.push(Group { name: format!("group {number}"), athletes, blocks: own, relay });
        }
        let rules = TimingRules {
            timing_gap_s: dice.pick(&[1.0, 3.0, 5.0, 8.0]),
            start_gap_s: dice.pick(&[5.0, 10.0, 15.0]),
            timers: dice.pick(&[Timers::One, Timers::One, Timers::EachGroup, Timers::Two, Timers::Untimed]),
        };
        let between_s = dice.pick(&[30.0, 120.0, 300.0]);
        let count = if size.is_plain { 0 } else { dice.whole(0, 2) };
        let lap_m = if track == "oval-300" { 300 } else { 400 };
        let hazards = (0..count).map(|_| Hazard::new(dice, lap_m)).collect();
        Self { track, closed, rules, between_s, groups, shared, hazards }
    }

    /// Those who are on one clock: all groups that share the blocks, then each group with its own, by its place among
    /// the groups; each with its blocks.
    pub(crate) fn crews(&self) -> Vec<(Option<usize>, Vec<&Group>, &[Asked])> {
        let shared: Vec<&Group> = self.groups.iter().filter(|group| group.blocks.is_empty()).collect();
        let own = self.groups.iter().enumerate().filter(|(_, group)| !group.blocks.is_empty());
        let own = own.map(|(place, group)| (Some(place), vec![group], group.blocks.as_slice()));
        let all = (!shared.is_empty()).then_some((None, shared, self.shared.as_slice()));
        all.into_iter().chain(own).collect()
    }

    /// Everybody, by name.
    pub(crate) fn athletes(&self) -> BTreeMap<&str, &Athlete> {
        self.groups.iter().flat_map(|group| &group.athletes).map(|one| (one.name.as_str(), one)).collect()
    }

    /// The session file.
    pub(crate) fn file(&self) -> String {
        let list = |blocks: &[Asked]| {
            let texts: Vec<String> = blocks.iter().map(|asked| format!("\"{}\"", asked.text)).collect();
            texts.join(", ")
        };
        let hours = hazards::of_session(&self.hazards);
        let mut file = format!("title: evening\n{hours}closed_lanes: {:?}\ngroups:\n", self.closed);
        for group in &self.groups {
            let athlete = |one: &Athlete| {
                let lanes =
                    if one.lanes.is_empty() { String::new() } else { format!(", lanes: {:?}", one.lanes) };
                format!("{{ name: {}, bests: {{ {RACE_M}: {} }}{lanes} }}", one.name, one.best_s)
            };
            let athletes: Vec<String> = group.athletes.iter().map(athlete).collect();
            let _ = writeln!(file, "  - name: {}\n    athletes: [{}]", group.name, athletes.join(", "));
            if !group.relay.is_empty() {
                let names: Vec<&str> =
                    group.relay.iter().map(|&place| group.athletes[place].name.as_str()).collect();
                let _ = writeln!(file, "    relay: [[{}]]", names.join(", "));
            }
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
        let _ = writeln!(file, "between_blocks: {}s", self.between_s);
        let _ = writeln!(
            file,
            "squad: {{ timing_gap: {timing_gap_s}s, start_gap: {start_gap_s}s, timers: {timers} }}"
        );
        file
    }
}
