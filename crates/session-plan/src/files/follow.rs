//! Faults of a track that only follow from another fault: they are not told.

use lane_distance::{Fault, Key};

use crate::files::form::Unsure;

/// Whether a fault of a track follows from a part of its file that could not be read.
pub(crate) fn follows(fault: &Fault, unsure: &Unsure) -> bool {
    let touched = |names: &[&str]| names.iter().any(|name| unsure.touches(&[Key::from(*name)]));
    let Fault { at, message, .. } = fault;
    // What stands in for a value that could not be read has no faults of its own.
    if unsure.holds(at) {
        return true;
    }
    // Which lanes there are.
    let is_of_lanes = message.starts_with("there is no lane") || message.contains("lane widths are given");
    if is_of_lanes && touched(&["lanes", "home_straight", "back_straight"]) {
        return true;
    }
    let top = match at.first() {
        Some(Key::Name(name)) => name.as_str(),
        _ => "",
    };
    match (top, row(at)) {
        // A path that lacks a piece need not close, and its radii belong to one line or the other.
        ("path", None) => touched(&["path", "radius_at", "inner_edge"]),
        ("surveyed_lap", _) => touched(&["radius_at", "inner_edge"]),
        // A piece, a mark or a hazard that lacks a value need not make sense as a whole.
        (_, Some(row)) if at.len() == row.len() => unsure.touches(row),
        ("marks", Some(row)) => {
            let is_of_name = message.ends_with("to wear off") || message.ends_with("does not have");
            let is_of_partner = message.contains(" goes with ");
            let is_of_straight = message.contains("its chute");
            is_of_partner && unsure.touches(row)
                || is_of_name && names_unsure(unsure)
                || is_of_straight && touched(&["path", "home_straight", "back_straight"])
        }
        ("hazards", Some(row)) => {
            let on = [row, &[Key::from("on")]].concat();
            unsure.touches(&on) || touched(&["radius_at", "inner_edge", "home_straight", "back_straight"])
        }
        _ => false,
    }
}

/// The item of a list that a way leads to or through: `path[0]`, `marks.own[0]`.
fn row(at: &[Key]) -> Option<&[Key]> {
    let index = at.iter().position(|key| matches!(key, Key::Index(_)))?;
    Some(&at[..=index])
}

/// Whether some marks may be there whose names are not known.
fn names_unsure(unsure: &Unsure) -> bool {
    let (marks, own, name) = (Key::from("marks"), Key::from("own"), Key::from("name"));
    unsure.touches(&[marks.clone(), Key::from("sets")])
        || unsure.ways().any(|way| match way {
            [first, second, rest @ ..] if *first == marks && *second == own => {
                rest.get(1).is_none_or(|key| *key == name)
            }
            _ => false,
        })
}
