//! How wide words are.

use std::sync::LazyLock;

use kurbo::{Point, Rect};
use ttf_parser::Face;

use crate::fonts;

/// The family of all text, with what stands in for it where a reader lacks it.
pub(super) const FAMILY: &str = "'Open Sans', sans-serif";

/// Eight points, in millimetres: no text is smaller where the picture is printed at its own width.
pub(super) const SMALL_MM: f64 = 2.85;

/// Height of a letter's box over its baseline, in parts of the type size.
const ABOVE: f64 = 1.07;

/// Depth of a letter's box below its baseline, in parts of the type size.
const BELOW: f64 = 0.30;

/// From baseline to baseline, in parts of the type size.
pub(super) const LEADING: f64 = ABOVE + BELOW + 0.03;

/// How much wider bold letters are.
const BOLD: f64 = 1.12;

/// Type of one size and weight.
#[derive(Clone, Copy, Debug)]
pub(super) struct Type {
    /// In units of the page.
    pub(super) size: f64,
    pub(super) bold: bool,
}

impl Type {
    pub(super) const fn plain(size: f64) -> Self {
        Self { size, bold: false }
    }

    pub(super) const fn bold(size: f64) -> Self {
        Self { size, bold: true }
    }

    /// Width of a text. Measured in the widest common sans, as a reader may have another than Open
    /// Sans.
    pub(super) fn width(self, text: &str) -> f64 {
        static FACE: LazyLock<Face<'static>> =
            LazyLock::new(|| Face::parse(fonts::FALLBACK, 0).expect("the typeface comes with the crate"));
        let em = f64::from(FACE.units_per_em());
        let advance = |letter: char| {
            let glyph = FACE.glyph_index(letter);
            // A letter that no typeface of ours has may be as wide as it is high.
            glyph.and_then(|glyph| FACE.glyph_hor_advance(glyph)).map_or(1.0, |wide| f64::from(wide) / em)
        };
        let weight = if self.bold { BOLD } else { 1.0 };
        text.chars().map(advance).sum::<f64>() * self.size * weight
    }

    /// From baseline to baseline.
    pub(super) fn leading(self) -> f64 {
        self.size * LEADING
    }

    /// Where a line of text of a box has its baseline, below the top of the box.
    pub(super) fn drop(self) -> f64 {
        self.size * ABOVE
    }

    /// The box of a line of text that is centred on a place.
    pub(super) fn centred(self, text: &str, on: Point) -> Rect {
        Rect::from_center_size(on, (self.width(text), self.size * (ABOVE + BELOW)))
    }

    /// A text in lines that are no wider than asked, cut at spaces; a word that is wider is cut anywhere.
    pub(super) fn wrapped(self, text: &str, widest: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            if let Some(line) = lines.last_mut() {
                let longer = format!("{line} {word}");
                if self.width(&longer) <= widest {
                    *line = longer;
                    continue;
                }
            }
            lines.push(String::new());
            for letter in word.chars() {
                let line = lines.last_mut().expect("one was pushed above");
                line.push(letter);
                if self.width(line) > widest && line.chars().count() > 1 {
                    line.pop();
                    lines.push(letter.to_string());
                }
            }
        }
        lines
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_no_wider_than_asked_and_keep_every_word() {
        let text = "10.00 m behind the first 4x100 m takeover zone exit (yellow); anunbreakablyverylongword";
        let small = Type::plain(3.0);
        let lines = small.wrapped(text, 30.0);
        assert!(lines.iter().all(|line| small.width(line) <= 30.0), "{lines:?}");
        assert_eq!(lines.concat().replace(' ', ""), text.replace(' ', ""));
    }

    #[test]
    fn letters_are_at_least_as_wide_as_those_of_open_sans() {
        let open_sans = Face::parse(fonts::BOLD, 0).expect("the typeface comes with the crate");
        for letter in ('0'..='z').filter(|letter| letter.is_alphanumeric()) {
            let glyph = open_sans.glyph_index(letter).expect("it holds Latin");
            let wide = f64::from(open_sans.glyph_hor_advance(glyph).expect("it has a width"));
            let em = f64::from(open_sans.units_per_em());
            assert!(Type::bold(1.0).width(&letter.to_string()) > wide / em * 0.95, "{letter}");
        }
    }
}
