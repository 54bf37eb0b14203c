//! One value or a list of them.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::SeqAccessDeserializer;
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};

/// One value or a list of them.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(untagged))]
pub enum OneOrMany<T> {
    /// One value.
    One(T),
    /// A list of values.
    Many(Vec<T>),
}

impl<T> OneOrMany<T> {
    /// The values.
    pub fn as_slice(&self) -> &[T] {
        match self {
            Self::One(value) => std::slice::from_ref(value),
            Self::Many(values) => values,
        }
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for OneOrMany<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(match value_or_list(deserializer, "OneOrMany", "a length, or a list of lengths")? {
            Written::Value(value) => Self::One(value),
            Written::List(values) => Self::Many(values),
        })
    }
}

/// What may be written as a value or as a list.
#[derive(Deserialize)]
#[serde(untagged)]
pub(crate) enum Written<T, L> {
    Value(T),
    List(Vec<L>),
}

/// Reads a value or a list. A reader that keeps places knows by the name what may stand there, and hands
/// over what it has found: a fault is then that of the very value, and has its place in the list. Any
/// other reader tries one form after the other.
pub(crate) fn value_or_list<'de, T, L, D>(
    deserializer: D,
    name: &'static str,
    expected: &'static str,
) -> Result<Written<T, L>, D::Error>
where
    T: Deserialize<'de>,
    L: Deserialize<'de>,
    D: Deserializer<'de>,
{
    deserializer.deserialize_newtype_struct(name, Reader { expected, written: PhantomData })
}

struct Reader<T, L> {
    expected: &'static str,
    written: PhantomData<(T, L)>,
}

impl<'de, T: Deserialize<'de>, L: Deserialize<'de>> Visitor<'de> for Reader<T, L> {
    type Value = Written<T, L>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.expected)
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, value: D) -> Result<Written<T, L>, D::Error> {
        let wrong = |_| D::Error::custom(format_args!("expected {}", self.expected));
        Written::deserialize(value).map_err(wrong)
    }

    fn visit_some<D: Deserializer<'de>>(self, value: D) -> Result<Written<T, L>, D::Error> {
        T::deserialize(value).map(Written::Value)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<Written<T, L>, A::Error> {
        Vec::deserialize(SeqAccessDeserializer::new(items)).map(Written::List)
    }
}
