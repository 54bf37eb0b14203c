//! A YAML text as one value whose parts know where they stand.

use std::collections::{HashMap, HashSet};
use std::ops::Range;

use lane_distance::Key;
use saphyr_parser::{Event, Parser, ScalarStyle, Span};
use workout_notation::visible;

use crate::files::file_fault::{FileFault, FileFaultKind};
use crate::files::limit::Limit;
use crate::files::node::{Node, Value};

/// What the parser says where values are nested too deep for itself, which is far beyond our own limit: it looks ahead.
const PARSER_DEPTH: &str = "recursion limit exceeded";

/// A YAML text as one value whose parts know where they stand.
#[derive(Clone, Debug)]
pub(crate) struct Document {
    /// The value. Of a key that is written twice, the first.
    pub(crate) root: Node,
    /// The keys that are written twice.
    pub(crate) repeated: Vec<FileFault>,
}

impl Document {
    /// Reads a text.
    ///
    /// # Errors
    ///
    /// What keeps it from being read, and then the keys that are written twice before it.
    pub(crate) fn read(text: &str) -> Result<Self, Vec<FileFault>> {
        let mut builder = Builder::new(text);
        match builder.root() {
            Ok(root) => Ok(Self { root, repeated: builder.repeated }),
            Err(fault) => Err([vec![fault], builder.repeated].concat()),
        }
    }

    /// A fault of the value that keys lead to, or of the last on the way that is there.
    pub(crate) fn fault(&self, (at, kind): (Vec<Key>, FileFaultKind)) -> FileFault {
        FileFault { span: self.root.span_at(&at), at, kind }
    }

    /// A fault of the value that keys lead to; where it is in the notation, at its place in that text. A
    /// text that is written in another way (folded, or with escapes) is marked as a whole.
    pub(crate) fn fault_in(&self, text: &str, (at, kind): (Vec<Key>, FileFaultKind)) -> FileFault {
        // A block with keys is wrong in its text.
        let text_of = [at.as_slice(), &[Key::from("text")]].concat();
        let is_of_text = matches!(kind, FileFaultKind::Notation(_) | FileFaultKind::Plan(_));
        let at = if is_of_text && self.root.at(&text_of).is_some() { text_of } else { at };
        let value = self.root.at(&at).and_then(Node::written).unwrap_or_default();
        let mut fault = self.fault((at, kind));
        let within = match &fault.kind {
            FileFaultKind::Notation(problem) => Some(&problem.span),
            FileFaultKind::Plan(fault) => Some(&fault.span),
            _ => None,
        };
        if let Some(within) = within {
            let quote = usize::from(text[fault.span.start..].starts_with(['"', '\'']));
            let start = fault.span.start + quote;
            if text[start..].starts_with(value) {
                fault.span = start + within.start..start + within.end;
            }
        }
        fault
    }
}

struct Builder<'a> {
    text: &'a str,
    /// The byte where each character begins, and where the text ends.
    bytes: Vec<usize>,
    newlines: Vec<usize>,
    parser: Parser<'a, saphyr_parser::StrInput<'a>>,
    /// The values that have a name (`&name`), by the parser's number for it.
    named: HashMap<usize, Node>,
    /// How many bytes aliases have added.
    aliased: usize,
    repeated: Vec<FileFault>,
}

impl<'a> Builder<'a> {
    fn new(text: &'a str) -> Self {
        let bytes = text.char_indices().map(|(byte, _)| byte).chain([text.len()]).collect();
        let newlines = text.match_indices('\n').map(|(byte, _)| byte).collect();
        let parser = Parser::new_from_str(text);
        Self { text, bytes, newlines, parser, named: HashMap::new(), aliased: 0, repeated: Vec::new() }
    }

    fn root(&mut self) -> Result<Node, FileFault> {
        let mut root = None;
        loop {
            match self.next()? {
                (Event::StreamEnd, _) => break,
                (Event::DocumentStart(_), span) if root.is_some() => {
                    return Err(fault(span, FileFaultKind::SeveralDocuments));
                }
                (Event::StreamStart | Event::DocumentStart(_) | Event::DocumentEnd | Event::Nothing, _) => {}
                (event, span) => root = Some(self.node(event, span, 0)?),
            }
        }
        match root {
            None | Some(Node { value: Value::Nothing, .. }) => Err(fault(0..0, FileFaultKind::Empty)),
            Some(root) => Ok(root),
        }
    }

