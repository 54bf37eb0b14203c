//! How a workout that a coach has written is read.
//!
//! 1. [`words`]: what coaches write of, run by run.
//! 2. [`reading`]: how a text becomes a block, why no number is lost on the way, and what is done about words that are not
//!    known, about doubts and about mistakes.
//! 3. [`forms`]: every kind of thing that can be written, by example.
//!
//! The notation is what club coaches send in messages; it follows no publication (common practice, no source).
//! [`notation`](crate::notation) lists its forms, one row each, and the command line and the page print that table.

#[doc = include_str!("words.md")]
pub mod words {}

#[doc = include_str!("reading.md")]
pub mod reading {}

#[doc = include_str!("forms.md")]
pub mod forms {}
