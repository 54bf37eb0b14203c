//! Words for who trains.

/// Words for who trains.
#[rustfmt::skip]
pub(crate) const PEOPLE: [&str; 17] = [
    "sprinters", "milers", "hurdlers", "walkers", "jumpers", "throwers", "juniors", "seniors", "masters", "veterans",
    "vets", "beginners", "improvers", "boys", "girls", "men", "women",
];

/// Whether a word says who trains.
pub(crate) fn is_people(word: &str) -> bool {
    PEOPLE.iter().any(|people| word.eq_ignore_ascii_case(people))
}
