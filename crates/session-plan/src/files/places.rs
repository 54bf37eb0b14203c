//! Where each value of a YAML text stands.

use std::collections::HashSet;
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
    repeated: Vec<Repeated>,
    /// Whether values are nested deeper than is read.
    pub(crate) too_deep: Option<Range<usize>>,
}

/// A name that its mapping has already.
struct Repeated {
    /// The bytes of the name.
    name: Range<usize>,
    /// Where its value ends.
    ends: usize,
    /// Whether the mapping is written in braces, with commas.
    in_braces: bool,
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
    Mapping(OpenMapping),
    List(usize),
}

/// A mapping that is being read.
struct OpenMapping {
    /// The name that was read last, and waits for its value.
    waiting: Option<(String, Range<usize>)>,
    names: HashSet<String>,
    in_braces: bool,
    /// Whether the name that waits is a repeated one, the last that was found.
    repeats: Option<usize>,
}

impl<'a> Places<'a> {
    pub(crate) fn of(text: &'a str) -> Self {
        let newlines = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        let line_starts = std::iter::once(0).chain(newlines).collect();
        let mut places = Self { text, line_starts, values: Vec::new(), repeated: Vec::new(), too_deep: None };
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
                    self.ends(open.last_mut(), span.end);
                    continue;
                }
                _ => continue,
            }
            let (key, name) = match open.last_mut() {
                None => (None, None),
                Some(Open::List(next)) => (Some(Key::Index(*next)), None),
                Some(Open::Mapping(mapping)) => match (mapping.waiting.clone(), &event) {
                    (Some((name, span)), _) => (Some(Key::Name(name)), Some(span)),
                    (None, Event::Scalar(name, ..)) => {
                        if !mapping.names.insert(name.to_string()) {
                            mapping.repeats = Some(self.repeated.len());
                            let in_braces = mapping.in_braces;
                            self.repeated.push(Repeated { name: span.clone(), ends: span.end, in_braces });
                        }
                        mapping.waiting = Some((name.to_string(), span));
                        continue;
                    }
                    // A name that is no scalar: nothing in these files has one.
                    (None, _) => (Some(Key::Name(String::new())), Some(span.clone())),
                },
            };
            let is_root = key.is_none();
            at.extend(key);
            let ends = span.end;
            let is_open = matches!(event, Event::MappingStart(..) | Event::SequenceStart(..));
            self.values.push(Value { at: at.clone(), span: span.clone(), name, is_open });
            let opens = match event {
                Event::MappingStart(..) => Some(Open::Mapping(OpenMapping {
                    waiting: None,
                    names: HashSet::new(),
                    in_braces: self.text[span.start..].starts_with('{'),
                    repeats: None,
                })),
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
                    self.ends(open.last_mut(), ends);
                }
            }
        }
    }

    /// Notes that a value of a list or a mapping has ended.
    fn ends(&mut self, holder: Option<&mut Open>, ends: usize) {
        match holder {
            Some(Open::List(next)) => *next += 1,
            Some(Open::Mapping(mapping)) => {
                mapping.waiting = None;
                if let Some(repeated) = mapping.repeats.take() {
                    self.repeated[repeated].ends = ends;
                }
            }
            None => {}
        }
    }

    /// The bytes of the names that their mappings have already.
    pub(crate) fn repeated(&self) -> impl Iterator<Item = Range<usize>> {
        self.repeated.iter().map(|repeated| repeated.name.clone())
    }

    /// The text with spaces where a name is repeated, and its value: everything else stays in its place.
    pub(crate) fn without_repeated(&self) -> String {
        let mut bytes = self.text.as_bytes().to_vec();
        for Repeated { name, ends, in_braces } in &self.repeated {
            let before = self.text[..name.start].trim_end();
            let begins = if *in_braces && before.ends_with(',') { before.len() - 1 } else { name.start };
            for byte in &mut bytes[begins..*ends] {
                if *byte != b'\n' {
                    *byte = b' ';
                }
            }
        }
        // Whole characters were replaced, so that it is text still.
        String::from_utf8(bytes).unwrap_or_default()
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
    fn what_is_repeated_gives_way_to_spaces() {
        for (text, without) in [
            ("a: 1\nb: 2\na: 3\n", "a: 1\nb: 2\n    \n"),
            ("{a: 1, a: [2, 3], b: 4}", "{a: 1           , b: 4}"),
            ("a: 1\na:\n  - é\nb: 2\n", "a: 1\n  \n      \nb: 2\n"),
            ("x: {a: 1}\ny: {a: 1}\n", "x: {a: 1}\ny: {a: 1}\n"),
        ] {
            let places = Places::of(text);
            assert_eq!(places.without_repeated(), without);
            assert!(places.repeated().all(|name| &text[name] == "a"));
        }
    }

    #[test]
    fn nesting_is_bounded() {
        let nested = |depth: usize| "[".repeat(depth) + &"]".repeat(depth);
        assert!(Places::of(&nested(DEEPEST + 1)).too_deep.is_some());
        assert!(Places::of(&nested(DEEPEST)).too_deep.is_none());
    }
}
