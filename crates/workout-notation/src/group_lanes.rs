//! The lanes of a group behind its name: `Group A in lane 1`, `Sprints (Al, Bo), lanes 5-8`.

use lane_distance::LaneNumber;

use crate::cursor::Cursor;
use crate::forms::FORMS;
use crate::token::Lexed;

/// The words in front of the lanes that end some, and those lanes; all words where none do.
pub(crate) fn without_lanes(words: &str) -> (&str, Vec<LaneNumber>) {
    let none = (words, Vec::new());
    if !words.contains(['l', 'L']) {
        return none;
    }
    let lexed = Lexed::new(words, &FORMS);
    let mut cursor = Cursor::new(&lexed);
    cursor.skip();
    while !cursor.is_at_end() {
        if !(cursor.is_in_lane()
            && (cursor.is_number(1) || cursor.is_word(0, &["in"]) && cursor.is_number(2)))
        {
            cursor.skip();
            continue;
        }
        let before = words[..cursor.here().start].trim_end();
        let opens = before.ends_with('(');
        let lanes = cursor.lanes_listed().unwrap_or_default();
        cursor.word(&["only"]);
        let is_end = (!opens || cursor.sign(')')) && cursor.is_at_end();
        let name = before.trim_end_matches(|sign: char| " ,(-–".contains(sign));
        return if is_end && !lanes.is_empty() && !name.is_empty() { (name, lanes) } else { none };
    }
    none
}

#[cfg(test)]
mod tests {
    use super::without_lanes;

    #[test]
    fn lanes_stand_behind_the_name() {
        for (words, name, lanes) in [
            ("Group A in lane 1", "Group A", vec![1]),
            ("Group A (lane 1)", "Group A", vec![1]),
            ("Sprints (Al, Bo), lanes 5-8", "Sprints (Al, Bo)", vec![5, 6, 7, 8]),
            ("Sprints - lanes 3 and 4 only", "Sprints", vec![3, 4]),
            ("Lane 4", "Lane 4", vec![]),
            ("Group in lane 1 at 7", "Group in lane 1 at 7", vec![]),
        ] {
            let found = without_lanes(words);
            let numbers: Vec<u8> = found.1.iter().map(|lane| lane.get()).collect();
            assert_eq!((found.0, numbers), (name, lanes), "{words}");
        }
    }
}
