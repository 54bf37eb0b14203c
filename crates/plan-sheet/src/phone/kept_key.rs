//! The key under which a phone keeps the times of a session.

use session_plan::Plan;

use super::key_digest::digest;

/// Changes whenever the names of the boxes change that times are typed in.
const VERSION: &str = "2";

/// A hash of the session's title, its date, its track and, for each run, who runs how far from where to where.
///
/// Places and distances are in whole millimetres of their lane and course, so other words for them, a note or a
/// longer rest lose no times. The title, which is the coach's own, keeps apart sessions with the same runs.
pub(super) fn kept_key(plan: &Plan) -> String {
    digest(plan, VERSION, |rep| {
        let ends = [&rep.start, &rep.finish].into_iter();
        let ends = ends.flat_map(|end| [end.course.to_string(), millimetres(end.to_finish_line_m)]);
        ends.chain([millimetres(rep.distance_m)]).collect()
    })
}

fn millimetres(length_m: f64) -> String {
    ((length_m * 1000.0).round() as i64).to_string()
}

#[cfg(test)]
mod tests {
    use lane_distance::Track;
    use session_plan::{Athlete, Group, Session, Venue, plan};
    use workout_notation::Block;

    use super::super::old_key::old_key;
    use super::*;

    fn planned(block: &str, title: &str, names: &[&str]) -> Plan {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let block = Block::parse(block).expect("well formed");
        let athletes = names.iter().map(|name| Athlete { name: (*name).to_owned(), ..Athlete::default() });
        let group = Group { name: "all".to_owned(), athletes: athletes.collect(), ..Group::default() };
        plan(&venue, &Session { groups: vec![group], ..Session::of_block(title, block) }).expect("it fits")
    }

    /// If either changes, times that phones have kept are lost.
    #[test]
    fn keys_outlive_a_release() {
        let plan = planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]);
        assert_eq!(kept_key(&plan), "a16de08e88a6d3ea35b29021");
        assert_eq!(old_key(&plan), "7d4091f2ab0d9ad4ba5827ab");
    }

    #[test]
    fn a_key_tells_people_and_places_apart() {
        let first = kept_key(&planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]));
        let others = [
            planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Friday", &["Ada", "Bela"]),
            planned("2 x 200 in lanes 3-4 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]),
            planned("2 x 300 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]),
            planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Cleo"]),
            planned("3 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]),
        ];
        assert!(others.iter().all(|other| kept_key(other) != first));
    }

    #[test]
    fn no_words_about_a_run_change_a_key() {
        let first = planned("2 x 200 in lanes 2-3 @ 34 rest 3min", "Tuesday", &["Ada", "Bela"]);
        let mut other = planned("2 x 200 in lanes 2-3 @ 34 rest 4min", "Tuesday", &["Ada", "Bela"]);
        other.notes.push("It rains.".to_owned());
        other.blocks[0].read.text = "two 200s".to_owned();
        for rep in &mut other.blocks[0].reps {
            rep.start.look_for = Some("start of the 200 m".into());
            rep.start.mark = Some("200 start".into());
            rep.finish.look_for = Some("line at the finish".into());
        }
        assert_eq!(kept_key(&other), kept_key(&first));
    }
}
