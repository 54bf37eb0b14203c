//! YAML texts whose faults have a place.

use lane_distance::{Fault, Key};
use serde::de::DeserializeOwned;
use serde_path_to_error::Segment;
use serde_yaml::Value;

use crate::places::Places;
use crate::problem::{Problem, Problems, SourceText};

/// The largest file that is read, in bytes.
pub const LARGEST_FILE: u64 = 1024 * 1024;

/// The most faults of form that are told of one file.
const MOST_FAULTS: usize = 50;

/// A YAML text as values without types.
pub(crate) fn value(source: &SourceText) -> Result<Value, Problems> {
    let places = Places::of(&source.text);
    if let Some(span) = places.too_deep {
        let problem = Problem::new(span, "values are nested too deep").with_help("nest them less");
        return Err(Problems::new(source.clone(), vec![problem]));
    }
    serde_yaml::from_str(&source.text).map_err(|error| {
        let at = error.location().map_or(0, |location| location.index()).min(source.text.len());
        let at = (at..=source.text.len()).find(|&at| source.text.is_char_boundary(at)).unwrap_or(0);
        let problem = Problem::new(at..at, without_place(&error.to_string()));
        Problems::new(source.clone(), vec![problem])
    })
}

/// A typed value, with every fault of form that kept parts of it from being read. Parts with a fault
/// are left out or stand in with something else: where there are faults, the value serves only to
/// look for more.
pub(crate) fn typed<T: DeserializeOwned>(value: &mut Value, within: &[Key]) -> (Option<T>, Vec<Fault>) {
    let mut faults: Vec<Fault> = Vec::new();
    while faults.len() < MOST_FAULTS {
        let error = match serde_path_to_error::deserialize::<_, T>(&*value) {
            Ok(typed) => return (Some(typed), without_misspelt(faults)),
            Err(error) => error,
        };
        let at = keys(error.path());
        let message = error.inner().to_string();
        let mut fault = Fault::new([within, &at].concat(), without_place(&message));
        fault.help = nearest_known(&message).map(|near| format!("did you mean `{near}`?"));
        let mended = match quoted(&message, "unknown field ") {
            // The way leads to the unknown name itself, or to the mapping that holds it.
            Some(name) => {
                let holder = if at.last() == Some(&Key::from(name)) { &at[..at.len() - 1] } else { &at };
                fault.at = [within, holder, &[Key::from(name)]].concat();
                remove(value, holder, name)
            }
            None => match quoted(&message, "missing field ") {
                Some(name) => stand_in::<T>(value, &at, name),
                None => replace::<T>(value, &at, &message),
            },
        };
        faults.push(fault);
        if !mended {
            break;
        }
    }
    (None, without_misspelt(faults))
}

/// A field that is missing because its name is misspelt has one fault, not two.
fn without_misspelt(faults: Vec<Fault>) -> Vec<Fault> {
    let is_meant = |fault: &Fault| {
        quoted(&fault.message, "missing field ").is_some_and(|name| {
            let help = format!("did you mean `{name}`?");
            faults.iter().any(|other| other.help.as_deref() == Some(help.as_str()))
        })
    };
    faults.iter().filter(|fault| !is_meant(fault)).cloned().collect()
}

/// Gives faults of a value their place in the text that it was read from. A fault below another is
/// left out: it speaks of what stood in.
pub(crate) fn locate(source: &SourceText, faults: Vec<Fault>) -> Problems {
    let places = Places::of(&source.text);
    let mut problems: Vec<Problem> = Vec::new();
    for fault in faults {
        let is_name = fault.message.starts_with("unknown field ");
        let span = if is_name { places.name(&fault.at) } else { places.value(&fault.at) };
        let problem = Problem { span, message: fault.message, help: fault.help };
        if !problems.contains(&problem) {
            problems.push(problem);
        }
    }
    Problems::new(source.clone(), problems)
}

fn keys(path: &serde_path_to_error::Path) -> Vec<Key> {
    path.iter()
        .filter_map(|segment| match segment {
            Segment::Seq { index } => Some(Key::Index(*index)),
            Segment::Map { key } => Some(Key::Name(key.clone())),
            Segment::Enum { .. } | Segment::Unknown => None,
        })
        .collect()
}

fn at_mut<'a>(value: &'a mut Value, keys: &[Key]) -> Option<&'a mut Value> {
    keys.iter().try_fold(value, |value, key| match key {
        Key::Name(name) => value.get_mut(name.as_str()),
        Key::Index(index) => value.get_mut(*index),
    })
}

fn remove(value: &mut Value, holder: &[Key], name: &str) -> bool {
    let holder = at_mut(value, holder).and_then(Value::as_mapping_mut);
    holder.is_some_and(|holder| holder.remove(name).is_some())
}

/// Things that may stand in for a value of unknown type.
fn stand_ins() -> [Value; 7] {
    let text = |text: &str| Value::String(text.to_owned());
    [
        Value::Number(1.into()),
        text("white"),
        text("line across"),
        Value::Sequence(Vec::new()),
        Value::Mapping(serde_yaml::Mapping::new()),
        Value::Bool(true),
        Value::Null,
    ]
}

/// Puts something in for a field that is missing, so that reading goes on behind it.
fn stand_in<T: DeserializeOwned>(value: &mut Value, holder: &[Key], name: &str) -> bool {
    let missing = format!("missing field `{name}`");
    let way = [holder, &[Key::from(name)]].concat();
    for candidate in stand_ins() {
        let Some(mapping) = at_mut(value, holder).and_then(Value::as_mapping_mut) else { return false };
        mapping.insert(Value::String(name.to_owned()), candidate);
        match serde_path_to_error::deserialize::<_, T>(&*value) {
            Ok(_) => return true,
            Err(error) => {
                let at = keys(error.path());
                let is_here =
                    at.starts_with(&way) || at == holder && error.inner().to_string().contains(&missing);
                if !is_here {
                    return true;
                }
            }
        }
    }
    false
}

/// Takes out a value of the wrong type: a named one is left away, one of a list is replaced.
fn replace<T: DeserializeOwned>(value: &mut Value, at: &[Key], message: &str) -> bool {
    let Some((last, holder)) = at.split_last() else { return false };
    match last {
        Key::Name(name) => remove(value, holder, name),
        Key::Index(_) => stand_ins().into_iter().any(|candidate| {
            let Some(place) = at_mut(value, at) else { return false };
            *place = candidate;
            match serde_path_to_error::deserialize::<_, T>(&*value) {
                Ok(_) => true,
                Err(error) => !keys(error.path()).starts_with(at) && error.inner().to_string() != message,
            }
        }),
    }
}

/// The reader's messages name the place in their own way; it is said once, by line and column.
fn without_place(message: &str) -> String {
    let end = message.rfind(" at line ").unwrap_or(message.len());
    message[..end].to_owned()
}

/// The quoted word behind the beginning of a message.
fn quoted<'a>(message: &'a str, beginning: &str) -> Option<&'a str> {
    let at = message.find(beginning)? + beginning.len();
    message[at..].strip_prefix('`')?.split('`').next()
}

/// For "unknown field `a`, expected one of `b`, `c`": the expected name most like the wrong one.
fn nearest_known(message: &str) -> Option<&str> {
    let mut quoted = message.split('`').skip(1).step_by(2);
    let wrong = message.starts_with("unknown").then(|| quoted.next()).flatten()?;
    quoted
        .map(|known| (strsim::jaro_winkler(wrong, known), known))
        .filter(|(likeness, _)| *likeness > 0.7)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, known)| known)
}
