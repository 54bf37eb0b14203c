//! Numbers that follow each other, joined.

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

/// Rising numbers, with a dash from the first to the last of those that follow each other.
pub(crate) fn ranges(numbers: impl IntoIterator<Item = u32>) -> String {
    let word = |(first, last): (u32, u32)| match last - first {
        0 => first.to_string(),
        _ => format!("{first}–{last}"),
    };
    spans(numbers).into_iter().map(word).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::spans;

    #[test]
    fn numbers_that_follow_each_other_are_joined() {
        assert_eq!(spans([1, 2, 3, 5, 7, 8]), [(1, 3), (5, 5), (7, 8)]);
        assert_eq!(spans([]), []);
    }
}
