//! Values that occur again and again, each kept once and named by its number.

use std::collections::HashMap;

use serde_json::Value;

/// A table of different values.
#[derive(Default)]
pub(crate) struct ValueTable {
    values: Vec<Value>,
    numbers: HashMap<String, usize>,
}

impl ValueTable {
    /// The number of a value, from 0; one that is new is added.
    pub(crate) fn number(&mut self, value: Value) -> usize {
        let Self { values, numbers } = self;
        *numbers.entry(value.to_string()).or_insert_with(|| {
            values.push(value);
            values.len() - 1
        })
    }

    pub(crate) fn into_values(self) -> Vec<Value> {
        self.values
    }
}
