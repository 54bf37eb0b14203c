//! What is wrong with the form of a value, said so that a coach understands it.

use lane_distance::Key;

/// What is wrong with the form of a value, as the reader of values tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Wrong {
    /// A key that nothing knows.
    Unknown {
        /// The key.
        name: String,
        /// The keys that are known there.
        known: Vec<String>,
    },
    /// A key that has to be there.
    Missing {
        /// The key.
        name: String,
    },
    /// A word that is none of those that are known.
    Word {
        /// The word.
        word: String,
        /// Those that are known.
        known: Vec<String>,
    },
    /// A value of another type.
    Type {
        /// What is there.
        found: String,
        /// What ought to be.
        expected: String,
    },
    /// Anything else, in its own words.
    Other(String),
}

/// How the message begins that a key is unknown; its place is the key, not the value.
pub(crate) const NO_KEY: &str = "there is no key ";

/// What the reader of values calls a key.
pub(crate) const KEY: &str = "field identifier";

impl Wrong {
    /// Reads the message of the reader of values.
    pub(crate) fn of(message: &str) -> Self {
        let mut quoted = message.split('`').skip(1).step_by(2).map(str::to_owned);
        let mut named = || quoted.next().unwrap_or_default();
        if message.starts_with("unknown field ") {
            Self::Unknown { name: named(), known: quoted.collect() }
        } else if message.starts_with("missing field ") {
            Self::Missing { name: named() }
        } else if message.starts_with("unknown variant ") {
            Self::Word { word: named(), known: quoted.collect() }
        } else if let Some(rest) =
            message.strip_prefix("invalid type: ").or_else(|| message.strip_prefix("invalid value: "))
            && let Some((found, expected)) = rest.rsplit_once(", expected ")
        {
            let expected = match without_place(expected) {
                "u8" if message.starts_with("invalid value: ") => "a whole number from 0 to 255",
                other => other,
            };
            Self::Type { found: found.to_owned(), expected: expected.to_owned() }
        } else {
            Self::Other(without_place(message).to_owned())
        }
    }

    /// The known name that a wrong one was meant for.
    pub(crate) fn meant(&self) -> Option<&str> {
        let (Self::Unknown { name: wrong, known } | Self::Word { word: wrong, known }) = self else {
            return None;
        };
        known
            .iter()
            .map(|known| (strsim::jaro_winkler(wrong, known), known))
            .filter(|(likeness, _)| *likeness > 0.7)
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, known)| known.as_str())
    }
}

/// So many words are shown without looking for the likest.
const FEW: usize = 4;

/// The sentence, and what to write instead.
pub(crate) fn words(wrong: &Wrong, at: &[Key]) -> (String, Option<String>) {
    let one_of = |known: &[String]| (!known.is_empty()).then(|| format!("write one of {}", listed(known)));
    let instead = |known: &[String]| {
        let near = wrong.meant().map(|meant| format!("did you mean `{meant}`?"));
        near.or_else(|| one_of(known))
    };
    match wrong {
        Wrong::Unknown { name, known } => (format!("{NO_KEY}`{name}` here"), instead(known)),
        Wrong::Missing { name } => {
            let at = [at, &[Key::from(name.as_str())]].concat();
            (format!("the key `{name}` is missing"), example(&at).map(|example| format!("add {example}")))
        }
        Wrong::Word { word, known } => {
            // A few words are all shown: the likest may be the opposite of what was meant.
            let help = if known.len() <= FEW { one_of(known) } else { instead(known) };
            (format!("`{word}` is no value that {} can have", named(at)), help)
        }
        Wrong::Type { found, expected } if expected == KEY => {
            let found = found_words(found).unwrap_or_else(|| "empty".to_owned());
            (format!("the name of a key must be text, and is {found}"), None)
        }
        Wrong::Type { found, expected } => {
            let (what, expected) = (named(at), expected_words(expected));
            let message = match found_words(found) {
                None => format!("{what} is empty, and must be {expected}"),
                Some(found) => format!("{what} must be {expected}, and is {found}"),
            };
            (message, example(at).map(|example| format!("write {example}")))
        }
        Wrong::Other(_) if at.last() == Some(&Key::from("date")) => {
            ("`date` is no date".to_owned(), example(at).map(|example| format!("write {example}")))
        }
        Wrong::Other(message) => match message.split_once("; ") {
            Some((message, help)) => (message.to_owned(), Some(help.to_owned())),
            None => (message.clone(), None),
        },
    }
}

/// The reader's messages name the place in their own way; it is said once, by line and column.
pub(crate) fn without_place(message: &str) -> &str {
    &message[..message.find(" at line ").unwrap_or(message.len())]
}

