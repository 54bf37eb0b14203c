//! Cards to cut out, one for each athlete, read back from the printed sheet.

use std::path::Path;

use crate::folder::Folder;
use crate::pdf::{print, text};
use crate::poppler::{needs_poppler, pages};
use crate::wrenbeck::session;

/// A card is no more than half a page, so that two athletes share one.
#[test]
fn cards_share_pages() {
    needs_poppler!();
    let file = session("saturday-club-evening");
    let (_folder, path) = print(&["plan", &file], "plan.pdf");
    let (_other, with_cards) = print(&["plan", &file, "--with", "cards"], "plan.pdf");
    let cards = pages(&with_cards).len() - pages(&path).len();
    assert!(cards <= 22 / 2, "22 athletes have {cards} pages of cards");
}

/// Whoever changes lanes, from one painted line, has one place to know, and the lanes in the table.
#[test]
fn a_card_says_a_place_once() {
    needs_poppler!();
    let folder = Folder::with("e.txt", "Sprints (Ada, Bo, Cy): 4 x 60, w/b, 2 x 150, 6 min\n");
    folder.toeline(&["plan", "e.txt", "--with", "cards", "--out", "e.pdf"]).assert().success();
    let printed = text(Path::new(&folder.at("e.pdf")));
    // What stands behind the first card's athlete is cards alone.
    let (_, cards) = printed.split_once("Adae").expect("Ada has a card");
    assert_eq!(cards.matches("Reps1to4:60m:startonthe60mstartline").count(), 3, "{cards}");
    assert_eq!(cards.matches("startonthe60mstartline").count(), 3, "{cards}");
}
