//! Values of a YAML text that know where they stand.

use std::ops::Range;

use lane_distance::Key;

use crate::files::file_fault::Found;

/// About how many bytes a value takes up beside its text.
const NODE_SIZE: usize = 100;

/// A value of a YAML text.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    /// Its bytes, up to the end of the line where it begins.
    pub(crate) span: Range<usize>,
    pub(crate) value: Value,
}

/// What a value is.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    Nothing,
    /// A number, and how it is written.
    Number(f64, String),
    Text(String),
    List(Vec<Node>),
    /// Keys and their values, in the order of the text.
    Mapping(Vec<(Node, Node)>),
    /// Stands in for a value that is not there.
    Missing,
}

impl Node {
    /// The value under a key.
    pub(crate) fn get(&self, key: &Key) -> Option<&Self> {
        match (&self.value, key) {
            (Value::List(items), Key::Index(index)) => items.get(*index),
            (Value::Mapping(entries), Key::Name(name)) => {
                entries.iter().find(|(key, _)| key.written() == Some(name)).map(|(_, value)| value)
            }
            _ => None,
        }
    }

    /// The value that keys lead to.
    pub(crate) fn at(&self, keys: &[Key]) -> Option<&Self> {
        keys.iter().try_fold(self, Self::get)
    }

    /// The bytes of the value that keys lead to, or of the last on the way that is there.
    pub(crate) fn span_at(&self, keys: &[Key]) -> Range<usize> {
        let mut node = self;
        for key in keys {
            let Some(next) = node.get(key) else { break };
            node = next;
        }
        node.span.clone()
    }

    /// A text or a number, as written.
    pub(crate) fn written(&self) -> Option<&str> {
        match &self.value {
            Value::Text(text) | Value::Number(_, text) => Some(text),
            _ => None,
        }
    }

    /// What it is, for a fault.
    pub(crate) fn found(&self) -> Found {
        match &self.value {
            Value::Nothing | Value::Missing => Found::Nothing,
            Value::Number(_, text) => Found::Number(text.clone()),
            Value::Text(text) => Found::Text(text.clone()),
            Value::List(_) => Found::List,
            Value::Mapping(_) => Found::Mapping,
        }
    }

    /// About how many bytes it takes up, on any machine the same.
    pub(crate) fn size(&self) -> usize {
        NODE_SIZE
            + match &self.value {
                Value::Nothing | Value::Missing => 0,
                Value::Number(_, text) | Value::Text(text) => text.len(),
                Value::List(items) => items.iter().map(Self::size).sum(),
                Value::Mapping(entries) => entries.iter().map(|(key, value)| key.size() + value.size()).sum(),
            }
    }
}

impl Value {
    /// What a text without quotes means in YAML's core schema. No key takes `true` or `false`, so that
    /// they are texts.
    pub(crate) fn plain(text: &str) -> Self {
        let number = match text {
            "" | "~" | "null" | "Null" | "NULL" => return Self::Nothing,
            ".inf" | ".Inf" | ".INF" | "+.inf" | "+.Inf" | "+.INF" => Some(f64::INFINITY),
            "-.inf" | "-.Inf" | "-.INF" => Some(f64::NEG_INFINITY),
            ".nan" | ".NaN" | ".NAN" => Some(f64::NAN),
            _ => text.parse().ok().filter(|number: &f64| number.is_finite()),
        };
        number.map_or_else(|| Self::Text(text.to_owned()), |number| Self::Number(number, text.to_owned()))
    }
}
