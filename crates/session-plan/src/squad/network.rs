//! Start times that keep apart: a network of least differences, and the choices it leaves.

/// How exactly start times are kept, in seconds.
pub(super) const EXACT_S: f64 = 1e-6;

/// Two starts whose difference may not lie in an open interval: the second is early enough or late
/// enough.
#[derive(Clone, Copy, Debug)]
pub(super) struct Choice {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) low_s: f64,
    pub(super) high_s: f64,
}

/// One repetition of one wave.
#[derive(Clone, Copy, Debug)]
pub(super) struct Event {
    /// From its start to the first finish and the last, in seconds.
    pub(super) window_s: (f64, f64),
}

/// Starts, the least differences between them, and the choices that are left.
#[derive(Clone, Debug, Default)]
pub(super) struct Network {
    pub(super) events: Vec<Event>,
    /// For each start, the starts that lie at least so much later, in seconds; may be negative.
    after: Vec<Vec<(usize, f64)>>,
    choices: Vec<Choice>,
    /// The most branches that are looked into before the best that was found must do.
    pub(super) most_branches: usize,
    /// Where at most two finish windows may overlap: the gap that keeps two apart, in seconds.
    pub(super) two_at_once_s: Option<f64>,
}

/// Start times, and whether nothing better is left out.
#[derive(Clone, Debug)]
pub(super) struct Solved {
    pub(super) starts_s: Vec<f64>,
    /// What was minimised.
    pub(super) value: f64,
    /// No plan has less than this.
    pub(super) bound: f64,
}

impl Network {
    pub(super) fn event(&mut self, window_s: (f64, f64)) -> usize {
        self.events.push(Event { window_s });
        self.after.push(Vec::new());
        self.events.len() - 1
    }

    /// `to` starts at least `least_s` after `from`.
    pub(super) fn later(&mut self, from: usize, to: usize, least_s: f64) {
        self.after[from].push((to, least_s));
    }

    pub(super) fn choice(&mut self, choice: Choice) {
        self.choices.push(choice);
    }

    /// The earliest starts that keep every least difference and begin no earlier than `floor_s`;
    /// nothing where something would end after `deadline_s`, or differences exclude each other.
    pub(super) fn earliest(&self, floor_s: &[f64], deadline_s: f64) -> Option<Vec<f64>> {
        let mut starts_s = floor_s.to_vec();
        for _ in 0..=self.events.len() {
            let mut is_settled = true;
            for from in 0..starts_s.len() {
                let at_s = starts_s[from];
                if at_s + self.events[from].window_s.1 > deadline_s + EXACT_S {
                    return None;
                }
                for &(to, least_s) in &self.after[from] {
                    if at_s + least_s > starts_s[to] + EXACT_S * 1e-3 {
                        starts_s[to] = at_s + least_s;
                        is_settled &= to > from;
                    }
                }
            }
            if is_settled {
                return Some(starts_s);
            }
        }
        None
    }

    /// When the last run of these starts ends.
    pub(super) fn end_s(&self, starts_s: &[f64]) -> f64 {
        starts_s.iter().zip(&self.events).map(|(start, event)| start + event.window_s.1).fold(0.0, f64::max)
    }

    /// The ways out of the first thing that these starts break; nothing where they break none. Each way
    /// is a least difference to add.
    pub(super) fn ways_out(&self, starts_s: &[f64]) -> Option<Vec<(usize, usize, f64)>> {
        let broken = self.choices.iter().find(|choice| {
            let apart_s = starts_s[choice.to] - starts_s[choice.from];
            apart_s > choice.low_s + EXACT_S && apart_s < choice.high_s - EXACT_S
        });
        if let Some(choice) = broken {
            let late = (choice.from, choice.to, choice.high_s);
            let early = (choice.to, choice.from, -choice.low_s);
            let apart_s = starts_s[choice.to] - starts_s[choice.from];
            // The nearer way out first: it is the likelier one.
            let late_first = choice.high_s - apart_s <= apart_s - choice.low_s;
            return Some(if late_first { vec![late, early] } else { vec![early, late] });
        }
        self.two_at_once_s.and_then(|gap_s| self.three_at_once(starts_s, gap_s))
    }

    /// Three finish windows that overlap, and the ways to move two of them apart.
    fn three_at_once(&self, starts_s: &[f64], gap_s: f64) -> Option<Vec<(usize, usize, f64)>> {
        let mut windows: Vec<(f64, f64, usize)> = (starts_s.iter().zip(&self.events).enumerate())
            .map(|(index, (start, event))| (start + event.window_s.0, start + event.window_s.1, index))
            .collect();
        windows.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (place, third) in windows.iter().enumerate() {
            let still: Vec<usize> = (windows[..place].iter())
                .filter(|before| third.0 - before.1 < gap_s - EXACT_S)
                .map(|before| before.2)
                .collect();
            let [.., first, second] = still.as_slice() else { continue };
            let mut ways = Vec::new();
            for (a, b) in [(*second, third.2), (*first, third.2), (*first, *second)] {
                let (a_window, b_window) = (self.events[a].window_s, self.events[b].window_s);
                ways.push((a, b, a_window.1 - b_window.0 + gap_s));
                ways.push((b, a, b_window.1 - a_window.0 + gap_s));
            }
            return Some(ways);
        }
        None
    }

    /// Adds a least difference for as long as `then` runs.
    pub(super) fn with<T>(&mut self, way: (usize, usize, f64), then: impl FnOnce(&mut Self) -> T) -> T {
        self.after[way.0].push((way.1, way.2));
        let result = then(self);
        self.after[way.0].pop();
        result
    }

    /// The starts that end first, if any end by `deadline_s`: branch and bound over the choices, with
    /// the earliest starts as the bound.
    pub(super) fn ends_first(&mut self, deadline_s: f64) -> Option<Solved> {
        let floor_s = vec![0.0; self.events.len()];
        let bound = self.end_s(&self.earliest(&floor_s, deadline_s)?);
        let mut best: Option<(f64, Vec<f64>)> = None;
        let mut branches = 0;
        self.branch(&floor_s, deadline_s, &mut best, &mut branches);
        let is_proven = branches < self.most_branches;
        best.map(|(value, starts_s)| Solved { starts_s, value, bound: if is_proven { value } else { bound } })
    }

    fn branch(
        &mut self,
        floor_s: &[f64],
        deadline_s: f64,
        best: &mut Option<(f64, Vec<f64>)>,
        branches: &mut usize,
    ) {
        *branches += 1;
        // The first descent is always finished: there is a plan in the end.
        if *branches >= self.most_branches && best.is_some() {
            return;
        }
        let deadline_s = best.as_ref().map_or(deadline_s, |(end_s, _)| end_s - 2.0 * EXACT_S);
        let Some(starts_s) = self.earliest(floor_s, deadline_s) else { return };
        match self.ways_out(&starts_s) {
            None => *best = Some((self.end_s(&starts_s), starts_s)),
            Some(ways) => {
                for way in ways {
                    self.with(way, |network| network.branch(floor_s, deadline_s, best, branches));
                }
            }
        }
    }
}
