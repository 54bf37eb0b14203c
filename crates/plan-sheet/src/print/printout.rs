//! Plans on paper.

use std::collections::BTreeSet;

use chrono::Datelike;
use serde::Serialize;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Smart};
use typst::layout::{Frame, FrameItem};
use typst::utils::Scalar;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use typst_render::RenderOptions;

use crate::formats::own_picture::{OWN_NAME, SOFTWARE};
use crate::formats::planned::Planned;
use crate::formats::rendered::{RenderError, Rendered};
use crate::print::extras::Extras;
use crate::print::paper::Paper;
use crate::print::print_world::PrintWorld;
use crate::print::printed_page::PrintedPage;
use crate::print::printed_sheet::PrintedSheet;
use crate::sheet::week_sheet::WeekSheet;

/// Plans set on pages: the session on its first page, the boxes for the times of a squad on the next, and what else
/// is asked for.
///
/// The same plans give the same bytes, whenever and wherever they are set.
#[derive(Clone, Debug)]
pub(crate) struct Printout {
    document: PagedDocument,
    /// The letters that no typeface of the sheets has, which print as boxes.
    unprintable: BTreeSet<char>,
}

/// The resolution of pictures: 144 dots an inch, as a point is a 72nd of it.
const PIXELS_PER_POINT: f64 = 2.0;

/// What a sheet says of letters that no typeface has.
const BOXES: &str =
    "Letters shown as boxes are missing from this sheet's typefaces; the page (.html) shows them.";

/// What the template reads.
#[derive(Serialize)]
struct Printed {
    title: String,
    date: Option<[u32; 3]>,
    page: PrintedPage,
    /// The week that the sheets make, in front of them.
    week: Option<WeekSheet>,
    sheets: Vec<PrintedSheet>,
}

impl Printout {
    /// Sets plans on pages, one after the other.
    pub(crate) fn of(planned: Planned<'_>, paper: Paper, extras: Extras) -> Result<Self, RenderError> {
        let Planned { plans, week } = planned;
        let page = PrintedPage::of(paper);
        let mut files: Vec<(String, Bytes)> = Vec::new();
        let sheet = |(number, plan)| PrintedSheet::of(plan, number, page, extras, &mut files);
        let mut sheets: Vec<PrintedSheet> = (1..).zip(plans).map(sheet).collect();
        if week.is_some() {
            sheets.iter_mut().for_each(PrintedSheet::keep_first_page);
        }
        let week = week.map(WeekSheet::of);
        let mut printed = Printed {
            title: match (&week, plans) {
                (Some(week), _) => week.title.clone(),
                (None, []) => "No sessions".to_owned(),
                (None, [plan]) => plan.title.clone(),
                (None, [first, others @ ..]) => format!("{} and {} more", first.title, others.len()),
            },
            // A PDF has four digits for a year (ISO 32000-1, 7.9.4).
            date: (plans.iter().find_map(|plan| plan.date))
                .filter(|date| (0..=9999).contains(&date.year()))
                .map(|date| [date.year().unsigned_abs(), date.month(), date.day()]),
            page,
            week,
            sheets,
        };
        let document = printed.set(&files)?;
        let mut unprintable = BTreeSet::new();
        for page in document.pages() {
            add_unprintable(&page.frame, &mut unprintable);
        }
        if unprintable.is_empty() {
            return Ok(Self { document, unprintable });
        }
        // Which letters are missing is known only after setting.
        for sheet in &mut printed.sheets {
            if serde_json::to_string(sheet)?.contains(|letter| unprintable.contains(&letter)) {
                sheet.note(BOXES);
            }
        }
        Ok(Self { document: printed.set(&files)?, unprintable })
    }

