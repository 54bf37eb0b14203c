//! Where each value of a YAML text stands.

use std::ops::Range;

use lane_distance::Key;
use saphyr_parser::{Event, Marker, Parser};

/// The deepest that values may be nested.
const DEEPEST: usize = 24;

/// Where each value of a YAML text stands, as far as the text can be read.
pub(crate) struct Places<'a> {
    text: &'a str,
    line_starts: Vec<usize>,
    values: Vec<Value>,
    /// Whether values are nested deeper than is read.
    pub(crate) too_deep: Option<Range<usize>>,
}

struct Value {
    at: Vec<Key>,
    span: Range<usize>,
    /// The bytes of its name, where it has one.
    name: Option<Range<usize>>,
    /// Whether it is a mapping or a list: its bytes are then its beginning only.
    is_open: bool,
}

/// A mapping or a list that is being read.
enum Open {
    /// The name that was read last, and waits for its value.
    Mapping(Option<(String, Range<usize>)>),
    List(usize),
}

impl<'a> Places<'a> {
    pub(crate) fn of(text: &'a str) -> Self {
        let newlines = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        let line_starts = std::iter::once(0).chain(newlines).collect();
        let mut places = Self { text, line_starts, values: Vec::new(), too_deep: None };
        places.read();
        places
    }

    fn read(&mut self) {
        let mut open: Vec<Open> = Vec::new();
        let mut at: Vec<Key> = Vec::new();
        // What the parser cannot read is left out: the reader of values says what is wrong with it.
        for (event, span) in Parser::new_from_str(self.text).map_while(Result::ok) {
            let span = self.bytes(span.start, span.end);
            match event {
                Event::MappingStart(..) | Event::SequenceStart(..) | Event::Scalar(..) | Event::Alias(..) => {
                }
                Event::MappingEnd | Event::SequenceEnd => {
                    open.pop();
                    at.pop();
                    // A value inside a list or a mapping has ended with it.
                    match open.last_mut() {
                        Some(Open::List(next)) => *next += 1,
                        Some(Open::Mapping(name)) => *name = None,
                        None => {}
                    }
                    continue;
                }
                _ => continue,
            }
            let (key, name) = match open.last_mut() {
                None => (None, None),
                Some(Open::List(next)) => (Some(Key::Index(*next)), None),
                Some(Open::Mapping(waiting)) => match (waiting.take(), &event) {
                    (Some((name, span)), _) => {
                        *waiting = Some((name.clone(), span.clone()));
                        (Some(Key::Name(name)), Some(span))
                    }
                    (None, Event::Scalar(name, ..)) => {
                        *waiting = Some((name.to_string(), span));
                        continue;
                    }
                    // A name that is no scalar: nothing in these files has one.
                    (None, _) => (Some(Key::Name(String::new())), Some(span.clone())),
                },
            };
            let is_root = key.is_none();
            at.extend(key);
            let is_open = matches!(event, Event::MappingStart(..) | Event::SequenceStart(..));
            self.values.push(Value { at: at.clone(), span: span.clone(), name, is_open });
            let opens = match event {
                Event::MappingStart(..) => Some(Open::Mapping(None)),
                Event::SequenceStart(..) => Some(Open::List(0)),
                _ => None,
            };
            match opens {
                Some(value) if open.len() < DEEPEST => {
                    open.push(value);
                    if is_root {
                        // The root has no key of its own; a stand-in keeps the way and the nesting alike.
                        at.push(Key::Index(0));
                    }
                }
                Some(_) => {
                    self.too_deep = Some(span);
                    return;
                }
                None => {
                    if !is_root {
                        at.pop();
                    }
                    match open.last_mut() {
                        Some(Open::List(next)) => *next += 1,
                        Some(Open::Mapping(name)) => *name = None,
                        None => {}
                    }
                }
            }
        }
    }

    /// The bytes of the value that keys lead to, or of the last value on the way that exists.
    pub(crate) fn value(&self, keys: &[Key]) -> Range<usize> {
        self.find(keys).map_or(0..0, |value| self.on_one_line(value))
    }

    /// The bytes of the name of the value that keys lead to; those of the value where it has none.
    pub(crate) fn name(&self, keys: &[Key]) -> Range<usize> {
        match self.find(keys) {
            Some(Value { at, name: Some(name), .. }) if at.len() == keys.len() + 1 => name.clone(),
            _ => self.value(keys),
        }
    }

    /// The value that the longest part of the keys leads to. Below the root's stand-in key, ways are
    /// the keys themselves.
    fn find(&self, keys: &[Key]) -> Option<&Value> {
        (0..=keys.len()).rev().find_map(|length| {
            self.values.iter().find(|value| match value.at.split_first() {
                None => length == 0,
                Some((_, at)) => length > 0 && at == &keys[..length],
            })
        })
    }

    /// The bytes of a value up to the end of its first line; of a mapping or a list, the rest of the
    /// line where it begins.
    fn on_one_line(&self, value: &Value) -> Range<usize> {
        let Range { start, end } = value.span;
        let line_ends = self.text[start..].find('\n').map_or(self.text.len(), |newline| start + newline);
        let end = if value.is_open { line_ends } else { end.clamp(start, line_ends) };
        start..start + self.text[start..end].trim_end().len()
    }

    fn bytes(&self, start: Marker, end: Marker) -> Range<usize> {
        let start = self.byte(start);
        start..self.byte(end).max(start)
    }

    /// The byte that a marker means: its line counts from 1, its column in characters from 0.
    fn byte(&self, marker: Marker) -> usize {
        let Some(&line) = self.line_starts.get(marker.line().saturating_sub(1)) else {
            return self.text.len();
        };
        self.text[line..].char_indices().nth(marker.col()).map_or(self.text.len(), |(at, _)| line + at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "a: 1\nb:\n  - x: [10, 20]\n    y: 2\n  - {x: é, y: 3}\nc: last\n";

    fn shown(keys: &[Key]) -> &'static str {
        &TEXT[Places::of(TEXT).value(keys)]
    }

    #[test]
    fn every_value_is_found_by_its_keys() {
        let (b, x, y) = (Key::from("b"), Key::from("x"), Key::from("y"));
        assert_eq!(shown(&[Key::from("a")]), "1");
        assert_eq!(shown(&[b.clone(), Key::Index(0), x.clone(), Key::Index(1)]), "20");
        assert_eq!(shown(&[b.clone(), Key::Index(0), y.clone()]), "2");
        assert_eq!(shown(&[b.clone(), Key::Index(1), x]), "é");
        assert_eq!(shown(&[b, Key::Index(1), y]), "3");
        assert_eq!(shown(&[Key::from("c")]), "last");
    }

    #[test]
    fn keys_that_lead_nowhere_stop_at_the_last_value_on_the_way() {
        assert_eq!(shown(&[Key::from("c"), Key::from("d")]), "last");
    }

    #[test]
    fn a_name_is_found_as_well() {
        assert_eq!(&TEXT[Places::of(TEXT).name(&[Key::from("c")])], "c");
    }

    #[test]
    fn nesting_is_bounded() {
        let nested = |depth: usize| "[".repeat(depth) + &"]".repeat(depth);
        assert!(Places::of(&nested(DEEPEST + 1)).too_deep.is_some());
        assert!(Places::of(&nested(DEEPEST)).too_deep.is_none());
    }
}