fn listed(names: &[String]) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    quoted.join(", ")
}

/// The value as people point to it.
fn named(at: &[Key]) -> String {
    match at {
        [] => "the file".to_owned(),
        [.., Key::Name(name), Key::Index(index)] => format!("item {} of `{name}`", index + 1),
        [.., Key::Name(name)] => format!("`{name}`"),
        [.., Key::Index(index)] => format!("item {}", index + 1),
    }
}

/// What is there; nothing where it is empty.
fn found_words(found: &str) -> Option<String> {
    Some(match found.split_once([' ']) {
        Some(("string", text)) => format!("the text {text}"),
        _ if found == "sequence" => "a list".to_owned(),
        _ if found == "map" => "a group of keys".to_owned(),
        _ if matches!(found, "unit value" | "null" | "Option value") => return None,
        // "integer `8`" and the like.
        _ => found.find('`').map_or_else(|| found.to_owned(), |quote| found[quote..].to_owned()),
    })
}

fn expected_words(expected: &str) -> &str {
    match expected {
        "u8" | "u16" | "u32" | "u64" | "usize" => "a whole number",
        "f64" => "a number",
        "a string" | "string" | "str" | "variant identifier" | "string only" => "text",
        "a sequence" => "a list",
        "a boolean" => "`true` or `false`",
        other if other.starts_with("struct ") || other.starts_with("enum ") || other == "a map" => {
            "a group of keys"
        }
        other => other,
    }
}

/// An example of a value, in the words `name: value`.
fn example(at: &[Key]) -> Option<String> {
    let (Key::Name(name), holder) = at.split_last()? else { return None };
    // Of a mark, a hazard or a rule; or of the lanes that are closed.
    let is_in_row = holder.iter().any(|key| matches!(key, Key::Index(_)));
    let is_list = is_in_row || holder.first() == Some(&Key::from("closed_lanes"));
    let value = match name.as_str() {
        "lanes" if is_list => "[2, 3]",
        "lanes" => "8",
        "name" if is_in_row => "gate line",
        "name" => "Wrenbeck",
        "title" => "Tuesday sprints",
        "date" => "2027-04-13",
        "blocks" => "[6 x 200 in lane 2]",
        "notes" => "[no spikes]",
        "path" => return Some("`path:` with a list of its pieces, such as `- straight: 84.39`".to_owned()),
        "lane_width" => "1.22",
        "bearing" => "65",
        "home_straight" | "back_straight" => "{ lanes: 8, chute: 28.61 }",
        "chute" => "28.61",
        "closed_lanes" => "[1]",
        "reason" => "new surface",
        "surveyed_lap" => "400.02",
        "radius" => "36.50",
        "straight" => "84.39",
        "turn" => "180",
        "bends" => "1",
        "colour" => "white",
        "form" => "tick",
        "kind" => "gate",
        "side" => "inside",
        "from" | "to" => "250",
        "to_finish" | "before_finish" => "50",
        "race" => "400",
        "first" => "45",
        "between" => "35",
        "count" => "10",
        "sets" => "[standard, club lines]",
        "mark" => "400 m start",
        _ => return None,
    };
    Some(format!("for example `{name}: {value}`"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(message: &str, at: &[Key]) -> String {
        let (message, help) = words(&Wrong::of(message), at);
        help.map_or_else(|| message.clone(), |help| format!("{message}; {help}"))
    }

    #[test]
    fn the_readers_messages_become_sentences() {
        let lanes = [Key::from("lanes")];
        let second = [Key::from("closed_lanes"), Key::from(1)];
        for (message, at, sentence) in [
            (
                "invalid type: string \"eight\", expected u8 at line 7 column 8",
                lanes.as_slice(),
                "`lanes` must be a whole number, and is the text \"eight\"; write for example `lanes: 8`",
            ),
            (
                "invalid value: integer `300`, expected u8",
                &second,
                "item 2 of `closed_lanes` must be a whole number from 0 to 255, and is `300`",
            ),
            (
                "invalid type: unit value, expected u8",
                &lanes,
                "`lanes` is empty, and must be a whole number; write for example `lanes: 8`",
            ),
            ("missing field `lanes`", &[], "the key `lanes` is missing; add for example `lanes: 8`"),
            (
                "unknown field `lane`, expected `lanes` or `chute`",
                &[],
                "there is no key `lane` here; did you mean `lanes`?",
            ),
            (
                "unknown variant `wall`, expected one of `kerb`, `line`",
                &[Key::from("inner_edge")],
                "`wall` is no value that `inner_edge` can have; write one of `kerb`, `line`",
            ),
        ] {
            assert_eq!(said(message, at), sentence);
        }
    }
}
