//! What there is to say of a block, in sentences.

use lane_distance::LaneList;
use session_plan::{FOOT_M, Recovery, Remark, SetTakes, TargetError};

use crate::sheet::spans::joined;
use crate::words::capital;
use crate::words::names::{all_called, called};
use crate::words::numbers::{clock, listed, metres, minutes};
use crate::words::spot::{past, spot};
use crate::words::target::no_target;

/// A remark as a sentence.
pub(crate) fn remark(remark: &Remark) -> String {
    match remark {
        Remark::SameStart { lane, recovery } => {
            format!("Lane {lane}: the same start each time; the {} ends there.", verb(*recovery))
        }
        Remark::StartsMove { lane, moves_m, recovery, cancelled_by_m } => {
            let way = if *moves_m < 0.0 { "back" } else { "on" };
            let cancel = cancelled_by_m.map_or_else(String::new, |by_m| {
                format!("; {} {by_m:.2} m for the same start each time", verb(*recovery))
            });
            format!("Lane {lane}: each start is {:.2} m further {way}{cancel}.", moves_m.abs())
        }
        Remark::RecoveryBends { lanes, recovery, asked_m, least_m, most_m, starts } => {
            let way = match (least_m.round(), most_m.round()) {
                (least, most) if least == most => format!("{least} m"),
                (least, most) => format!("{least} to {most} m"),
            };
            let starts = match starts {
                1 => "the same start each time".to_owned(),
                starts => format!("{starts} starts in turn"),
            };
            format!(
                "{}: {} {way}, not {}; {starts}.",
                capital(&LaneList(lanes).to_string()),
                verb(*recovery),
                metres(*asked_m)
            )
        }
        Remark::RestTooShortToGoOn { lane, recovery, way_m, needs_s, has_s, enough_m } => {
            let verb = verb(*recovery);
            let rest = clock((needs_s / 5.0).ceil() * 5.0);
            let enough_m = (enough_m / 10.0).floor() * 10.0;
            let less = if enough_m >= 10.0 { format!(", or {verb} {enough_m} m") } else { String::new() };
            format!(
                "Lane {lane}: {} rest is too short to {verb} {way_m:.0} m, which takes {}; rest {rest}{less}.",
                clock(*has_s),
                clock(*needs_s)
            )
        }
        Remark::WalkBack { lane, walk_m, takes_s, jogging } => {
            let verb = if *jogging { "jog" } else { "walk" };
            format!("Lane {lane}: {walk_m:.0} m to {verb} back, {}.", clock(*takes_s))
        }
        Remark::RestTooShortToWalk { lane, walk_m, needs_s, has_s, changing_ends } => {
            let remedy = if *changing_ends { "" } else { ", change ends" };
            format!(
                "Lane {lane}: {} rest is too short to walk {walk_m:.0} m to the next start, which takes {}; \
                 rest {}{remedy}, or jog.",
                clock(*has_s),
                clock(*needs_s),
                clock((needs_s / 5.0).ceil() * 5.0)
            )
        }
        Remark::NoTarget { pace, why, to_m, athletes } => {
            let remedy = match why {
                TargetError::NoBest { .. } => {
                    "add one, as `Bests: 400 56` in a text or `bests: { 400: 56 }` in a session file"
                }
                TargetError::OutsideRiegel { .. } => "add a best over a distance nearer to it",
            };
            let why = no_target(why, to_m);
            let who =
                if athletes.is_empty() { String::new() } else { format!(" for {}", all_called(athletes)) };
            format!("No target{who} @ {pace}: {why}; {remedy}.")
        }
        Remark::OtherChoice { lane, on_finish_line, run_in, start, finish, .. } => {
            let start = match run_in {
                Some(run_in) => format!("stand {}, fast from {}", spot(run_in), past(start)),
                None => format!("start {}", spot(start)),
            };
            if *on_finish_line {
                format!("To finish on the finish line in lane {lane}, {start}.")
            } else {
                format!("On paint at both ends in lane {lane}: {start}, finish {}.", spot(finish))
            }
        }
        Remark::TimesEstimated { targets, athletes, rests } => {
            let without = match (*targets, athletes.as_slice(), *rests) {
                (true, _, true) => "no target and no rest".to_owned(),
                (true, _, false) => "no target".to_owned(),
                (false, [], false) => return "Go times are about right only.".to_owned(),
                (false, [], true) => "no rest".to_owned(),
                (false, names, true) => format!("no rest, and no target for {}", all_called(names)),
                (false, names, false) => format!("no target for {}", all_called(names)),
            };
            format!("Go times are about right only: {without} given.")
        }
        Remark::NoCommonPlace { runs, lanes } => {
            let lanes: Vec<u8> = lanes.iter().map(|lane| lane.get()).collect();
            let runs = if runs.len() == 1 { "run" } else { "runs" }.to_owned() + " " + &joined(runs);
            format!(
                "{} start and finish apart in {runs}: what is in use leaves no place in common.",
                capital(&LaneList(&lanes).to_string())
            )
        }
        Remark::GuideBeside { athlete, guide } => {
            format!("{} runs one lane outside {}.", capital(&called(guide)), called(athlete))
        }
        Remark::GoBeforeRunIn { run_in_m, from_s, to_s } => {
            let takes = if from_s == to_s { from_s.to_string() } else { format!("{from_s} to {to_s}") };
            format!("Go is when they set off: {takes} s for the {} m run-in.", metres(*run_in_m))
        }
        Remark::WavesKept { kept, of, are_teams } => waves_kept(*kept, *of, *are_teams),
        Remark::Waves { runs, sizes, lanes, takes } => {
            let takes = set_takes(takes.as_ref());
            let waves = waves(sizes, lanes.len());
            let waves = if runs.is_empty() { waves } else { waves.to_lowercase() };
            format!("{}{waves} in {}{takes}.", of_runs(runs), LaneList(lanes))
        }
        Remark::RelayWaves { runs, sizes, lanes, takes } => {
            let teams =
                |count: usize| if count == 1 { "1 team".to_owned() } else { format!("{count} teams") };
            let waves = match sizes.as_slice() {
                [size] => format!("{} at once", teams(*size)),
                [first, others @ ..] if others.iter().all(|size| size == first) => {
                    format!("{} waves of {}", sizes.len(), teams(*first))
                }
                sizes => format!("{} waves: {} teams", sizes.len(), listed(sizes)),
            };
            format!("{}{waves} in {}{}.", of_runs(runs), LaneList(lanes), set_takes(takes.as_ref()))
        }
        Remark::CheckMarksAreAStart { unknown, of_nobody } => {
            let about = match (of_nobody, unknown.as_slice()) {
                (true, _) => " No best is known: they are about right only.".to_owned(),
                (false, []) => String::new(),
                (false, names) => {
                    format!(" No best of {} is known: about right only.", all_called(names))
                }
            };
            format!(
                "Check marks are a start, from the two speeds: tune them on the track. Feet of {FOOT_M:.2} m; tape, \
                 not a cone.{about}"
            )
        }
        Remark::DoneWithPartner { athlete, because_of, after, goes_on } => {
            let (athlete, because_of) = (capital(&called(athlete)), called(because_of));
            let is_done = if *goes_on { "hands on no more" } else { "is done" };
            format!("{athlete} {is_done} after run {after}, as {because_of} does no more.")
        }
        Remark::NobodyToHandTo { athlete } => {
            format!("{} has nobody to hand to.", capital(&called(athlete)))
        }
        Remark::MuchLongerThanAlone { alone_s } => {
            format!("One athlete alone takes {}: open more lanes, or split the squad.", minutes(*alone_s))
        }
        Remark::CoachElsewhere { with } => {
            let blocks = if with.len() == 1 { "block" } else { "blocks" };
            format!(
                "Nobody times it: the one coach is at another finish with {blocks} {}. With a coach for each \
                 group, say so (a watch for each group; timers in a session file).",
                listed(with)
            )
        }
        Remark::FewerHurdles { asked, there, run_m } => {
            format!("Only {there} of {asked} hurdles stand within {} m.", metres(*run_m))
        }
        Remark::HurdlesOfAnotherRace { asked_m, race_m, to_first_m, between_m } => {
            let spacing = format!("{} m to the 1st, then {} m", metres(*to_first_m), metres(*between_m));
            match asked_m {
                Some(asked_m) => format!(
                    "{0} m hurdles are not painted here: these stand as for {1} m, {spacing}. Tape the {0} m spacing.",
                    metres(*asked_m),
                    metres(*race_m)
                ),
                None => format!("Hurdles as for {} m: {spacing}.", metres(*race_m)),
            }
        }
        Remark::NoPlaceForCoach => {
            "No place for the coach: something in use lies on both sides of every finish. \
                                    Stand where the venue allows."
                .to_owned()
        }
    }
}

