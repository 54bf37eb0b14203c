//! A session as a session file.

use session_plan::Session;
use workout_notation::{Block, Workout};

use crate::words::reading::unsure;

/// A session that was read from a text, as a session file: title, date, hours, closed lanes, blocks and groups.
///
/// Each block stands in the one form of all those that mean the same; what was not read, and what could be read in
/// another way, stands above it as a comment.
///
/// ```
/// use session_plan::Session;
/// use workout_notation::Workout;
///
/// let workout = Workout::parse("6x200, rec 90s").expect("it is well formed");
/// let yaml = plan_sheet::session_yaml(&Session::of_workout("Tuesday", workout), &[]);
/// assert_eq!(yaml, "title: Tuesday\nblocks:\n  - 6 x 200 rest 1:30\n");
/// ```
pub fn session_yaml(session: &Session, closed_lanes: &[u8]) -> String {
    let mut lines = vec![format!("title: {}", scalar(&session.title))];
    lines.extend(session.date.map(|date| format!("date: {date}")));
    lines.extend(session.hours.map(|hours| format!("hours: {hours}")));
    lines.extend(session.starts.map(|starts| format!("start: {}", starts.format("%H:%M"))));
    lines.extend(session.page.as_ref().map(|page| format!("page: {}", scalar(&page.to_string()))));
    if !closed_lanes.is_empty() {
        let lanes: Vec<String> = closed_lanes.iter().map(u8::to_string).collect();
        lines.push(format!("closed_lanes: [{}]", lanes.join(", ")));
    }
    if session.groups.is_empty() {
        lines.extend(list("blocks", &session.blocks, ""));
        return lines.join("\n") + "\n";
    }
    let [before, shared, after] = session.parts();
    lines.extend(list("before_groups", before, ""));
    lines.push("groups:".to_owned());
    for group in &session.groups {
        lines.push(format!("  - name: {}", scalar(&group.name)));
        lines.extend(list("blocks", group.blocks.as_deref().unwrap_or_default(), "    "));
    }
    lines.extend(list("blocks", shared, ""));
    lines.extend(list("after_groups", after, ""));
    lines.join("\n") + "\n"
}

/// The lines of a list of blocks under its key; none where there are no blocks.
fn list(key: &str, blocks: &[Block], indent: &str) -> Vec<String> {
    if blocks.is_empty() {
        return Vec::new();
    }
    let inner = format!("{indent}  ");
    let items = blocks.iter().flat_map(|block| item(block, &inner));
    [format!("{indent}{key}:")].into_iter().chain(items).collect()
}

/// The lines of a block in a list.
fn item(block: &Block, indent: &str) -> Vec<String> {
    let comment =
        |line: String| format!("{indent}# {}", line.split_whitespace().collect::<Vec<_>>().join(" "));
    let mut lines: Vec<String> = unsure(block).into_iter().map(comment).collect();
    let text = scalar(&text(block));
    match &block.rest_after {
        None => lines.push(format!("{indent}- {text}")),
        Some(rest) => {
            lines.push(format!("{indent}- text: {text}"));
            let is_whole = rest.seconds % 60.0 == 0.0;
            let (number, unit) = if is_whole { (rest.seconds / 60.0, "min") } else { (rest.seconds, "s") };
            lines.push(format!("{indent}  rest_after: {number}{unit}"));
        }
    }
    lines
}

/// The text of a block: the one form of all those that mean the same, with what stands beside it; as it was written
/// where that form would lose anything.
fn text(block: &Block) -> String {
    let label = block.label.as_ref().map_or_else(String::new, |label| format!("{label}: "));
    let asides: String = block.asides.iter().map(|aside| format!(", {aside}")).collect();
    let written = block.text.split_whitespace().collect::<Vec<_>>().join(" ");
    let is_same = |text: &String| {
        let blocks = Workout::parse(text).map(Workout::into_blocks).unwrap_or_default();
        matches!(blocks.as_slice(), [one] if one == block && one.label == block.label && one.asides == block.asides)
    };
    let forms = [format!("{label}{block}{asides}"), written, format!("{label}{block}"), block.to_string()];
    forms.iter().find(|text| is_same(text)).unwrap_or(&forms[3]).clone()
}

/// A text that YAML reads as just this text.
fn scalar(text: &str) -> String {
    const WORDS: [&str; 9] = ["true", "false", "yes", "no", "on", "off", "null", "y", "n"];
    let is_plain = text.starts_with(|first: char| first.is_ascii_alphanumeric())
        && text.chars().all(|letter| letter.is_ascii_alphanumeric() || " .,:()+-/@%'".contains(letter))
        && !text.contains(": ")
        && !text.ends_with([':', ' '])
        && text.chars().any(|letter| letter.is_ascii_alphabetic())
        && text.parse::<f64>().is_err()
        && !WORDS.iter().any(|word| text.eq_ignore_ascii_case(word));
    if is_plain {
        return text.to_owned();
    }
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
