//! A value and where it stands in its text.

use std::ops::{Deref, Range};

/// A value and the bytes of the text that it was read from. Two are equal if their values are: a block
/// that is printed and read again is the same block.
#[derive(Clone, Debug)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Its bytes in the text.
    pub span: Range<usize>,
}

impl<T> Spanned<T> {
    pub(crate) const fn new(value: T, span: Range<usize>) -> Self {
        Self { value, span }
    }
}

impl<T> Deref for Spanned<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T: PartialEq> PartialEq for Spanned<T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}
