//! Plans on paper.

use std::collections::BTreeSet;

use chrono::Datelike;
use serde::Serialize;
use session_plan::Plan;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Smart};
use typst::layout::{Frame, FrameItem};
use typst::utils::Scalar;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use typst_render::RenderOptions;

use crate::formats::own_picture::{OWN_NAME, SOFTWARE};
use crate::formats::rendered::{RenderError, Rendered};
use crate::map::map_picture::{MapPicture, map_pictures};
use crate::print::paper::Paper;
use crate::print::print_world::PrintWorld;
use crate::print::printed_page::PrintedPage;
use crate::print::strip_pages::{PrintedPicture, StripPage};
use crate::sheet::sheet::Sheet;
use crate::strip::strip::{Strip, strips};

/// Plans set on pages: the session at a glance, a part for each block with boxes for the times, the
/// walk that sets the cones out, and cards for the athletes to cut out.
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

/// What the heading over strips takes, in millimetres.
const HEADING_MM: f64 = 14.0;

/// How wide the pictures of a map are, in millimetres; they are printed as wide as text.
const PICTURE_MM: f64 = 180.0;

/// What a sheet says of letters that no typeface has.
const BOXES: &str =
    "Letters shown as boxes are missing from this sheet's typefaces; the page (.html) shows them.";

/// What the template reads.
#[derive(Serialize)]
struct Printed {
    title: String,
    date: Option<[u32; 3]>,
    page: PrintedPage,
    sheets: Vec<PrintedSheet>,
}

#[derive(Serialize)]
struct PrintedSheet {
    #[serde(flatten)]
    sheet: Sheet,
    /// Its map in pictures: with as much of it in the first as a page holds; then with the track alone in it,
    /// for a sheet whose first page has much else.
    maps: Vec<Vec<PrintedPicture>>,
    /// Its lanes, each from start to finish.
    strip_pages: Vec<StripPage>,
}

impl Printout {
    /// Sets plans on pages, one after the other.
    pub(crate) fn of(plans: &[Plan], paper: Paper) -> Result<Self, RenderError> {
        let page = PrintedPage::of(paper);
        let mut files: Vec<(String, Bytes)> = Vec::new();
        let sheets =
            (1..).zip(plans).map(|(number, plan)| PrintedSheet::of(plan, number, page, &mut files)).collect();
        let mut printed = Printed {
            title: match plans {
                [] => "No sessions".to_owned(),
                [plan] => plan.title.clone(),
                [first, others @ ..] => format!("{} and {} more", first.title, others.len()),
            },
            // A PDF has four digits for a year (ISO 32000-1, 7.9.4).
            date: (plans.iter().find_map(|plan| plan.date))
                .filter(|date| (0..=9999).contains(&date.year()))
                .map(|date| [date.year().unsigned_abs(), date.month(), date.day()]),
            page,
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
            sheet.note_boxes(&unprintable)?;
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
                own_png(width, height, &picture.take_demultiplied())
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

impl Printed {
    /// Sets the pages, with pictures from files.
    fn set(&self, files: &[(String, Bytes)]) -> Result<PagedDocument, RenderError> {
        let data = serde_json::to_vec(self)?;
        let world =
            PrintWorld::new(files.iter().cloned().chain([("/sheet.json".to_owned(), Bytes::new(data))]));
        typst::compile::<PagedDocument>(&world).output.map_err(|errors| mistake(&errors))
    }
}

impl PrintedSheet {
    /// Notes on the sheet that some of its letters print as boxes.
    fn note_boxes(&mut self, unprintable: &BTreeSet<char>) -> Result<(), RenderError> {
        let words = serde_json::to_string(&self.sheet)?;
        if words.contains(|letter| unprintable.contains(&letter)) {
            self.sheet.notes.push(BOXES.to_owned());
        }
        Ok(())
    }

    /// The sheet of a plan, with its pictures as files.
    fn of(plan: &Plan, number: usize, page: PrintedPage, files: &mut Vec<(String, Bytes)>) -> Self {
        let mut printed = |words: String, svg: String, height_mm: f64| {
            let picture = format!("/{number}-{}.svg", files.len());
            files.push((picture.clone(), Bytes::from_string(svg)));
            PrintedPicture { words, picture, height_mm }
        };
        let (width_mm, height_mm) = page.text_mm();
        let most_mm = height_mm * PICTURE_MM / width_mm;
        let full = map_pictures(plan, most_mm, most_mm);
        let spare = map_pictures(plan, 0.0, most_mm);
        let maps = if spare == full { vec![full] } else { vec![full, spare] };
        let mut pictures = |map: Vec<MapPicture>| {
            map.into_iter().map(|MapPicture { words, svg }| printed(words, svg, most_mm)).collect()
        };
        let maps = maps.into_iter().map(&mut pictures).collect();
        let room_mm = height_mm - HEADING_MM;
        let parts = |parts: Vec<Strip>| {
            parts.into_iter().map(|strip| printed(strip.title, strip.svg, strip.height_mm)).collect()
        };
        let strips = strips(plan, room_mm).into_iter().map(parts).collect();
        Self { sheet: lean(plan), maps, strip_pages: StripPage::all(strips, room_mm) }
    }
}

/// The sheet of a plan without what the template does not read, which takes time to carry.
fn lean(plan: &Plan) -> Sheet {
    let mut sheet = Sheet::of(plan);
    for block in &mut sheet.blocks {
        block.rows.clear();
    }
    for row in sheet.cards.iter_mut().flat_map(|card| &mut card.runs).flat_map(|run| &mut run.rows) {
        row.splits.clear();
        row.paint.clear();
    }
    sheet
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

/// A picture (PNG) of four bytes a dot that says which program wrote it.
fn own_png(width: u32, height: u32, dots: &[u8]) -> Result<Vec<u8>, png::EncodingError> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width, height);
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.add_text_chunk(SOFTWARE.to_owned(), OWN_NAME.to_owned())?;
    let mut writer = encoder.write_header()?;
    writer.write_image_data(dots)?;
    writer.finish()?;
    Ok(file)
}
