//! Batons handed on, in words.

use session_plan::{CheckMark, Handover, Plan, PlanBlock, Rep};

use crate::words::names::called;
use crate::words::numbers::{listed, metres};

/// Who hands to whom, such as `Ada to Bea`.
pub(crate) fn handing(handover: &Handover, called: impl Fn(&str) -> String) -> String {
    format!("{} to {}", called(&handover.incoming), called(&handover.outgoing))
}

/// How the exchanges of a block are set up, and the check mark of each two, those that are alike in one line:
/// `Check mark 7.8 m back, 26 feet, baton over about 12 m on: Ada to Bea (lane 4, cone 6); Cyd to Dan (lane 5, cone 7).`
pub(crate) fn handovers(plan: &Plan, block: &PlanBlock) -> Vec<String> {
    let runs = || block.reps.iter().filter_map(|rep| Some((rep, rep.handover.as_ref()?)));
    let mut zones = Grouped::default();
    let mut marks = Grouped::default();
    for (rep, handover) in runs() {
        zones.add(places(rep, handover), handover.zone.to_string());
        // Before a zone nothing is handed on.
        let on_m = handover.check_mark.exchange_m.max(handover.before_zone_m);
        let mark = format!("{}, baton over about {on_m:.0} m on", check_mark(&handover.check_mark));
        let cone = plan.cone_on(&handover.spot).map_or_else(String::new, |cone| format!(", cone {cone}"));
        marks.add((mark, format!("lane {}{cone}", rep.lane)), handing(handover, called));
    }
    let zone = |(places, zones): (String, Vec<String>)| {
        let noun = if zones.len() == 1 { "Zone" } else { "Zones" };
        format!("{noun} {}, {places}.", listed(&zones))
    };
    let mut lines: Vec<String> = zones.0.into_iter().map(zone).collect();
    let mut of_mark = Grouped::default();
    for ((mark, place), names) in marks.0 {
        of_mark.add(mark, format!("{} ({place})", listed(&names)));
    }
    lines.extend(of_mark.0.into_iter().map(|(mark, where_to)| format!("{mark}: {}.", where_to.join("; "))));
    lines
}

/// Values by what they have in common, each once, in the order in which they come.
struct Grouped<K>(Vec<(K, Vec<String>)>);

impl<K> Default for Grouped<K> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<K: PartialEq> Grouped<K> {
    fn add(&mut self, key: K, value: String) {
        match self.0.iter_mut().find(|(known, _)| *known == key) {
            Some((_, values)) if values.contains(&value) => {}
            Some((_, values)) => values.push(value),
            None => self.0.push((key, vec![value])),
        }
    }
}

/// Where the two of an exchange stand.
fn places(rep: &Rep, handover: &Handover) -> String {
    let zone_m = metres(handover.zone_m);
    let zone = match handover.before_zone_m {
        before_m if before_m > 0.0 => {
            format!("{zone_m} m by former rules: outgoing waits {} m before it", metres(before_m))
        }
        _ => format!("{zone_m} m: outgoing waits at its entry"),
    };
    let run_in = rep.run_in_m.map(|run_in_m| format!(", incoming starts {} m back", metres(run_in_m)));
    zone + &run_in.unwrap_or_default()
}

/// How far back a check mark lies, in metres and feet.
pub(crate) fn check_mark(mark: &CheckMark) -> String {
    let about = if mark.is_about { "about " } else { "" };
    format!("Check mark {about}{:.1} m back, {} feet", mark.back_m, mark.feet)
}
