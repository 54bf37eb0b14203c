//! What is wrong with a file, in words.

use lane_distance::{Key, Track};
use session_plan::{Expected, FileFault, FileFaultKind, Found, Limit, Named, SessionNumber, UnknownName};

use crate::words::fault::{FaultWords, did_you_mean, helped, plain, quoted};
use crate::words::late_fault::late_fault_words;
use crate::words::names::{all_called, called};
use crate::words::numbers::{clock, metres};
use crate::words::plan_fault::plan_fault_words;
use crate::words::track_fault::track_fault_words;

/// Up to this many known words are all listed: the most similar may be the opposite of what was meant.
const FEW: usize = 4;

/// What is wrong, and what to write instead if that is known.
///
/// ```
/// use session_plan::SessionFile;
/// use workout_notation::SourceText;
///
/// let source = SourceText::new("tuesday.yaml", "title: Tuesday\nblock: [200]");
/// let faults = SessionFile::read(source).expect_err("a letter is missing").faults;
/// let (message, help) = plan_sheet::file_fault_words(&faults[0]);
/// assert_eq!(message, "unknown key `block`");
/// assert_eq!(help.as_deref(), Some("did you mean `blocks`?"));
/// ```
pub fn file_fault_words(fault: &FileFault) -> (String, Option<String>) {
    let at = fault.at.as_slice();
    match &fault.kind {
        FileFaultKind::NotYaml { reason } => helped(
            format!("this is not valid YAML: {reason}"),
            "look near here for a bracket, a quote, a colon or a space too many or too few",
        ),
        FileFaultKind::UnknownAlias => {
            helped("`*` needs a value named before it with `&`", "put quotes round it if it is text")
        }
        FileFaultKind::TooMuch(limit) => {
            helped(format!("too many {}: at most {}", limit.words(), limit.most()), less(*limit))
        }
        FileFaultKind::SeveralDocuments => {
            helped("the file holds more than one document", "remove the line `---` and all that follows it")
        }
        FileFaultKind::Empty => plain("the file is empty"),
        FileFaultKind::RepeatedKey(name) => {
            helped(format!("the key `{name}` is written twice"), "keep one of them")
        }
        FileFaultKind::KeyNotText(found) => {
            plain(format!("a key must be text, not {}", found_words(found).as_deref().unwrap_or("empty")))
        }
        FileFaultKind::UnknownKey(name) => (format!("unknown key `{}`", name.name), instead(name)),
        FileFaultKind::MissingKey(name) => (format!("the key `{name}` is missing"), example("add", at)),
        FileFaultKind::WrongType { expected, found } => wrong_type(*expected, found, at),
        FileFaultKind::UnknownWord(word) => {
            let help = if word.known.len() <= FEW { one_of(&word.known) } else { instead(word) };
            (format!("`{}` is not a valid {}", word.name, named(at)), help)
        }
        FileFaultKind::NotATimezone(error) => helped(
            format!("there is no time zone `{}`", error.name),
            error.near.map_or_else(
                || "write a name from the IANA database, for example `Europe/London`".to_owned(),
                did_you_mean,
            ),
        ),
        FileFaultKind::Notation(problem) => (problem.message.clone(), problem.help.clone()),
        FileFaultKind::Plan(fault) => plan_fault_words(&fault.value),
        FileFaultKind::Track(kind) => track_fault_words(kind),
        FileFaultKind::RuleFitsNoRun => plain("no run fits this rule: its distances exclude each other"),
        FileFaultKind::OutOfRange { of, value, least, most } => {
            let (what, unit) = match of {
                SessionNumber::Stride => ("a stride of", " m"),
                SessionNumber::RiegelExponent => ("an exponent of", ""),
                SessionNumber::Year => ("the year", ""),
                SessionNumber::Reps => ("a number of repetitions of", ""),
                SessionNumber::Wind => ("a wind of", " m/s"),
                SessionNumber::Most => ("a number of athletes of", ""),
            };
            let message = format!("{what} {value}{unit} is out of range: {least}{unit} to {most}{unit}");
            (message, example("write", at))
        }
        FileFaultKind::EmptyName(of) => {
            let (what, example) = match of {
                Named::Session => ("the session's title", "`title: Tuesday`"),
                Named::Group => ("a group's name", "`name: sprinters`"),
                Named::Athlete => ("an athlete's name", "`Ada`, or a number such as `7`"),
            };
            helped(format!("{what} is empty"), format!("write for example {example}"))
        }
        FileFaultKind::SameName(of, name) => {
            let (who, help) = match of {
                Named::Athlete => ("athletes", "add an initial to one of the names"),
                Named::Group | Named::Session => ("groups", "rename one of them"),
            };
            helped(format!("two {who} are called `{name}`"), help)
        }
        FileFaultKind::GuideAlone(guide) => helped(
            format!("{guide} guides nobody"),
            format!("name the athlete as well, for example `{{ name: Ada, guide: {guide} }}`"),
        ),
        FileFaultKind::GuideTwice(guide) => helped(
            format!("{guide} guides, and has another run at the same time"),
            "name each guide once, and not among the athletes",
        ),
        FileFaultKind::NotInGroup { name, group, names } => {
            let known = match names.as_slice() {
                [] => "the group names nobody".to_owned(),
                names => format!("the group has {}", all_called(names)),
            };
            helped(format!("nobody of {group} is called `{name}`; {known}"), RELAY)
        }
        FileFaultKind::HandsToOneself(name) => {
            helped(format!("{0} cannot hand the baton to {0}", called(name)), RELAY)
        }
        FileFaultKind::InTwoTeams(name) => {
            helped(format!("{} is in two relay teams", called(name)), "leave the name in one of them")
        }
        FileFaultKind::TeamOfOne(Some(name)) => {
            helped(format!("{} has nobody to hand the baton to", called(name)), RELAY)
        }
        FileFaultKind::TeamOfOne(None) => helped("a relay team is empty".to_owned(), RELAY),
        FileFaultKind::TargetTooSlow { distance_m, target_s } => helped(
            format!("{} m in {} is slower than walking", metres(*distance_m), clock(*target_s)),
            "write the distance and its time, for example `targets: { 200: 30, 1000: 3:20 }`",
        ),
        FileFaultKind::NoBlocks => {
            helped("the session has no blocks", "write for example `- 6 x 200 in lane 2` below `blocks:`")
        }
        FileFaultKind::NoTrack { name, path } => helped(
            format!("there is no built-in track `{name}`, and no track file `{path}`"),
            format!("write one of {}, or the path of a track file", quoted(Track::built_in_names(), ", ")),
        ),
        FileFaultKind::Late(fault) => plain(late_fault_words(fault)),
    }
}