/// Whether a remark changes how a block is run, so that a short view has it as well.
pub(crate) const fn changes_runs(remark: &Remark) -> bool {
    !matches!(
        remark,
        Remark::SameStart { .. }
            | Remark::WalkBack { .. }
            | Remark::OtherChoice { .. }
            // A rest that nobody wrote is about as sure as a guess.
            | Remark::TimesEstimated { rests: false, .. }
            | Remark::WavesKept { .. }
            | Remark::Waves { .. }
            | Remark::RelayWaves { .. }
            | Remark::CheckMarksAreAStart { .. }
            | Remark::MuchLongerThanAlone { .. }
    )
}

const fn verb(recovery: Recovery) -> &'static str {
    match recovery {
        Recovery::Jog => "jog",
        Recovery::Walk => "walk",
        Recovery::Stand => "rest standing",
    }
}

/// A difference in how long a set takes that is worth a word, in seconds.
const NOTICED_S: f64 = 60.0;

/// How long a set takes, after a comma; nothing where that is not known.
fn set_takes(takes: Option<&SetTakes>) -> String {
    takes.map_or_else(String::new, |takes| {
        // A difference that a coach would not notice is not worth a word.
        let bound = if takes.is_proven || takes.lasts_s - takes.bound_s < NOTICED_S {
            String::new()
        } else {
            format!(" (no plan is under {})", minutes(takes.bound_s))
        };
        format!(", {}{bound}", minutes(takes.lasts_s))
    })
}

