//! What a YAML text says, without its places.

use crate::files::node::{Node, Value};

/// What a YAML text says, without its places: for whoever changes some of it and writes it anew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum YamlValue {
    /// Nothing, as `null`.
    Nothing,
    /// A number, as it is written.
    Number(String),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Self>),
    /// Keys and their values.
    Mapping(YamlKeys),
}

/// Keys and their values, in the order of the text; a key stands once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct YamlKeys(Vec<(String, YamlValue)>);

impl YamlValue {
    /// A value of a text; nothing where a key in it is neither a text nor a number.
    pub(crate) fn of(node: &Node) -> Option<Self> {
        Some(match &node.value {
            Value::Nothing | Value::Missing => Self::Nothing,
            Value::Number(_, written) => Self::Number(written.clone()),
            Value::Text(text) => Self::Text(text.clone()),
            Value::List(items) => Self::List(items.iter().map(Self::of).collect::<Option<_>>()?),
            Value::Mapping(entries) => {
                let entry = |(key, value): &(Node, Node)| Some((key.written()?.to_owned(), Self::of(value)?));
                Self::Mapping(YamlKeys(entries.iter().map(entry).collect::<Option<_>>()?))
            }
        })
    }

    /// The value under a key; [`Self::Nothing`] where this is no mapping, or lacks the key.
    pub fn at(&self, key: &str) -> &Self {
        self.keys().and_then(|keys| keys.get(key)).unwrap_or(&Self::Nothing)
    }

    /// The keys, of a mapping.
    pub fn keys(&self) -> Option<&YamlKeys> {
        match self {
            Self::Mapping(keys) => Some(keys),
            _ => None,
        }
    }

    /// The items, of a list; of anything else none.
    pub fn items(&self) -> &[Self] {
        match self {
            Self::List(items) => items,
            _ => &[],
        }
    }
}

impl YamlKeys {
    /// The value under a key.
    pub fn get(&self, key: &str) -> Option<&YamlValue> {
        self.iter().find(|(name, _)| *name == key).map(|(_, value)| value)
    }

    /// Gives a key its value, at its place where it has one already, else at the end; without a value the key goes.
    ///
    /// ```
    /// use session_plan::{YamlKeys, YamlValue};
    ///
    /// let mut keys = YamlKeys::default();
    /// keys.set("lanes", Some(YamlValue::Number("8".to_owned())));
    /// keys.set("name", Some(YamlValue::Text("Wrenbeck".to_owned())));
    /// keys.set("lanes", Some(YamlValue::Number("6".to_owned())));
    /// assert_eq!(keys.iter().map(|(key, _)| key).collect::<Vec<_>>(), ["lanes", "name"]);
    /// assert_eq!(keys.get("lanes"), Some(&YamlValue::Number("6".to_owned())));
    /// keys.set("lanes", None);
    /// assert_eq!(keys.get("lanes"), None);
    /// ```
    pub fn set(&mut self, key: &str, value: Option<YamlValue>) {
        let place = self.0.iter().position(|(name, _)| name == key);
        match (place, value) {
            (Some(place), Some(value)) => self.0[place].1 = value,
            (Some(place), None) => {
                self.0.remove(place);
            }
            (None, Some(value)) => self.0.push((key.to_owned(), value)),
            (None, None) => {}
        }
    }

    /// Each key and its value.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &YamlValue)> {
        self.0.iter().map(|(key, value)| (key.as_str(), value))
    }

    /// Whether there is no key.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}