    /// The pages as a tagged PDF. It keeps to PDF/UA-1 (ISO 14289-1) unless letters are missing, which
    /// that standard does not allow.
    pub(crate) fn pdf(&self) -> Result<Rendered, RenderError> {
        let standards: &[PdfStandard] =
            if self.unprintable.is_empty() { &[PdfStandard::Ua_1] } else { &[PdfStandard::V_1_7] };
        let options = PdfOptions {
            creator: Smart::Custom(Some("Toeline".to_owned())),
            standards: PdfStandards::new(standards)
                .map_err(|error| RenderError::Mistake(error.message().to_string()))?,
            ..PdfOptions::default()
        };
        let file = typst_pdf::pdf(&self.document, &options).map_err(|errors| mistake(&errors))?;
        Ok(self.rendered(vec![file]))
    }

    /// The pages as pictures (PNG), of 144 dots an inch.
    pub(crate) fn pictures(&self) -> Result<Rendered, RenderError> {
        let options =
            RenderOptions { pixel_per_pt: Scalar::new(PIXELS_PER_POINT), ..RenderOptions::default() };
        let pages = self.document.pages().iter();
        let pictures = pages
            .map(|page| {
                let picture = typst_render::render(page, &options);
                let (width, height) = (picture.width(), picture.height());
                // A page is white under what is printed on it: no dot lets anything through.
                let dots = picture.pixels().iter();
                let dots: Vec<u8> = dots.flat_map(|dot| [dot.red(), dot.green(), dot.blue()]).collect();
                own_png(width, height, &dots)
            })
            .collect::<Result<_, _>>()
            .map_err(|error| RenderError::Mistake(error.to_string()))?;
        Ok(self.rendered(pictures))
    }

    fn rendered(&self, files: Vec<Vec<u8>>) -> Rendered {
        let letters: String = self.unprintable.iter().collect();
        let note = format!("the sheet's typefaces lack these letters; they print as boxes: {letters}");
        Rendered { files, notes: if letters.is_empty() { Vec::new() } else { vec![note] } }
    }
}

/// Letters that show nothing and that PDF/UA-1 (ISO 14289-1) allows in no text.
const NEVER_PRINTED: [char; 2] = ['\u{feff}', '\u{fffe}'];

impl Printed {
    /// Sets the pages, with pictures from files.
    fn set(&self, files: &[(String, Bytes)]) -> Result<PagedDocument, RenderError> {
        let data = serde_json::to_string(self)?.replace(NEVER_PRINTED, "").into_bytes();
        let world =
            PrintWorld::new(files.iter().cloned().chain([("/sheet.json".to_owned(), Bytes::new(data))]));
        let document = typst::compile::<PagedDocument>(&world).output.map_err(|errors| mistake(&errors));
        // What was remembered for setting the pages again takes more room than the pages.
        typst::comemo::evict(0);
        document
    }
}

fn mistake(errors: &[SourceDiagnostic]) -> RenderError {
    RenderError::Mistake(errors.iter().map(|error| error.message.as_str()).collect::<Vec<_>>().join("; "))
}

/// Adds the letters of a frame for which no typeface has a glyph: theirs is glyph 0.
fn add_unprintable(frame: &Frame, unprintable: &mut BTreeSet<char>) {
    for (_, item) in frame.items() {
        match item {
            FrameItem::Group(group) => add_unprintable(&group.frame, unprintable),
            FrameItem::Text(text) => {
                let missing = text.glyphs.iter().filter(|glyph| glyph.id == 0);
                unprintable.extend(missing.flat_map(|glyph| text.text[glyph.range()].chars()));
            }
            _ => {}
        }
    }
}

/// A picture (PNG) of three bytes a dot that says which program wrote it.
fn own_png(width: u32, height: u32, dots: &[u8]) -> Result<Vec<u8>, png::EncodingError> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    // Of a page of text the usual compression makes a sixth less, in six times the time.
    encoder.set_filter(png::Filter::NoFilter);
    encoder.set_deflate_compression(png::DeflateCompression::Level(1));
    encoder.add_text_chunk(SOFTWARE.to_owned(), OWN_NAME.to_owned())?;
    let mut writer = encoder.write_header()?;
    writer.write_image_data(dots)?;
    writer.finish()?;
    Ok(file)
}
