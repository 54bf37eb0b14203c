//! Reads values of any type out of a document, with every fault that keeps parts of them from being
//! read.
//!
//! Other readers stop at the first fault. This one notes it, lets a value of the right type stand in,
//! and reads on. It can, because a type says what it needs before it is given a value; a type that takes
//! several forms says its name (`deserialize_newtype_struct`), and the names are known here. Only a
//! missing key is heard of too late: then the value is read again, with something in its place.

use std::cell::{Cell, RefCell};
use std::fmt;
use std::str::FromStr;

use chrono::NaiveDate;
use lane_distance::Key;
use lane_distance::spec::LengthSpec;
use serde::de::value::{F64Deserializer, MapDeserializer, SeqDeserializer, StrDeserializer};
use serde::de::{self, DeserializeOwned, Deserializer, IntoDeserializer, Visitor};
use workout_notation::{self as notation, Problem};

use crate::files::document::Document;
use crate::files::file_fault::{Expected, FileFault, FileFaultKind, MOST_FAULTS, UnknownName};
use crate::files::node::{Node, Value};
use crate::files::unsure::Unsure;
use crate::people::age_group::AgeGroup;
use crate::people::hours::Hours;
use crate::people::page_address::PageAddress;
use crate::people::since::Since;
use crate::people::time_of_day::TimeOfDay;
use crate::people::timezone::Timezone;

/// The most missing keys that something stands in for; a wrong value can be missing several.
const MOST_MISSING: usize = 4 * MOST_FAULTS;

/// Keys that stand in a group of keys, by the name of its type, and are read apart from it.
pub(crate) type KeysApart = &'static [(&'static str, &'static [&'static str])];

/// The type whose name alone will do, in place of a group of keys.
const ATHLETE: &str = "Athlete";
/// A block, for which its text will do.
const BLOCK: &str = "BlockItem";

/// Stands in for a value that is not there, or cannot be read.
static MISSING: Node = Node { span: 0..0, value: Value::Missing };

/// Reads values out of a document, and keeps its faults.
pub(crate) struct Reader<'d> {
    document: &'d Document,
    keys_apart: KeysApart,
    faults: RefCell<Vec<FileFault>>,
    /// How many faults there are beside those.
    more: Cell<usize>,
    unsure: RefCell<Unsure>,
    /// The keys that are missing.
    missing: RefCell<Vec<Vec<Key>>>,
}

impl<'d> Reader<'d> {
    pub(crate) fn new(document: &'d Document, keys_apart: KeysApart) -> Self {
        let faults = RefCell::new(document.repeated.clone());
        Self {
            document,
            keys_apart,
            faults,
            more: Cell::new(0),
            unsure: RefCell::default(),
            missing: RefCell::default(),
        }
    }

    /// The value that keys lead to; nothing where there is none, or where nothing can stand in for it.
    ///
    /// Where it has faults, it serves only to look for more; where there are many, it is not given.
    pub(crate) fn read<T: DeserializeOwned>(&self, at: &[Key]) -> Option<T> {
        let node = self.document.root.at(at)?;
        let more = self.more.get();
        let (mut faults, mut unsure) = (self.faults.borrow().len(), self.unsure.borrow().0.len());
        loop {
            match T::deserialize(Cursor { node, at: at.to_vec(), reader: self }) {
                Err(Stop::Without(fault)) if self.missing.borrow().len() < MOST_MISSING => {
                    // Read again from here on, with something in its place.
                    let follows = self.unsure.borrow().holds(&fault.at);
                    self.missing.borrow_mut().push(fault.at.clone());
                    self.unsure.borrow_mut().0.truncate(unsure);
                    self.unsure.borrow_mut().0.push(fault.at.clone());
                    self.faults.borrow_mut().truncate(faults);
                    self.more.set(more);
                    if !follows {
                        self.faults.borrow_mut().push(*fault);
                    }
                    (faults, unsure) = (self.faults.borrow().len(), unsure + 1);
                }
                read => return read.ok().filter(|_| self.faults.borrow().len() < MOST_FAULTS),
            }
        }
    }

