//! Parts of a file that could not be read, and the faults that only follow from them.

use lane_distance::{Key, TrackFaultKind};

use crate::files::file_fault::FileFaultKind;

/// The parts of a file that could not be read, by the keys that lead to them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Unsure(pub(crate) Vec<Vec<Key>>);

impl Unsure {
    /// Whether a part is one of them, or within one.
    pub(crate) fn holds(&self, at: &[Key]) -> bool {
        self.0.iter().any(|unsure| !unsure.is_empty() && at.starts_with(unsure))
    }

    /// Whether a part is one of them, is within one, or has one within it.
    fn touches(&self, at: &[Key]) -> bool {
        self.holds(at) || self.0.iter().any(|unsure| unsure.starts_with(at))
    }

    /// Whether a fault of a track only follows from one of them: it is left out.
    pub(crate) fn explains(&self, at: &[Key], kind: &FileFaultKind) -> bool {
        let touched = |names: &[&str]| names.iter().any(|name| self.touches(&[Key::from(*name)]));
        // What stands in for a value that could not be read has no faults of its own.
        if self.holds(at) {
            return true;
        }
        let row = row(at);
        // A piece, a mark or a hazard that lacks a value need not make sense as a whole.
        if let Some(row) = row
            && at.len() == row.len()
            && self.touches(row)
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
            TrackFaultKind::NeedsPartner { .. } => row.is_some_and(|row| self.touches(row)),
            TrackFaultKind::UnknownWorn { .. } | TrackFaultKind::UnknownBase { .. } => self.has_mark_names(),
            TrackFaultKind::MarkOffStraight { .. } => touched(&["path", "home_straight", "back_straight"]),
            TrackFaultKind::NoStraight(_) | TrackFaultKind::HazardOffCourse { .. } => {
                row.is_some_and(|row| self.touches(&[row, &[Key::from("on")]].concat()))
                    || touched(&["radius_at", "inner_edge", "home_straight", "back_straight"])
            }
            _ => false,
        }
    }

    /// Whether it has the name of a mark, or the sets that give marks their names.
    fn has_mark_names(&self) -> bool {
        let (marks, own, name) = (Key::from("marks"), Key::from("own"), Key::from("name"));
        let is_name = |way: &[Key]| way.get(3).is_none_or(|key| *key == name);
        self.touches(&[marks.clone(), Key::from("sets")])
            || self.0.iter().any(|way| way.starts_with(&[marks.clone(), own.clone()]) && is_name(way))
    }
}

/// The item of a list that a way leads to or through: `path[0]`, `marks.own[0]`.
fn row(at: &[Key]) -> Option<&[Key]> {
    let index = at.iter().position(|key| matches!(key, Key::Index(_)))?;
    Some(&at[..=index])
}