    fn next(&mut self) -> Result<(Event<'a>, Range<usize>), FileFault> {
        match self.parser.next_event() {
            Some(Ok((event, span))) => Ok((event, self.span(span))),
            Some(Err(error)) => {
                let at = self.byte(error.marker().index());
                let kind = if self.text[at..].starts_with('*') {
                    FileFaultKind::UnknownAlias
                } else if error.info() == PARSER_DEPTH {
                    FileFaultKind::TooMuch(Limit::Depth)
                } else {
                    FileFaultKind::NotYaml { reason: error.info().to_owned() }
                };
                Err(fault(at..at, kind))
            }
            None => Ok((Event::StreamEnd, self.text.len()..self.text.len())),
        }
    }

    /// The value that begins with an event.
    fn node(&mut self, event: Event<'a>, span: Range<usize>, depth: usize) -> Result<Node, FileFault> {
        let (value, anchor, is_open) = match event {
            Event::Alias(anchor) => {
                let Some(node) = self.named.get(&anchor) else {
                    return Err(fault(span, FileFaultKind::UnknownAlias));
                };
                self.aliased += node.size();
                if self.aliased > Limit::AliasedBytes.most() {
                    return Err(fault(span, FileFaultKind::TooMuch(Limit::AliasedBytes)));
                }
                return Ok(node.clone());
            }
            Event::Scalar(text, ..) if text.len() > Limit::ValueBytes.most() => {
                return Err(fault(span.start..span.start, FileFaultKind::TooMuch(Limit::ValueBytes)));
            }
            Event::Scalar(text, style, anchor, tag) => {
                let is_text = tag.is_some_and(|tag| tag.suffix == "str") || style != ScalarStyle::Plain;
                // What is written as an escape (`"\e"`) is a character only now.
                let text = visible(&text).replace('\t', " ");
                let value = if is_text { Value::Text(text) } else { Value::plain(&text) };
                (value, anchor, false)
            }
            Event::SequenceStart(..) | Event::MappingStart(..) if depth >= Limit::Depth.most() => {
                return Err(fault(span, FileFaultKind::TooMuch(Limit::Depth)));
            }
            Event::SequenceStart(anchor, _) => (self.list(depth)?, anchor, true),
            Event::MappingStart(anchor, _) => (self.mapping(depth)?, anchor, true),
            _ => (Value::Nothing, 0, false),
        };
        let node = Node { span: self.on_one_line(span, is_open), value };
        if anchor > 0 {
            self.named.insert(anchor, node.clone());
        }
        Ok(node)
    }

    fn list(&mut self, depth: usize) -> Result<Value, FileFault> {
        let mut items = Vec::new();
        loop {
            match self.next()? {
                (Event::SequenceEnd | Event::StreamEnd, _) => return Ok(Value::List(items)),
                (_, span) if items.len() >= Limit::Items.most() => {
                    return Err(fault(span, FileFaultKind::TooMuch(Limit::Items)));
                }
                (event, span) => items.push(self.node(event, span, depth + 1)?),
            }
        }
    }

    fn mapping(&mut self, depth: usize) -> Result<Value, FileFault> {
        let mut entries = Vec::new();
        let mut names = HashSet::new();
        let mut keys = 0;
        loop {
            let key = match self.next()? {
                (Event::MappingEnd | Event::StreamEnd, _) => return Ok(Value::Mapping(entries)),
                (_, span) if keys >= Limit::Items.most() => {
                    return Err(fault(span, FileFaultKind::TooMuch(Limit::Items)));
                }
                (event, span) => self.node(event, span, depth + 1)?,
            };
            keys += 1;
            let (event, span) = self.next()?;
            let value = self.node(event, span, depth + 1)?;
            match key.written() {
                Some(name) if !names.insert(name.to_owned()) => {
                    let kind = FileFaultKind::RepeatedKey(name.to_owned());
                    self.repeated.push(fault(key.span, kind));
                }
                _ => entries.push((key, value)),
            }
        }
    }

