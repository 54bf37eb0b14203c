//! Sheets on paper.

#[cfg(feature = "pdf")]
mod card;
pub(crate) mod extras;
#[cfg(feature = "pdf")]
mod fonts;
#[cfg(feature = "pdf")]
mod front_block;
#[cfg(feature = "pdf")]
mod front_place;
#[cfg(feature = "pdf")]
mod front_wave;
#[cfg(feature = "pdf")]
mod page_code;
pub(crate) mod paper;
#[cfg(feature = "pdf")]
pub(crate) mod print_world;
#[cfg(feature = "pdf")]
pub(crate) mod printed_page;
#[cfg(feature = "pdf")]
mod printed_sheet;
#[cfg(feature = "pdf")]
pub(crate) mod printout;
#[cfg(feature = "pdf")]
pub(crate) mod strip_pages;
#[cfg(feature = "pdf")]
mod time_boxes;
#[cfg(feature = "pdf")]
mod timed_block;
#[cfg(feature = "pdf")]
mod walk;

#[cfg(feature = "pdf")]
use session_plan::Limit;

#[cfg(feature = "pdf")]
use crate::formats::plan_size::check_size;
use crate::formats::planned::Planned;
use crate::formats::rendered::{RenderError, RenderSettings, Rendered};

/// Plans on paper, as PDF.
#[cfg(feature = "pdf")]
pub(crate) fn pdf(planned: Planned<'_>, settings: &RenderSettings) -> Result<Rendered, RenderError> {
    check_size(planned.plans, settings.extras.cards, "pdf", Limit::PrintedLines)?;
    printout::Printout::of(planned, settings.paper, settings.extras)?.pdf()
}

/// The same pages as pictures.
#[cfg(feature = "pdf")]
pub(crate) fn pictures(planned: Planned<'_>, settings: &RenderSettings) -> Result<Rendered, RenderError> {
    check_size(planned.plans, settings.extras.cards, "png", Limit::PicturedLines)?;
    printout::Printout::of(planned, settings.paper, settings.extras)?.pictures()
}

#[cfg(not(feature = "pdf"))]
pub(crate) use pdf as pictures;

/// Says that this build cannot print.
#[cfg(not(feature = "pdf"))]
pub(crate) fn pdf(_: Planned<'_>, _: &RenderSettings) -> Result<Rendered, RenderError> {
    Err(RenderError::CannotPrint)
}
