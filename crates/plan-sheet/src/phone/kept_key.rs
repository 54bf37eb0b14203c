//! What the times of a session are kept under.

use sha2::{Digest, Sha256};

use crate::sheet::sheet::Sheet;

/// Goes up whenever the names of the boxes change that times are typed in.
const VERSION: &str = "1";

/// The key of a sheet on a day and a track: the same as long as each box is for the same run of the same
/// people in the same place, whatever else is said of it.
pub(super) fn kept_key(sheet: &Sheet, day: Option<&str>, track: &str) -> String {
    let mut digest = Sha256::new();
    let mut add = |words: &str| {
        // With its length, no two lists of words are alike.
        digest.update(words.len().to_le_bytes());
        digest.update(words);
    };
    for words in [VERSION, &sheet.title, day.unwrap_or_default(), track] {
        add(words);
    }
    for block in &sheet.blocks {
        for row in &block.rows {
            for number in
                [block.number, row.set as usize, row.rep as usize, row.wave as usize, row.lane.into()]
            {
                add(&number.to_string());
            }
            for words in [&row.metres, &row.start, &row.finish] {
                add(words);
            }
            add(&row.names.len().to_string());
            row.names.iter().for_each(|name| add(name));
        }
    }
    digest.finalize().iter().take(12).map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use lane_distance::Track;
    use session_plan::{Athlete, Group, Plan, Session, Venue, plan};
    use workout_notation::Block;

    use super::*;

    fn planned(block: &str, title: &str, names: &[&str]) -> Plan {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let block = Block::parse(block).expect("well formed");
        let athletes = names.iter().map(|name| Athlete { name: (*name).to_owned(), ..Athlete::default() });
        let group = Group { name: "all".to_owned(), athletes: athletes.collect(), ..Group::default() };
        plan(&venue, &Session { groups: vec![group], ..Session::of_block(title, block) }).expect("it fits")
    }

    fn key(plan: &Plan) -> String {
        kept_key(&Sheet::of(plan), None, &plan.track.name)
    }

    #[test]
    fn times_outlive_a_new_release() {
        // If this changes, times that are kept on phones are lost.
        assert_eq!(
            key(&planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"])),
            "7d4091f2ab0d9ad4ba5827ab"
        );
    }

    #[test]
    fn a_key_is_that_of_people_and_places() {
        let first = key(&planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]));
        let others = [
            planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Friday", &["Ada", "Bela"]),
            planned("2 x 200 in lanes 3-4 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]),
            planned("2 x 300 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]),
            planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Cleo"]),
            planned("3 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]),
        ];
        assert!(others.iter().all(|other| key(other) != first));
        let mut late = planned("2 x 200 in lanes 2-3 @ 34 rest 4min", "Tuesday", &["Ada", "Bela"]);
        late.notes.push("It rains.".to_owned());
        assert_eq!(key(&late), first, "a longer rest or a note loses no time");
    }
}
