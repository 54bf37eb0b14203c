//! Quantities of a text as it writes them, neatly set: nothing is converted.

/// What a number without a unit is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Kind {
    /// A distance, in metres.
    Distance,
    /// A time, of so many seconds where that is known.
    Time(Option<f64>),
    /// Neither.
    Number,
}

/// Units of length as they are shown and as they may be written.
const LENGTHS: [(&str, &[&str]); 5] = [
    ("m", &["m", "metre", "metres", "meter", "meters", "mtr", "mtrs"]),
    ("km", &["km", "k", "kms", "kilometre", "kilometres", "kilometer", "kilometers"]),
    ("yd", &["yd", "yds", "yard", "yards", "y"]),
    ("mile", &["mile", "mi"]),
    ("miles", &["miles"]),
];
/// The same for units of time.
const TIMES: [(&str, &[&str]); 3] = [
    ("s", &["s", "sec", "secs", "second", "seconds"]),
    ("min", &["min", "mins", "minute", "minutes", "m"]),
    ("h", &["h", "hr", "hrs", "hour", "hours"]),
];
const LAPS: [&str; 2] = ["lap", "laps"];

/// A piece of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Piece<'a> {
    Number(&'a str),
    Word(&'a str),
    Sign(char),
}

/// A part of a text with every number as it is written, its units in short and each behind a space.
///
/// A number alone gets the unit that it was read with, and so does the first of a range.
pub(crate) fn as_written(text: &str, kind: Kind) -> String {
    let pieces = pieces(text);
    let has_unit = (0..pieces.len()).any(|at| unit(&pieces, at, kind).is_some() || is_tick(pieces[at]));
    let last = pieces.iter().rposition(|piece| matches!(piece, Piece::Number(_)));
    let mut words = String::new();
    for (at, &piece) in pieces.iter().enumerate() {
        let before = at.checked_sub(1).map(|before| pieces[before]);
        match piece {
            Piece::Number(number) => {
                space(&mut words, before);
                if let Some(time) = minutes_and_seconds(number, kind).filter(|_| !has_unit) {
                    words += &time;
                    continue;
                }
                words += number;
                if Some(at) == last && !has_unit {
                    words += bare_unit(number, kind, pieces.get(at + 1).copied());
                }
            }
            Piece::Word(word) => {
                // `200s`: several runs of 200 m.
                let is_plural = kind == Kind::Distance
                    && word.eq_ignore_ascii_case("s")
                    && matches!(before, Some(Piece::Number(_)));
                if is_plural {
                    // Behind the last number stands the unit already.
                    words += if last == at.checked_sub(1) { "" } else { " m" };
                } else if is_times(piece) {
                    words += " ×";
                } else {
                    space(&mut words, before);
                    words += unit(&pieces, at, kind).unwrap_or(word);
                }
            }
            Piece::Sign(_) if is_tick(piece) => words += if is_minutes(piece) { " min" } else { " s" },
            Piece::Sign('x' | '×' | '*') => words += " ×",
            // `90 sec. rest`: an abbreviation.
            Piece::Sign('.') if at > 0 && unit(&pieces, at - 1, kind).is_some() => {}
            Piece::Sign(sign @ (',' | ';' | ')' | '%')) => words.push(sign),
            Piece::Sign(sign @ ('-' | '–' | '/' | ':')) => {
                words.push(if sign == '–' { '-' } else { sign })
            }
            Piece::Sign(sign) => {
                space(&mut words, before);
                words.push(sign);
            }
        }
    }
    words.trim().to_owned()
}

/// The numbers of a part of a text, each with its unit.
pub(crate) fn quantities(text: &str, kind: Kind) -> Vec<String> {
    let pieces = pieces(text);
    let numbers = pieces.iter().enumerate().filter_map(|(at, piece)| match piece {
        Piece::Number(number) => Some((at, *number)),
        _ => None,
    });
    numbers
        .map(|(at, number)| match unit(&pieces, at + 1, kind) {
            Some(unit) => format!("{number} {unit}"),
            None => format!("{number}{}", bare_unit(number, kind, None)),
        })
        .collect()
}

/// A space, unless what stands before joins what follows.
fn space(words: &mut String, before: Option<Piece<'_>>) {
    let is_joined = matches!(before, None | Some(Piece::Sign('-' | '–' | '/' | ':' | '(')));
    if !is_joined {
        words.push(' ');
    }
}

/// The unit that a piece is, in short, where it stands behind a number.
fn unit(pieces: &[Piece<'_>], at: usize, kind: Kind) -> Option<&'static str> {
    let before = at.checked_sub(1).map(|before| pieces[before]);
    let (Some(Piece::Word(word)), Some(Piece::Number(_))) = (pieces.get(at), before) else { return None };
    let of = |units: &[(&'static str, &[&str])]| {
        let is_it =
            |(_, written): &&(&str, &[&str])| written.iter().any(|one| word.eq_ignore_ascii_case(one));
        units.iter().find(is_it).map(|(short, _)| *short)
    };
    let lap = LAPS.into_iter().find(|lap| word.eq_ignore_ascii_case(lap));
    match kind {
        Kind::Time(_) => of(&TIMES).or_else(|| of(&LENGTHS)),
        Kind::Distance => of(&LENGTHS).or(lap),
        Kind::Number => of(&LENGTHS).or(lap).or_else(|| of(&TIMES)),
    }
}

/// `2.30` that was read as two minutes and a half, with the sign that everybody reads so.
fn minutes_and_seconds(number: &str, kind: Kind) -> Option<String> {
    let Kind::Time(Some(read_s)) = kind else { return None };
    let (minutes, seconds) = number.split_once('.').filter(|(_, seconds)| seconds.len() == 2)?;
    let whole_s = minutes.parse::<f64>().ok()? * 60.0 + seconds.parse::<f64>().ok()?;
    // The first of a range is less than what was read.
    (whole_s <= read_s + 1e-6 && whole_s > read_s / 2.0).then(|| format!("{minutes}:{seconds}"))
}

/// The unit of a number that is written without one.
fn bare_unit(number: &str, kind: Kind, behind: Option<Piece<'_>>) -> &'static str {
    if number.contains(':') || matches!(behind, Some(Piece::Sign('%'))) {
        return "";
    }
    match kind {
        Kind::Distance => " m",
        Kind::Number => "",
        Kind::Time(seconds) => {
            let value: Option<f64> = number.replace(',', ".").parse().ok();
            let is = |unit_s: f64| {
                seconds.zip(value).is_some_and(|(seconds, value)| (value * unit_s - seconds).abs() < 1e-6)
            };
            if is(60.0) { " min" } else { " s" }
        }
    }
}

const fn is_minutes(piece: Piece<'_>) -> bool {
    matches!(piece, Piece::Sign('\'' | '’' | '‘' | '′'))
}

const fn is_tick(piece: Piece<'_>) -> bool {
    is_minutes(piece) || matches!(piece, Piece::Sign('"' | '”' | '“' | '″'))
}

fn is_times(piece: Piece<'_>) -> bool {
    matches!(piece, Piece::Word(word) if word.eq_ignore_ascii_case("x"))
}

fn pieces(text: &str) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    let mut rest = text.trim_start();
    while let Some(first) = rest.chars().next() {
        let length = if first.is_numeric() {
            number_length(rest)
        } else if first.is_alphabetic() {
            rest.find(|letter: char| !letter.is_alphabetic()).unwrap_or(rest.len())
        } else {
            first.len_utf8()
        };
        let (piece, more) = rest.split_at(length);
        pieces.push(if first.is_numeric() {
            Piece::Number(piece)
        } else if first.is_alphabetic() {
            Piece::Word(piece)
        } else {
            Piece::Sign(first)
        });
        rest = more.trim_start();
    }
    pieces
}

/// How many bytes the number takes that a text begins with: `1.5`, `2:30`, `1,000`, `1½`.
fn number_length(text: &str) -> usize {
    let mut length = 0;
    loop {
        let rest = &text[length..];
        length += rest.find(|letter: char| !letter.is_numeric()).unwrap_or(rest.len());
        let mut behind = text[length..].chars();
        let joins = match behind.next() {
            Some('.' | ':') => true,
            // Commas part thousands, and else what stands in a list.
            Some(',') => {
                let digits = behind.clone().take_while(char::is_ascii_digit).count();
                digits == 3
            }
            _ => false,
        };
        if !joins || !behind.next().is_some_and(char::is_numeric) {
            return length;
        }
        length += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_stay_as_they_are_written_and_get_their_units() {
        for (text, kind, shown) in [
            ("200", Kind::Distance, "200 m"),
            ("1,000m", Kind::Distance, "1,000 m"),
            ("1.5km", Kind::Distance, "1.5 km"),
            ("1x60", Kind::Distance, "1 × 60 m"),
            ("2 laps", Kind::Distance, "2 laps"),
            ("80s", Kind::Distance, "80 m"),
            ("110 yards", Kind::Distance, "110 yd"),
            ("90 sec. rest", Kind::Number, "90 s rest"),
            ("half a mile", Kind::Distance, "half a mile"),
            ("90s", Kind::Time(Some(90.0)), "90 s"),
            ("90", Kind::Time(Some(90.0)), "90 s"),
            ("2:30", Kind::Time(Some(150.0)), "2:30"),
            ("2'30\"", Kind::Time(Some(150.0)), "2 min 30 s"),
            ("2", Kind::Time(Some(120.0)), "2 min"),
            ("2m30s", Kind::Time(Some(150.0)), "2 min 30 s"),
            ("20-25 mins", Kind::Time(Some(1500.0)), "20-25 min"),
            ("48 – 50s", Kind::Time(Some(48.0)), "48-50 s"),
            ("80 - 85%", Kind::Number, "80-85%"),
            ("2,4,6", Kind::Number, "2, 4, 6"),
            ("1.5", Kind::Time(Some(90.0)), "1.5 min"),
        ] {
            assert_eq!(as_written(text, kind), shown, "{text}");
        }
    }

    #[test]
    fn each_number_has_its_unit() {
        assert_eq!(quantities("30m flying (20 run-in)", Kind::Distance), ["30 m", "20 m"]);
        assert_eq!(quantities("in-and-out 50s", Kind::Distance), ["50 m"]);
    }
}
