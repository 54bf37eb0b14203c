//! Marks that are placed from other marks.

use std::collections::HashMap;

use crate::paint::mark::{Mark, Rule};

/// For each mark, the index of the mark that it is placed from: nothing where it is placed from none,
/// or from one that is not there.
pub(crate) fn bases(marks: &[Mark]) -> Vec<Option<usize>> {
    let mut by_name = HashMap::with_capacity(marks.len());
    for (index, mark) in marks.iter().enumerate() {
        by_name.entry(&*mark.name).or_insert(index);
    }
    let base = |mark: &Mark| match &mark.rule {
        Rule::From(base, _) => by_name.get(base.as_str()).copied(),
        _ => None,
    };
    marks.iter().map(base).collect()
}