    /// The bytes of a value up to the end of its first line; of a mapping or a list, the rest of the
    /// line where it begins.
    fn on_one_line(&self, Range { start, end }: Range<usize>, is_open: bool) -> Range<usize> {
        let line = self.newlines.partition_point(|newline| *newline < start);
        let line_ends = self.newlines.get(line).copied().unwrap_or(self.text.len());
        let end = if is_open { line_ends } else { end.clamp(start, line_ends) };
        start..start + self.text[start..end].trim_end().len()
    }

    fn span(&self, span: Span) -> Range<usize> {
        let start = self.byte(span.start.index());
        start..self.byte(span.end.index()).max(start)
    }

    fn byte(&self, character: usize) -> usize {
        self.bytes.get(character).copied().unwrap_or(self.text.len())
    }
}

fn fault(span: Range<usize>, kind: FileFaultKind) -> FileFault {
    FileFault { span, at: Vec::new(), kind }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "a: 1\nb:\n  - x: [10, 20]\n    y: 2\n  - {x: é, y: 3}\nc: last\n";

    #[test]
    fn every_value_is_found_by_its_keys() {
        let document = Document::read(TEXT).expect("it is YAML");
        for (way, value) in [
            ("a", "1"),
            ("b 0 x 1", "20"),
            ("b 0 y", "2"),
            ("b 1 x", "é"),
            ("b 1 y", "3"),
            ("c", "last"),
            // Keys that lead nowhere stop at the last value on the way.
            ("c d", "last"),
        ] {
            let key = |word: &str| word.parse().map_or_else(|_| Key::from(word), Key::Index);
            let keys: Vec<Key> = way.split(' ').map(key).collect();
            assert_eq!(&TEXT[document.root.span_at(&keys)], value, "{way}");
        }
    }

    #[test]
    fn of_a_repeated_key_the_first_counts() {
        for (text, first) in
            [("a: 1\nb: 2\na: 3\n", "1"), ("{a: 1, a: [2, 3], b: 4}", "1"), ("a: 1\na:\n  - é\nb: 2\n", "1")]
        {
            let document = Document::read(text).expect("it is YAML");
            assert_eq!(&text[document.root.span_at(&[Key::from("a")])], first);
            assert_eq!(document.repeated.len(), 1, "{text}");
            assert!(document.repeated.iter().all(|fault| &text[fault.span.clone()] == "a"));
        }
        let apart = Document::read("x: {a: 1}\ny: {a: 1}\n").expect("it is YAML");
        assert_eq!(apart.repeated, []);
    }

    fn kind(text: &str) -> Option<FileFaultKind> {
        Document::read(text).err().and_then(|faults| faults.first().map(|fault| fault.kind.clone()))
    }

    #[test]
    fn what_cannot_be_read_is_told_apart() {
        let nested = |depth: usize| "[".repeat(depth) + "1" + &"]".repeat(depth);
        assert_eq!(kind(&nested(Limit::Depth.most())), None);
        assert_eq!(kind(&nested(Limit::Depth.most() + 1)), Some(FileFaultKind::TooMuch(Limit::Depth)));
        assert_eq!(kind("# nothing\n"), Some(FileFaultKind::Empty));
        assert_eq!(kind("a: 1\n---\nb: 1\n"), Some(FileFaultKind::SeveralDocuments));
        assert_eq!(kind("a: *b\n"), Some(FileFaultKind::UnknownAlias));
        assert_eq!(kind("a: &a [*a]\n"), Some(FileFaultKind::UnknownAlias));
        assert!(matches!(kind("a: [1\n"), Some(FileFaultKind::NotYaml { .. })));
    }

    #[test]
    fn aliases_of_a_long_text_end_before_they_fill_the_memory() {
        let text = format!("a: &a {}\nb: [{}]\n", "x".repeat(9_000), "*a, ".repeat(1_000));
        assert_eq!(kind(&text), Some(FileFaultKind::TooMuch(Limit::AliasedBytes)));
    }

    #[test]
    fn an_alias_is_the_value_that_it_stands_for() {
        let document = Document::read("a: &a [10, 20]\nb: *a\n").expect("it is YAML");
        let second = document.root.at(&[Key::from("b"), Key::Index(1)]).and_then(Node::written);
        assert_eq!(second, Some("20"));
    }
}
