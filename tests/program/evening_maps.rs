//! The maps of random evenings: no label of a map or of an inset lies over another or is struck out, none is cut off,
//! and none is smaller than 8 pt.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

use crate::boxes::Picture;
use crate::evenings::{evening, planned};

/// How many evenings each test draws, so that all together are 500.
const EACH: usize = 125;

/// The widths of maps: beside what there is to heed on paper, or as wide as the text.
const WIDTHS_MM: [f64; 2] = [100.0, 180.0];

fn check_maps(seed: u8) {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]);
    let mut runner = TestRunner::new_with_rng(Config { failure_persistence: None, ..Config::default() }, rng);
    let evenings = evening();
    let mut drawn = 0;
    while drawn < EACH {
        let one = evenings.new_tree(&mut runner).expect("nothing is left out").current();
        let Some(plan) = planned(&one) else { continue };
        drawn += 1;
        // Each width has its turn.
        let width_mm = WIDTHS_MM[drawn % WIDTHS_MM.len()];
        for map in plan_sheet::map_pictures(&plan, width_mm, 0.0, 240.0) {
            let picture = Picture::read(&map.svg);
            let (overlaps, clipped, struck) = (picture.overlaps(), picture.clipped(), picture.struck());
            assert!(
                overlaps.is_empty() && clipped.is_empty() && struck.is_empty(),
                "{overlaps:?} overlap, {clipped:?} cut off, {struck:?} struck out, {width_mm} mm wide, of {one:#?}"
            );
            // They are printed as wide as they are, in units of 1/96 inch.
            assert!(picture.width_mm >= width_mm - 0.01, "{} mm wide", picture.width_mm);
            let small = picture.texts.iter().find(|text| text.size < 8.0 * 96.0 / 72.0);
            assert!(small.is_none(), "less than 8 pt: {small:?} of {one:#?}");
        }
    }
}

#[test]
fn no_label_of_a_map_lies_over_another() {
    check_maps(11);
}

#[test]
fn no_label_of_further_maps_lies_over_another() {
    check_maps(12);
}

#[test]
fn no_label_of_yet_further_maps_lies_over_another() {
    check_maps(13);
}

#[test]
fn no_label_of_the_last_maps_lies_over_another() {
    check_maps(14);
}