/// The runs that a remark is about, in front of it: nothing where it is about the whole block.
fn of_runs(runs: &[u32]) -> String {
    match runs {
        [] => String::new(),
        [run] => format!("Run {run}: "),
        runs => format!("Runs {}: ", joined(runs)),
    }
}

/// How a squad is cut: `3 abreast` (`3 together` in one lane), `2 waves of 3`, or `2 waves: 2 and 1`.
fn waves(sizes: &[usize], lanes: usize) -> String {
    match sizes {
        [1] => "Alone".to_owned(),
        [size] if lanes == 1 => format!("{size} together"),
        [size] => format!("{size} abreast"),
        [first, others @ ..] if others.iter().all(|size| size == first) => {
            format!("{} waves of {first}", sizes.len())
        }
        sizes => format!("{} waves: {}", sizes.len(), listed(sizes)),
    }
}

/// How many stay in the waves that they had.
fn waves_kept(kept: usize, of: usize, are_teams: bool) -> String {
    let who = if are_teams { "team" } else { "athlete" };
    match (kept, of) {
        (0, 1) => format!("The {who} is in another wave."),
        (0, _) => format!("Every {who} is in another wave."),
        (1, _) => format!("1 of {of} {who}s stays in the same wave."),
        _ => format!("{kept} of {of} {who}s stay in the same wave."),
    }
}
