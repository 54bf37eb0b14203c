//! No label of a map or a strip lies over another, none is cut off, and all can be read. The boxes come from
//! usvg, which measures the letters by itself.

mod boxes;

use boxes::Picture;
use lane_distance::{LaneNumber, Track};
use plan_sheet::{Stretch, map_pictures, map_svg, maps, strips};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use session_plan::{Caution, Cones, Plan, Session, SessionFile, Venue, plan};
use workout_notation::{Block, SourceText};

/// Eight points at the usual width of print, in pixels of 1/96 inch.
const EIGHT_POINTS: f64 = 8.0 * 96.0 / 72.0;

fn check(plan: &Plan) -> Result<(), String> {
    let (whole_map, phone) = maps(plan, "test");
    let map = Picture::read(&whole_map);
    let sheet = Picture::read(&map_svg(plan));
    let phone = Picture::read(&phone);
    for (picture, printed_mm) in [(&map, 180.0), (&sheet, 180.0), (&phone, 100.0)] {
        let (overlaps, clipped, struck) = (picture.overlaps(), picture.clipped(), picture.struck());
        if !(overlaps.is_empty() && clipped.is_empty() && struck.is_empty()) {
            return Err(format!(
                "{}: {overlaps:?} overlap, {clipped:?} cut off, {struck:?} struck out",
                plan.title
            ));
        }
        // Printed as wide as that, margins and all.
        let printed = printed_mm / picture.width_mm;
        if let Some(text) = picture.texts.iter().find(|text| text.size * printed < EIGHT_POINTS) {
            return Err(format!("{}: `{}` has {} px", plan.title, text.words, text.size * printed));
        }
    }
    // Cut for pages, nothing else changes.
    let pages = map_pictures(plan, 180.0, 0.0, 150.0);
    for page in &pages {
        let picture = Picture::read(&page.svg);
        let (overlaps, clipped) = (picture.overlaps(), picture.clipped());
        if !(overlaps.is_empty() && clipped.is_empty()) || (picture.width_mm - 180.0).abs() > 0.01 {
            return Err(format!("{}: {overlaps:?} overlap, {clipped:?} cut off", plan.title));
        }
    }
    let insets = |svg: &str| svg.matches("class=\"inset\"").count();
    let (together, cut) = (insets(&whole_map), pages.iter().map(|page| insets(&page.svg)).sum::<usize>());
    if together != cut {
        return Err(format!("{}: {together} insets, and {cut} on pages", plan.title));
    }
    // The sheet holds the strips; each by itself must not be cut off either.
    for strip in [Stretch::Whole, Stretch::NearEnds]
        .into_iter()
        .flat_map(|stretch| strips(plan, stretch).concat().into_iter().take(6))
    {
        let clipped = Picture::read(&strip.svg);
        if !clipped.clipped().is_empty() {
            return Err(format!("{}: {:?} cut off in {}", plan.title, clipped.clipped(), strip.title));
        }
    }
    // Every cone is named once on the map, by itself or within a range, and again where it is magnified.
    for cone in &plan.setup {
        let is_named = |words: &str| {
            words.split(", ").any(|range| {
                // The cones of a lone workout have letters.
                if range == cone.label.to_string() {
                    return true;
                }
                let (first, last) = range.split_once('–').unwrap_or((range, range));
                let number = |text: &str| text.parse::<u32>().unwrap_or(0);
                (number(first)..=number(last)).contains(&cone.order)
            })
        };
        for map in [&map, &phone] {
            let times = map.flags.iter().filter(|flag| is_named(&flag.words)).count();
            if !(1..=2).contains(&times) {
                return Err(format!("{}: cone {} has {times} flags", plan.title, cone.order));
            }
        }
    }
    Ok(())
}

fn planned(track: &str, closed: &[u8], blocks: &[String]) -> Option<Plan> {
    let venue = Venue::from(Track::built_in(track).expect("it comes with the crate"));
    let venue = venue.with_closed(closed).ok()?;
    // What does not fit on a track is left out.
    let fits = |block: &&Block| plan(&venue, &Session::of_block("one", (*block).clone())).is_ok();
    let blocks: Vec<Block> = blocks.iter().filter_map(|text| Block::parse(text).ok()).collect();
    let blocks: Vec<Block> = blocks.iter().filter(fits).cloned().collect();
    // The more cones, the harder to keep their labels apart.
    let session = Session::of_blocks(format!("{track}, {} blocks", blocks.len()), blocks);
    plan(&venue, &Session { cones: Cones::EverySpot, ..session }).ok()
}

#[test]
fn the_sessions_of_wrenbeck() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../sessions/wrenbeck");
    let source = |name: &str| {
        let text = std::fs::read_to_string(format!("{folder}/{name}")).expect("it can be read");
        SourceText::new(name, &text)
    };
    let mut count = 0;
    for entry in std::fs::read_dir(folder).expect("it is a folder") {
        let name = entry.expect("it can be read").file_name().into_string().expect("it is UTF-8");
        if name == "track.yaml" {
            continue;
        }
        let venue = Venue::read(&source("track.yaml")).expect("the track is right");
        let file = SessionFile::read(source(&name)).expect("the session is right");
        let plan = plan(&venue, &file.session).expect("it can be planned");
        assert_eq!(check(&plan), Ok(()));
        count += 1;
    }
    assert_eq!(count, 8);
}

