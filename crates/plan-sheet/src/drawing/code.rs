//! Codes to scan.

use fast_qr::{ECL, QRBuilder};
use kurbo::Rect;

use crate::drawing::ink::{Pen, rect};
use crate::drawing::picture::Picture;

/// The margin on each side that a reader needs, in modules (ISO/IEC 18004, 5.3.8).
const QUIET: f64 = 4.0;

/// How wide a code is without its margin, at least, and how wide a module is, at least, in millimetres.
const LEAST_MM: f64 = 20.0;
const MODULE_MM: f64 = 0.5;

/// A code of a text, with its margin; nothing where the text is longer than a code can be.
pub(crate) fn code(text: &str, words: String, level: ECL) -> Option<Picture> {
    let code = QRBuilder::new(text).ecl(level).build().ok()?;
    let modules = code.size as f64;
    let side = modules + 2.0 * QUIET;
    let mut drawings = Vec::new();
    for row in 0..code.size {
        let mut column = 0;
        while column < code.size {
            // Dark modules side by side are one bar, so that no seam shows between them.
            let bar = (column..code.size).take_while(|&at| code[row][at].value()).count();
            if bar > 0 {
                let corner = (QUIET + column as f64, QUIET + row as f64);
                drawings.push(rect(Rect::from_origin_size(corner, (bar as f64, 1.0)), "#000000", Pen::NONE));
            }
            column += bar.max(1);
        }
    }
    let mm = modules / LEAST_MM.max(modules * MODULE_MM);
    Some(Picture { title: words.clone(), words, drawings, bounds: Rect::new(0.0, 0.0, side, side), mm })
}

/// A code of an address to scan from a screen, as SVG; nothing where it is longer than a code can be (2,953 bytes,
/// ISO/IEC 18004, table 7).
///
/// ```
/// assert!(plan_sheet::code_to_scan("https://example.org/").is_some_and(|svg| svg.starts_with("<svg")));
/// assert_eq!(plan_sheet::code_to_scan(&"x".repeat(3_000)), None);
/// ```
pub fn code_to_scan(address: &str) -> Option<String> {
    // A screen has neither rain nor creases: as little as possible is spent on what may be hidden.
    Some(code(address, "Code to scan for this plan".to_owned(), ECL::L)?.svg())
}
