//! Faults of a track's description in words.

use lane_distance::{Quantity, TrackFaultKind};

use crate::words::fault::{FaultWords, did_you_mean, helped, plain, quoted};

/// What is wrong, and what to write instead.
pub(crate) fn track_fault_words(kind: &TrackFaultKind) -> FaultWords {
    match kind {
        TrackFaultKind::NoName => plain("the track has no name"),
        TrackFaultKind::OutOfRange { quantity, value, low, high } => {
            plain(out_of_range(*quantity, *value, *low, *high))
        }
        TrackFaultKind::WidthCount { widths, lanes } => helped(
            format!("{widths} lane widths are given for {lanes} lanes"),
            "give one width for all lanes, or one for each lane from lane 1 outwards",
        ),
        TrackFaultKind::NoLane { lane, outermost } => {
            plain(format!("there is no lane {lane}: the track has lanes 1 to {outermost}"))
        }
        TrackFaultKind::StraightOrArc => helped(
            "a piece of the path is either a straight or an arc",
            "write `- straight: 84.39`, or `- { radius: 36.50, turn: 180 }`",
        ),
        TrackFaultKind::Path(error) => plain(error.to_string()),
        TrackFaultKind::SurveyedLap { surveyed_m, computed_m, most_m } => helped(
            format!(
                "the surveyed lap of {surveyed_m:.3} m differs by {:+.3} m from the computed lap of lane 1, \
                 {computed_m:.3} m; the most allowed is {most_m} m",
                surveyed_m - computed_m
            ),
            "check the radii and straights against the survey",
        ),
        TrackFaultKind::NoStraight(course) => plain(format!("the track has no {course}")),
        TrackFaultKind::HazardEndsFirst => helped(
            "the hazard ends before it begins: distances count down to the finish",
            "swap `from` and `to`",
        ),
        TrackFaultKind::HazardOffCourse { course, from_finish_m, length_m } => {
            plain(format!("{from_finish_m} m from the finish is not on the {course}: 0 m to {length_m:.2} m"))
        }
        TrackFaultKind::SetTwice(name) => {
            helped(format!("the mark set `{name}` is listed twice"), "list it once")
        }
        TrackFaultKind::UnknownSet { name, known } => {
            helped(format!("there is no mark set `{name}`"), format!("write one of {}", quoted(known, ", ")))
        }
        TrackFaultKind::UnknownWorn { name, near } => {
            (format!("the track has no mark `{name}`"), near.as_deref().map(did_you_mean))
        }
        TrackFaultKind::UnknownBase { mark, base, near } => (
            format!("the mark `{mark}` is placed from `{base}`, which the track does not have"),
            near.as_deref().map(did_you_mean),
        ),
        TrackFaultKind::PlacedFromItself { mark } => {
            plain(format!("the mark `{mark}` is placed from itself"))
        }
        TrackFaultKind::MarkOffStraight { mark, before_finish_m, course, length_m } => plain(format!(
            "the mark `{mark}` lies {before_finish_m} m before the finish, off the {course}: \
             it is {length_m:.2} m long with its chute"
        )),
        TrackFaultKind::BeforeFinishOnOval => helped(
            "`before_finish` places a mark on a straight, not on the oval",
            "write `on: home straight`, or `to_finish` for the oval",
        ),
        TrackFaultKind::Bends(bends) => {
            helped(format!("a race cannot break after {bends} bends"), "write 1 or 3")
        }
        TrackFaultKind::NeedsPartner { mark, key, partners } => {
            let partners = quoted(*partners, " or ");
            helped(
                format!("`{key}` of the mark `{mark}` needs {partners} as well"),
                format!("add {partners}, or leave out `{key}`"),
            )
        }
        TrackFaultKind::EmptyRule { mark, rule } => {
            helped(format!("`{rule}` of the mark `{mark}` gives no place"), "give it at least one")
        }
        TrackFaultKind::NoRule { mark } => helped(
            format!("nothing says where the mark `{mark}` is painted"),
            "add one of `to_finish`, `before_finish`, `hurdles`, `across`, `curve`, `at`, `from` or `race`",
        ),
        TrackFaultKind::SeveralRules { mark, rules } => {
            let all = if rules.len() == 2 { "both" } else { "all" };
            helped(format!("{} {all} place the mark `{mark}`", quoted(rules, " and ")), "keep one of them")
        }
    }
}

