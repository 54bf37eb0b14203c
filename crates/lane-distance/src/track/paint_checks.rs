//! The paint of a described track, and what is wrong with it.

use crate::paint::base::bases;
use crate::paint::mark::{Mark, Rule, Worn};
use crate::spec::mark_set::MarkSet;
use crate::spec::marks_spec::WornSpec;
use crate::spec::track_spec::TrackSpec;
use crate::track::key::key;
use crate::track::layout::Layout;
use crate::track::track_fault::{TrackFault, TrackFaultKind};

impl TrackSpec {
    /// Faults of the track's own marks that would be painted nowhere.
    pub(crate) fn check_own_marks(&self, layout: &Layout, faults: &mut Vec<TrackFault>) {
        for (index, spec) in self.marks.own.iter().enumerate() {
            for mark in spec.marks(0, &[]).unwrap_or_default() {
                let Rule::BeforeFinish(course, before_finish_m) = mark.rule else { continue };
                let length_m = layout.straight(course).map_or(0.0, |ground| ground.length_m());
                if before_finish_m > length_m {
                    let name = if spec.hurdles.is_some() { "hurdles" } else { "before_finish" };
                    let mark = mark.name.to_string();
                    let kind = TrackFaultKind::MarkOffStraight { mark, before_finish_m, course, length_m };
                    faults.push(TrackFault::new(key!["marks", "own", index, name], kind));
                    break;
                }
            }
        }
    }

    /// The marks of every set, the track's own marks, less what has worn off.
    pub(crate) fn paint(&self, faults: &mut Vec<TrackFault>) -> Vec<Mark> {
        let default_sets = vec!["standard".to_owned()];
        let sets = self.marks.sets.as_ref().unwrap_or(&default_sets);
        let mut marks = Vec::new();
        let mut is_every_set_known = true;
        for (index, name) in sets.iter().enumerate() {
            let at = key!["marks", "sets", index];
            if sets[..index].contains(name) {
                faults.push(TrackFault::new(at, TrackFaultKind::SetTwice(name.clone())));
                continue;
            }
            let Some(set) = MarkSet::built_in_marks(name) else {
                is_every_set_known = false;
                let known = MarkSet::built_in_names().collect();
                faults.push(TrackFault::new(at, TrackFaultKind::UnknownSet { name: name.clone(), known }));
                continue;
            };
            marks.extend(set.iter().map(|mark| Mark { set: index as u8, ..mark.clone() }));
        }
        for (index, spec) in self.marks.own.iter().enumerate() {
            // The track's own paint is the surest of all: somebody looked at it.
            let at = key!["marks", "own", index];
            match spec.marks(0, &at) {
                Ok(more) => marks.extend(more),
                Err(more) => faults.extend(more),
            }
        }
        let mut by_name = Vec::new();
        for (index, worn) in self.marks.worn.iter().enumerate() {
            wear_off(&mut marks, worn, index, &mut by_name);
        }
        self.check_bases(&marks, &mut by_name);
        // A name that no mark has may be one of a set that is not known.
        if is_every_set_known {
            faults.extend(by_name);
        }
        marks
    }

    /// Faults of marks that lean on each other: a base that is missing, or that leans back.
    fn check_bases(&self, marks: &[Mark], faults: &mut Vec<TrackFault>) {
        let bases = bases(marks);
        for (index, mark) in marks.iter().enumerate() {
            let Rule::From(base, _) = &mark.rule else { continue };
            let mut links = std::iter::successors(bases[index], |link| bases[*link]).take(marks.len());
            let kind = match bases[index] {
                None => {
                    let near = nearest_mark(base, marks);
                    TrackFaultKind::UnknownBase { mark: mark.name.to_string(), base: base.clone(), near }
                }
                Some(_) if links.any(|link| marks[link].name == mark.name) => {
                    TrackFaultKind::PlacedFromItself { mark: mark.name.to_string() }
                }
                Some(_) => continue,
            };
            let at = match self.marks.own.iter().position(|own| *own.name == *mark.name) {
                Some(index) => key!["marks", "own", index, "from"],
                None => key!["marks"],
            };
            faults.push(TrackFault::new(at, kind));
        }
    }
}

fn wear_off(marks: &mut [Mark], worn: &WornSpec, index: usize, faults: &mut Vec<TrackFault>) {
    let mut known = false;
    for mark in marks.iter_mut().filter(|mark| *mark.name == *worn.mark) {
        known = true;
        mark.worn = match (&worn.lanes, &mark.worn) {
            (None, _) | (_, Worn::Everywhere) => Worn::Everywhere,
            (Some(lanes), Worn::Nowhere) => Worn::Lanes(lanes.clone()),
            (Some(lanes), Worn::Lanes(already)) => Worn::Lanes([already.as_slice(), lanes].concat()),
        };
    }
    if !known {
        let kind =
            TrackFaultKind::UnknownWorn { name: worn.mark.clone(), near: nearest_mark(&worn.mark, marks) };
        faults.push(TrackFault::new(key!["marks", "worn", index, "mark"], kind));
    }
}

/// About the longest name that a mark has, in bytes.
const LONGEST_NAME: usize = 50;

/// The mark whose name is most like a wrong one.
fn nearest_mark(wrong: &str, marks: &[Mark]) -> Option<String> {
    // A name so long is like none, and takes long to compare.
    if wrong.len() > 4 * LONGEST_NAME {
        return None;
    }
    marks
        .iter()
        .map(|mark| (strsim::jaro_winkler(&wrong.to_lowercase(), &mark.name.to_lowercase()), mark))
        .filter(|(likeness, _)| *likeness > 0.85)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, mark)| mark.name.to_string())
}