    /// What is wrong with the values that were read, beside the keys that are written twice; how many faults there are
    /// beside those; and the parts that could not be read.
    pub(crate) fn into_faults(self) -> (Vec<FileFault>, usize, Unsure) {
        (self.faults.into_inner(), self.more.into_inner(), self.unsure.into_inner())
    }
}

/// Why reading has stopped.
#[derive(Debug, thiserror::Error)]
#[error("{self:?}")]
enum Stop {
    /// A key is missing in the value that is being read.
    Missing(&'static str),
    /// A key is missing, with its fault.
    Without(Box<FileFault>),
    /// Nothing can stand in for a value.
    Never,
}

impl de::Error for Stop {
    fn custom<T: fmt::Display>(_: T) -> Self {
        Self::Never
    }

    fn missing_field(name: &'static str) -> Self {
        Self::Missing(name)
    }
}

/// A value of the document that is being read.
#[derive(Clone)]
struct Cursor<'a> {
    node: &'a Node,
    at: Vec<Key>,
    reader: &'a Reader<'a>,
}

impl<'a> Cursor<'a> {
    fn child(&self, key: Key, node: &'a Node) -> Self {
        Self { node, at: [self.at.as_slice(), &[key]].concat(), reader: self.reader }
    }

    /// Notes a fault of this value.
    fn note(&self, kind: FileFaultKind) {
        if self.reader.faults.borrow().len() < MOST_FAULTS {
            self.reader.faults.borrow_mut().push(self.fault(self.at.clone(), kind));
        } else {
            self.reader.more.set(self.reader.more.get() + 1);
        }
        self.reader.unsure.borrow_mut().0.push(self.at.clone());
    }

    fn fault(&self, at: Vec<Key>, kind: FileFaultKind) -> FileFault {
        FileFault { span: self.node.span.clone(), at, kind }
    }

    fn note_type(&self, expected: Expected) {
        if !matches!(self.node.value, Value::Missing) {
            self.note(FileFaultKind::WrongType { expected, found: self.node.found() });
        }
    }

    /// What a text or a number is read as; a fault where it cannot be.
    fn read<T>(
        &self,
        expected: Expected,
        read: impl Fn(&str) -> Result<T, Option<FileFaultKind>>,
    ) -> Option<T> {
        match self.node.written().map(read) {
            Some(Ok(value)) => return Some(value),
            Some(Err(Some(kind))) => self.note(kind),
            Some(Err(None)) | None => self.note_type(expected),
        }
        None
    }

    /// A number that the notation reads.
    fn notation(&self, expected: Expected, read: fn(&str) -> Result<f64, Problem>) -> Option<f64> {
        self.read(expected, |text| read(text).map_err(|problem| Some(FileFaultKind::Notation(problem))))
    }

    /// Gives a text to a type that can read it, or else another one.
    fn text<'de, T: FromStr, V: Visitor<'de>>(
        &self,
        expected: Expected,
        other: &'static str,
        wrong: fn(T::Err) -> Option<FileFaultKind>,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let text = self.read(expected, |text| text.parse::<T>().map(|_| text.to_owned()).map_err(wrong));
        visitor.visit_newtype_struct(StrDeserializer::new(text.as_deref().unwrap_or(other)))
    }

    fn list(self, expected: Expected) -> SeqDeserializer<impl Iterator<Item = Self>, Stop> {
        let items = match &self.node.value {
            Value::List(items) => items.as_slice(),
            _ => {
                self.note_type(expected);
                &[]
            }
        };
        let items = items.iter().enumerate();
        SeqDeserializer::new(items.map(move |(index, item)| self.child(Key::Index(index), item)))
    }

