//! Hurdle spacings, against `tests/reference/hurdles.csv`: World Athletics, Technical Rules, hurdle races (read), and
//! a national federation's hurdle specifications for age groups (80, 75 and 70 m, from memory).

use crate::fixtures::standard_with_sets;
use crate::lane_number;
use crate::published::{Row, rows, source};
use lane_distance::{Course, Track};

pub(crate) const HURDLES: &str = include_str!("../../../../tests/reference/hurdles.csv");

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of `{}` is not a number", row["event"]))
}

/// The standard track with the ticks of every hurdle race.
pub(crate) fn track_with_every_tick() -> Track {
    standard_with_sets(&["standard", "age-group hurdles", "300 m hurdles"])
}

/// Distance of each hurdle to the finish, laid off from the start.
pub(crate) fn hurdles_m(row: &Row) -> Vec<f64> {
    let first_m = number(row, "distance_m") - number(row, "start_to_first_m");
    let count = number(row, "hurdles") as u32;
    (0..count).map(|n| first_m - f64::from(n) * number(row, "between_m")).collect()
}

#[test]
fn every_race_adds_up_to_its_distance() {
    let rows = rows(HURDLES);
    assert_eq!(rows.len(), 7);
    for row in &rows {
        let spaces = number(row, "hurdles") - 1.0;
        let sum_m = number(row, "start_to_first_m")
            + spaces * number(row, "between_m")
            + number(row, "last_to_finish_m");
        assert!(
            (sum_m - number(row, "distance_m")).abs() < 1e-9,
            "{}: {sum_m} m ({})",
            row["event"],
            source(row)
        );
    }
}

#[test]
fn a_tick_is_painted_at_every_hurdle_in_every_lane() {
    let track = track_with_every_tick();
    for row in rows(HURDLES) {
        let course = match row["course"].as_str() {
            "home straight" => Course::HomeStraight,
            "oval" => Course::Oval,
            other => panic!("there is no course `{other}`"),
        };
        // The event is called `110 m hurdles`, its marks `110 m hurdle tick 1` and on.
        let tick = format!("{} tick ", row["event"].trim_end_matches('s'));
        for lane in 1..=8 {
            let mut ticks_m: Vec<f64> = track
                .painted(course, lane_number(lane))
                .iter()
                .filter(|painted| track.marks()[painted.mark.index()].name.starts_with(&tick))
                .map(|painted| painted.to_finish_m)
                .collect();
            // Paint is listed from the finish line on, hurdles from the start.
            ticks_m.reverse();
            let published_m = hurdles_m(&row);
            let context = format!("{} in lane {lane} ({})", row["event"], source(&row));
            assert_eq!(ticks_m.len(), published_m.len(), "{context}: {ticks_m:?}");
            for (tick_m, published_m) in ticks_m.iter().zip(&published_m) {
                assert!(
                    (tick_m - published_m).abs() < 1e-9,
                    "{context}: {tick_m} m, published {published_m} m"
                );
            }
            let last_m = number(&row, "last_to_finish_m");
            assert!(ticks_m.last().is_some_and(|tick_m| (tick_m - last_m).abs() < 1e-9), "{context}");
        }
    }
}
