//! Lanes unrolled: what they say of places that are no start and no finish.

use plan_sheet::Stretch;
use session_plan::{Plan, SessionFile, Venue};
use workout_notation::SourceText;

fn planned(session: &str) -> Plan {
    let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    let source = SourceText::new("session.yaml", session);
    let file = SessionFile::read(source).expect("it is well formed");
    session_plan::plan(&Venue::from(track), &file.session).expect("it can be planned")
}

/// What a strip says, without its marks of drawing.
fn words(svg: &str) -> String {
    let begins = svg.find("<desc").expect("it says what it shows");
    let text = &svg[begins..svg.find("</desc>").expect("it ends")];
    text[text.find('>').expect("it is a tag") + 1..].to_owned()
}

#[test]
fn the_strip_of_an_exchange_begins_at_the_run_in_and_has_the_check_marks() {
    let plan = planned(
        "
title: batons
groups:
  - name: sprinters
    bests: { 100: 12.0, 200: 24.6 }
    athletes: [Ada, Bea, { name: Cyd, bests: { 100: 13.2 } }, Dan]
blocks: [2 x exchange zone 2 in lanes 4-5 rest 3min]
",
    );
    let strips: Vec<String> =
        plan_sheet::strips(&plan, Stretch::Whole).iter().flatten().map(|strip| words(&strip.svg)).collect();
    assert_eq!(
        strips,
        [
            "0.00 m: run-in: 10.00 m back from the 4th green tick. 10.00 m: 4th green tick. \
             32.50 m: check mark: Ada to Bea, Bea to Ada. 40.00 m: outgoing: on the entry of yellow zone 2. \
             45.00 m: 5th green tick. 49.91 m: 1000 m, 3000 m and 5000 m start. 60.00 m: 200 m start line. \
             70.00 m: finish: on the exit of yellow zone 2.",
            "0.00 m: run-in: 10.00 m back from the 4th green tick. 10.00 m: 4th green tick. \
             30.93 m: check mark: Dan to Cyd. 33.65 m: check mark: Cyd to Dan. \
             40.00 m: outgoing: on the entry of yellow zone 2. 45.00 m: 5th green tick. \
             46.72 m: 1000 m, 3000 m and 5000 m start. 60.00 m: 200 m start line. \
             70.00 m: finish: on the exit of yellow zone 2.",
        ]
    );
}

#[test]
fn the_strip_of_a_flying_run_begins_at_its_run_in() {
    let plan = planned("title: speed\nblocks: [2 x flying 30 with 20 run-in in lane 4]\n");
    let strips: Vec<String> =
        plan_sheet::strips(&plan, Stretch::Whole).iter().flatten().map(|strip| words(&strip.svg)).collect();
    let [strip] = strips.as_slice() else { panic!("one strip, not {}", strips.len()) };
    assert!(strip.starts_with("0.00 m: stand: on the 100 m start line. 3.72 m: 1st blue tick. "), "{strip}");
    assert!(strip.contains(" 20.00 m: fast part: on the 80 m start line. "), "{strip}");
    assert!(strip.ends_with(" 50.00 m: finish: on the 50 m start line."), "{strip}");
}

/// What is looked for on the ground lies near the ends; lanes that differ only between them share a strip.
#[test]
fn near_the_ends_a_strip_has_the_paint_within_forty_metres() {
    let plan = planned("title: a lap\nblocks: [2 x 400 in lanes 2-4]\n");
    let near = |parts: &[plan_sheet::Strip]| parts.iter().map(|part| words(&part.svg)).collect::<Vec<_>>();
    let strips = plan_sheet::strips(&plan, Stretch::NearEnds);
    assert!(strips.len() <= plan_sheet::strips(&plan, Stretch::Whole).len());
    for strip in &strips {
        let [start, finish] = near(strip).try_into().expect("a lap has a part at each end");
        let metres = |words: &str| -> Vec<f64> {
            words
                .split(' ')
                .zip(words.split(' ').skip(1))
                .filter(|(_, unit)| *unit == "m:")
                .map(|(metres, _)| metres.parse().expect("it is a number"))
                .collect()
        };
        assert!(metres(&start).len() > 1 && metres(&start).iter().all(|&metres| metres <= 40.0), "{start}");
        assert!(
            metres(&finish).len() > 1 && metres(&finish).iter().all(|&metres| metres >= 360.0),
            "{finish}"
        );
        assert!(
            start.ends_with(" 320 m left out.") && finish.starts_with("320 m left out. "),
            "{start} {finish}"
        );
    }
}