    fn entries(&self, expected: Expected) -> &'a [(Node, Node)] {
        match &self.node.value {
            Value::Mapping(entries) => entries,
            _ => {
                self.note_type(expected);
                &[]
            }
        }
    }

    /// The values of the fields of a struct; a key that is not one of them is a fault.
    fn fields(&self, name: &str, fields: &'static [&'static str]) -> Vec<(&'static str, Self)> {
        let apart = self.reader.keys_apart.iter().find(|(holder, _)| *holder == name);
        let apart = apart.map_or([].as_slice(), |(_, keys)| keys);
        let mut known = Vec::new();
        for (key, value) in self.entries(if name == ATHLETE { Expected::Athlete } else { Expected::Mapping })
        {
            let Value::Text(name) = &key.value else {
                self.child(Key::Name(String::new()), key).note(FileFaultKind::KeyNotText(key.found()));
                continue;
            };
            if let Some(field) = fields.iter().find(|field| *field == name) {
                known.push((*field, self.child(Key::from(*field), value)));
            } else if !apart.contains(&name.as_str()) {
                let unknown = UnknownName::new(name, fields.iter().chain(apart).copied());
                if let Some(near) = unknown.near {
                    self.reader.unsure.borrow_mut().0.push(self.child(Key::from(near), key).at);
                }
                self.child(Key::from(name.as_str()), key).note(FileFaultKind::UnknownKey(unknown));
            }
        }
        for at in self.reader.missing.borrow().iter() {
            let Some([Key::Name(name)]) = at.strip_prefix(self.at.as_slice()) else { continue };
            let field = fields.iter().find(|field| *field == name);
            known.extend(field.map(|field| (*field, self.child(Key::from(*field), &MISSING))));
        }
        known
    }
}

impl<'de> IntoDeserializer<'de, Stop> for Cursor<'_> {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl<'de> Deserializer<'de> for Cursor<'_> {
    type Error = Stop;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match &self.node.value {
            Value::Nothing | Value::Missing => visitor.visit_unit(),
            Value::Number(number, _) => visitor.visit_f64(*number),
            Value::Text(text) => visitor.visit_str(text),
            Value::List(_) => visitor.visit_seq(self.list(Expected::List)),
            Value::Mapping(_) => self.deserialize_map(visitor),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        let unknown = |text: &str| UnknownName::new(text, ["true", "false"].into_iter());
        let read = |text: &str| text.parse().map_err(|_| Some(FileFaultKind::UnknownWord(unknown(text))));
        visitor.visit_bool(self.read(Expected::Text, read).unwrap_or_default())
    }

