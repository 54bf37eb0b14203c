//! Values of a known form, with every fault that kept parts of them from being read.

use lane_distance::Key;
use serde::de::DeserializeOwned;
use serde_path_to_error::Segment;
use serde_yaml::Value;

use crate::files::fault::Fault;
use crate::files::form_words::{self, KEY, Wrong};

/// The most faults of form that are told of one file.
const MOST_FAULTS: usize = 50;

/// A value of a known form, as far as it could be read.
pub(crate) struct Typed<T> {
    /// The value. Where there are faults, it serves only to look for more: parts with a fault are left
    /// out, or something else stands in for them.
    pub(crate) value: Option<T>,
    /// What kept parts of it from being read.
    pub(crate) faults: Vec<Fault>,
    /// The ways to those parts.
    pub(crate) unsure: Unsure,
}

/// Ways to the parts of a value that could not be read: what is said of them, or follows from them, is
/// not to be told.
#[derive(Clone, Debug, Default)]
pub(crate) struct Unsure(Vec<Vec<Key>>);

impl Unsure {
    /// Whether a part is one of them, or within one.
    pub(crate) fn holds(&self, at: &[Key]) -> bool {
        self.0.iter().any(|unsure| !unsure.is_empty() && at.starts_with(unsure))
    }

    /// Whether a part is one of them, is within one, or has one within it.
    pub(crate) fn touches(&self, at: &[Key]) -> bool {
        self.holds(at) || self.0.iter().any(|unsure| unsure.starts_with(at))
    }

    /// The ways to them.
    pub(crate) fn ways(&self) -> impl Iterator<Item = &[Key]> {
        self.0.iter().map(Vec::as_slice)
    }

    /// Adds the parts of another value.
    pub(crate) fn extend(&mut self, other: Self) {
        self.0.extend(other.0);
    }
}

/// Reads a value that stands `within` a larger one.
pub(crate) fn typed<T: DeserializeOwned>(value: &mut Value, within: &[Key]) -> Typed<T> {
    let mut faults: Vec<(Wrong, Fault)> = Vec::new();
    let mut unsure: Vec<Vec<Key>> = Vec::new();
    let mut read = None;
    while faults.len() < MOST_FAULTS {
        let error = match serde_path_to_error::deserialize::<_, T>(&*value) {
            Ok(typed) => {
                read = Some(typed);
                break;
            }
            Err(error) => error,
        };
        let mut at = keys(error.path());
        let wrong = Wrong::of(&error.inner().to_string());
        let mended = match &wrong {
            Wrong::Unknown { name, .. } => {
                // The way leads to the unknown name itself, or to the mapping that holds it.
                if at.last() == Some(&Key::from(name.as_str())) {
                    at.pop();
                }
                let holder = at.clone();
                at.push(Key::from(name.as_str()));
                unsure.push(at.clone());
                unsure.extend(wrong.meant().map(|meant| [holder.as_slice(), &[Key::from(meant)]].concat()));
                remove(value, &holder, name)
            }
            Wrong::Missing { name } => {
                let missing = [at.as_slice(), &[Key::from(name.as_str())]].concat();
                let is_told = unsure.iter().any(|way| missing.starts_with(way));
                unsure.push(missing);
                let mended = stand_in::<T>(value, &at, name);
                // Its value was of the wrong type, or that of its mapping.
                if is_told && mended {
                    continue;
                }
                mended
            }
            Wrong::Word { known, .. } => {
                unsure.push(at.clone());
                put(value, &at, known.first().cloned().map_or(Value::Null, Value::String))
            }
            Wrong::Type { expected, .. } if expected == KEY => {
                let mapping = at_mut(value, &at).and_then(Value::as_mapping_mut);
                mapping.map(|mapping| mapping.retain(|key, _| key.is_string())).is_some()
            }
            Wrong::Type { .. } | Wrong::Other(_) => {
                unsure.push(at.clone());
                replace::<T>(value, &at)
            }
        };
        let at = [within, &at].concat();
        let (message, help) = form_words::words(&wrong, &at);
        faults.push((wrong, Fault { at, message, help }));
        if !mended {
            break;
        }
    }
    let unsure = unsure.into_iter().map(|at| [within, &at].concat()).collect();
    Typed { value: read, faults: without_misspelt(faults), unsure: Unsure(unsure) }
}

/// A key that is missing because its name is misspelt has one fault, not two.
fn without_misspelt(faults: Vec<(Wrong, Fault)>) -> Vec<Fault> {
    let meant: Vec<Vec<Key>> = faults
        .iter()
        .filter_map(|(wrong, fault)| {
            let holder = fault.at.split_last()?.1;
            Some([holder, &[Key::from(wrong.meant()?)]].concat())
        })
        .collect();
    let is_told = |(wrong, fault): &(Wrong, Fault)| match wrong {
        Wrong::Missing { name } => {
            !meant.contains(&[fault.at.as_slice(), &[Key::from(name.as_str())]].concat())
        }
        _ => true,
    };
    faults.into_iter().filter(is_told).map(|(_, fault)| fault).collect()
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

fn put(value: &mut Value, at: &[Key], other: Value) -> bool {
    at_mut(value, at).map(|place| *place = other).is_some()
}

fn remove(value: &mut Value, holder: &[Key], name: &str) -> bool {
    let holder = at_mut(value, holder).and_then(Value::as_mapping_mut);
    holder.is_some_and(|holder| holder.remove(name).is_some())
}

/// Things that may stand in for a value of unknown type.
fn stand_ins() -> [Value; 6] {
    [
        Value::Number(1.into()),
        Value::String("1".to_owned()),
        Value::Sequence(Vec::new()),
        Value::Mapping(serde_yaml::Mapping::new()),
        Value::Bool(true),
        Value::Null,
    ]
}

/// Puts something in for a key that is missing, so that reading goes on behind it.
fn stand_in<T: DeserializeOwned>(value: &mut Value, holder: &[Key], name: &str) -> bool {
    let Some(mapping) = at_mut(value, holder).and_then(Value::as_mapping_mut) else { return false };
    mapping.insert(Value::String(name.to_owned()), Value::Null);
    let at = [holder, &[Key::from(name)]].concat();
    stands::<T>(value, &at)
}

/// Takes out a value of the wrong type: a named one is left away, and something else stands in for one
/// of a list.
fn replace<T: DeserializeOwned>(value: &mut Value, at: &[Key]) -> bool {
    match at.split_last() {
        None => false,
        Some((Key::Name(name), holder)) => remove(value, holder, name),
        Some((Key::Index(_), _)) => stands::<T>(value, at),
    }
}

/// Tries one thing after the other at a place, until reading goes on behind it.
fn stands<T: DeserializeOwned>(value: &mut Value, at: &[Key]) -> bool {
    let mut known_word = None;
    for candidate in stand_ins() {
        for candidate in std::iter::once(candidate).chain(known_word.take()) {
            if !put(value, at, candidate) {
                return false;
            }
            let Err(error) = serde_path_to_error::deserialize::<_, T>(&*value) else { return true };
            let found = keys(error.path());
            match Wrong::of(&error.inner().to_string()) {
                // One of a few words: the first of them stands.
                Wrong::Word { known, .. } if found == at => {
                    known_word = known.first().cloned().map(Value::String);
                }
                // A mapping that lacks keys of its own stands as well: they are told next.
                Wrong::Missing { .. } if found == at => return true,
                _ if found.starts_with(at) => {}
                _ => return true,
            }
        }
    }
    false
}
