//! Plans on paper.

use std::collections::BTreeSet;

use chrono::Datelike;
use serde::Serialize;
use session_plan::Plan;
use typst::diag::SourceDiagnostic;
use typst::foundations::Smart;
use typst::layout::{Frame, FrameItem};
use typst::utils::Scalar;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use typst_render::RenderOptions;

use crate::map::{map_picture, strips};
use crate::paper::Paper;
use crate::print_world::PrintWorld;
use crate::sheet::Sheet;

/// Plans set on pages: the session at a glance, a part for each block with boxes for the times, the
/// walk that sets the cones out, and cards for the athletes to cut out.
///
/// The same plans give the same bytes, whenever and wherever they are set.
///
/// ```
/// use lane_distance::Track;
/// use plan_sheet::{Paper, Printout};
/// use session_plan::{Block, Session, Venue};
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let session = Session::of_block("6 x 200 in lane 2", Block::parse("6 x 200 in lane 2").expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &session).expect("lane 2 is open");
/// let printout = Printout::of(&[plan], Paper::A4)?;
/// assert!(printout.pdf()?.starts_with(b"%PDF-1.7"));
/// assert!(printout.unprintable.is_empty());
/// # Ok::<(), plan_sheet::PrintError>(())
/// ```
#[derive(Clone, Debug)]
pub struct Printout {
    document: PagedDocument,
    /// The letters that no typeface of the sheets has, which print as boxes.
    pub unprintable: BTreeSet<char>,
}

/// Why plans could not be set on pages.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PrintError {
    /// There is nothing to print.
    #[error("there is no plan to print")]
    NoPlans,
    /// The template or what it was given is at fault: a mistake of this program.
    #[error("the sheet could not be set, which is a mistake of this program: {0}")]
    Template(String),
}

/// The resolution of pictures: 144 dots an inch, as a point is a 72nd of it.
const PIXELS_PER_POINT: f64 = 2.0;

/// The lanes of a squad take more pages than they are worth; its coach has the map and the cones.
const MOST_STRIPS: usize = 4;

/// What the template reads.
#[derive(Serialize)]
struct Printed {
    title: String,
    date: Option<[u32; 3]>,
    paper: Paper,
    sheets: Vec<PrintedSheet>,
}

#[derive(Serialize)]
struct PrintedSheet {
    #[serde(flatten)]
    sheet: Sheet,
    /// Where its map is.
    map: String,
    /// Its lanes, each from start to finish.
    strips: Vec<PrintedStrip>,
}

#[derive(Serialize)]
struct PrintedStrip {
    title: String,
    picture: String,
}

impl Printout {
    /// Sets plans on pages, one after the other.
    ///
    /// # Errors
    ///
    /// [`PrintError`] where there is no plan.
    pub fn of(plans: &[Plan], paper: Paper) -> Result<Self, PrintError> {
        let mut files: Vec<(String, Vec<u8>)> = Vec::new();
        let sheets = (1..)
            .zip(plans)
            .map(|(number, plan)| {
                let mut add = |name: String, svg: String| {
                    files.push((name.clone(), svg.into_bytes()));
                    name
                };
                let map = add(format!("/map-{number}.svg"), map_picture(plan));
                let strips = strips(plan);
                let are_few = strips.len() <= MOST_STRIPS;
                let strips = (1..)
                    .zip(strips.into_iter().filter(|_| are_few))
                    .map(|(lane, strip)| PrintedStrip {
                        picture: add(format!("/strip-{number}-{lane}.svg"), strip.svg),
                        title: strip.title,
                    })
                    .collect();
                PrintedSheet { sheet: lean(plan), map, strips }
            })
            .collect();
        let printed = Printed {
            title: match plans {
                [] => return Err(PrintError::NoPlans),
                [plan] => plan.title.clone(),
                [first, others @ ..] => format!("{} and {} more", first.title, others.len()),
            },
            date: (plans.iter().find_map(|plan| plan.date))
                .map(|date| [date.year().unsigned_abs(), date.month(), date.day()]),
            paper,
            sheets,
        };
        let data = serde_json::to_vec(&printed).map_err(|error| PrintError::Template(error.to_string()))?;
        files.push(("/sheet.json".to_owned(), data));
        let world = PrintWorld::new(files);
        let compiled = typst::compile::<PagedDocument>(&world);
        let document = compiled.output.map_err(|errors| template_error(&errors))?;
        let mut unprintable = BTreeSet::new();
        for page in document.pages() {
            add_unprintable(&page.frame, &mut unprintable);
        }
        Ok(Self { document, unprintable })
    }

    /// The pages as a tagged PDF. It keeps to PDF/UA-1 (ISO 14289-1) unless letters are missing, which
    /// that standard does not allow.
    ///
    /// # Errors
    ///
    /// [`PrintError::Template`] where the pages break the standard.
    pub fn pdf(&self) -> Result<Vec<u8>, PrintError> {
        let standards: &[PdfStandard] =
            if self.unprintable.is_empty() { &[PdfStandard::Ua_1] } else { &[PdfStandard::V_1_7] };
        let options = PdfOptions {
            creator: Smart::Custom(Some("Toeline".to_owned())),
            standards: PdfStandards::new(standards)
                .map_err(|error| PrintError::Template(error.message().to_string()))?,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&self.document, &options).map_err(|errors| template_error(&errors))
    }

    /// The pages as pictures (PNG), of 144 dots an inch.
    ///
    /// # Errors
    ///
    /// [`PrintError::Template`] where a page has no picture.
    pub fn pictures(&self) -> Result<Vec<Vec<u8>>, PrintError> {
        let options =
            RenderOptions { pixel_per_pt: Scalar::new(PIXELS_PER_POINT), ..RenderOptions::default() };
        let pages = self.document.pages().iter();
        pages
            .map(|page| typst_render::render(page, &options).encode_png())
            .collect::<Result<_, _>>()
            .map_err(|error| PrintError::Template(error.to_string()))
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

fn template_error(errors: &[SourceDiagnostic]) -> PrintError {
    PrintError::Template(errors.iter().map(|error| error.message.as_str()).collect::<Vec<_>>().join("; "))
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
