//! One value or a list of them.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::{F64Deserializer, I64Deserializer, SeqAccessDeserializer, StrDeserializer};
use serde::de::{self, Deserialize, Deserializer, SeqAccess, Visitor};

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

/// Reads what is there, and does not try one form after the other: so that a fault is that of the very
/// value, and has its place in the list.
impl<'de, T: Deserialize<'de>> Deserialize<'de> for OneOrMany<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader<T>(PhantomData<T>);

        impl<'de, T: Deserialize<'de>> Visitor<'de> for Reader<T> {
            type Value = OneOrMany<T>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a length, or a list of lengths")
            }

            fn visit_newtype_struct<D: Deserializer<'de>>(self, value: D) -> Result<OneOrMany<T>, D::Error> {
                value.deserialize_any(self)
            }

            /// A reader that keeps places hands over a single value whole.
            fn visit_some<D: Deserializer<'de>>(self, value: D) -> Result<OneOrMany<T>, D::Error> {
                T::deserialize(value).map(OneOrMany::One)
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<OneOrMany<T>, E> {
                T::deserialize(F64Deserializer::new(value)).map(OneOrMany::One)
            }

            fn visit_i64<E: de::Error>(self, value: i64) -> Result<OneOrMany<T>, E> {
                T::deserialize(I64Deserializer::new(value)).map(OneOrMany::One)
            }

            fn visit_u64<E: de::Error>(self, value: u64) -> Result<OneOrMany<T>, E> {
                T::deserialize(F64Deserializer::new(value as f64)).map(OneOrMany::One)
            }

            fn visit_str<E: de::Error>(self, value: &str) -> Result<OneOrMany<T>, E> {
                T::deserialize(StrDeserializer::new(value)).map(OneOrMany::One)
            }

            fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<OneOrMany<T>, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(items)).map(OneOrMany::Many)
            }
        }

        deserializer.deserialize_newtype_struct("OneOrMany", Reader(PhantomData))
    }
}
