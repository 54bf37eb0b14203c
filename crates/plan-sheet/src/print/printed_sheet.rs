//! What the template reads of a session.

use serde::Serialize;
use session_plan::Plan;
use typst::foundations::Bytes;

use crate::map::map_picture::{MapPicture, map_pictures};
use crate::print::card::{Card, cards};
use crate::print::extras::Extras;
use crate::print::front_block::FrontBlock;
use crate::print::page_code::page_code;
use crate::print::printed_page::PrintedPage;
use crate::print::strip_pages::{PrintedPicture, StripPage};
use crate::print::timed_block::TimedBlock;
use crate::print::walk::Walk;
use crate::sheet::sheet::Sheet;
use crate::strip::strip::{Strip, strips};
use crate::strip::strip_part::Stretch;
use crate::words::caution;

/// What the heading over strips takes, in millimetres.
const HEADING_MM: f64 = 14.0;

/// A session as it is printed: the first page, then what does not go on it.
#[derive(Serialize)]
pub(crate) struct PrintedSheet {
    title: String,
    /// Day, hours, track, wind.
    facts: Vec<String>,
    /// Where its page is published.
    page: Option<PublishedPage>,
    /// What has changed, and that it ends too late.
    alerts: Vec<String>,
    /// The map: as wide as the page, then beside what there is to heed.
    maps: Vec<PrintedMap>,
    blocks: Vec<FrontBlock>,
    walk: Option<Walk>,
    no_cones: Option<&'static str>,
    notes: Vec<String>,
    /// What to take care of, in short.
    care: Vec<String>,
    /// The boxes for the times of a squad.
    timed: Vec<TimedBlock>,
    /// The lanes unrolled, where they are asked for.
    strip_pages: Vec<StripPage>,
    /// A card for each athlete, where they are asked for.
    cards: Vec<Card>,
    /// The line of care on each card.
    card_care: String,
    /// What is said in full where that is asked for.
    in_full: Option<InFull>,
}

/// A map of a width, and the insets that find no room on it.
#[derive(Serialize)]
struct PrintedMap {
    width_mm: f64,
    words: String,
    pictures: Vec<PrintedPicture>,
}

/// The address of a page, and a code of it to scan.
#[derive(Serialize)]
struct PublishedPage {
    address: String,
    code: PrintedPicture,
    width_mm: f64,
}

/// Everything there is to heed, in full.
#[derive(Serialize)]
struct InFull {
    cautions: Vec<String>,
    etiquette: Vec<String>,
}

/// How wide maps are printed, in millimetres: as wide as text, and beside what there is to heed.
const MAP_MM: [f64; 2] = [180.0, 100.0];

impl PrintedSheet {
    /// The sheet of a plan, with its pictures as files.
    pub(crate) fn of(
        plan: &Plan,
        number: usize,
        page: PrintedPage,
        extras: Extras,
        files: &mut Vec<(String, Bytes)>,
    ) -> Self {
        let mut file = |words: String, svg: String, height_mm: f64| {
            let picture = format!("/{number}-{}.svg", files.len());
            files.push((picture.clone(), Bytes::from_string(svg)));
            PrintedPicture { words, picture, height_mm }
        };
        let sheet = Sheet::of(plan);
        let (_, height_mm) = page.text_mm();
        let maps = MAP_MM.map(|width_mm| {
            let pictures = map_pictures(plan, width_mm, 0.0, height_mm).into_iter();
            let pictures =
                pictures.map(|MapPicture { words, svg, height_mm }| file(words, svg, height_mm)).collect();
            PrintedMap { width_mm, words: sheet.map_words.clone(), pictures }
        });
        let published = plan.page.as_ref().and_then(|page| {
            let code = page_code(page)?;
            let (words, width_mm) = (code.words.clone(), code.bounds.width() / code.mm);
            Some(PublishedPage {
                address: page.to_string(),
                code: file(words, code.svg(), width_mm),
                width_mm,
            })
        });
        let room_mm = height_mm - HEADING_MM;
        let strips = if extras.lanes { strips(plan, Stretch::NearEnds) } else { Vec::new() };
        let mut parts = |parts: Vec<Strip>| -> Vec<PrintedPicture> {
            parts.into_iter().map(|strip| file(strip.title, strip.svg, strip.height_mm)).collect()
        };
        let strips = strips.into_iter().map(&mut parts).collect();
        let is_squad = runs_a_squad(&sheet);
        let block = if is_squad { FrontBlock::of_squad } else { FrontBlock::of_one };
        let timed = sheet.blocks.iter().filter(|_| is_squad).filter_map(TimedBlock::of).collect();
        let wind = sheet.wind.as_ref().map(|wind| format!("wind {wind}"));
        let facts = [sheet.date.clone(), sheet.times.clone(), Some(sheet.track.clone()), wind];
        Self {
            facts: facts.into_iter().flatten().collect(),
            page: published,
            alerts: sheet.changed.iter().chain(&sheet.overrun).cloned().collect(),
            maps: maps.into(),
            blocks: sheet.blocks.iter().map(block).collect(),
            walk: Walk::of(&sheet),
            no_cones: sheet.no_cones,
            care: caution::on_paper(plan),
            timed,
            strip_pages: StripPage::all(strips, room_mm),
            cards: if extras.cards {
                cards(&sheet.blocks).into_iter().map(lean).collect()
            } else {
                Vec::new()
            },
            card_care: sheet.short_cautions,
            in_full: extras.care.then_some(InFull { cautions: sheet.cautions, etiquette: sheet.etiquette }),
            notes: sheet.notes,
            title: sheet.title,
        }
    }

    /// Leaves out what needs more pages, as in a week, which is looked at and not written on: the boxes of a squad, and
    /// the insets beside the map.
    pub(crate) fn keep_first_page(&mut self) {
        self.timed.clear();
        self.maps.iter_mut().for_each(|map| map.pictures.truncate(1));
    }

    /// Adds something to note.
    pub(crate) fn note(&mut self, words: &str) {
        self.notes.push(words.to_owned());
    }
}

/// Whether several athletes are named, so that their times take more than the first page.
fn runs_a_squad(sheet: &Sheet) -> bool {
    let mut names = sheet.blocks.iter().flat_map(|block| &block.rows).flat_map(|row| &row.members);
    let first = names.next();
    names.any(|name| Some(name) != first)
}

/// A card without what the template does not read, which takes time to carry.
fn lean(mut card: Card) -> Card {
    for row in card.runs.iter_mut().flat_map(|run| &mut run.rows) {
        row.splits.clear();
        row.paint.clear();
    }
    card
}
