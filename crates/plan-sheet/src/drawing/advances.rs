//! The widths of a typeface's letters, from a table that is made when the program is built.

/// How far each letter of a typeface moves the next one on.
pub(super) struct Advances {
    /// How many units of the widths make the type size.
    per_em: u16,
    /// Letters whose codes follow one another: the code of the first, and the width of each. In the order of their codes.
    runs: &'static [(u32, &'static [u16])],
}

include!(concat!(env!("OUT_DIR"), "/advances.rs"));

impl Advances {
    /// How wide a letter is, in parts of the type size; nothing where the typeface lacks it.
    pub(super) fn of(&self, letter: char) -> Option<f64> {
        let code = u32::from(letter);
        let after = self.runs.partition_point(|(first, _)| *first <= code);
        let (first, widths) = self.runs.get(after.checked_sub(1)?)?;
        let width = widths.get((code - first) as usize)?;
        Some(f64::from(*width) / f64::from(self.per_em))
    }
}

#[cfg(test)]
mod tests {
    use ttf_parser::Face;

    use super::*;

    #[test]
    fn every_letter_is_as_wide_as_the_typeface_says() {
        let typefaces = [
            (&REGULAR, include_bytes!("../../fonts/OpenSans-Regular.ttf").as_slice()),
            (&BOLD, include_bytes!("../../fonts/OpenSans-Bold.ttf")),
            (&FALLBACK, include_bytes!("../../fonts/DejaVuSans.ttf")),
        ];
        for (advances, bytes) in typefaces {
            let face = Face::parse(bytes, 0).expect("the typeface comes with the crate");
            let width = |letter| {
                let advance = face.glyph_hor_advance(face.glyph_index(letter)?)?;
                Some(f64::from(advance) / f64::from(face.units_per_em()))
            };
            let mut known = 0;
            // What lies at U+FFFF ends a typeface's own table, and is no letter.
            for letter in ('\0'..=char::MAX).filter(|letter| *letter != '\u{ffff}') {
                match advances.of(letter) {
                    // A sign that the table lacks is taken for wider than it is.
                    None => assert!(letter > '\u{21ff}' || width(letter).is_none(), "{letter:?}"),
                    known_width => assert_eq!(known_width, width(letter), "{letter:?}"),
                }
                assert!(
                    width(letter).is_none_or(|width| width <= advances.of(letter).unwrap_or(1.0)),
                    "{letter:?}"
                );
                known += usize::from(advances.of(letter).is_some());
            }
            assert!(known > 800, "{known}");
        }
    }
}
