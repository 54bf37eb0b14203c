//! A block is the same after printing and reading.

#![no_main]

use libfuzzer_sys::fuzz_target;
use workout_notation::Block;

fuzz_target!(|text: &str| {
    if let Ok(block) = Block::parse(text) {
        let printed = block.to_string();
        assert_eq!(Block::parse(&printed).as_ref(), Ok(&block), "{text:?} prints as {printed:?}");
    }
});
