//! Sheets on paper.

pub(crate) mod fonts;
pub(crate) mod paper;
#[cfg(feature = "pdf")]
pub(crate) mod print_world;
#[cfg(feature = "pdf")]
pub(crate) mod printed_page;
#[cfg(feature = "pdf")]
pub(crate) mod printout;
#[cfg(feature = "pdf")]
pub(crate) mod strip_pages;