    fn deserialize_u8<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        let whole = match &self.node.value {
            Value::Number(_, text) => text.parse::<i64>().ok(),
            _ => None,
        };
        let small = whole.and_then(|whole| u8::try_from(whole).ok());
        if small.is_none() {
            self.note_type(whole.map_or(Expected::WholeNumber, |_| Expected::SmallNumber));
        }
        visitor.visit_u8(small.unwrap_or(1))
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match self.node.value {
            Value::Number(number, _) => visitor.visit_f64(number),
            _ => {
                self.note_type(Expected::Number);
                visitor.visit_f64(1.0)
            }
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match &self.node.value {
            Value::Text(text) => visitor.visit_str(text),
            _ => {
                self.note_type(Expected::Text);
                visitor.visit_str("1")
            }
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match self.node.value {
            Value::Nothing | Value::Missing => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_seq(self.list(Expected::List))
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        let entries = self.entries(Expected::Mapping).iter().map(|(key, value)| {
            let name = Key::from(key.written().unwrap_or_default());
            (self.child(name.clone(), key), self.child(name, value))
        });
        visitor.visit_map(MapDeserializer::new(entries))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        if name == ATHLETE && self.node.written().is_some() {
            return visitor.visit_map(MapDeserializer::new([("name", self)].into_iter()));
        }
        // `- main set: 6 x 200` is a text that YAML takes for a key, and not a block with keys.
        if name == BLOCK && self.node.get(&Key::from("text")).is_none() {
            return visitor.visit_map(MapDeserializer::new([("text", self)].into_iter()));
        }
        let read = visitor.visit_map(MapDeserializer::new(self.fields(name, fields).into_iter()));
        match read {
            // Nothing can stand in for a whole file.
            Err(Stop::Missing(_)) if self.at.is_empty() && !matches!(self.node.value, Value::Mapping(_)) => {
                Err(Stop::Never)
            }
            Err(Stop::Missing(key)) => {
                let at = self.child(Key::from(key), self.node).at;
                let guide = self.node.get(&Key::from("guide")).and_then(Node::written);
                let kind = match guide.filter(|_| name == ATHLETE) {
                    Some(guide) => FileFaultKind::GuideAlone(guide.to_owned()),
                    None => FileFaultKind::MissingKey(key),
                };
                Err(Stop::Without(Box::new(self.fault(at, kind))))
            }
            read => read,
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        words: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let word = self.read(Expected::Text, |text| {
            let unknown = || FileFaultKind::UnknownWord(UnknownName::new(text, words.iter().copied()));
            words.iter().find(|word| **word == text).ok_or_else(|| Some(unknown()))
        });
        let word = word.or(words.first()).copied().unwrap_or_default();
        visitor.visit_enum(StrDeserializer::new(word))
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let number = match name {
            "Length" => match self.node.value {
                Value::Number(metres, _) => Some(metres),
                _ => {
                    self.read(Expected::Length, |text| text.parse().map(LengthSpec::metres).map_err(|_| None))
                }
            },
            "Time" => self.notation(Expected::Time, notation::seconds),
            "RaceDistance" => self.notation(Expected::RaceDistance, notation::race_distance),
            "Date" => return self.text::<NaiveDate, V>(Expected::Date, "2000-01-01", |_| None, visitor),
            "Hours" => return self.text::<Hours, V>(Expected::Hours, "00:00-01:00", |_| None, visitor),
            "Timezone" => {
                let wrong = |error| Some(FileFaultKind::NotATimezone(error));
                return self.text::<Timezone, V>(Expected::Timezone, "UTC", wrong, visitor);
            }
            "TimeOfDay" => return self.text::<TimeOfDay, V>(Expected::TimeOfDay, "18:00", |_| None, visitor),
            "PageAddress" => {
                return self.text::<PageAddress, V>(
                    Expected::PageAddress,
                    "https://example.org",
                    |_| None,
                    visitor,
                );
            }
            "AgeGroup" => {
                return self.text::<AgeGroup, V>(Expected::AgeGroup, "senior", |_| None, visitor);
            }
            "Since" => return self.text::<Since, V>(Expected::Since, "now", |_| None, visitor),
            "Name" => return self.text::<String, V>(Expected::Name, "", |_| None, visitor),
            "Block" => return self.text::<String, V>(Expected::Block, "", |_| None, visitor),
            "OneOrMany" => {
                return match self.node.value {
                    Value::List(_) => visitor.visit_seq(self.list(Expected::List)),
                    _ => visitor.visit_some(self),
                };
            }
            "WindSpec" if matches!(self.node.value, Value::Mapping(_)) => return visitor.visit_some(self),
            "SquadLanes" => {
                return match self.node.value {
                    Value::Text(_) => visitor.visit_some(self),
                    _ => visitor.visit_seq(self.list(Expected::SquadLanes)),
                };
            }
            "ClosedSpec" => {
                return match self.node.value {
                    Value::Mapping(_) => visitor.visit_some(self),
                    _ => visitor.visit_seq(self.list(Expected::ClosedLanes)),
                };
            }
            _ => return visitor.visit_newtype_struct(self),
        };
        visitor.visit_newtype_struct(F64Deserializer::new(number.unwrap_or(1.0)))
    }

    serde::forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u16 u32 u64 u128 f32 char bytes byte_buf unit unit_struct tuple tuple_struct
        identifier ignored_any
    }
}
