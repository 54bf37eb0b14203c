//! Faults of a track that only follow from another fault: they are left out.

use lane_distance::{Key, TrackFaultKind};

use crate::files::file_fault::FileFaultKind;
use crate::files::unsure::Unsure;

/// Whether a fault of a track follows from a part of its file that could not be read.
pub(crate) fn follows(at: &[Key], kind: &FileFaultKind, unsure: &Unsure) -> bool {
    let touched = |names: &[&str]| names.iter().any(|name| unsure.touches(&[Key::from(*name)]));
    // What stands in for a value that could not be read has no faults of its own.
    if unsure.holds(at) {
        return true;
    }
    let row = row(at);
    // A piece, a mark or a hazard that lacks a value need not make sense as a whole.
    if let Some(row) = row
        && at.len() == row.len()
        && unsure.touches(row)
    {
        return true;
    }
    let FileFaultKind::Track(kind) = kind else { return false };
    match kind {
        // Which lanes there are.
        TrackFaultKind::NoLane { .. } | TrackFaultKind::WidthCount { .. } => {
            touched(&["lanes", "home_straight", "back_straight"])
        }
        // A path that lacks a piece need not close, and its radii belong to one line or the other.
        TrackFaultKind::Path(_) => touched(&["path", "radius_at", "inner_edge"]),
        TrackFaultKind::SurveyedLap { .. } => touched(&["radius_at", "inner_edge"]),
        TrackFaultKind::NeedsPartner { .. } => row.is_some_and(|row| unsure.touches(row)),
        TrackFaultKind::UnknownWorn { .. } | TrackFaultKind::UnknownBase { .. } => names_unsure(unsure),
        TrackFaultKind::MarkOffStraight { .. } => touched(&["path", "home_straight", "back_straight"]),
        TrackFaultKind::NoStraight(_) | TrackFaultKind::HazardOffCourse { .. } => {
            row.is_some_and(|row| unsure.touches(&[row, &[Key::from("on")]].concat()))
                || touched(&["radius_at", "inner_edge", "home_straight", "back_straight"])
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
