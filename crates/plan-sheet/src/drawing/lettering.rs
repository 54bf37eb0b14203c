//! How wide words are.

use kurbo::{Point, Rect};

use super::advances;

/// The family of all text, with what stands in for it where a reader lacks it.
pub(crate) const FAMILY: &str = "'Open Sans', sans-serif";

/// Eight points and a little, in millimetres: a sheet with its margins is a little wider than 180 mm, and no
/// text may be smaller than eight points where it is printed at that.
pub(crate) const SMALL_MM: f64 = 2.95;

/// Height of a letter's box over its baseline, in parts of the type size.
const ABOVE: f64 = 1.07;

/// Depth of a letter's box below its baseline, in parts of the type size.
const BELOW: f64 = 0.30;

/// From baseline to baseline, in parts of the type size.
pub(crate) const LEADING: f64 = ABOVE + BELOW + 0.03;

/// How much wider bold letters of the widest sans are than its plain ones.
const BOLD: f64 = 1.12;

/// A letter that no typeface of ours has may be as wide as it is high.
const UNKNOWN: f64 = 1.0;

/// Type of one size and weight.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Type {
    /// In units of the page.
    pub(crate) size: f64,
    pub(crate) bold: bool,
}

impl Type {
    pub(crate) const fn plain(size: f64) -> Self {
        Self { size, bold: false }
    }

    pub(crate) const fn bold(size: f64) -> Self {
        Self { size, bold: true }
    }

    /// Width of a text: in Open Sans, or in the widest common sans where that is wider, as a reader may
    /// have no other.
    pub(crate) fn width(self, text: &str) -> f64 {
        let (own, weight) = if self.bold { (&advances::BOLD, BOLD) } else { (&advances::REGULAR, 1.0) };
        let wide = |letter: char| match (own.of(letter), advances::FALLBACK.of(letter)) {
            (None, None) => UNKNOWN,
            (own, widest) => own.unwrap_or(0.0).max(widest.unwrap_or(0.0) * weight),
        };
        text.chars().map(wide).sum::<f64>() * self.size
    }

    /// From baseline to baseline.
    pub(crate) fn leading(self) -> f64 {
        self.size * LEADING
    }

    /// Where a line of text of a box has its baseline, below the top of the box.
    pub(crate) fn drop(self) -> f64 {
        self.size * ABOVE
    }

    /// How high the box of a line is.
    pub(crate) fn height(self) -> f64 {
        self.size * (ABOVE + BELOW)
    }

    /// The box of a line of text that is centred on a place.
    pub(crate) fn centred(self, text: &str, on: Point) -> Rect {
        Rect::from_center_size(on, (self.width(text), self.height()))
    }

    /// A text in lines that are no wider than asked, cut at spaces; a word that is wider is cut anywhere.
    pub(crate) fn wrapped(self, text: &str, widest: f64) -> Vec<String> {
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
                // A line was pushed before the first letter, and none is taken away.
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
    fn bold_letters_are_wider_and_unknown_ones_count() {
        assert!(Type::bold(3.0).width("lane 1") > Type::plain(3.0).width("lane 1"));
        assert_eq!(Type::plain(3.0).width("競走"), 6.0);
    }
}
