//! The picture of the page that the README shows.

use std::fs;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use resvg::tiny_skia::Pixmap;

use crate::browser::{PHONE, show};
use crate::made::{SPRINTERS, made};
use crate::picture::assert_like_kept;
use crate::stub::STUBS;

/// What stands in the picture.
const WORDS: [&str; 9] = [
    "sprinters: 4 × 60 m @ 8.2 s in lanes 5-7, 3 min rest",
    "lane 1 closed",
    "Rep 1 of 4",
    "60 m in 8.2 s, rest 3:00",
    "Stand on the 60 m start line Finish on the finish line",
    "First: warm-up 20 min.",
    "Ada lane 5 Bela lane 6 Cleo lane 7",
    "Start: go in 10 s",
    "More Times 0/12 runs Whole plan",
];

/// Browsers round the edges of letters and lines each in their own way; another line of words is more.
const SHARE: f64 = 0.02;

#[test]
fn the_first_screen_is_the_one_that_the_readme_shows() {
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    // In the typefaces of the repository: those of the machine differ.
    for (name, weight) in [("Regular", "400"), ("Bold", "500 900")] {
        let path = format!("{}/crates/plan-sheet/fonts/OpenSans-{name}.ttf", env!("CARGO_MANIFEST_DIR"));
        let letters = STANDARD.encode(fs::read(path).expect("the typeface is there"));
        page.value(&format!(
            "(() => {{
                const bytes = Uint8Array.from(atob('{letters}'), (letter) => letter.charCodeAt(0));
                document.fonts.add(new FontFace('Shown', bytes.buffer, {{ weight: '{weight}' }}));
                document.body.style.fontFamily = 'Shown';
                return true;
            }})()"
        ));
    }
    page.wait("document.fonts.status === 'loaded' && [...document.fonts].every(({ status }) => status === 'loaded')");
    // Words are too few pixels to be missed in the picture: where they change it is to be made anew.
    let words: Vec<String> =
        ["#head", "#beside", "#rep", "#what", "#ends", "#ticker", "#names", "#go-words", ".ways-on"]
            .map(|part| page.words(part).split_whitespace().collect::<Vec<_>>().join(" "))
            .into();
    assert_eq!(words, WORDS);
    let picture = Pixmap::decode_png(&page.picture()).expect("it is a picture");
    assert_like_kept("phone-tuesday-sprints", &picture, SHARE);
}
