//! Searches that are refused, and what is said then.

use lane_distance::{Course, LaneError, LaneNumber, Place, SearchError, Track};

use crate::fixtures::standard;
use crate::lane_number;

#[test]
fn other_distances_are_refused_with_the_range() {
    let track = standard();
    for wrong_m in [9.99, 10_000.01, 0.0, -200.0, f64::INFINITY, f64::NEG_INFINITY, f64::NAN] {
        for answer in [
            track.search(lane_number(4), wrong_m),
            track.search_at(Place::On(Course::HomeStraight), lane_number(4), wrong_m),
        ] {
            match answer {
                Err(SearchError::Distance { distance_m }) => {
                    assert!(distance_m == wrong_m || wrong_m.is_nan(), "{distance_m} m, not {wrong_m} m");
                }
                other => panic!("{wrong_m} m: {other:?}"),
            }
        }
    }
    let error = track.search(lane_number(4), 9.99).expect_err("9.99 m is too short");
    assert_eq!(error.to_string(), "a repetition of 9.99 m is out of range: 10 m to 10000 m");
}

#[test]
fn a_closed_lane_is_refused_with_the_open_ones() {
    let track = standard().with_closed(&[lane_number(4), lane_number(1)]).expect("the track has both lanes");
    for distance_m in [30.0, 100.0, 113.0, 113.01, 200.0, 400.0, 1500.0] {
        for lane in 1..=8 {
            let answer = track.search(lane_number(lane), distance_m);
            if lane == 1 || lane == 4 {
                let course = if distance_m <= 113.0 { Course::HomeStraight } else { Course::Oval };
                let closed =
                    LaneError::Closed { lane, course, open: [2, 3, 5, 6, 7, 8].map(lane_number).to_vec() };
                assert_eq!(answer, Err(SearchError::Lane(closed)), "{distance_m} m");
            } else {
                for pair in answer.expect("the lane is open") {
                    assert_eq!([pair.start.lane, pair.finish.lane], [lane, lane]);
                }
            }
        }
    }
    let error = track.search(lane_number(4), 200.0).expect_err("the lane is closed");
    assert_eq!(error.to_string(), "lane 4 is closed; open on the oval: lanes 2, 3, 5, 6, 7 and 8");
}

#[test]
fn a_lane_that_is_not_there_is_refused_with_the_open_ones() {
    let track = standard();
    for lane in [0, 9, u8::MAX] {
        let open = LaneNumber::first(8).collect();
        assert_eq!(track.lane_number(lane), Err(LaneError::Missing { lane, course: Course::Oval, open }));
    }
    let missing = track.search(lane_number(9), 200.0).expect_err("the track has eight lanes");
    assert_eq!(missing.to_string(), "there is no lane 9 on the oval; open there: lanes 1 to 8");
    let six = Track::built_in("standard-6").expect("it comes with the crate");
    assert!(six.search(lane_number(8), 100.0).is_ok(), "the home straight has eight lanes");
    let error = six.search(lane_number(8), 200.0).expect_err("the oval has six lanes");
    assert_eq!(error.to_string(), "there is no lane 8 on the oval; open there: lanes 1 to 6");
}
