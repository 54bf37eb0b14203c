//! The examples that coaches look up are workouts as they stand.

use workout_notation::{Block, Body, notation};

#[test]
fn every_example_can_be_read_and_all_but_those_of_the_last_form_are_runs() {
    let forms: Vec<_> = notation().collect();
    assert!(forms.len() >= 28, "only {} forms", forms.len());
    for (index, form) in forms.iter().enumerate() {
        assert!(!form.meaning.is_empty());
        for example in form.examples {
            let block = Block::parse(example).unwrap_or_else(|problems| panic!("{example}: {problems:?}"));
            let is_note = matches!(block.body, Body::Note { .. });
            assert_eq!(is_note, index + 1 == forms.len(), "{example} is read as {:?}", block.body);
        }
    }
}