/// What to do where there is too much of something.
const fn less(limit: Limit) -> &'static str {
    match limit {
        Limit::AliasedBytes => "write the values out",
        Limit::Depth => "use fewer levels",
        Limit::ValueBytes | Limit::NameLetters => "make it shorter",
        Limit::FileBytes
        | Limit::TextBytes
        | Limit::Groups
        | Limit::Athletes
        | Limit::BlockLines
        | Limit::Blocks
        | Limit::Reps
        | Limit::Runs => "split it into several sessions",
        Limit::PrintedLines | Limit::PicturedLines | Limit::PageLines => {
            "write fewer groups, blocks or sessions at a time"
        }
        Limit::Items | Limit::Marks | Limit::WornMarks | Limit::Hazards | Limit::Pieces => {
            "leave some of them out"
        }
    }
}

/// What a list of relay teams looks like.
const RELAY: &str = "write teams in the order of the baton, for example `relay: [[Ada, Bea], [Cyd, Dan]]`";

fn wrong_type(expected: Expected, found: &Found, at: &[Key]) -> FaultWords {
    // Texts with a form of their own: the form is the help.
    if let Found::Text(text) = found
        && let Some((what, help)) = match expected {
            Expected::Length => Some((
                "a length",
                "write metres as a number (84.39), or with a unit (84.39 m, 110 yd, 4 ft, 4 ft 6 in)",
            )),
            Expected::Hours => {
                Some(("a range of times", "write for example `17:00-18:30`, the earlier time first"))
            }
            Expected::Date => Some(("a date", "write for example `2027-04-13`")),
            Expected::TimeOfDay => Some(("a time of day", "write for example `18:30`")),
            Expected::PageAddress => Some((
                "the address of a page",
                "write for example `https://example.org/tuesday.html`, at most 200 letters",
            )),
            Expected::AgeGroup => Some(("an age group", AGE_GROUPS)),
            Expected::Since => Some(("a time", "write `now`, or for example `18:30`")),
            _ => None,
        }
    {
        return helped(format!("`{text}` is not {what}"), help);
    }
    let (what, expected) = (named(at), expected_words(expected));
    let message = match found_words(found) {
        Some(found) => format!("{what} must be {expected}, not {found}"),
        None => format!("{what} is empty; it must be {expected}"),
    };
    let is_relay = matches!(at, [.., Key::Name(name), Key::Index(_)] if name == "relay");
    let help = if is_relay { Some(RELAY.to_owned()) } else { example("write", at) };
    (message, help)
}

fn instead(name: &UnknownName) -> Option<String> {
    if let Some(holder) = name.below() {
        return Some(format!("it belongs below `{holder}`: `{holder}: {{ {}: … }}`", name.name));
    }
    name.near.map(did_you_mean).or_else(|| one_of(&name.known))
}

