//! Batons handed on, in words.

use session_plan::{CheckMark, Handover, Plan, PlanBlock, Rep};

use crate::words::names::called;
use crate::words::numbers::{listed, metres};

/// Who hands to whom, such as `Ada to Bea`.
pub(crate) fn handing(handover: &Handover, called: impl Fn(&str) -> String) -> String {
    format!("{} to {}", called(&handover.incoming), called(&handover.outgoing))
}

/// How the exchanges of a block are set up, and the check mark of each two, those that are alike in one line:
/// `Check mark 7.5 m back, 26 feet, baton over about 13 m on (lane 4: cone 7): Ada to
/// Bea`.
pub(crate) fn handovers(plan: &Plan, block: &PlanBlock) -> Vec<String> {
    let runs = || block.reps.iter().filter_map(|rep| Some((rep, rep.handover.as_ref()?)));
    let mut lines: Vec<String> = Vec::new();
    for (rep, handover) in runs() {
        let line = places(rep, handover);
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    let mut marks: Vec<(String, Vec<String>)> = Vec::new();
    for (rep, handover) in runs() {
        let cone = plan.cone_on(&handover.spot).map_or_else(String::new, |cone| format!(": cone {cone}"));
        // Before a zone nothing is handed on.
        let on_m = handover.check_mark.exchange_m.max(handover.before_zone_m);
        let mark = check_mark(&handover.check_mark);
        let mark = format!("{mark}, baton over about {on_m:.0} m on (lane {}{cone})", rep.lane);
        let who = handing(handover, called);
        match marks.iter_mut().find(|(known, _)| *known == mark) {
            Some((_, names)) if names.contains(&who) => {}
            Some((_, names)) => names.push(who),
            None => marks.push((mark, vec![who])),
        }
    }
    lines.extend(marks.into_iter().map(|(mark, names)| format!("{mark}: {}.", listed(&names))));
    lines
}

/// Where the two stand, and where the baton is to be handed on.
fn places(rep: &Rep, handover: &Handover) -> String {
    let zone = match handover.before_zone_m {
        before_m if before_m > 0.0 => format!(
            "Zone {}, {} m by former rules: outgoing waits {} m before it",
            handover.zone,
            metres(handover.zone_m),
            metres(before_m)
        ),
        _ => format!("Zone {}, {} m: outgoing waits at its entry", handover.zone, metres(handover.zone_m)),
    };
    let run_in = rep
        .run_in_m
        .map_or_else(String::new, |run_in_m| format!(", incoming starts {} m back", metres(run_in_m)));
    format!("{zone}{run_in}.")
}

/// How far back a check mark lies, in metres and feet.
pub(crate) fn check_mark(mark: &CheckMark) -> String {
    let about = if mark.is_about { "about " } else { "" };
    format!("Check mark {about}{:.1} m back, {} feet", mark.back_m, mark.feet)
}