#[test]
fn a_block_in_every_lane_of_every_built_in_track() {
    for track in Track::built_in_names() {
        let lanes =
            Track::built_in(track).expect("it was named").layout().lanes_of(lane_distance::Course::Oval);
        let blocks = ["60", "150", "200"].map(|metres| format!("2 x {metres} in lanes 1-{lanes}"));
        let plan = planned(track, &[], &blocks).expect("some of it fits");
        assert_eq!(check(&plan), Ok(()));
        let plan = planned(track, &[], &blocks[1..2]).expect("150 m fit");
        assert_eq!(check(&plan), Ok(()));
    }
}

#[test]
fn no_lane_is_named_on_the_hatching_of_a_closed_one() {
    let session = "title: Sprints\ngroups: [{ name: sprints, athletes: [Kit, Lou, Max, Nia] }]\n\
                   blocks: [\"2 x 150 in lanes 3-6 rest 8min\"]\n";
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let venue = venue.with_closed(&[1, 2]).expect("others are open");
    let file = SessionFile::read(SourceText::new("sprints.yaml", session)).expect("the session is right");
    let plan = plan(&venue, &file.session).expect("it can be planned");
    assert_eq!(check(&plan), Ok(()));
    let (map, _) = maps(&plan, "test");
    assert!(
        map.contains("class=\"closed\"") && map.contains(">lane 5<"),
        "lanes are named beside closed ones"
    );
}

#[test]
fn forty_athletes_and_twelve_blocks() {
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let runs = ["60", "80", "90", "100", "120", "150", "200", "250", "300", "350", "400", "500"];
    let blocks =
        runs.map(|metres| Block::parse(&format!("2 x {metres} rest 4min")).expect("it is well formed"));
    let mut session = Session { cones: Cones::EverySpot, ..Session::of_blocks("Forty", blocks.to_vec()) };
    session.add_athletes(40);
    let plan = plan(&venue, &session).expect("it can be planned");
    assert!(plan.setup.len() > 40, "{} cones", plan.setup.len());
    assert_eq!(check(&plan), Ok(()));
}

/// Runs that are alike share a strip, whose flags then have many numbers beside a narrow lane.
#[test]
fn many_numbers_at_one_end_of_a_strip() {
    let blocks = ["30 in lanes 1,3,5,7", "30 in lanes 2,4,6,8"].map(str::to_owned);
    let plan = planned("standard", &[], &blocks).expect("it fits");
    assert_eq!(check(&plan), Ok(()));
    let flags = Picture::read(&strips(&plan, Stretch::Whole)[0][0].svg).flags;
    assert!(flags.len() > 2 && flags.iter().all(|flag| flag.x.1 <= flags[0].x.1 + 1e-3), "{flags:?}");
}

/// Cones that share a flag have lines from one to the next, wherever those lead.
#[test]
fn no_name_lies_on_the_line_between_cones_that_share_a_flag() {
    let blocks = ["2 x 802 in lanes 1-5", "2 x 91 on the bend in lanes 7-7", "2 x 804 in lanes 4-5"];
    let plan = planned("standard", &[], &blocks.map(str::to_owned)).expect("it fits");
    assert_eq!(check(&plan), Ok(()));
    assert!(map_svg(&plan).contains(">finish line<"), "it is named on every map");
}

#[test]
fn long_names_and_other_scripts_stay_apart() {
    let mut plan = planned("standard", &[1], &["4 x 150 in lanes 2-5".to_owned()]).expect("it fits");
    plan.title = "Ein sehr langer Titel für eine Einheit, die niemand in einer Zeile lesen kann ".repeat(4);
    plan.wind = Some(session_plan::Wind::from_text(&"W".repeat(300)));
    let because = Some("Остерегайтесь копья. 競走 ".repeat(20));
    plan.cautions.push(Caution::ClosedLanes { lanes: vec![LaneNumber::FIRST], because });
    assert_eq!(check(&plan), Ok(()));
}

#[test]
fn random_sessions() {
    let tracks: Vec<&str> = Track::built_in_names().collect();
    let block = (30_u32..900, 1_u8..=8, 1_u8..=8, any::<bool>()).prop_map(|(metres, a, b, is_on_bend)| {
        let place = if is_on_bend && metres < 110 { " on the bend" } else { "" };
        format!("2 x {metres}{place} in lanes {}-{}", a.min(b), a.max(b))
    });
    let session = (0..tracks.len(), prop::collection::vec(block, 1..14), 0_u8..4);
    let mut runner = TestRunner::new(Config { cases: 10, failure_persistence: None, ..Config::default() });
    let outcome = runner.run(&session, |(track, blocks, closed)| {
        let closed = if closed == 0 { vec![] } else { vec![closed] };
        if let Some(plan) = planned(tracks[track], &closed, &blocks) {
            prop_assert_eq!(check(&plan), Ok(()), "{:?}", blocks);
        }
        Ok(())
    });
    assert!(outcome.is_ok(), "{}", outcome.expect_err("it was looked at"));
}
