//! Values as YAML.

use session_plan::{YamlKeys, YamlValue};

/// Keys and their values as YAML (1.2.2), as a person writes it: keys and lists in blocks, lists of numbers and texts in
/// one line, quotes only where they are needed.
///
/// ```
/// use session_plan::YamlText;
/// use workout_notation::SourceText;
///
/// let text = "name: Wrenbeck\nlane_width: [1.22, 4 ft]\nmarks:\n  sets: [standard, \"1: worn\"]\n\
///             path:\n  - radius: 36.50\n    turn: 180\n";
/// let yaml = YamlText::read(SourceText::new("track.yaml", text)).value();
/// assert_eq!(plan_sheet::yaml(yaml.expect("it is YAML").keys().expect("it has keys")), text);
/// ```
pub fn yaml(keys: &YamlKeys) -> String {
    lines(keys).join("\n") + "\n"
}

/// The lines of keys and their values.
fn lines(keys: &YamlKeys) -> Vec<String> {
    let mut lines = Vec::new();
    for (key, value) in keys.iter() {
        let key = scalar(key);
        match in_one_line(value) {
            Some(value) => lines.push(format!("{key}: {value}")),
            None => {
                lines.push(format!("{key}:"));
                lines.extend(block(value).iter().map(|line| format!("  {line}")));
            }
        }
    }
    lines
}

/// A value that is short, in one line: anything but keys, and lists of more than numbers and texts.
fn in_one_line(value: &YamlValue) -> Option<String> {
    Some(match value {
        YamlValue::Nothing => "null".to_owned(),
        YamlValue::Number(number) => number.clone(),
        YamlValue::Text(text) => scalar(text),
        YamlValue::List(items) => {
            let items: Vec<String> = items.iter().map(item_in_one_line).collect::<Option<_>>()?;
            format!("[{}]", items.join(", "))
        }
        YamlValue::Mapping(keys) if keys.is_empty() => "{}".to_owned(),
        YamlValue::Mapping(_) => return None,
    })
}

fn item_in_one_line(item: &YamlValue) -> Option<String> {
    match item {
        YamlValue::Text(text) => Some(in_flow(text)),
        YamlValue::List(_) | YamlValue::Mapping(_) => None,
        item => in_one_line(item),
    }
}

/// The lines of a value that takes more than one.
fn block(value: &YamlValue) -> Vec<String> {
    match value {
        YamlValue::Mapping(keys) if !keys.is_empty() => lines(keys),
        YamlValue::List(items) if in_one_line(value).is_none() => items
            .iter()
            .flat_map(|item| {
                let begins = std::iter::once("- ").chain(std::iter::repeat("  "));
                block(item).into_iter().zip(begins).map(|(line, begins)| format!("{begins}{line}"))
            })
            .collect(),
        value => in_one_line(value).into_iter().collect(),
    }
}

/// A text in a list or among keys that stand in one line.
pub(super) fn in_flow(text: &str) -> String {
    if text.contains(',') { quoted(text) } else { scalar(text) }
}

/// A text that YAML reads as just this text.
pub(super) fn scalar(text: &str) -> String {
    const WORDS: [&str; 9] = ["true", "false", "yes", "no", "on", "off", "null", "y", "n"];
    let is_plain = text.starts_with(|first: char| first.is_ascii_alphanumeric())
        && text.chars().all(|letter| letter.is_ascii_alphanumeric() || " .,:()+-/@%'_".contains(letter))
        && !text.contains(": ")
        && !text.ends_with([':', ' '])
        && text.chars().any(|letter| letter.is_ascii_alphabetic())
        && text.parse::<f64>().is_err()
        && !WORDS.iter().any(|word| text.eq_ignore_ascii_case(word));
    if is_plain {
        return text.to_owned();
    }
    quoted(text)
}

fn quoted(text: &str) -> String {
    let mut quoted = String::from('"');
    for letter in text.chars() {
        match letter {
            '"' | '\\' => quoted.extend(['\\', letter]),
            letter if letter.is_control() || matches!(letter, '\u{2028}' | '\u{2029}' | '\u{feff}') => {
                quoted += &format!("\\u{:04x}", u32::from(letter));
            }
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use proptest::collection::vec;
    use proptest::prelude::*;
    use session_plan::YamlText;
    use workout_notation::SourceText;

    use super::*;

    /// Texts that a file can hold as they are, those among them that mean something else without quotes.
    fn texts() -> impl Strategy<Value = String> {
        let looks_like_more =
            "true|null|~|1e3|0x1f|-|- a|a: b|a #b|#a|&a|\\*a|!a|\\{a\\}|\\[a|a, b|'a|\"a|a:|@a|%a|\\| |\\?";
        prop_oneof![looks_like_more, "[ -~é–]{0,12}"]
    }

    fn values() -> impl Strategy<Value = YamlValue> {
        let leaf = prop_oneof![
            Just(YamlValue::Nothing),
            any::<i32>().prop_map(|number| YamlValue::Number(number.to_string())),
            (-1e9..1e9).prop_map(|number: f64| YamlValue::Number(number.to_string())),
            texts().prop_map(YamlValue::Text),
        ];
        leaf.prop_recursive(4, 24, 4, |inner| {
            let list = vec(inner.clone(), 0..4).prop_map(YamlValue::List);
            prop_oneof![list, keys(inner).prop_map(YamlValue::Mapping)]
        })
    }

    fn keys(values: impl Strategy<Value = YamlValue>) -> impl Strategy<Value = YamlKeys> {
        vec((texts(), values), 0..4).prop_map(|entries| {
            let mut keys = YamlKeys::default();
            for (key, value) in entries {
                keys.set(&key, Some(value));
            }
            keys
        })
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back_the_same(keys in keys(values()).prop_filter("empty", |keys| !keys.is_empty())) {
            let text = yaml(&keys);
            let read = YamlText::read(SourceText::new("track.yaml", &text)).value();
            prop_assert_eq!(read, Some(YamlValue::Mapping(keys)), "{}", text);
        }
    }
}
