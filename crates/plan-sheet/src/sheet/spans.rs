//! Numbers that follow each other, joined.

use lane_distance::{LaneList, LaneNumber};
use serde::Serializer;
use session_plan::ConeLabel;

/// The first and the last of every run of rising numbers that follow each other.
pub(crate) fn spans(numbers: impl IntoIterator<Item = u32>) -> Vec<(u32, u32)> {
    let mut spans: Vec<(u32, u32)> = Vec::new();
    for number in numbers {
        match spans.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => spans.push((number, number)),
        }
    }
    spans
}

/// Rising numbers, with a dash from the first to the last of those that follow each other: `1–4, 6`.
pub(crate) fn ranges(numbers: impl IntoIterator<Item = u32>) -> String {
    let word = |(first, last): (u32, u32)| match last - first {
        0 => first.to_string(),
        _ => format!("{first}–{last}"),
    };
    spans(numbers).into_iter().map(word).collect::<Vec<_>>().join(", ")
}

/// Cones in their order, with a dash from the first to the last of those that follow each other: `S1–S3, F`.
pub(crate) fn cone_ranges(labels: impl IntoIterator<Item = ConeLabel>) -> String {
    let labels: Vec<ConeLabel> = labels.into_iter().collect();
    let word = |span: &[ConeLabel]| match span {
        [first, .., last] => format!("{first}–{last}"),
        span => span.iter().map(ConeLabel::to_string).collect(),
    };
    labels.chunk_by(|a, b| a.is_before(*b)).map(word).collect::<Vec<_>>().join(", ")
}

/// Lanes with their noun: `lane 2`, `lanes 3–5`.
pub(crate) fn lane_ranges(lanes: &[LaneNumber]) -> String {
    let noun = if lanes.len() == 1 { "lane" } else { "lanes" };
    format!("{noun} {}", ranges(lanes.iter().map(|lane| lane.get().into())))
}

/// Rising numbers in words: `1 to 4, 6`.
pub(crate) fn joined(numbers: &[u32]) -> String {
    let words = spans(numbers.iter().copied()).into_iter().map(|(from, to)| match to - from {
        0 => from.to_string(),
        1 => format!("{from}, {to}"),
        _ => format!("{from} to {to}"),
    });
    words.collect::<Vec<_>>().join(", ")
}

/// Lanes to choose from: `2 or 3`.
pub(crate) fn lane_choice(lanes: &[LaneNumber]) -> String {
    lanes.iter().map(LaneNumber::to_string).collect::<Vec<_>>().join(" or ")
}

/// Writes repetitions as templates show them.
pub(crate) fn reps_in_words<S: Serializer>(reps: &[u32], to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(&joined(reps))
}

/// Writes lanes as templates show them.
pub(crate) fn lanes_in_words<S: Serializer>(lanes: &[LaneNumber], to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(&LaneList(lanes).numbers())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_follow_each_other_are_joined() {
        assert_eq!(spans([1, 2, 3, 5, 7, 8]), [(1, 3), (5, 5), (7, 8)]);
        assert_eq!(spans([]), []);
        assert_eq!(joined(&[1, 2, 3, 5, 7, 8]), "1 to 3, 5, 7, 8");
        assert_eq!(ranges([1, 2, 3, 5, 7, 8]), "1–3, 5, 7–8");
    }
}