fn out_of_range(quantity: Quantity, value: f64, low: f64, high: f64) -> String {
    let (what, unit) = match quantity {
        Quantity::Lanes => {
            return format!("{value} lanes are out of range: a track has {low} to {high}");
        }
        Quantity::Rule(rule) => {
            return format!("{value} m is out of range for `{rule}`: {low} to {high} m");
        }
        Quantity::LaneWidth => ("lane width", " m"),
        Quantity::Radius => ("radius", " m"),
        Quantity::Turn => ("turn", "°"),
        Quantity::Straight => ("straight", " m"),
        Quantity::Chute => ("chute", " m"),
        Quantity::Bearing => ("bearing", "°"),
        Quantity::Tolerance => ("tolerance", " m"),
    };
    let north = if quantity == Quantity::Bearing { ", 0° is north" } else { "" };
    format!("a {what} of {value}{unit} is out of range: {low}{unit} to {high}{unit}{north}")
}

#[cfg(test)]
mod tests {
    use lane_distance::Track;
    use lane_distance::spec::{MarkSet, TrackSpec};

    use super::*;

    /// The marks of a track, and below them what is wrong with them.
    const FAULTS: &str = "\
own: [{ name: cone, colour: red, form: tick }]
  nothing says where the mark `cone` is painted
  add one of `to_finish`, `before_finish`, `hurdles`, `across`, `curve`, `at`, `from` or `race`
own: [{ name: cone, colour: red, form: tick, to_finish: 30, across: 30 }]
  `to_finish` and `across` both place the mark `cone`
  keep one of them
own: [{ name: cone, colour: red, form: tick, to_finish: -1 }]
  -1 m is out of range for `to_finish`: 0 to 10000 m
own: [{ name: tick, colour: red, form: tick, hurdles: { race: 400, first: 45, between: 0, count: 255 } }]
  0 m is out of range for `between`: 1 to 10000 m
own: [{ name: cone, colour: red, form: tick, across: -10001 }]
  -10001 m is out of range for `across`: -10000 to 10000 m
own: [{ name: cone, colour: red, form: tick, across: [] }]
  `across` of the mark `cone` gives no place
  give it at least one
own: [{ name: odd start, colour: white, form: line across, race: 800, bends: 2 }]
  a race cannot break after 2 bends
  write 1 or 3
own: [{ name: cone, colour: red, form: tick, before_finish: 30, on: oval }]
  `before_finish` places a mark on a straight, not on the oval
  write `on: home straight`, or `to_finish` for the oval
own: [{ name: cone, colour: red, form: tick, to_finish: 30, on: oval }]
  `on` of the mark `cone` needs `before_finish` or `hurdles` as well
  add `before_finish` or `hurdles`, or leave out `on`
own: [{ name: cone, colour: red, form: tick, before_finish: 130 }]
  the mark `cone` lies 130 m before the finish, off the home straight: it is 113.00 m long with its chute
sets: [standard, club marks]
  there is no mark set `club marks`
  write one of SETS
sets: [standard, standard]
  the mark set `standard` is listed twice
  list it once
worn: [{ mark: 400 m strat }]
  the track has no mark `400 m strat`
  did you mean `400 m start`?
worn: [{ mark: zzzz }]
  the track has no mark `zzzz`
own: [{ name: cone, colour: red, form: tick, from: the old oak, past: 3 }]
  the mark `cone` is placed from `the old oak`, which the track does not have
own: [{ name: cone, colour: red, form: tick, from: cone, past: 3 }]
  the mark `cone` is placed from itself
";

    #[test]
    fn faults_of_marks_are_sentences() {
        let mut shown = String::new();
        for marks in FAULTS.lines().filter(|line| !line.starts_with(' ')) {
            let mut spec = TrackSpec::built_in("standard").expect("it comes with the crate");
            spec.marks = serde_yaml::from_str(marks).unwrap_or_else(|error| panic!("{error}: {marks}"));
            shown += &format!("{marks}\n");
            for fault in Track::build(&spec).expect_err("the marks have a fault").iter() {
                let (message, help) = track_fault_words(&fault.kind);
                [Some(message), help].iter().flatten().for_each(|line| shown += &format!("  {line}\n"));
            }
        }
        assert_eq!(shown, FAULTS.replace("SETS", &quoted(MarkSet::built_in_names(), ", ")));
    }
}