fn one_of(known: &[&str]) -> Option<String> {
    (!known.is_empty()).then(|| format!("write one of {}", quoted(known, ", ")))
}

/// The value as people point to it.
fn named(at: &[Key]) -> String {
    match at {
        [] => "the file".to_owned(),
        [.., Key::Name(name), Key::Index(index)] => format!("item {} of `{name}`", index + 1),
        [.., Key::Name(name)] => format!("`{name}`"),
        [.., Key::Index(index)] => format!("item {}", index + 1),
    }
}

/// What is there; nothing where it is empty.
fn found_words(found: &Found) -> Option<String> {
    match found {
        Found::Nothing => None,
        Found::Text(text) => Some(format!("the text {text:?}")),
        Found::Number(text) => Some(format!("`{text}`")),
        Found::List => Some("a list".to_owned()),
        Found::Mapping => Some("a group of keys".to_owned()),
    }
}

/// How an age group is written.
const AGE_GROUPS: &str =
    "write one of `U11`, `U13`, `U15`, `U17`, `U20`, `senior`, or for example `M50` or `W60`";

fn expected_words(expected: Expected) -> &'static str {
    match expected {
        Expected::WholeNumber => "a whole number",
        Expected::SmallNumber => "a whole number from 0 to 255",
        Expected::Number => "a number",
        Expected::Text => "text",
        Expected::List => "a list",
        Expected::Mapping => "a group of keys",
        Expected::Length => "a length, such as `84.39` or `110 yd`",
        Expected::ClosedLanes => "a list of lanes, or lanes with a reason",
        Expected::SquadLanes => "a list of lanes, `keep` or `turn`",
        Expected::Time => "a time, such as `48.5`, `2:08` or `5min`",
        Expected::RaceDistance => "a race distance, such as `800`, `5k` or `mile`",
        Expected::Date => "a date",
        Expected::Hours => "a range of times, such as `17:00-18:30`",
        Expected::TimeOfDay => "a time of day, such as `18:30`",
        Expected::PageAddress => "the address of a page, such as `https://example.org/tuesday.html`",
        Expected::AgeGroup => "an age group, such as `U13`, `senior` or `M50`",
        Expected::Since => "`now`, or a time of day such as `18:30`",
        Expected::Name => "the name of an athlete",
        Expected::Timezone => "a time zone, such as `Europe/London`",
        Expected::Athlete => "an athlete's name or number, or a group of keys with `name`",
        Expected::Block => "a line of the notation, such as `6 x 200 in lane 2`",
    }
}

/// An example of a value, after the verb that says what to do: ``write for example `name: value` ``.
fn example(verb: &str, at: &[Key]) -> Option<String> {
    let (Key::Name(name), holder) = at.split_last()? else { return None };
    // Of a mark, a hazard or a rule; or of the lanes that are closed.
    let is_in_row = holder.iter().any(|key| matches!(key, Key::Index(_)));
    let is_list =
        is_in_row || ["closed_lanes", "squad"].map(Key::from).iter().any(|key| holder.first() == Some(key));
    let value = match name.as_str() {
        "lanes" if is_list => "[2, 3]",
        "lanes" => "8",
        "name" if holder.first() == Some(&Key::from("groups")) => "sprinters",
        "name" if is_in_row => "gate line",
        "name" => "Wrenbeck",
        "title" => "Tuesday sprints",
        "date" => "2027-04-13",
        "start" | "late" => "18:30",
        "reps" => "4",
        "without" => "[Ada]",
        "blocks" => "[6 x 200 in lane 2]",
        "notes" => "[no spikes]",
        "path" => {
            return Some(format!("{verb} `path:` with a list of its pieces, such as `- straight: 84.39`"));
        }
        "lane_width" => "1.22",
        "bearing" => "65",
        "home_straight" | "back_straight" => "{ lanes: 8, chute: 28.61 }",
        "chute" => "28.61",
        "closed_lanes" => "[1]",
        "reason" => "new surface",
        "surveyed_lap" => "400.02",
        "radius" => "36.50",
        "straight" => "84.39",
        "turn" => "180",
        "bends" => "1",
        "colour" => "white",
        "form" => "tick",
        "kind" => "gate",
        "side" => "inside",
        "from" | "to" => "250",
        "to_finish" | "before_finish" => "50",
        "race" => "400",
        "first" => "45",
        "between" => "35",
        "count" => "10",
        "sets" => "[standard, club lines]",
        "mark" => "400 m start",
        "stride" => "0.85",
        "riegel_exponent" => "1.06",
        "force" => "true",
        "targets" => "{ 200: 30, 1000: 3:20 }",
        "relay" => "[[Ada, Bea], [Cyd, Dan]]",
        _ => return None,
    };
    Some(format!("{verb} for example `{name}: {value}`"))
}
