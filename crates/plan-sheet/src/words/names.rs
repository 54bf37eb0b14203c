//! What athletes are called.

use crate::words::numbers::listed;

/// What an athlete is called: one who has only a number by `no. 3`, so that it is not taken for a lane's.
pub(crate) fn called(name: &str) -> String {
    let is_number = !name.is_empty() && name.chars().all(|letter| letter.is_ascii_digit());
    if is_number { format!("no. {name}") } else { name.to_owned() }
}

/// Athletes as part of a sentence: `Ada, Bela and no. 3`.
pub(crate) fn all_called(names: &[String]) -> String {
    listed(&names.iter().map(|name| called(name)).collect::<Vec<_>>())
}
